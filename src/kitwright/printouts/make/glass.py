"""A picture of a fit: to scale, and beside it what lies between the two things under a magnifying glass, its enlargement said."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Final

from shapely import LineString
from shapely import Point as Spot
from shapely import Polygon as Area

from kitwright.printouts.compose import stacked
from kitwright.printouts.drawing import (
    Circle,
    Dimension,
    Drawing,
    Label,
    Line,
    Mark,
    Move,
    Point,
    Polygon,
    Role,
    Weight,
)
from kitwright.printouts.ink import bounds
from kitwright.printouts.lettering import LINE_HEIGHT, text_width, wrapped
from kitwright.printouts.make.shapes import Gap, Shapes, rectangle

__all__ = ["LETTERS", "shapes_drawing"]

LETTERS: Final = 3.0
"""Height of the letters, mm of paper."""

ENLARGEMENTS: Final = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100)
"""How many times larger than the picture beside it a glass shows things: round numbers only."""

PLAIN: Final = 2.2
"""Free play that is at least so wide in the picture (mm of paper) is plain to see without a glass."""

FILLED: Final = 0.86
"""How much of the glass what matters may fill."""

SWATCH: Final = 2.6
"""A sample of how a thing is filled, mm of paper."""

BESIDE: Final = 26.0
"""Room at the right of a picture without a glass for the words of its margins, mm of paper."""

UNDER: Final = 10.0
"""Room under the things for their names, mm of paper."""

NAME_ROW: Final = 1.4 * LETTERS
"""From one name to the one below it, mm of paper."""

BETWEEN_NAMES: Final = 4.0

APART: Final = 4.0
"""How far the arrows of a margin stand from the thing, mm of paper."""

SPLIT: Final = 0.54
"""Where the glass begins, as a share of the width."""


def shapes_drawing(shapes: Shapes, *, width: float, height: float) -> Drawing:
    """The picture, `width` × `height` mm: to scale at the left and the glass at the right, or to scale alone where that shows it all.

    Names that are too long to stand beside each other under the things stand below the picture and make it higher.
    """
    free = min((math.dist(gap.start, gap.end) for gap in shapes.gaps), default=math.inf)
    alone = scale_for(shapes, width=width - BESIDE - 2, height=height - UNDER - APART - 2)
    if free * alone >= PLAIN:
        field = width - BESIDE
        move = placed_at(shapes, alone, left=0.0, width=field, middle=(height + UNDER + APART) / 2)
        marks = [*to_scale(shapes, move, field=field), *gap_marks(shapes.gaps, move)]
    else:
        field = SPLIT * width
        marks = enlarged_marks(shapes, field, width=width, height=height)
    drawing = Drawing(width, height, tuple(marks))
    return drawing if stand_beside(shapes, field) else stacked([drawing, names_below(shapes, width)], gap=1.0)


def enlarged_marks(shapes: Shapes, left: float, *, width: float, height: float) -> list[Mark]:
    """The things in a field as wide as `left`, and what lies between them under the glass at its right."""
    scale = scale_for(shapes, width=left - 3, height=height - UNDER - 1.5)
    move = placed_at(shapes, scale, left=0.0, width=left, middle=(height + UNDER - 0.5) / 2)
    radius = min((width - left) / 2 - 1, (height - 1.6 - 1.3 * LETTERS * (1 + len(shapes.gaps))) / 2 - 1)
    centre = (width - radius - 1, height - radius - 1)
    enlarged = max((each for each in ENLARGEMENTS if each * scale * shapes.reach <= FILLED * radius), default=1)
    marks = list(to_scale(shapes, move, field=left))
    marks += glass_marks(shapes, move, centre=centre, radius=radius, enlarged=enlarged)
    return marks


def scale_for(shapes: Shapes, *, width: float, height: float) -> float:
    """How many times the thing is drawn so that it fits."""
    left, low, right, high = bounds(shapes.marks) or (0.0, 0.0, 1.0, 1.0)
    return min(width / (right - left), height / (high - low))


def placed_at(shapes: Shapes, scale: float, *, left: float, width: float, middle: float) -> Move:
    """The things in the middle of a field."""
    low_x, low_y, high_x, high_y = bounds(shapes.marks) or (0.0, 0.0, 1.0, 1.0)
    return Move(
        a=scale,
        e=left + width / 2 - scale * (low_x + high_x) / 2,
        f=middle - scale * (low_y + high_y) / 2,
    )


def to_scale(shapes: Shapes, move: Move, *, field: float) -> Iterator[Mark]:
    """The things, and under them their names with a swatch of each and how they are looked at, in a `field` so many mm wide."""
    yield from (mark.under(move) for mark in shapes.marks)
    _, low, _, _ = bounds(shapes.marks) or (0.0, 0.0, 1.0, 1.0)
    y = move.point((0.0, low))[1] - 3.0
    if any(gap.start[1] == low for gap in shapes.gaps):
        y -= APART
    if stand_beside(shapes, field):
        x = (field - row_width(shapes)) / 2
        for name, role in named(shapes):
            yield from swatch(name, role, x, y)
            x += SWATCH + 1.0 + text_width(name, LETTERS) + BETWEEN_NAMES
        y -= NAME_ROW
    yield Label(f"{shapes.seen}, to scale", (field / 2, y), Role.NOTE, LETTERS)


def named(shapes: Shapes) -> tuple[tuple[str, Role], ...]:
    """The names of the two things and how they are filled."""
    return (shapes.inner, Role.INNER), (shapes.outer, Role.OUTER)


def row_width(shapes: Shapes) -> float:
    """How wide the names are beside each other."""
    return math.fsum(SWATCH + 1.0 + text_width(name, LETTERS) for name, _ in named(shapes)) + BETWEEN_NAMES


def stand_beside(shapes: Shapes, field: float) -> bool:
    """Whether the names have room beside each other."""
    return row_width(shapes) <= field


def names_below(shapes: Shapes, width: float) -> Drawing:
    """The names below each other, in as many lines as they need."""
    marks: list[Mark] = []
    y = 0.0
    for name, role in named(shapes):
        words = wrapped(name, width - SWATCH - 1.0, LETTERS)
        marks += swatch(words, role, 0.0, y)
        y -= NAME_ROW + words.count("\n") * LINE_HEIGHT * LETTERS
    return Drawing(width, -y, tuple(mark.under(Move(f=-y - NAME_ROW / 2)) for mark in marks))


def swatch(words: str, role: Role, x: float, y: float) -> Iterator[Mark]:
    """A sample of how a thing is filled, beside the first line of its name."""
    yield rectangle((x, y - SWATCH / 2), (x + SWATCH, y + SWATCH / 2), role)
    down = words.count("\n") * LINE_HEIGHT * LETTERS / 2
    yield Label(words, (x + SWATCH + 1.0, y - down), Role.RULER, LETTERS, anchor="start")


def gap_marks(gaps: Iterable[Gap], move: Move) -> Iterator[Mark]:
    """The free play as dimensions, each below or at the right of what it measures, its words beside the arrows."""
    for gap in gaps:
        start, end = move.point(gap.start), move.point(gap.end)
        yield Dimension(start, end, "", offset=-APART)
        if abs(end[0] - start[0]) > abs(end[1] - start[1]):
            at = (max(start[0], end[0]) + 5.5, start[1] - APART)
        else:
            at = (start[0] + APART + 2.5, (start[1] + end[1]) / 2)
        yield Label(gap.words.replace(" ", "\n", 2).replace("\n", " ", 1), at, Role.RULER, LETTERS, anchor="start")


def glass_marks(shapes: Shapes, move: Move, *, centre: Point, radius: float, enlarged: int) -> Iterator[Mark]:
    """The glass on the picture, two lines to its enlargement, what is seen in it, and what that measures."""
    at = move.point(shapes.glass)
    small = radius / enlarged
    for start, end in tangents(at, max(small, 0.8), centre, radius):
        yield Line(start, end, Role.GUIDE)
    yield Circle(at, max(small, 0.8), Role.DIMENSION)
    factor = move.factor * enlarged
    into = Move(a=factor, e=centre[0] - factor * shapes.glass[0], f=centre[1] - factor * shapes.glass[1])
    yield Polygon(ring(centre, radius), Role.BLANK)
    yield from cut_out((mark.under(into) for mark in (*shapes.marks, *shapes.hints)), centre, radius * 0.995)
    yield Circle(centre, radius, Role.DIMENSION)
    below = centre[1] - radius - 1.6
    right = centre[0] + radius + 0.5
    for place, gap in enumerate(shapes.gaps):
        weight: Weight = "regular" if place else "bold"
        middle = min(centre[0], right - text_width(gap.words, LETTERS, weight) / 2)
        yield Label(gap.words, (middle, below), Role.RULER, LETTERS, level="top", weight=weight)
        below -= 1.3 * LETTERS
    words = f"{enlarged} × enlarged"
    middle = min(centre[0], right - text_width(words, LETTERS) / 2)
    yield Label(words, (middle, below), Role.NOTE, LETTERS, level="top")


def ring(centre: Point, radius: float) -> tuple[Point, ...]:
    """A circle as a polygon, fine enough for print."""
    return tuple(
        (centre[0] + radius * math.cos(math.tau * k / 96), centre[1] + radius * math.sin(math.tau * k / 96))
        for k in range(96)
    )


def tangents(one: Point, small: float, other: Point, large: float) -> Iterator[tuple[Point, Point]]:
    """The two lines that touch two circles from outside; none where one circle lies in the other."""
    away = math.dist(one, other)
    if away <= abs(large - small):
        return
    towards = math.atan2(other[1] - one[1], other[0] - one[0])
    lean = math.acos((small - large) / away)
    for turn in (lean, -lean):
        across = (math.cos(towards + turn), math.sin(towards + turn))
        yield (
            (one[0] + small * across[0], one[1] + small * across[1]),
            (other[0] + large * across[0], other[1] + large * across[1]),
        )


def cut_out(marks: Iterable[Mark], centre: Point, radius: float) -> Iterator[Mark]:
    """What of polygons and lines lies in a circle; other marks are left out."""
    window = Spot(centre).buffer(radius, quad_segs=24)
    for mark in marks:
        if isinstance(mark, Polygon):
            for piece in pieces_of(Area(mark.points, mark.holes).intersection(window)):
                yield Polygon(
                    tuple(piece.exterior.coords[:-1]),
                    mark.role,
                    tuple(tuple(hole.coords[:-1]) for hole in piece.interiors),
                )
        elif isinstance(mark, Line):
            for part in lines_of(LineString((mark.start, mark.end)).intersection(window)):
                start, end = part.coords[0], part.coords[-1]
                yield Line((start[0], start[1]), (end[0], end[1]), mark.role)


def pieces_of(found: object) -> Iterator[Area]:
    """The areas in what an intersection gave."""
    for each in getattr(found, "geoms", (found,)):
        if isinstance(each, Area) and not each.is_empty:
            yield each


def lines_of(found: object) -> Iterator[LineString]:
    """The lines in what an intersection gave."""
    for each in getattr(found, "geoms", (found,)):
        if isinstance(each, LineString) and not each.is_empty:
            yield each
