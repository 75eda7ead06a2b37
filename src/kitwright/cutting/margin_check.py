"""Checking that the margins of a sheet can be cut off: by trying every order of the cuts, whichever the search took for granted.

Shares no code with the search.
"""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.cutting.fault import Fault, FaultCode
from kitwright.cutting.stock import Stock, TrimmerLimits
from kitwright.cutting.tree import Axis, Cut, CutTree, Layout, Offcut

__all__ = ["gives_nothing", "margin_faults"]

Edges = tuple[int, int, int, int]
"""The margins that are still on a part (nm): left, bottom, right, top."""


def margin_faults(layout: Layout, limits: TrimmerLimits) -> Iterator[Fault]:
    """Margins that cannot be cut off, whenever that is tried: the cut would be too long, or leave nothing wide enough to hold.

    The cuts of the tree are looked at one by one elsewhere, as long as they are without margins.
    """
    stock, margins = layout.stock, layout.stock.margins
    on = margins.left, margins.bottom, margins.right, margins.top
    size = stock.width - margins.left - margins.right, stock.height - margins.bottom - margins.top
    if limits.longest_cut is not None and not Orders(limits.longest_cut).free(layout.tree, size, on):
        text = f"The margins of “{stock.name}” need a cut longer than the trimmer's."
        yield Fault(FaultCode.CUT_TOO_LONG, stock.name, text)
    if leaves_no_hold(stock, limits):
        text = f"When the last margin of “{stock.name}” goes, nothing is left that is wide enough to hold."
        yield Fault(FaultCode.STRIP_TOO_NARROW, stock.name, text)


def gives_nothing(stock: Stock, limits: TrimmerLimits) -> bool:
    """Whether no piece at all can come from a sheet: it has margins, and no first cut is possible, or no last one of a margin."""
    reach, margins = limits.longest_cut, stock.margins
    has_margins = any((margins.left, margins.bottom, margins.right, margins.top))
    is_too_large = reach is not None and stock.width > reach and stock.height > reach
    return (has_margins and is_too_large) or leaves_no_hold(stock, limits)


def leaves_no_hold(stock: Stock, limits: TrimmerLimits) -> bool:
    """Whether a side that has margins is too narrow to be held without them, as it is when the last of them goes."""
    margins = stock.margins
    across, along = margins.left + margins.right, margins.bottom + margins.top
    narrowest = limits.smallest_strip
    return bool((across and stock.width - across < narrowest) or (along and stock.height - along < narrowest))


class Orders:
    """All orders of the cuts of a tree and of its margins, with no cut longer than `reach` (nm)."""

    def __init__(self, reach: int) -> None:
        self.reach = reach
        self.known: dict[tuple[int, tuple[int, int], Edges], bool] = {}

    def free(self, node: CutTree, size: tuple[int, int], on: Edges) -> bool:
        """Whether all pieces of an area (width and height without margins) can be rid of the margins that are on it.

        Next goes a margin, or the first cut of the tree is made through the margins that are on.
        """
        if not any(on) or isinstance(node, Offcut):
            return True
        key = id(node), size, on
        if key in self.known:
            return self.known[key]
        (wide, high), (left, bottom, right, top) = size, on
        lengths = high + bottom + top, wide + left + right
        less = (0, bottom, right, top), (left, 0, right, top), (left, bottom, 0, top), (left, bottom, right, 0)
        found = False
        for edge, then in enumerate(less):
            found = found or (then != on and lengths[edge % 2] <= self.reach and self.free(node, size, then))
        if isinstance(node, Cut) and node.axis is Axis.VERTICAL and lengths[0] <= self.reach:
            found = found or (
                self.free(node.low, (node.at, high), (left, bottom, 0, top))
                and self.free(node.high, (wide - node.at, high), (0, bottom, right, top))
            )
        elif isinstance(node, Cut) and lengths[1] <= self.reach:
            found = found or (
                self.free(node.low, (wide, node.at), (left, bottom, right, 0))
                and self.free(node.high, (wide, high - node.at), (left, 0, right, top))
            )
        self.known[key] = found
        return found
