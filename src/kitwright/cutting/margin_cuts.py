"""When the margins of a sheet come off: the cuts of a layout through the whole sheet, those of its margins among them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from kitwright.cutting.stock import Margins, TrimmerLimits
from kitwright.cutting.tree import Axis, Cut, CutTree, Layout, Offcut

__all__ = ["Trim", "Untrimmed", "whole_tree"]

BARE: Final = Margins()


@dataclass(frozen=True, slots=True)
class Trim(Cut):
    """A cut that takes a margin off: the margin is its `low` side or its `high` one, and the other is `kept`."""

    is_low: bool

    @property
    def kept(self) -> CutTree:
        """What goes on."""
        return self.high if self.is_low else self.low


@dataclass(frozen=True, slots=True)
class Untrimmed(Offcut):
    """What is left over with margins on it."""


def whole_tree(layout: Layout, trimmer: TrimmerLimits) -> CutTree:
    """The tree of a layout that the trimmer can cut, through the whole sheet. Margins come off as soon as the trimmer reaches along them.

    That is at once where all can be cut off the sheet, sides first if both orders do. Else the sheet is cut across with some margins still
    on it, into parts as large as the trimmer reaches along, and those come off the parts, but not off what is left over.
    """
    stock = layout.stock
    reach = max(stock.width, stock.height) if trimmer.longest_cut is None else trimmer.longest_cut
    return through(
        layout.tree, (stock.usable_width, stock.usable_height), stock.margins, (reach, trimmer.smallest_strip)
    )


def through(tree: CutTree, size: tuple[int, int], on: Margins, limits: tuple[int, int]) -> CutTree:
    """The cuts of an area (width and height without margins) and of the margins that are still on it.

    `limits` are the longest cut and the narrowest strip that can be held.
    """
    if isinstance(tree, Offcut):
        return tree if on == BARE else Untrimmed()
    off = to_cut_off(size, on, limits[0])
    kept = replace(on, **dict.fromkeys(off, 0))
    if isinstance(tree, Cut) and kept != BARE:
        tree = in_large_parts(tree, limits)
        (width, height), at = size, tree.at
        if tree.axis is Axis.VERTICAL:
            low = through(tree.low, (at, height), replace(kept, right=0), limits)
            high = through(tree.high, (width - at, height), replace(kept, left=0), limits)
            tree = Cut(tree.axis, at + kept.left, low, high)
        else:
            low = through(tree.low, (width, at), replace(kept, top=0), limits)
            high = through(tree.high, (width, height - at), replace(kept, bottom=0), limits)
            tree = Cut(tree.axis, at + kept.bottom, low, high)
    for edge in reversed(off):
        is_low, axis = edge in ("left", "bottom"), Axis.VERTICAL if edge in ("left", "right") else Axis.HORIZONTAL
        margin = getattr(on, edge)
        kept = replace(kept, **{edge: margin})
        at = margin if is_low else paper(size, kept)[0 if axis is Axis.VERTICAL else 1] - margin
        low, high = (Offcut(), tree) if is_low else (tree, Offcut())
        tree = Trim(axis, at, low, high, is_low)
    return tree


def in_large_parts(tree: Cut, limits: tuple[int, int]) -> Cut:
    """The same strips of an area that is cut across, but the first cut is as far on as the trimmer can then cut along and hold the rest."""
    reach, narrowest = limits
    strips, best = [(tree.at, tree.low)], tree
    rest, done = tree.high, tree.at
    while isinstance(rest, Cut) and rest.axis is tree.axis and (done := done + rest.at) <= reach:
        strips.append((rest.at, rest.low))
        rest = rest.high
        last, low = strips[-1]
        can_hold, behind = True, last
        for at, strip in reversed(strips[:-1]):
            can_hold = can_hold and max(at, behind) >= narrowest
            low, behind = Cut(tree.axis, at, strip, low), behind + at
        if can_hold:
            best = Cut(tree.axis, done, low, rest)
    return best


def to_cut_off(size: tuple[int, int], on: Margins, reach: int) -> tuple[str, ...]:
    """The margins that come off before anything else is cut, in their order: all of them, or those that the trimmer reaches along."""
    width, height = paper(size, on)
    sides = tuple(edge for edge in ("left", "right") if getattr(on, edge))
    ends = tuple(edge for edge in ("bottom", "top") if getattr(on, edge))
    if (not sides or height <= reach) and (not ends or size[0] <= reach):
        return sides + ends
    if (not ends or width <= reach) and (not sides or size[1] <= reach):
        return ends + sides
    return ends if width <= reach else sides if height <= reach else ()


def paper(size: tuple[int, int], on: Margins) -> tuple[int, int]:
    """Width and height of an area with the margins that are on it."""
    return size[0] + on.left + on.right, size[1] + on.bottom + on.top
