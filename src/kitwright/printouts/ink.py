"""What a drawing comes down to: strokes, fills and lines of text, the same for every output. Millimetres, y up, degrees.

All decisions of drafting are made here once (where an arrowhead sits, how dashes meet a corner, which label still fits), so that
a PDF and an SVG of the same drawing cannot differ in anything but the words of their file format.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final, Literal, TypeAlias

from kitwright.printouts.drawing import (
    Anchor,
    Arrow,
    Circle,
    Curve,
    Dimension,
    Drawing,
    Group,
    Label,
    Line,
    Mark,
    Point,
    Polygon,
    Polyline,
    Role,
    Weight,
)
from kitwright.printouts.lettering import CAP_HEIGHT, DESCENT, LINE_HEIGHT, text_width
from kitwright.printouts.style import STYLES, Hatch

__all__ = ["SMALLEST_LETTERS", "Disc", "Ink", "Paint", "Path", "Text", "bounds", "ink_of", "labels_left_out"]

SMALLEST_LETTERS: Final = 2.5
"""Letters below this (mm of em, about 7 point) are not readable on a bench. Common practice, no source."""

Paint: TypeAlias = Literal["line", "fill", "solid", "paper"]
"""`line`: stroked in the role's line; `fill`: filled with its fill; `solid`: filled with its line colour; `paper`: with paper."""


PLATE_MARGIN: Final = 0.15
"""How far the plate under a label reaches beyond its words, in parts of the letter size."""


@dataclass(frozen=True, slots=True)
class Path:
    """Rings (or, if open, chains) of points; `curved` means cubic Bézier arcs. `dash` is already fitted to the length."""

    rings: tuple[tuple[Point, ...], ...]
    role: Role
    paint: Paint
    closed: bool
    curved: bool = False
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle, stroked or filled."""

    centre: Point
    radius: float
    role: Role
    paint: Paint
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text; `at` is on its base line at the end that `anchor` names; `angle` turns it anticlockwise about `at`."""

    text: str
    at: Point
    size: float
    anchor: Anchor
    angle: float
    role: Role
    weight: Weight

    def corners(self, margin: float = 0.0) -> tuple[Point, ...]:
        """The four corners of the box that the words take, reckoned a little wide, with a margin in mm around them."""
        width = text_width(self.text, self.size, self.weight)
        left = {"start": 0.0, "middle": -width / 2, "end": -width}[self.anchor]
        low, high = -DESCENT * self.size, CAP_HEIGHT * self.size
        left, low, right, high = left - margin, low - margin, left + width + margin, high + margin
        box = ((left, low), (right, low), (right, high), (left, high))
        return tuple(shifted(self.at, *turned_by(at, self.angle)) for at in box)


Ink: TypeAlias = Path | Disc | Text


def ink_of(drawing: Drawing) -> tuple[Ink, ...]:
    """Everything on the drawing as ink, in the order of painting."""
    return tuple(ink for mark in drawing.marks for ink in mark_ink(mark))


def mark_ink(mark: Mark) -> Iterator[Ink]:
    """One mark as ink."""
    match mark:
        case Group():
            for each in mark.marks:
                yield from mark_ink(each)
        case Line():
            yield stroke((mark.start, mark.end), mark.role)
        case Polyline():
            yield stroke(mark.points, mark.role)
        case Curve():
            yield replace(stroke(flattened(mark.points), mark.role), rings=(mark.points,), curved=True)
        case Polygon():
            yield from polygon_ink(mark)
        case Circle():
            yield from circle_ink(mark)
        case Label():
            yield from label_ink(mark)
        case Dimension():
            yield from dimension_ink(mark)
        case Arrow():
            yield from arrow_ink(mark)


def bounds(marks: Iterable[Mark]) -> tuple[float, float, float, float] | None:
    """The box (left, low, right, high) around marks with their letters, without line widths; `None` for nothing at all."""
    points = [at for mark in marks for ink in mark_ink(mark) for at in ink_points(ink)]
    if not points:
        return None
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def ink_points(ink: Ink) -> tuple[Point, ...]:
    """Points whose box is the box of the ink."""
    match ink:
        case Text():
            return ink.corners()
        case Disc():
            (x, y), r = ink.centre, ink.radius
            return ((x - r, y - r), (x + r, y + r))
        case Path():
            return tuple(at for ring in ink.rings for at in (flattened(ring) if ink.curved else ring))


def labels_left_out(drawing: Drawing) -> tuple[str, ...]:
    """The words of labels that found no room at a readable size, for a key beside the picture."""
    return tuple(label.text for label in all_labels(drawing.marks) if fitting_label(label) is None)


def all_labels(marks: Iterable[Mark]) -> Iterator[Label]:
    """The labels among marks, also inside groups."""
    for mark in marks:
        if isinstance(mark, Label):
            yield mark
        elif isinstance(mark, Group):
            yield from all_labels(mark.marks)


# ---- strokes and fills


def stroke(points: tuple[Point, ...], role: Role, *, closed: bool = False) -> Path:
    """A stroked chain whose dashes begin and end with a line."""
    around = (*points, points[0]) if closed else points
    length = sum(math.dist(a, b) for a, b in pairwise(around))
    return Path((points,), role, "line", closed, dash=fitted_dash(STYLES[role].dash, length, closed=closed))


def fitted_dash(dash: tuple[float, ...], length: float, *, closed: bool) -> tuple[float, ...]:
    """The dash pattern stretched a little so that a whole number fits and both ends of an open line are dashes."""
    if not dash or length <= 0:
        return ()
    period, last = sum(dash), (0.0 if closed else dash[0])
    count = max(1, round((length - last) / period))
    stretch = length / (count * period + last)
    return tuple(part * stretch for part in dash)


def polygon_ink(mark: Polygon) -> Iterator[Ink]:
    """Fill, hatching and outline of a polygon, as its role asks."""
    style = STYLES[mark.role]
    rings = (mark.points, *mark.holes)
    if style.fill is not None:
        yield Path(rings, mark.role, "fill", closed=True)
    if style.hatch is not None:
        lines = tuple(hatch_lines(rings, style.hatch))
        if lines:
            yield Path(lines, mark.role, "line", closed=False)
    if style.line is not None:
        for ring in rings:
            yield stroke(ring, mark.role, closed=True)
    elif style.hatch is not None:
        yield Path(rings, mark.role, "line", closed=True)


def circle_ink(mark: Circle) -> Iterator[Ink]:
    """Fill and outline of a circle."""
    style = STYLES[mark.role]
    if style.fill is not None:
        yield Disc(mark.centre, mark.radius, mark.role, "fill")
    if style.line is not None:
        dash = fitted_dash(style.dash, math.tau * mark.radius, closed=True)
        yield Disc(mark.centre, mark.radius, mark.role, "line", dash)


def hatch_lines(rings: tuple[tuple[Point, ...], ...], hatch: Hatch) -> Iterator[tuple[Point, Point]]:
    """The hatch lines inside rings (even-odd): each level of the turned picture is cut at its crossings, which pair up."""
    flat = [[turned_by(at, -hatch.angle) for at in ring] for ring in rings]
    edges = [(a, b) for ring in flat for a, b in zip(ring, ring[1:] + ring[:1], strict=True)]
    lowest, highest = min(y for ring in flat for _, y in ring), max(y for ring in flat for _, y in ring)
    for step in range(math.ceil(lowest / hatch.gap - 0.5), math.floor(highest / hatch.gap - 0.5) + 1):
        level = (step + 0.5) * hatch.gap
        crossings = sorted(
            ax + (level - ay) / (by - ay) * (bx - ax) for (ax, ay), (bx, by) in edges if (ay <= level) != (by <= level)
        )
        for left, right in zip(crossings[::2], crossings[1::2], strict=True):
            yield turned_by((left, level), hatch.angle), turned_by((right, level), hatch.angle)


# ---- words


def fitting_label(label: Label) -> Label | None:
    """The label as it fits its room: smaller, turned, or its short form; `None` where nothing readable fits."""
    if label.room is None:
        return label
    width, height = label.room
    can_turn = label.anchor == "middle" and label.level == "middle"
    for text in (label.text, label.short):
        for wide, high, turn in ((width, height, 0.0), (height, width, 90.0)):
            if not text or (turn and not can_turn):
                continue
            one = replace(label, text=text, size=1.0)
            size = min(label.size, wide / text_width(text, 1.0, label.weight), high / label_height(one))
            if size >= min(SMALLEST_LETTERS, label.size):
                return replace(label, text=text, size=size, angle=(label.angle + turn) % 360)
    return None


def label_height(label: Label) -> float:
    """Height in mm from the top of the capitals of the first line to the descenders of the last."""
    return (label.text.count("\n") * LINE_HEIGHT + CAP_HEIGHT + DESCENT) * label.size


def label_ink(mark: Label) -> Iterator[Ink]:
    """The lines of a label, under them its plate."""
    label = fitting_label(mark)
    if label is None or not label.text.strip():
        return
    lines = label.text.split("\n")
    below = label.text.count("\n") * LINE_HEIGHT * label.size
    cap = CAP_HEIGHT * label.size
    first = {"base": 0.0, "top": -cap, "middle": (below - cap) / 2}[label.level]
    texts = []
    for number, line in enumerate(lines):
        down = first - number * LINE_HEIGHT * label.size
        at = shifted(label.at, *turned_by((0.0, down), label.angle))
        if line.strip():
            texts.append(Text(line, at, label.size, label.anchor, label.angle, label.role, label.weight))
    if label.plate:
        for text in texts:
            yield Path((text.corners(margin=PLATE_MARGIN * text.size),), Role.BLANK, "fill", closed=True)
    yield from texts


# ---- dimensions and arrows

HEAD_LENGTH: Final = 2.4
HEAD_SLENDERNESS: Final = 0.32
"""Width over length of an arrowhead."""

EXTENSION_GAP: Final = 1.0
EXTENSION_OVER: Final = 1.6
TEXT_OVER_LINE: Final = 0.9


def dimension_ink(mark: Dimension) -> Iterator[Ink]:
    """Extension lines, dimension line, arrowheads and words; heads outside and words beyond the end where it is too short."""
    length = math.dist(mark.start, mark.end)
    if length == 0:
        return
    along = ((mark.end[0] - mark.start[0]) / length, (mark.end[1] - mark.start[1]) / length)
    left = (-along[1], along[0])
    side = math.copysign(1.0, mark.offset)
    near, far = min(EXTENSION_GAP, abs(mark.offset)) * side, mark.offset + EXTENSION_OVER * side
    a, b = (walk(at, left, mark.offset) for at in (mark.start, mark.end))
    for at in (mark.start, mark.end):
        yield stroke((walk(at, left, near), walk(at, left, far)), mark.role)
    width = text_width(mark.text, mark.size)
    tight = length < 2.6 * HEAD_LENGTH
    beyond = width > length - 1.5
    angle = math.degrees(math.atan2(along[1], along[0])) % 360
    if 90 + 1e-9 < angle <= 270 + 1e-9:
        angle, ahead, last = (angle + 180) % 360, (-along[0], -along[1]), a
    else:
        ahead, last = along, b
    above = (-ahead[1], ahead[0])
    tail = 1.8 * HEAD_LENGTH if tight else 0.0
    reach = tail + (width + 1.0 if beyond else 0.0)
    start, end = (a, b) if last == b else (b, a)
    yield stroke((walk(start, ahead, -tail), walk(end, ahead, reach)), mark.role)
    yield arrow_head(start, ahead if tight else (-ahead[0], -ahead[1]), mark.role, HEAD_LENGTH)
    yield arrow_head(end, (-ahead[0], -ahead[1]) if tight else ahead, mark.role, HEAD_LENGTH)
    middle = walk(end, ahead, tail + 0.5 + width / 2) if beyond else ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    yield from label_ink(
        Label(mark.text, walk(middle, above, TEXT_OVER_LINE), mark.role, mark.size, level="base", angle=angle)
    )


def arrow_ink(mark: Arrow) -> Iterator[Ink]:
    """Shaft and head of an arrow; a bent shaft is one Bézier arc, and the head follows its end."""
    length = math.dist(mark.start, mark.end)
    if length == 0:
        return
    along = ((mark.end[0] - mark.start[0]) / length, (mark.end[1] - mark.start[1]) / length)
    left = (-along[1], along[0])
    rise = 4 / 3 * mark.bend * length
    one, two = (walk(walk(mark.start, along, part * length), left, rise) for part in (0.22, 0.78))
    run = math.dist(two, mark.end)
    ahead = ((mark.end[0] - two[0]) / run, (mark.end[1] - two[1]) / run)
    back = {"solid": 0.8, "hollow": 1.0, "open": 0.0, "none": 0.0}[mark.head] * mark.head_size
    stop = walk(mark.end, ahead, -back)
    if mark.bend:
        chain = (mark.start, one, walk(two, ahead, -back / 2), stop)
        yield replace(stroke(flattened(chain), mark.role), rings=(chain,), curved=True)
    else:
        yield stroke((mark.start, stop), mark.role)
    if mark.head == "solid":
        yield arrow_head(mark.end, ahead, mark.role, mark.head_size, slenderness=0.6)
    elif mark.head != "none":
        tip, *wings = arrow_head(mark.end, ahead, mark.role, mark.head_size, slenderness=0.7).rings[0]
        if mark.head == "hollow":
            yield Path(((tip, *wings),), mark.role, "paper", closed=True)
            yield Path(((tip, *wings),), mark.role, "line", closed=True)
        else:
            yield Path(((wings[0], tip, wings[1]),), mark.role, "line", closed=False)


def arrow_head(tip: Point, ahead: Point, role: Role, length: float, *, slenderness: float = HEAD_SLENDERNESS) -> Path:
    """A filled triangle with its tip at `tip`, pointing `ahead` (a unit vector)."""
    left = (-ahead[1], ahead[0])
    base = walk(tip, ahead, -length)
    half = length * slenderness / 2
    return Path(((tip, walk(base, left, half), walk(base, left, -half)),), role, "solid", closed=True)


# ---- plane geometry


def shifted(at: Point, right: float, up: float) -> Point:
    """A point moved."""
    return (at[0] + right, at[1] + up)


def walk(at: Point, way: Point, distance: float) -> Point:
    """The point `distance` along a unit vector."""
    return (at[0] + way[0] * distance, at[1] + way[1] * distance)


def turned_by(at: Point, angle: float) -> Point:
    """A point turned anticlockwise about the origin; quarter turns are exact."""
    quarter, rest = divmod(angle % 360, 90)
    if rest == 0:
        x, y = at
        return ((x, y), (-y, x), (-x, -y), (y, -x))[int(quarter)]
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return (at[0] * c - at[1] * s, at[0] * s + at[1] * c)


def flattened(points: tuple[Point, ...], pieces: int = 24) -> tuple[Point, ...]:
    """Points on a chain of cubic Bézier arcs, `pieces` to an arc."""
    chain = [points[0]]
    for i in range(0, len(points) - 1, 3):
        p, q, r, s = points[i : i + 4]
        for step in range(1, pieces + 1):
            t = step / pieces
            u = 1 - t
            weights = (u**3, 3 * u * u * t, 3 * u * t * t, t**3)
            chain.append(tuple(sum(w * at[k] for w, at in zip(weights, (p, q, r, s), strict=True)) for k in (0, 1)))  # type: ignore[arg-type]
    return tuple(chain)
