"""The drawing model: what is on a picture, as values. Millimetres on paper, x to the right, y up, angles in degrees.

A mark says *what* it is (its role: a cut, a valley fold, a print face, a dimension), never how it looks; `printouts.style` turns
roles into line widths, dashes and tints in one place. Points belong to the thing drawn and change with its scale; the sizes of
letters, arrowheads and the distance of a dimension from its edge belong to the paper and do not.

    Line · Polyline · Polygon · Shapes · Circle · Curve
                                                   geometry
    Label · Callouts · Dimension · Running · Arrow what a person reads
    Group                                          marks with a common name
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Final, Literal, TypeAlias

__all__ = [
    "LABEL_SIZE",
    "Anchor",
    "Arrow",
    "Callouts",
    "Circle",
    "Curve",
    "Dimension",
    "Drawing",
    "Group",
    "Head",
    "Label",
    "Level",
    "Line",
    "Mark",
    "Move",
    "Point",
    "Polygon",
    "Polyline",
    "Role",
    "Running",
    "Shapes",
    "Weight",
    "placed",
    "turned",
]

Point: TypeAlias = tuple[float, float]
"""A place on the paper: millimetres to the right and up."""

Anchor: TypeAlias = Literal["start", "middle", "end"]
"""Which end of a line of text stands at its point."""

Level: TypeAlias = Literal["top", "middle", "base"]
"""Which height of the first line of text stands at its point; `middle` centres the whole label."""

Weight: TypeAlias = Literal["regular", "bold"]
Head: TypeAlias = Literal["solid", "open", "hollow", "none"]

LABEL_SIZE: Final = 3.5
"""Height of ordinary lettering (the font's em, mm): a hair under 10 point (3.528 mm)."""


class Role(StrEnum):
    """What a mark means. Every role has one row in the style table."""

    CUT = "cut"
    SLIT = "slit"
    VALLEY = "valley"
    MOUNTAIN = "mountain"
    CREASE = "crease"
    HIDDEN = "hidden"
    BEFORE = "before"
    OUTLINE = "outline"
    PRINT_FACE = "print-face"
    BACK_FACE = "back-face"
    GLUE = "glue"
    GLUE_BEHIND = "glue-behind"
    PRINT = "print"
    SHEET = "sheet"
    PIECE = "piece"
    OFFCUT = "offcut"
    DIMENSION = "dimension"
    ACTION = "action"
    NOTE = "note"
    GUIDE = "guide"
    RULER = "ruler"
    BLANK = "blank"
    INNER = "inner"
    OUTER = "outer"
    CLASH = "clash"
    RANGE = "range"


@dataclass(frozen=True, slots=True)
class Move:
    """A similar copy of the plane: `(x, y) → (ax − by + e, bx + ay + f)`."""

    a: float = 1.0
    b: float = 0.0
    e: float = 0.0
    f: float = 0.0

    def point(self, at: Point) -> Point:
        """Where a point goes."""
        x, y = at
        return (self.a * x - self.b * y + self.e, self.b * x + self.a * y + self.f)

    def points(self, all_: tuple[Point, ...]) -> tuple[Point, ...]:
        """Where several points go."""
        return tuple(self.point(at) for at in all_)

    @property
    def factor(self) -> float:
        """How many times larger the copy is."""
        return math.hypot(self.a, self.b)

    def angle(self, angle: float) -> float:
        """The direction on the copy (degrees, 0 ≤ angle < 360) of a direction on the original."""
        turn = math.degrees(math.atan2(self.b, self.a))
        return (angle + turn) % 360


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    role: Role

    def under(self, move: Move) -> Line:
        """The same line on the copy."""
        return replace(self, start=move.point(self.start), end=move.point(self.end))


@dataclass(frozen=True, slots=True)
class Polyline:
    """A chain of straight lines, open."""

    points: tuple[Point, ...]
    role: Role

    def under(self, move: Move) -> Polyline:
        """The same chain on the copy."""
        return replace(self, points=move.points(self.points))


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed shape with straight sides, perhaps with holes; filled, hatched and outlined as its role asks."""

    points: tuple[Point, ...]
    role: Role
    holes: tuple[tuple[Point, ...], ...] = ()

    def under(self, move: Move) -> Polygon:
        """The same shape on the copy."""
        return replace(self, points=move.points(self.points), holes=tuple(move.points(hole) for hole in self.holes))


@dataclass(frozen=True, slots=True)
class Shapes:
    """Closed shapes with straight sides that do not overlap, painted as one: a thousand of them weigh little in any file."""

    outlines: tuple[tuple[Point, ...], ...]
    role: Role

    def under(self, move: Move) -> Shapes:
        """The same shapes on the copy."""
        return replace(self, outlines=tuple(move.points(outline) for outline in self.outlines))


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    centre: Point
    radius: float
    role: Role

    def under(self, move: Move) -> Circle:
        """The same circle on the copy."""
        return replace(self, centre=move.point(self.centre), radius=self.radius * move.factor)


@dataclass(frozen=True, slots=True)
class Curve:
    """A smooth line: cubic Bézier arcs end to end, as start, then (handle, handle, end) for each arc; 3n + 1 points."""

    points: tuple[Point, ...]
    role: Role

    def __post_init__(self) -> None:
        if len(self.points) < 4 or len(self.points) % 3 != 1:
            raise ValueError(f"a curve of {len(self.points)} points is not whole: it has 4, 7, 10 …")

    def under(self, move: Move) -> Curve:
        """The same curve on the copy."""
        return replace(self, points=move.points(self.points))


@dataclass(frozen=True, slots=True)
class Label:
    r"""Words at a point; `\n` starts a new line. `size` (mm) is the size on paper and is kept when the drawing is scaled.

    With `room` (width, height of the free place in the direction of the words, mm of the thing drawn) the label is made smaller,
    then turned upright, then replaced by `short`, until it fits; where nothing fits at a readable size it is left out.
    `plate` puts a plate of paper colour under the words so that lines below do not run through them. Words that must not be left
    out are given to `Callouts`.
    """

    text: str
    at: Point
    role: Role = Role.NOTE
    size: float = LABEL_SIZE
    anchor: Anchor = "middle"
    level: Level = "middle"
    angle: float = 0.0
    weight: Weight = "regular"
    plate: bool = False
    room: tuple[float, float] | None = None
    short: str = ""

    def under(self, move: Move) -> Label:
        """The same words on the copy."""
        room = (self.room[0] * move.factor, self.room[1] * move.factor) if self.room else None
        return replace(self, at=move.point(self.at), room=room, angle=move.angle(self.angle))


@dataclass(frozen=True, slots=True)
class Callouts:
    """Labels, each in its room; those that fit nowhere stand beyond the thing drawn, each with a line that leads to its place.

    They stand along the way from `start` to `end`, `offset` mm of paper to its left (to its right if negative), spread so that none
    touches its neighbour. Of labels with the same words one is enough: it is led out only where none of them fits. A label that is
    led out bears its `short` form, if it has one.
    """

    labels: tuple[Label, ...]
    start: Point
    end: Point
    offset: float = 2.0

    def under(self, move: Move) -> Callouts:
        """The same labels on the copy, led out on the same side of the thing."""
        return replace(
            self,
            labels=tuple(label.under(move) for label in self.labels),
            start=move.point(self.start),
            end=move.point(self.end),
        )


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measured distance: extension lines, a line with arrowheads, and the words above it, readable from below or from the right.

    The dimension line stands `offset` mm of paper to the left of the way from `start` to `end` (to the right if negative).
    The text is written by whoever measured; the drawing never computes a number.
    """

    start: Point
    end: Point
    text: str
    offset: float = 8.0
    role: Role = Role.DIMENSION
    size: float = LABEL_SIZE

    def under(self, move: Move) -> Dimension:
        """The same dimension on the copy, on the same side of the thing."""
        return replace(
            self,
            start=move.point(self.start),
            end=move.point(self.end),
        )


@dataclass(frozen=True, slots=True)
class Running:
    """Distances from one edge, as they are read off a ruler: a circle at zero, then an arrowhead and its words at each stop.

    `stops` are (distance from `start`, words) along the way from `start` to `end`; the dimension line stands `offset` mm of paper
    to the left of that way (to the right if negative). Words that would touch are spread apart and led to their stops. After the
    running dimensions of ISO 129-1 (from memory). `ringed`: no distances but numbers, each in a ring that is led to its stop.
    """

    start: Point
    end: Point
    stops: tuple[tuple[float, str], ...]
    offset: float = 6.0
    role: Role = Role.DIMENSION
    size: float = LABEL_SIZE
    ringed: bool = False

    def under(self, move: Move) -> Running:
        """The same distances on the copy, on the same side of the thing."""
        return replace(
            self,
            start=move.point(self.start),
            end=move.point(self.end),
            stops=tuple((at * move.factor, words) for at, words in self.stops),
        )


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow from `start` to `end`, bent to the left by `bend` times its length (to the right if negative)."""

    start: Point
    end: Point
    role: Role = Role.ACTION
    bend: float = 0.0
    head: Head = "solid"
    head_size: float = 3.0

    def under(self, move: Move) -> Arrow:
        """The same arrow on the copy."""
        return replace(
            self,
            start=move.point(self.start),
            end=move.point(self.end),
        )


@dataclass(frozen=True, slots=True)
class Group:
    """Marks that belong together, under a name."""

    name: str
    marks: tuple[Mark, ...]

    def under(self, move: Move) -> Group:
        """The same group on the copy."""
        return replace(self, marks=tuple(mark.under(move) for mark in self.marks))


Mark: TypeAlias = (
    Line | Polyline | Polygon | Shapes | Circle | Curve | Label | Callouts | Dimension | Running | Arrow | Group
)


@dataclass(frozen=True, slots=True)
class Drawing:
    """Marks on a canvas of `width` × `height` mm whose lower left corner is (0, 0). Painted in order: later marks lie on top.

    What reaches over the edge of the canvas is shown too, unless the drawing is `clipped`.
    """

    width: float
    height: float
    marks: tuple[Mark, ...] = ()
    clipped: bool = False

    def __post_init__(self) -> None:
        if not (0 < self.width < math.inf and 0 < self.height < math.inf):
            raise ValueError(f"a drawing cannot be {self.width} × {self.height} mm")


def placed(drawing: Drawing, move: Move, *, width: float, height: float) -> Drawing:
    """The drawing's marks under a move, on a new canvas."""
    return Drawing(width, height, tuple(mark.under(move) for mark in drawing.marks), clipped=drawing.clipped)


def turned(drawing: Drawing, quarters: int) -> Drawing:
    """The whole drawing, canvas and words, turned anticlockwise by quarter turns."""
    w, h = drawing.width, drawing.height
    move, width, height = {
        0: (Move(), w, h),
        1: (Move(a=0.0, b=1.0, e=h), h, w),
        2: (Move(a=-1.0, e=w, f=h), w, h),
        3: (Move(a=0.0, b=-1.0, f=w), h, w),
    }[quarters % 4]
    return placed(drawing, move, width=width, height=height)
