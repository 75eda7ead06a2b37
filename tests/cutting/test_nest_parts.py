"""Outlines in convex parts: together they are the outline, and no part is more than it but for filled dents."""

from __future__ import annotations

from itertools import pairwise

import pytest
from shapely import Polygon, unary_union

from kitwright.cutting.nest_parts import NM, convex_parts, grown, turned, whole_ring

CROSS = (
    (0, 10),
    (10, 10),
    (10, 0),
    (20, 0),
    (20, 10),
    (30, 10),
    (27, 20),
    (20, 20),
    (20, 30),
    (10, 30),
    (10, 20),
    (3, 20),
)
NOTCHED = ((0, 0), (40, 0), (40, 30), (24, 30), (22, 26), (20, 25), (18, 26), (16, 30), (0, 30))
SPIRAL = (
    (0, 0),
    (50, 0),
    (50, 40),
    (10, 40),
    (10, 20),
    (30, 20),
    (30, 25),
    (15, 25),
    (15, 35),
    (45, 35),
    (45, 5),
    (0, 5),
)


@pytest.mark.parametrize("outline", [CROSS, NOTCHED, SPIRAL, CROSS[::-1]])
def test_parts_are_convex_and_together_the_outline(outline: tuple[tuple[float, float], ...]) -> None:
    parts = [Polygon(part) for part in convex_parts(whole_ring(outline))]
    assert all(part.convex_hull.area == pytest.approx(part.area) for part in parts)
    whole = Polygon([(x * NM, y * NM) for x, y in outline])
    assert unary_union(parts).symmetric_difference(whole).area < 1e-6 * whole.area
    assert sum(part.area for part in parts) == pytest.approx(whole.area)


def test_shallow_dents_and_points_on_a_straight_way_are_left_out_and_deep_ones_are_not() -> None:
    ring = whole_ring(((0, 0), (20, 0), (40, 0), (40, 30), (20, 29.9), (0, 30)))
    assert len(ring) == 4
    assert len(whole_ring(((0, 0), (40, 0), (40, 30), (20, 29), (0, 30)))) == 5


def test_what_is_grown_has_the_gap_all_round_and_hardly_more() -> None:
    shape = convex_parts(whole_ring(CROSS))
    around = unary_union([Polygon(part) for part in grown(shape, 2 * NM)])
    whole = unary_union([Polygon(part) for part in shape])
    assert around.buffer(2000).contains(whole.buffer(2 * NM))
    assert whole.buffer(2.2 * NM).contains(around)


def test_turning_four_times_changes_nothing() -> None:
    shape = convex_parts(whole_ring(CROSS))
    assert turned(turned(shape, 1), 3) == shape
    assert all(len(one) == len(other) for one, other in pairwise([shape, turned(shape, 1)]))
