"""What can still be made from the papers and offcuts on hand, and what is missing for one kit more."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from kitwright.cutting import STEADY, Effort, Possible, ProgressCall, most_times
from kitwright.errors import Mistake
from kitwright.kit import Kit, build, stocks_for, trimmer_limits
from kitwright.paper import Paper
from kitwright.plan.pipeline import lines_for, piece_type

__all__ = ["FromStash", "PaperOnHand", "from_stash"]


@dataclass(frozen=True, slots=True)
class PaperOnHand:
    """One paper that the kit uses: the sheets and offcuts on hand, and how many kits they are enough for (None: as many as wanted)."""

    paper: Paper
    offcuts: int
    enough_for: Possible | None


@dataclass(frozen=True, slots=True)
class FromStash:
    """How many whole kits can be made from what is on hand, paper by paper, where kits share sheets.

    `is_alike` where the kit says that every one is cut by the same layouts, so that it may be fewer.
    """

    papers: tuple[PaperOnHand, ...]
    is_alike: bool = False

    @property
    def limits(self) -> tuple[Possible, ...]:
        """What the papers of which something is said are enough for."""
        return tuple(each.enough_for for each in self.papers if each.enough_for is not None)

    @property
    def kits(self) -> int:
        """How many kits can be made."""
        return min(each.times for each in self.limits)

    @property
    def at_most(self) -> int:
        """No plan makes more than this."""
        return min(each.at_most for each in self.limits)

    @property
    def is_proved(self) -> bool:
        """Whether it is certain that no more kits can be made."""
        return self.kits == self.at_most

    @property
    def short(self) -> tuple[tuple[Paper, Possible], ...]:
        """The papers that are short for one kit more, and what is known of how many sheets of each would do."""
        return tuple(
            (each.paper, each.enough_for)
            for each in self.papers
            if each.enough_for is not None and each.enough_for.times == self.kits
        )


COUNTING: Final = replace(STEADY, work=8_000_000)
"""How hard is looked for more kits."""


def from_stash(kit: Kit, *, effort: Effort = COUNTING, progress: ProgressCall | None = None) -> FromStash:
    """The largest number of whole kits from the sheets and offcuts on hand; parts of several kits share sheets.

    A paper of which the document does not say what is on hand limits nothing. Raises `Mistake` where it says so of none, `Mistakes`
    for a kit that cannot be built.
    """
    built = build(kit)
    found = []
    for key, paper in kit.papers.items():
        demand = [piece_type(line) for line in lines_for(built, key, 1)]
        if not demand:
            continue
        sheet, *offcuts = stocks_for(kit, paper)
        count = sum(stock.count or 0 for stock in offcuts)
        is_said = paper.on_hand is not None or bool(offcuts)
        enough = None
        if is_said:
            there = replace(sheet, count=paper.on_hand or 0)
            limits = trimmer_limits(kit.trimmer)
            enough = most_times(
                demand, there, offcuts, trimmer=limits, effort=effort.shared(len(kit.papers)), progress=progress
            )
        found.append(PaperOnHand(paper, count, enough))
    if all(each.enough_for is None for each in found):
        raise Mistake(
            "The document says of no paper how much of it is on hand.",
            do="Add on-hand = 12 under a paper, or [[offcut]] with paper and size.",
        )
    return FromStash(tuple(found), kit.alike)
