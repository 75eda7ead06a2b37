"""Plane geometry of blanks, in millimetres: points, directed chains, areas. x runs right, y runs up, print side towards you."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from kitwright.measure import NUMERIC_TOLERANCE

__all__ = [
    "Point",
    "Ring",
    "along",
    "arc_points",
    "bounds",
    "distance",
    "left_normal",
    "same_point",
    "signed_area",
    "unit",
]

Point = tuple[float, float]
Ring = tuple[Point, ...]


def distance(a: Point, b: Point) -> float:
    """Distance between two points, mm."""
    return math.hypot(b[0] - a[0], b[1] - a[1])


def same_point(a: Point, b: Point) -> bool:
    """Whether two points are one within the numeric tolerance."""
    return distance(a, b) <= NUMERIC_TOLERANCE


def unit(a: Point, b: Point) -> Point:
    """Direction from `a` to `b` as a vector of length 1. The points must differ."""
    length = distance(a, b)
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length)


def left_normal(direction: Point) -> Point:
    """The direction turned a quarter to the left."""
    return (-direction[1], direction[0])


def along(start: Point, direction: Point, by: float, across: float = 0.0) -> Point:
    """The point `by` mm from `start` in a direction, then `across` mm to its left."""
    left = left_normal(direction)
    return (start[0] + direction[0] * by + left[0] * across, start[1] + direction[1] * by + left[1] * across)


def signed_area(ring: Sequence[Point]) -> float:
    """Area of a closed ring in mm², above zero where it runs counter-clockwise (shoelace formula)."""
    turns = zip(ring, [*ring[1:], ring[0]], strict=True)
    return math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in turns) / 2


def bounds(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y of the points, mm."""
    every = list(points)
    xs, ys = [p[0] for p in every], [p[1] for p in every]
    return min(xs), min(ys), max(xs), max(ys)


def arc_points(centre: Point, radius: float, start_angle: float, end_angle: float, steps: int) -> Ring:
    """`steps` + 1 points on an arc, both ends included; angles in degrees, counter-clockwise from the x axis."""
    angles = (math.radians(start_angle + (end_angle - start_angle) * i / steps) for i in range(steps + 1))
    return tuple((centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)) for angle in angles)
