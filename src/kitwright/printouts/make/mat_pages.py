"""Mats of a cutting machine: in words, as pictures, and as lines for the machine."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from shapely import LineString
from shapely import Polygon as Area
from shapely.affinity import translate
from shapely.ops import polylabel

from kitwright.measure import Ruler, counted
from kitwright.paper import Print
from kitwright.plan import MachinePaper
from kitwright.printouts.compose import fitted, print_up_arrow
from kitwright.printouts.drawing import Callouts, Dimension, Drawing, Label, Line, Mark, Move, Polygon, Role
from kitwright.printouts.make.layout_picture import WAY_OUT, rectangle, with_names
from kitwright.printouts.make.pattern_picture import blank_marks

__all__ = ["mat_drawing", "mat_lines", "mat_sentences"]


SMALLEST_WITH_ARROW: Final = 10.0
"""Room all round (mm) that a piece must have for an arrow beside its name."""

LONGEST_ARROW: Final = 24.0


def mat_sentences(paper: MachinePaper, ruler: Ruler) -> Iterator[str]:
    """How many mats, how that compares with the trimmer, and what went onto none."""
    nested = paper.nested
    mats = counted(nested.mats, "mat", "mats")
    least = "no layout can do with fewer" if nested.mats == paper.fewest else f"at least {paper.fewest} by area"
    sheets = counted(paper.by_trimmer, "sheet", "sheets")
    yield f"By machine: {mats} ({least}). With the trimmer: {sheets}."
    if nested.mats > paper.by_trimmer and not nested.unplaced:
        yield "The trimmer needs fewer: it loses no edge and no gap between the pieces."
    for name, count in nested.unplaced.items():
        width, height = paper.line(name).blank.size
        room = ruler.size(nested.mat.width, nested.mat.height)
        yield f"{count} × {name} ({ruler.size(width, height)}) lie on no mat: the room on one is {room}."
    for fault in paper.faults:
        yield f"The layout failed its check: {fault.message}"


def mat_drawing(
    paper: MachinePaper, number: int, ruler: Ruler, signs: Mapping[str, str], *, width: float, height: float
) -> Drawing:
    """A mat as large as fits: the sheet, the room on it, and every piece with its name and the way up of its print.

    Below it stand the names of pieces that only bear their signs.
    """
    drawing = fitted(mat_marks(paper, number, ruler, signs), width=width, height=height).drawing
    return with_names(drawing, {sign: name for name, sign in signs.items()})


def mat_marks(paper: MachinePaper, number: int, ruler: Ruler, signs: Mapping[str, str]) -> Iterator[Mark]:
    """The sheet at its own size, its lower left corner at (0, 0). `signs` gives a short sign for each blank."""
    width, height = float(paper.paper.sheet_width_mm), float(paper.paper.sheet_height_mm)
    x, y = paper.corner
    mat = paper.nested.mat
    names: list[Label] = []
    yield Polygon(rectangle(0, 0, width, height), Role.SHEET)
    for each in paper.nested.layouts[number].pieces:
        shape = translate(each.shape(paper.line(each.name).blank.outline), x, y)
        yield Polygon(ring_of(shape), Role.PIECE)
        (at_x, at_y), room, around = named_place(shape)
        is_one_way = paper.paper.print_ is Print.ONE_WAY and around >= SMALLEST_WITH_ARROW
        sign = signs[each.name]
        at = (at_x, at_y - (around / 3 if is_one_way else 0))
        names.append(Label(f"{sign}  {each.name}", at, room=room, short=sign))
        if is_one_way:
            turn = (each.turn + paper.line(each.name).part.part.turn) % 4
            yield print_up_arrow(
                (at_x, at_y + around / 2), angle=90.0 + 90.0 * turn, length=min(LONGEST_ARROW, 0.6 * around)
            )
    yield Polygon(rectangle(0, 0, width, height), Role.OUTLINE)
    yield Callouts(tuple(names), (width, 0.0), (width, height), offset=-WAY_OUT)
    corners = rectangle(x, y, mat.width, mat.height)
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        yield Line(start, end, Role.GUIDE)
    yield Dimension((0, 0), (width, 0), ruler.with_unit(width), offset=-7)
    yield Dimension((0, 0), (0, height), ruler.with_unit(height), offset=7)


def ring_of(shape: Area) -> tuple[tuple[float, float], ...]:
    """The outer points of a shape."""
    return tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])


def named_place(shape: Area) -> tuple[tuple[float, float], tuple[float, float], float]:
    """Where in a shape its name stands, the width and height that it may take there, and how far it is to the nearest edge."""
    pole, middle = polylabel(shape, tolerance=1.0), shape.centroid
    # along the middle of a long piece every point is as far from the edges as any other
    is_central = shape.contains(middle) and shape.exterior.distance(pole) < 1.2 * shape.exterior.distance(middle)
    spot = middle if is_central else pole
    across = shape.intersection(LineString([(shape.bounds[0], spot.y), (shape.bounds[2], spot.y)]))
    upwards = shape.intersection(LineString([(spot.x, shape.bounds[1]), (spot.x, shape.bounds[3])]))
    room = (0.9 * float(across.length), 0.9 * float(upwards.length))
    return (float(spot.x), float(spot.y)), room, float(shape.exterior.distance(spot))


def mat_lines(paper: MachinePaper, number: int) -> Iterator[Mark]:
    """The cuts and scores of every piece where it lies on the sheet."""
    x, y = paper.corner
    quarter = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
    for each in paper.nested.layouts[number].pieces:
        a, b = quarter[each.turn % 4]
        move = Move(a=a, b=b, e=each.x + x, f=each.y + y)
        yield from (mark.under(move) for mark in blank_marks(paper.line(each.name).blank, glue={}))
