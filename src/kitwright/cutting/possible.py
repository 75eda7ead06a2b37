"""The question turned round: how many times the demand can be met from what is there, and what is missing for more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from kitwright.cutting.plan import STEADY, CutPlan, Effort, Progress, ProgressCall, Reason, Unplaced
from kitwright.cutting.search import search_plan
from kitwright.cutting.stock import PieceType, Stock, TrimmerLimits

__all__ = ["MOST_TIMES", "Possible", "most_times"]

SEARCHES: Final = 4
"""A search may take one part in so many of the work that is left."""

MOST_TIMES: Final = 100_000
"""More than this is not asked for."""


@dataclass(frozen=True, slots=True)
class Possible:
    """How many times a demand can be met from what is there: `times` with this plan, and never more than `at_most`.

    `missing` is how many whole sheets more the plan for one time more takes; None where `unplaced` says what that plan could not place
    and why, or where no more was asked for.
    In the plan whole sheets count 1 each and offcuts nothing.
    """

    times: int
    at_most: int
    plan: CutPlan | None
    missing: int | None
    unplaced: tuple[Unplaced, ...] = ()

    @property
    def is_proved(self) -> bool:
        """Whether it is certain that no more are possible."""
        return self.times == self.at_most


def most_times(
    demand: Sequence[PieceType],
    sheet: Stock,
    offcuts: Sequence[Stock],
    *,
    trimmer: TrimmerLimits | None = None,
    effort: Effort = STEADY,
    progress: ProgressCall | None = None,
    most: int = MOST_TIMES,
) -> Possible:
    """The largest number of times that the whole demand comes out of `sheet` (its count says how many there are) and `offcuts`.

    The sheets needed for n times never get fewer as n grows, so halving finds the number; the bound on the sheets for one time more
    proves it. Pieces of different times share sheets. `sheet.count` None counts as none on hand. All searches together do no more work
    than the effort says.
    """
    question = Question(tuple(demand), sheet, tuple(offcuts), trimmer, effort, progress, effort.work)
    never = tuple(each for each in question.plan_for(1).unplaced if each.reason in (Reason.TOO_LARGE, Reason.NO_STOCK))
    if never:
        return Possible(0, 0, None, None, never)
    high = 1
    while high < most and question.is_possible(high):
        high = min(most, 2 * high)
    low, high = (high, high + 1) if question.is_possible(high) else (high // 2, high)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if question.is_possible(middle) else (low, middle)
    plan = question.plan_for(low) if low else None
    if low >= most:
        return Possible(low, low, plan, None)
    step = 1
    while low + step < most and not question.is_ruled_out(low + step):
        step *= 2
    more = question.lay_out(low + 1, progress)
    missing = max(1, more.value - question.there) if more.is_complete else None
    return Possible(low, low + step - 1, plan, missing, more.unplaced)


@dataclass(slots=True, eq=False)
class Question:
    """What is asked for once, from what; plans that were found are kept."""

    demand: tuple[PieceType, ...]
    sheet: Stock
    offcuts: tuple[Stock, ...]
    trimmer: TrimmerLimits | None
    effort: Effort
    progress: ProgressCall | None
    work: int
    """What may still be done."""
    plans: dict[int, CutPlan] = field(default_factory=dict)

    @property
    def there(self) -> int:
        """How many whole sheets there are."""
        return self.sheet.count or 0

    def plan_for(self, times: int) -> CutPlan:
        """A plan for so many times; the search ends as soon as it is known whether the sheets that are there will do."""
        if times not in self.plans:
            self.plans[times] = self.lay_out(times, self.tells_enough)
        return self.plans[times]

    def tells_enough(self, progress: Progress) -> bool:
        """Whether the search has to go on."""
        is_found = progress.best is not None and progress.best <= self.there
        is_ruled_out = progress.bound is not None and progress.bound > self.there
        return not is_found and not is_ruled_out and (self.progress is None or self.progress(progress))

    def lay_out(self, times: int, progress: ProgressCall | None) -> CutPlan:
        """The demand so many times on as many sheets as it takes; whole sheets count 1 each and offcuts nothing."""
        demand = [replace(piece, count=piece.count * times) for piece in self.demand]
        stocks = [replace(self.sheet, count=None, price=1), *(replace(stock, price=0) for stock in self.offcuts)]
        effort = replace(self.effort, work=max(0, self.work) // SEARCHES)
        plan, spent = search_plan(demand, stocks, trimmer=self.trimmer, effort=effort, progress=progress)
        self.work -= spent
        return plan

    def is_possible(self, times: int) -> bool:
        """Whether a plan was found that does with the sheets that are there."""
        found = self.plan_for(times)
        return found.is_complete and found.value <= self.there

    def is_ruled_out(self, times: int) -> bool:
        """Whether it is proved that so many times take more sheets than there are."""
        return self.plan_for(times).bound.value > self.there
