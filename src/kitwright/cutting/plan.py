"""The plan for a whole batch: layouts, what could not be placed, the lower bound with its certificate, and how hard to search."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from kitwright.cutting.stock import Stock, to_mm
from kitwright.cutting.tree import Layout
from kitwright.measure import Ruler

__all__ = [
    "QUICK",
    "STEADY",
    "THOROUGH",
    "Bound",
    "CutPlan",
    "Effort",
    "Fork",
    "Objective",
    "Progress",
    "ProgressCall",
    "Reason",
    "Unplaced",
    "objective_of",
    "prices_of",
]


class Objective(StrEnum):
    """What is made as small as can be."""

    SHEETS = "sheets"
    COST = "cost"


def objective_of(stocks: Sequence[Stock]) -> Objective:
    """*cost* if every stock has a price and one of them costs something, otherwise *sheets*."""
    has_prices = all(stock.price is not None for stock in stocks) and any(stock.price for stock in stocks)
    return Objective.COST if has_prices else Objective.SHEETS


def prices_of(stocks: Sequence[Stock]) -> tuple[int, ...]:
    """What one sheet of each stock counts in the objective.

    Cost: its price. Sheets: one each, but nothing for an offcut that is given at the price 0 beside sheets without a price.
    """
    if objective_of(stocks) is Objective.COST or any(stock.price is None for stock in stocks):
        return tuple(1 if stock.price is None else stock.price for stock in stocks)
    return tuple(1 for _ in stocks)


class Reason(StrEnum):
    """Why a piece is not in the plan."""

    TOO_LARGE = "too large"
    NO_STOCK = "no stock"
    USED_UP = "stock used up"
    OUT_OF_REACH = "out of the trimmer's reach"
    STOPPED = "stopped"


@dataclass(frozen=True, slots=True)
class Unplaced:
    """Pieces that are not in the plan, and why.

    For *too large*, `stock` is the sheet that comes nearest, and the piece is `over_width` and `over_height` (nm, 0 where it fits)
    larger than what can be used of it, lying with `turn`. For *out of reach*, `stock` is one of which there are sheets left that would be
    large enough, but the trimmer cannot make the cuts that free the piece.
    """

    piece: str
    count: int
    reason: Reason
    stock: str = ""
    turn: int = 0
    over_width: int = 0
    over_height: int = 0

    @property
    def is_out_of_reach(self) -> bool:
        """Whether there is a sheet that is large enough, and it is the trimmer that cannot make the cuts."""
        fits = self.reason is Reason.TOO_LARGE and not self.over_width and not self.over_height
        return fits or self.reason is Reason.OUT_OF_REACH

    def sentence(self, ruler: Ruler) -> str:
        """The reason as a sentence for the maker, lengths as read off the ruler."""
        if self.reason is Reason.STOPPED:
            return f"{self.count} × “{self.piece}”: not laid out yet, the search was stopped."
        if self.reason is Reason.NO_STOCK:
            return f"“{self.piece}” may not be cut from any of the papers at hand."
        if self.reason is Reason.USED_UP:
            return f"{self.count} × “{self.piece}” are short: the paper at hand is used up."
        if self.reason is Reason.OUT_OF_REACH:
            return (
                f"{self.count} × “{self.piece}” are short: there is “{self.stock}” left, but the trimmer cannot make the cuts that free "
                "them from it."
            )
        lying = "turned on its side" if self.turn % 2 else "upright"
        over = " and ".join(
            f"{ruler.with_unit(to_mm(length))} too {word}"
            for length, word in ((self.over_width, "wide"), (self.over_height, "high"))
            if length > 0
        )
        if not over:
            return f"“{self.piece}” fits “{self.stock}”, but the trimmer cannot make the cuts that free it."
        return f"“{self.piece}” is larger than any sheet: {lying} on “{self.stock}” it is {over}."


@dataclass(frozen=True, slots=True)
class Bound:
    """No plan for all the pieces can have a smaller objective than `value`; the other fields let anyone check that.

    `worth` gives each piece a value and `rent` each stock that has a count, in units of 1 / `scale` of the objective. If on no
    sheet of a stock the pieces of any cut tree are worth more than scale × price + rent, then every plan costs at least
    (Σ count × worth − Σ sheets × rent) / scale, rounded up to a multiple of the greatest common divisor of the prices. `sheets` is
    the most of a stock that may be used where the rent is above zero, and the least where it is below: 0 and the count of the
    stock, unless a fork above this bound says more. Pieces that are too large for every sheet are left out of it.

    With `counted` that need only be so for sheets that hold no piece more often than it is wanted in all: every plan can do with such
    sheets. To see that it is so, it is enough to count the pieces named there.

    With a `step` (nm) that is so even with the sides of pieces and sheets and the longest cut rounded down to whole steps, which makes
    it easier to check: what goes into a side goes into it rounded so.

    With a `fork` the bound is the smaller of the two sides, and the other fields but `value` say nothing.
    """

    value: int
    scale: int
    worth: tuple[tuple[str, int], ...]
    rent: tuple[tuple[str, int], ...] = ()
    fork: Fork | None = None
    counted: tuple[str, ...] = ()
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Fork:
    """Two cases, one of which every plan falls under: at most `at` sheets of `stock` (bound `few`), or more (bound `many`)."""

    stock: str
    at: int
    few: Bound
    many: Bound


@dataclass(frozen=True, slots=True)
class CutPlan:
    """How the whole batch is cut, and how good that is.

    `value` is what the layouts cost (minor units) or how many sheets they take, as `objective` says. Layouts have the true sizes; where
    those have too many different sums, the search rounded them to a `step` (nm) for its bounds and mixtures of patterns.
    """

    layouts: tuple[Layout, ...]
    unplaced: tuple[Unplaced, ...]
    objective: Objective
    value: int
    bound: Bound
    step: int | None = None

    @property
    def is_complete(self) -> bool:
        """Whether every piece is in the plan."""
        return not self.unplaced

    @property
    def is_proved(self) -> bool:
        """Whether the plan is complete and no plan can be cheaper."""
        return self.is_complete and self.value == self.bound.value

    @property
    def gap(self) -> int:
        """By how much the plan is dearer than what is proved to be needed."""
        return self.value - self.bound.value

    @property
    def sheets(self) -> int:
        """How many sheets and offcuts are used, of all stocks."""
        return sum(layout.times for layout in self.layouts)


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to search, in counts of work and never in seconds, so that the same effort gives the same plan everywhere.

    `rounds` of pricing, `patterns` kept near the optimum, `nodes` of each integer programme, `steps` of the search for small
    batches. All together they end after `work`: about so many microseconds of an ordinary machine, `work_a_piece` for each piece and no
    more than that in all.
    """

    rounds: int
    patterns: int
    nodes: int
    steps: int
    work: int
    work_a_piece: int

    def work_for(self, pieces: int) -> int:
        """The work for a batch of so many pieces."""
        return min(self.work, LEAST_WORK + self.work_a_piece * pieces)

    def shared(self, searches: int) -> Effort:
        """The effort for each of so many searches that together may do no more work than this one."""
        return replace(self, work=self.work // max(1, searches))


LEAST_WORK = 100_000
"""So much work is done even for one piece."""

QUICK = Effort(rounds=150, patterns=400, nodes=20, steps=4_000, work=5_000_000, work_a_piece=8_000)
"""For a screen that answers at once."""

STEADY = Effort(rounds=500, patterns=3_000, nodes=500, steps=40_000, work=50_000_000, work_a_piece=1_000_000)
"""For a plan that will be cut: some seconds where it is hard."""

THOROUGH = Effort(rounds=5_000, patterns=20_000, nodes=3_000, steps=400_000, work=500_000_000, work_a_piece=10_000_000)
"""For a large batch where a sheet is worth a coffee break."""


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a search is: what it does now, the best value and the best bound so far (None: none yet)."""

    stage: str
    best: int | None
    bound: int | None


ProgressCall = Callable[[Progress], bool]
"""Called now and then during a search; answer False to stop it and get the best plan so far."""
