"""A sheet layout as a drawing: parts with names and sizes, print-up arrows, offcuts hatched, cuts to be followed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from kitwright.cutting import Layout, Placement, Region, Stock, offcuts, placements, to_mm
from kitwright.measure import Ruler
from kitwright.printouts.annotate import fitting_label
from kitwright.printouts.compose import print_up_arrow, stacked
from kitwright.printouts.drawing import (
    Callouts,
    Dimension,
    Drawing,
    Group,
    Label,
    Line,
    Mark,
    Move,
    Polygon,
    Role,
    Shapes,
)
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

COLUMN = 52.0
"""The names below a sheet stand in as many columns at least so wide (mm) as it has room for."""

SMALLEST_NAMED_OFFCUT = 20.0
"""Offcuts narrower than this (mm) are hatched without their size: they go into the bin."""


MOST_APART = 300
"""Of more pieces than this on a sheet, neighbours of one kind are drawn as one: nobody finds one among them, and a file has its limits."""


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
    yield Shapes(tuple(rectangle(*in_mm(region)) for region in left_over), Role.OFFCUT)
    together = len(lying) > MOST_APART
    drawn = blocks_of(lying) if together else lying
    yield Shapes(tuple(rectangle(*in_mm(region_of(placed))) for placed in drawn), Role.PIECE)
    names: list[Label] = []
    for placed in drawn:
        left, low, wide, high = in_mm(region_of(placed))
        sign, size = letters[placed.piece], "" if together else f"\n{ruler.size(wide, high)}"
        lift = min(9.0, high / 5) if one_way else 0.0
        names.append(
            Label(
                f"{sign}  {placed.piece}{size}",
                (left + wide / 2, low + high / 2 - lift),
                room=(wide * 0.92, (high - 2 * lift) * 0.9),
                short=sign,
            )
        )
        if one_way and min(wide, high) >= max(12.0, max(width, height) * SMALLEST_WITH_ARROW):
            length = min(max(width, height) * LONGEST_ARROW, high / 4, wide / 3)
            direction = 90.0 + 90.0 * ((turns[placed.piece] + placed.turn) % 4)
            yield print_up_arrow((left + wide / 2, low + high - length), angle=direction, length=length)
    for region in left_over:
        left, low, wide, high = in_mm(region)
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

    The names go into as many lines as they need, so that the drawing becomes no wider; in columns where it is wide.
    """
    found = lone_signs(drawing.marks)
    signs = [sign for sign in names if sign in found]
    if not signs:
        return drawing
    across = min(len(signs), max(1, int(drawing.width // COLUMN)))
    room = drawing.width / across
    indent = max(text_width(sign, LETTERS, "bold") for sign in signs) + LETTERS / 2
    said = [(sign, wrapped(names[sign], room - indent - (LETTERS if across > 1 else 0.0), LETTERS)) for sign in signs]
    deep = -(-len(said) // across)
    marks: list[Mark] = []
    lowest = 0.0
    for column in range(across):
        x, y = column * room, 0.0
        for sign, words in said[column * deep : (column + 1) * deep]:
            marks.append(Label(sign, (x, y), Role.RULER, LETTERS, anchor="start", level="top", weight="bold"))
            marks.append(Label(words, (x + indent, y), Role.RULER, LETTERS, anchor="start", level="top"))
            y -= (1.25 + words.count("\n")) * LINE_HEIGHT * LETTERS
        lowest = min(lowest, y)
    key = Drawing(drawing.width, -lowest, tuple(mark.under(Move(f=-lowest)) for mark in marks))
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


def blocks_of(lying: Sequence[Placement]) -> tuple[Placement, ...]:
    """Pieces as few rectangles: neighbours of one kind that lie the same way are one, first in rows, then rows in blocks."""
    rows = merged(lying, lambda each: (each.y, each.height, each.x), lambda each: each.x + each.width, beside=True)
    return merged(rows, lambda each: (each.x, each.width, each.y), lambda each: each.y + each.height, beside=False)


def merged(
    lying: Sequence[Placement],
    place: Callable[[Placement], tuple[int, int, int]],
    end: Callable[[Placement], int],
    *,
    beside: bool,
) -> tuple[Placement, ...]:
    """Rectangles of which each begins where the one before ends, and is as wide or high, made one."""
    found: list[Placement] = []
    for each in sorted(lying, key=lambda one: (one.piece, one.turn, place(one))):
        last = found[-1] if found else None
        at = place(each)
        if (
            last is not None
            and (last.piece, last.turn, *place(last)[:2]) == (each.piece, each.turn, *at[:2])
            and end(last) == at[2]
        ):
            wider, higher = (each.width, 0) if beside else (0, each.height)
            found[-1] = replace(last, width=last.width + wider, height=last.height + higher)
        else:
            found.append(each)
    return tuple(found)


def region_of(placed: Placement) -> Region:
    """Where a piece lies on its sheet (nm)."""
    return (placed.x, placed.y, placed.width, placed.height)


def in_mm(region: Region) -> tuple[float, float, float, float]:
    """A rectangle on a sheet in mm."""
    x, y, width, height = region
    return float(to_mm(x)), float(to_mm(y)), float(to_mm(width)), float(to_mm(height))


def rectangle(left: float, low: float, width: float, height: float) -> tuple[tuple[float, float], ...]:
    """The corners of a rectangle, counter-clockwise."""
    return ((left, low), (left + width, low), (left + width, low + height), (left, low + height))
