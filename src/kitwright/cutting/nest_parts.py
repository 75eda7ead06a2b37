"""An outline in convex parts, as whole nanometres: what can be reckoned with exactly, the same on every computer."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

__all__ = ["Flat", "Points", "convex_parts", "grown", "turned", "whole_ring"]

Points = tuple[tuple[int, int], ...]
"""Points in nanometres, to the left round what they enclose."""

Flat = tuple[Points, ...]
"""A shape as convex parts, which together cover it."""

NM: Final = 1_000_000
"""In a millimetre."""

SHALLOW: Final = NM // 4
"""A dent less deep than this is filled up: it holds no other piece, and a round one would make a hundred parts."""


FINE: Final = NM // 100
MOST_SIDES: Final = 60
"""An outline with more sides is made blunter, by hundredths of a millimetre where that is enough."""


def whole_ring(outline: Sequence[tuple[float, float]]) -> Points:
    """An outline (mm) in nanometres, to the left round, without points on a straight way and without shallow dents."""
    ring = [(round(x * NM), round(y * NM)) for x, y in outline]
    if sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)) < 0:
        ring.reverse()
    return tuple(blunted(filled_up(ring)))


def filled_up(ring: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """The ring without points on a straight way, and without inner corners whose dent is shallow, the shallowest first."""
    ring = list(ring)
    depths = [depth(ring, at) for at in range(len(ring))]
    while len(ring) > 3 and min(depths) <= SHALLOW:
        at = depths.index(min(depths))
        del ring[at], depths[at]
        for beside in (at - 1, at % len(ring)):
            depths[beside] = depth(ring, beside)
    return ring


def blunted(ring: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """The ring with fewer sides where it has very many: sides of a round edge are left out, and their
    neighbours made longer until they meet.
    """
    most = FINE
    while len(ring) > MOST_SIDES and most <= SHALLOW:
        kept, at = [], 0
        while at < len(ring):
            corner = corner_over(ring, at, most) if at + 1 < len(ring) else None
            kept.append(ring[at] if corner is None else corner)
            at += 1 if corner is None else 2
        ring, most = filled_up(kept), 2 * most
    return ring


def corner_over(ring: Sequence[tuple[int, int]], at: int, most: int) -> tuple[int, int] | None:
    """Where the sides before and after the one that begins here would meet outside of it, if no farther from it than `most`."""
    before, start, end, after = (ring[(at + step) % len(ring)] for step in (-1, 0, 1, 2))
    if cross(before, start, end) <= 0 or cross(start, end, after) <= 0 or cross(before, start, after) <= 0:
        return None
    (ux, uy), (vx, vy) = (start[0] - before[0], start[1] - before[1]), (after[0] - end[0], after[1] - end[1])
    turn = ux * vy - uy * vx
    if turn <= 0:
        return None
    by = (end[0] - start[0]) * vy - (end[1] - start[1]) * vx
    corner = start[0] + ux * by // turn, start[1] + uy * by // turn
    return corner if abs(cross(start, end, corner)) <= most * math.dist(start, end) else None


def depth(ring: Sequence[tuple[int, int]], at: int) -> float:
    """How deep a dent at an inner corner is; 0 for a point on a straight way, infinite for an outer corner and where filling would hit."""
    before, here, after = ring[at - 1], ring[at], ring[(at + 1) % len(ring)]
    side = cross(before, here, after)
    if side > 0:
        return math.inf
    if side == 0:
        return 0.0
    deep = -side / math.dist(before, after) if before != after else math.inf
    if deep <= SHALLOW and any(
        is_in(point, (before, after, here)) for point in ring if point not in (before, here, after)
    ):
        return math.inf
    return deep


def cross(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int]) -> int:
    """Above zero where the way from a over b to c turns left."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def is_in(point: tuple[int, int], triangle: Sequence[tuple[int, int]]) -> bool:
    """Whether a point lies in a triangle (to the left round) or on its edge."""
    a, b, c = triangle
    return cross(a, b, point) >= 0 and cross(b, c, point) >= 0 and cross(c, a, point) >= 0


def convex_parts(ring: Points) -> Flat:
    """Convex parts of a simple ring, to the left round: triangles cut off at its outer corners, joined again while that is convex.

    Hertel and Mehlhorn, Fast triangulation of simple polygons (1983), for the joining.
    """
    parts: list[list[tuple[int, int]]] = []
    left = list(ring)
    if all(cross(left[at - 2], left[at - 1], left[at]) >= 0 for at in range(len(left))):
        return (ring,)
    while len(left) > 3:
        at = next((at for at in range(len(left)) if is_ear(left, at)), None)
        if at is None:  # only where the ring crosses itself: its hull holds what is left
            return (*map(tuple, parts), hull(left))
        ear = [left[at - 1], left[at], left[(at + 1) % len(left)]]
        if cross(*ear):
            parts.append(ear)
        del left[at]
    if cross(*left):
        parts.append(left)
    joined = 0
    while joined < len(parts):
        for other in range(joined + 1, len(parts)):
            both = joined_at_edge(parts[joined], parts[other])
            if both is not None:
                parts[joined] = both
                del parts[other]
                break
        else:
            joined += 1
    return tuple(tuple(part) for part in parts)


def is_ear(ring: Sequence[tuple[int, int]], at: int) -> bool:
    """Whether the triangle at a corner holds no other point of the ring."""
    before, here, after = ring[at - 1], ring[at], ring[(at + 1) % len(ring)]
    if cross(before, here, after) <= 0:
        return cross(before, here, after) == 0
    return not any(is_in(point, (before, here, after)) for point in ring if point not in (before, here, after))


def joined_at_edge(one: list[tuple[int, int]], other: list[tuple[int, int]]) -> list[tuple[int, int]] | None:
    """Two parts with an edge in common as one, if that is convex."""
    for at, start in enumerate(one):
        end = one[(at + 1) % len(one)]
        if start not in other:
            continue
        there = other.index(start)
        if other[there - 1] != end:
            continue
        # one from the end of the edge all round to its start, then the other between them
        way = [one[(at + 1 + step) % len(one)] for step in range(len(one))]
        way += [other[(there + step) % len(other)] for step in range(1, len(other) - 1)]
        turns = [cross(way[i - 1], way[i], way[(i + 1) % len(way)]) for i in range(len(way))]
        if min(turns) >= 0:
            return [point for point, turn in zip(way, turns, strict=True) if turn > 0]
        return None
    return None


def hull(points: Sequence[tuple[int, int]]) -> Points:
    """The convex hull (Andrew's monotone chain)."""

    def chain(ordered: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
        found: list[tuple[int, int]] = []
        for point in ordered:
            while len(found) > 1 and cross(found[-2], found[-1], point) <= 0:
                found.pop()
            found.append(point)
        return found[:-1]

    ordered = sorted(set(points))
    return (*chain(ordered), *chain(ordered[::-1]))


def turned(shape: Flat, quarters: int) -> Flat:
    """The shape turned so many quarters to the left about the zero point."""
    for _ in range(quarters % 4):
        shape = tuple(tuple((-y, x) for x, y in part) for part in shape)
    return shape


def grown(shape: Flat, by: int) -> Flat:
    """The shape with so much (nm) all round it: what a disc sweeps, with the eight-sided figure round it in place of the disc."""
    if by == 0:
        return shape
    near = math.isqrt(2 * by * by) - by + 1  # by × (√2 - 1), rounded up: half a side of the figure
    around = [(x, y) for x, y in ((by, near), (near, by))]
    around = [(sx * x, sy * y) for x, y in around for sx in (1, -1) for sy in (1, -1)]
    return tuple(hull([(x + dx, y + dy) for x, y in part for dx, dy in around]) for part in shape)
