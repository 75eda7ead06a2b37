"""What a plan leaves over: every offcut with its size, how often it comes up, and whether the maker keeps it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kitwright.cutting.plan import CutPlan
from kitwright.cutting.tree import offcuts

__all__ = ["USUAL_KEEPING", "KeepRule", "Leftover", "largest_kept", "leftovers"]


@dataclass(frozen=True, slots=True)
class KeepRule:
    """Which offcuts are worth keeping: no side shorter than `side` (nm) and no less paper than `area` (nm²)."""

    side: int
    area: int

    def keeps(self, width: int, height: int) -> bool:
        """Whether a piece of paper of this size is kept."""
        return min(width, height) >= self.side and width * height >= self.area


USUAL_KEEPING: Final = KeepRule(side=50_800_000, area=76_200_000 * 101_600_000)
"""2 in wide and as much paper as 3 × 4 in: enough for a tag or a small mat (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Leftover:
    """One offcut: the place of its layout in the plan, its stock, where it lies on the sheet and its size (nm), how often it comes up."""

    layout: int
    stock: str
    x: int
    y: int
    width: int
    height: int
    times: int
    is_kept: bool

    @property
    def area(self) -> int:
        """The area of one (nm²)."""
        return self.width * self.height


def leftovers(plan: CutPlan, rule: KeepRule = USUAL_KEEPING) -> tuple[Leftover, ...]:
    """Every offcut of a plan, the largest first."""
    found = [
        Leftover(place, layout.stock.name, *region, layout.times, rule.keeps(region[2], region[3]))
        for place, layout in enumerate(plan.layouts)
        for region in offcuts(layout)
    ]
    return tuple(sorted(found, key=lambda one: (-one.area, one.layout, one.x, one.y)))


def largest_kept(plan: CutPlan, rule: KeepRule = USUAL_KEEPING) -> Leftover | None:
    """The largest offcut that is worth keeping, or None."""
    return next((one for one in leftovers(plan, rule) if one.is_kept), None)
