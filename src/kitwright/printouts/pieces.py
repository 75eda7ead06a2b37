"""The pieces that every drawing comes down to (strokes, fills, lines of text), and how geometry becomes them. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, TypeAlias

from kitwright.printouts.drawing import Anchor, Circle, Point, Polygon, Role, Shapes, Weight
from kitwright.printouts.lettering import CAP_HEIGHT, DESCENT, text_width
from kitwright.printouts.style import STYLES, Hatch

__all__ = [
    "Disc",
    "Ink",
    "Paint",
    "Path",
    "Text",
    "circle_ink",
    "flattened",
    "polygon_ink",
    "shapes_ink",
    "shifted",
    "stroke",
    "turned_by",
    "walk",
]

Paint: TypeAlias = Literal["line", "fill", "solid", "paper"]
"""`line`: stroked in the role's line; `fill`: filled with its fill; `solid`: filled with its line colour; `paper`: with paper."""


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


# ---- strokes and fills


def stroke(points: tuple[Point, ...], role: Role, *, closed: bool = False) -> Path:
    """A stroked chain whose dashes begin and end with a line."""
    around = (*points, points[0]) if closed else points
    length = math.fsum(math.dist(a, b) for a, b in pairwise(around))
    return Path((points,), role, "line", closed, dash=fitted_dash(STYLES[role].dash, length, closed=closed))


def fitted_dash(dash: tuple[float, ...], length: float, *, closed: bool) -> tuple[float, ...]:
    """The dash pattern stretched a little so that a whole number fits and both ends of an open line are dashes."""
    if not dash or length <= 0:
        return ()
    period, last = math.fsum(dash), (0.0 if closed else dash[0])
    count = max(1, round((length - last) / period))
    stretch = length / (count * period + last)
    return tuple(part * stretch for part in dash)


def polygon_ink(mark: Polygon) -> Iterator[Ink]:
    """Fill, hatching and outline of a polygon, as its role asks."""
    yield from rings_ink((mark.points, *mark.holes), mark.role)


def shapes_ink(mark: Shapes) -> Iterator[Ink]:
    """Fills, hatching and outlines of shapes, each in one piece where its lines have no dashes."""
    if mark.outlines:
        yield from rings_ink(mark.outlines, mark.role)


def rings_ink(rings: tuple[tuple[Point, ...], ...], role: Role) -> Iterator[Ink]:
    """What lies within an odd number of rings, as its role asks."""
    style = STYLES[role]
    if style.fill is not None:
        yield Path(rings, role, "fill", closed=True)
    if style.hatch is not None:
        lines = tuple(hatch_lines(rings, style.hatch))
        if lines:
            yield Path(lines, role, "line", closed=False, dash=style.dash)
    if style.line is not None and style.dash:
        for ring in rings:
            yield stroke(ring, role, closed=True)
    elif style.line is not None or style.hatch is not None:
        yield Path(rings, role, "line", closed=True, dash=style.dash)


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
            x, y = (math.fsum(w * at[k] for w, at in zip(weights, (p, q, r, s), strict=True)) for k in (0, 1))
            chain.append((x, y))
    return tuple(chain)
