"""A picture of a fit: to scale, and beside it what lies between the two things under a magnifying glass, its enlargement said."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Final

from shapely import LineString
from shapely import Point as Spot
from shapely import Polygon as Area

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
from kitwright.printouts.lettering import text_width
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

APART: Final = 4.0
"""How far the arrows of a margin stand from the thing, mm of paper."""

SPLIT: Final = 0.54
"""Where the glass begins, as a share of the width."""


def shapes_drawing(shapes: Shapes, *, width: float, height: float) -> Drawing:
    """The picture, `width` × `height` mm: to scale at the left and the glass at the right, or to scale alone where that shows it all."""
    free = min((math.dist(gap.start, gap.end) for gap in shapes.gaps), default=math.inf)
    alone = scale_for(shapes, width=width - BESIDE - 2, height=height - UNDER - APART - 2)
    if free * alone >= PLAIN:
        move = placed_at(shapes, alone, left=0.0, width=width - BESIDE, middle=(height + UNDER + APART) / 2)
        return Drawing(width, height, (*to_scale(shapes, move, field=width - BESIDE), *gap_marks(shapes.gaps, move)))
    left = SPLIT * width
    scale = scale_for(shapes, width=left - 3, height=height - UNDER - 1.5)
    move = placed_at(shapes, scale, left=0.0, width=left, middle=(height + UNDER - 0.5) / 2)
    radius = min((width - left) / 2 - 1, (height - 1.6 - 1.3 * LETTERS * (1 + len(shapes.gaps))) / 2 - 1)
    centre = (width - radius - 1, height - radius - 1)
    enlarged = max((each for each in ENLARGEMENTS if each * scale * shapes.reach <= FILLED * radius), default=1)
    marks = list(to_scale(shapes, move, field=left))
    marks += glass_marks(shapes, move, centre=centre, radius=radius, enlarged=enlarged)
    return Drawing(width, height, tuple(marks))


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
    named = ((shapes.inner, Role.INNER), (shapes.outer, Role.OUTER))
    wide = math.fsum(SWATCH + 1.0 + text_width(name, LETTERS) for name, _ in named) + 4.0
    rows = [named] if wide < field else [(each,) for each in named]
    for row in rows:
        room = field - SWATCH - 1.0
        x = max(
            (field - math.fsum(SWATCH + 1.0 + text_width(name, LETTERS) for name, _ in row) - 4.0 * (len(row) - 1)) / 2,
            0.0,
        )
        for name, role in row:
            yield rectangle((x, y - SWATCH / 2), (x + SWATCH, y + SWATCH / 2), role)
            yield Label(shortened(name, room), (x + SWATCH + 1.0, y), Role.RULER, LETTERS, anchor="start")
            x += SWATCH + 5.0 + text_width(name, LETTERS)
        y -= 1.4 * LETTERS
    yield Label(f"{shapes.seen}, to scale", (field / 2, y), Role.NOTE, LETTERS)


def shortened(name: str, room: float) -> str:
    """A name, or as much of its beginning as there is room for."""
    if text_width(name, LETTERS) <= room:
        return name
    kept = name
    while kept and text_width(f"{kept}…", LETTERS) > room:
        kept = kept[:-1]
    return f"{kept}…"


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
    yield Label(f"{enlarged} × enlarged", (centre[0], below), Role.NOTE, LETTERS, level="top")


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
