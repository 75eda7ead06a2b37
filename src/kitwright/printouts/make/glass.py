"""A picture of a fit: to scale, and beside it what lies between the two things under a magnifying glass, its enlargement said."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from shapely import LineString
from shapely import Point as Spot
from shapely import Polygon as Area

from kitwright.printouts.annotate import spread
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
from kitwright.printouts.lettering import CAP_HEIGHT, LINE_HEIGHT, RESERVE, text_width, wrapped
from kitwright.printouts.make.shapes import Shapes, rectangle

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
"""Room at the right of a picture without a glass for its margins and their words, mm of paper."""

UNDER: Final = 10.0
"""Room under the things for their names, mm of paper."""

ROW: Final = 1.3 * LETTERS
"""From one line under the glass to the next, mm of paper."""

NAME_ROW: Final = 1.4 * LETTERS
"""From one name to the one below it, mm of paper."""

BETWEEN_NAMES: Final = 4.0

APART: Final = 4.0
"""How far the arrows of a margin stand from the things, mm of paper."""

BEYOND: Final = APART + 2.5
"""How far the words of the margins stand from the things, mm of paper: where no arrow reaches."""

EDGE: Final = 0.5
"""Margin that keeps lines on the picture and words off each other, mm of paper."""

LEAST_GLASS: Final = 4.0
"""Radius of the smallest glass, mm of paper; a picture that has no room for it is higher."""

INSET: Final = 1.5
"""How far the things stay from the edges of their field where a glass is beside them, mm of paper."""

SPLIT: Final = 0.54
"""Where the glass begins, as a share of the width."""


def shapes_drawing(shapes: Shapes, *, width: float, height: float) -> Drawing:
    """The picture, `width` mm wide and about `height` mm high: to scale at the left and the glass at the right, or to scale alone where
    that shows it all.

    What the things are called stands below all that is drawn of them, wherever that ends. Names that are too long to stand beside each
    other stand below the picture. All words get the height that they need.
    """
    free = min((math.dist(gap.start, gap.end) for gap in shapes.gaps), default=math.inf)
    alone = scale_for(shapes, width=width - BESIDE - 2, height=height - UNDER - APART - 2)
    is_alone = free * alone >= PLAIN
    field, room = (width - BESIDE, width) if is_alone else (SPLIT * width, SPLIT * width)
    if is_alone:
        move = placed_at(shapes, alone, width=field, middle=0.0)
        left = [*(mark.under(move) for mark in shapes.marks), *gap_marks(shapes, move, room=width)]
        right: list[Mark] = []
    else:
        move = placed_at(
            shapes,
            scale_for(shapes, width=field - 2 * INSET, height=height - UNDER - INSET),
            width=field,
            middle=(UNDER - height) / 2,
        )
        left = [mark.under(move) for mark in shapes.marks]
        right = list(beside_it(shapes, move, left=field, width=width, height=height))
    _, low, _, _ = box_of(left)
    drawing = as_high_as_needed([*left, *right, *underneath(shapes, low, middle=field / 2, room=room)], width)
    return drawing if stand_beside(shapes, room) else stacked([drawing, names_below(shapes, width)], gap=1.0)


def as_high_as_needed(marks: Sequence[Mark], width: float) -> Drawing:
    """The marks on a drawing so wide and as high as they are."""
    _, low, _, high = box_of(marks)
    move = Move(f=EDGE - low)
    return Drawing(width, high - low + 2 * EDGE, tuple(mark.under(move) for mark in marks))


def box_of(marks: Iterable[Mark]) -> tuple[float, float, float, float]:
    """Left, low, right and high of marks."""
    return bounds(marks) or (0.0, 0.0, 1.0, 1.0)


def beside_it(shapes: Shapes, move: Move, *, left: float, width: float, height: float) -> Iterator[Mark]:
    """The glass and its words, from `left` to `width` and down from 0, as large as goes into the height with its words."""
    column = width - max(left - INSET, left / 2 + half_width(shapes, left)) - 2 * EDGE
    words = [broken(gap.words, column, weight_of(place)) for place, gap in enumerate(shapes.gaps)]
    rows = 1 + sum(1 + each.count("\n") for each in words)
    radius = max(min((width - left) / 2 - 1, (height - 1.6 - ROW * rows) / 2 - 1), LEAST_GLASS)
    reach = move.factor * shapes.reach
    enlarged = max((each for each in ENLARGEMENTS if each * reach <= FILLED * radius), default=1)
    yield from glass_marks(
        shapes, move, words, centre=(width - radius - 1, -radius - 1), radius=radius, enlarged=enlarged
    )


def half_width(shapes: Shapes, room: float) -> float:
    """Half of what the words under the things take of their room."""
    names = row_width(shapes) if stand_beside(shapes, room) else 0.0
    return max(names, text_width(seen_words(shapes, room), LETTERS)) / RESERVE / 2


def broken(words: str, room: float, weight: Weight = "regular") -> str:
    """Words in as many lines as they need on paper: every line is wanted for the picture, so there is no reserve for other letters."""
    return wrapped(words, room * RESERVE, LETTERS, weight)


def seen_words(shapes: Shapes, room: float) -> str:
    """How the things are looked at."""
    return broken(f"{shapes.seen}, to scale", room)


def scale_for(shapes: Shapes, *, width: float, height: float) -> float:
    """How many times the thing is drawn so that it fits."""
    left, low, right, high = box_of(shapes.marks)
    return min(width / (right - left), height / (high - low))


def placed_at(shapes: Shapes, scale: float, *, width: float, middle: float) -> Move:
    """The things in the middle of a field from 0 to `width`."""
    low_x, low_y, high_x, high_y = box_of(shapes.marks)
    return Move(a=scale, e=width / 2 - scale * (low_x + high_x) / 2, f=middle - scale * (low_y + high_y) / 2)


def underneath(shapes: Shapes, low: float, *, middle: float, room: float) -> Iterator[Mark]:
    """Below all that ends at `low`: the names with a swatch of each where they have `room`, and how the things are looked at."""
    y = low - 3.0
    if stand_beside(shapes, room):
        x = max(middle - row_width(shapes) / 2, 0.0)
        for name, role in named(shapes):
            yield from swatch(name, role, x, y)
            x += SWATCH + 1.0 + text_width(name, LETTERS) + BETWEEN_NAMES
        y -= NAME_ROW
    words = seen_words(shapes, room)
    at = (max(middle, text_width(words, LETTERS) / RESERVE / 2), y + CAP_HEIGHT * LETTERS / 2)
    yield Label(words, at, Role.NOTE, LETTERS, level="top")


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


def gap_marks(shapes: Shapes, move: Move, *, room: float) -> Iterator[Mark]:
    """The free play as dimensions below or at the right of the things. Their words stand in a column up to `room`, none on another."""
    _, low, right, _ = box_of(mark.under(move) for mark in shapes.marks)
    words: list[tuple[float, str]] = []
    for gap in shapes.gaps:
        start, end = sorted((move.point(gap.start), move.point(gap.end)))
        lies = end[0] - start[0] > end[1] - start[1]
        yield Dimension(start, end, "", offset=low - start[1] - APART if lies else start[0] - right - APART)
        middle = low - APART if lies else (start[1] + end[1]) / 2
        words.append((middle, f"{gap.length}\n{wrapped(gap.which, room - right - BEYOND, LETTERS)}"))
    words.sort()
    tallest = max((1 + each.count("\n") for _, each in words), default=0)
    heights = spread([middle for middle, _ in words], gap=tallest * LINE_HEIGHT * LETTERS + 1.0)
    for y, (_, each) in zip(heights, words, strict=True):
        yield Label(each, (right + BEYOND, y), Role.RULER, LETTERS, anchor="start")


def weight_of(place: int) -> Weight:
    """How heavy the words of a margin are under the glass: those of the first are what the glass shows."""
    return "regular" if place else "bold"


def glass_marks(
    shapes: Shapes, move: Move, words: Sequence[str], *, centre: Point, radius: float, enlarged: int
) -> Iterator[Mark]:
    """The glass on the picture, two lines to its enlargement, what is seen in it, and the words of what that measures."""
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
    told = [(each, Role.RULER, weight_of(place)) for place, each in enumerate(words)]
    for each, role, weight in (*told, (f"{enlarged} × enlarged", Role.NOTE, weight_of(1))):
        if centre[0] + text_width(each, LETTERS, weight) / 2 <= right:
            yield Label(each, (centre[0], below), role, LETTERS, level="top", weight=weight)
        else:
            yield Label(each, (right, below), role, LETTERS, anchor="end", level="top", weight=weight)
        below -= ROW * (1 + each.count("\n"))


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
