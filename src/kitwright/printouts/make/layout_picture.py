"""A sheet layout as a drawing: parts with names and sizes, print-up arrows, offcuts hatched, cuts to be followed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from kitwright.cutting import Layout, Placement, Region, Stock, offcuts, placements, to_mm
from kitwright.measure import Ruler
from kitwright.printouts.compose import print_up_arrow
from kitwright.printouts.drawing import Dimension, Label, Line, Mark, Polygon, Role

__all__ = ["layout_marks", "rectangle", "sheet_marks"]

SMALLEST_NAMED_OFFCUT = 20.0
"""Offcuts narrower than this (mm) are hatched without their size: they go into the bin."""


def layout_marks(
    layout: Layout, ruler: Ruler, *, one_way: bool, turns: Mapping[str, int], letters: Mapping[str, str]
) -> Iterator[Mark]:
    """The layout at true size. `turns` gives the print's turn on each blank, `letters` a short sign for each, both by piece name."""
    yield from sheet_marks(
        layout.stock, placements(layout), offcuts(layout), ruler, one_way=one_way, turns=turns, letters=letters
    )


def sheet_marks(
    stock: Stock,
    lying: Sequence[Placement],
    left_over: Sequence[Region],
    ruler: Ruler,
    *,
    one_way: bool,
    turns: Mapping[str, int],
    letters: Mapping[str, str],
) -> Iterator[Mark]:
    """Pieces as they lie on a sheet, at true size, with what is left over of it."""
    width, height = float(to_mm(stock.width)), float(to_mm(stock.height))
    yield Polygon(rectangle(0, 0, width, height), Role.SHEET)
    for x, y, w, h in left_over:
        left, low, wide, high = (float(to_mm(each)) for each in (x, y, w, h))
        yield Polygon(rectangle(left, low, wide, high), Role.OFFCUT)
    for placed in lying:
        left, low = float(to_mm(placed.x)), float(to_mm(placed.y))
        wide, high = float(to_mm(placed.width)), float(to_mm(placed.height))
        yield Polygon(rectangle(left, low, wide, high), Role.PIECE)
        sign, size = letters[placed.piece], ruler.size(wide, high)
        lift = min(9.0, high / 5) if one_way else 0.0
        yield Label(
            f"{sign}  {placed.piece}\n{size}",
            (left + wide / 2, low + high / 2 - lift),
            room=(wide * 0.92, (high - 2 * lift) * 0.9),
            short=sign,
        )
        if one_way and min(wide, high) >= 12:
            length = min(12.0, high / 4, wide / 3)
            direction = 90.0 + 90.0 * ((turns[placed.piece] + placed.turn) % 4)
            yield print_up_arrow((left + wide / 2, low + high - length), angle=direction, length=length)
    for x, y, w, h in left_over:
        left, low, wide, high = (float(to_mm(each)) for each in (x, y, w, h))
        if min(wide, high) >= SMALLEST_NAMED_OFFCUT:
            words, middle = f"left over {ruler.size(wide, high)}", (left + wide / 2, low + high / 2)
            yield Label(words, middle, room=(wide * 0.94, high * 0.9), plate=True, short=ruler.size(wide, high))
    yield Polygon(rectangle(0, 0, width, height), Role.OUTLINE)
    yield Dimension((0, 0), (width, 0), ruler.with_unit(width), offset=-7)
    yield Dimension((0, 0), (0, height), ruler.with_unit(height), offset=7)
    usable = stock.margins
    if any((usable.left, usable.bottom, usable.right, usable.top)):
        left, low = float(to_mm(usable.left)), float(to_mm(usable.bottom))
        right, high = width - float(to_mm(usable.right)), height - float(to_mm(usable.top))
        corners = rectangle(left, low, right - left, high - low)
        for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
            yield Line(start, end, Role.GUIDE)


def rectangle(left: float, low: float, width: float, height: float) -> tuple[tuple[float, float], ...]:
    """The corners of a rectangle, counter-clockwise."""
    return ((left, low), (left + width, low), (left + width, low + height), (left, low + height))
