"""A sheet layout as a drawing: parts with names and sizes, print-up arrows, offcuts hatched, cuts to be followed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from kitwright.cutting import Layout, Placement, Region, Stock, offcuts, placements, to_mm
from kitwright.measure import Ruler
from kitwright.printouts.annotate import fitting_label
from kitwright.printouts.compose import print_up_arrow, stacked
from kitwright.printouts.drawing import Callouts, Dimension, Drawing, Group, Label, Line, Mark, Move, Polygon, Role
from kitwright.printouts.lettering import LINE_HEIGHT, text_width, wrapped

__all__ = ["WAY_OUT", "layout_marks", "rectangle", "sheet_marks", "with_names"]

WAY_OUT = 1.6
"""How far beyond the sheet the signs that are led out begin, mm of paper."""

LONGEST_ARROW = 1 / 14
"""Length of the arrow that says where the print's up is, in parts of the sheet's longer side."""

SMALLEST_WITH_ARROW = 1 / 25
"""A piece narrower than this share of it has no room for an arrow beside its sign."""

LETTERS = 3.0
"""Size of the letters of the names below a sheet, mm."""

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
    names: list[Label] = []
    for placed in lying:
        left, low = float(to_mm(placed.x)), float(to_mm(placed.y))
        wide, high = float(to_mm(placed.width)), float(to_mm(placed.height))
        yield Polygon(rectangle(left, low, wide, high), Role.PIECE)
        sign, size = letters[placed.piece], ruler.size(wide, high)
        lift = min(9.0, high / 5) if one_way else 0.0
        names.append(
            Label(
                f"{sign}  {placed.piece}\n{size}",
                (left + wide / 2, low + high / 2 - lift),
                room=(wide * 0.92, (high - 2 * lift) * 0.9),
                short=sign,
            )
        )
        if one_way and min(wide, high) >= max(12.0, max(width, height) * SMALLEST_WITH_ARROW):
            length = min(max(width, height) * LONGEST_ARROW, high / 4, wide / 3)
            direction = 90.0 + 90.0 * ((turns[placed.piece] + placed.turn) % 4)
            yield print_up_arrow((left + wide / 2, low + high - length), angle=direction, length=length)
    for x, y, w, h in left_over:
        left, low, wide, high = (float(to_mm(each)) for each in (x, y, w, h))
        if min(wide, high) >= SMALLEST_NAMED_OFFCUT:
            words, middle = f"left over {ruler.size(wide, high)}", (left + wide / 2, low + high / 2)
            yield Label(words, middle, room=(wide * 0.94, high * 0.9), plate=True, short=ruler.size(wide, high))
    yield Polygon(rectangle(0, 0, width, height), Role.OUTLINE)
    yield Callouts(tuple(names), (width, 0.0), (width, height), offset=-WAY_OUT)
    yield Dimension((0, 0), (width, 0), ruler.with_unit(width), offset=-7)
    yield Dimension((0, 0), (0, height), ruler.with_unit(height), offset=7)
    usable = stock.margins
    if any((usable.left, usable.bottom, usable.right, usable.top)):
        left, low = float(to_mm(usable.left)), float(to_mm(usable.bottom))
        right, high = width - float(to_mm(usable.right)), height - float(to_mm(usable.top))
        corners = rectangle(left, low, right - left, high - low)
        for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
            yield Line(start, end, Role.GUIDE)


def with_names(drawing: Drawing, names: Mapping[str, str]) -> Drawing:
    """A drawing of pieces, and below it what the signs mean that stand on it without their names; `names` gives the words of each sign.

    The names go into as many lines as they need, so that the drawing becomes no wider.
    """
    signs = [sign for sign in names if sign in lone_signs(drawing.marks)]
    if not signs:
        return drawing
    indent = max(text_width(sign, LETTERS, "bold") for sign in signs) + LETTERS / 2
    marks: list[Mark] = []
    y = 0.0
    for sign in signs:
        words = wrapped(names[sign], drawing.width - indent, LETTERS)
        marks.append(Label(sign, (0.0, y), Role.RULER, LETTERS, anchor="start", level="top", weight="bold"))
        marks.append(Label(words, (indent, y), Role.RULER, LETTERS, anchor="start", level="top"))
        y -= (1.25 + words.count("\n")) * LINE_HEIGHT * LETTERS
    key = Drawing(drawing.width, -y, tuple(mark.under(Move(f=-y)) for mark in marks))
    return stacked([drawing, key], gap=2.0)


def lone_signs(marks: Sequence[Mark]) -> set[str]:
    """The signs that stand on pieces, or are led out of them, without the name."""
    found: set[str] = set()
    for mark in marks:
        if isinstance(mark, Group):
            found |= lone_signs(mark.marks)
        elif isinstance(mark, Callouts):
            written = {
                label.text for label in mark.labels if (made := fitting_label(label)) and made.text == label.text
            }
            found |= {label.short for label in mark.labels if label.text not in written}
    return found


def rectangle(left: float, low: float, width: float, height: float) -> tuple[tuple[float, float], ...]:
    """The corners of a rectangle, counter-clockwise."""
    return ((left, low), (left + width, low), (left + width, low + height), (left, low + height))
