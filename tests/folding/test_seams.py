import math

import pytest
from tests.folding.closing import close_edges, euler_number, signed_volume
from tests.folding.shapes import box_net, free_polyominoes, polyomino_blank, polyomino_trees, ring, spanning_trees, tray

from kitwright.folding import fold, seam_residual
from kitwright.pattern import Draft, EdgeRef, PanelRef, Pattern, Seam, Stance


def tray_seam(folded_angle: float = -90.0) -> tuple[Pattern, Seam, PanelRef]:
    west = PanelRef("tray", "west")
    return tray(60, 40, 20), Seam(EdgeRef(PanelRef("tray", "south"), "right"), EdgeRef(west, "left")), west


def test_a_corner_of_a_tray_meets_exactly() -> None:
    pattern, seam, _ = tray_seam()
    residual = seam_residual(fold(pattern), seam)
    assert (residual.gap, residual.slide, residual.angle) == (0, 0, 0)


def test_a_wall_that_leans_opens_its_seam_by_the_chord_and_the_angle() -> None:
    pattern, seam, west = tray_seam()
    residual = seam_residual(fold(pattern, {west: -87.0}), seam)
    assert residual.angle == pytest.approx(3.0, abs=1e-9)
    assert residual.gap == pytest.approx(20 * math.sin(math.radians(3)), abs=1e-9)
    assert residual.slide == pytest.approx(20 * (1 - math.cos(math.radians(3))), abs=1e-9)


def tube(last: float) -> tuple[Pattern, Seam]:
    pattern = ring((60, 40, 60, last), 30, 8, 3)
    return pattern, Seam(EdgeRef(PanelRef("sleeve", "wall 4"), "far"), EdgeRef(PanelRef("sleeve", "wall 1"), "west"))


def test_a_wall_one_millimetre_too_long_leaves_a_gap_of_one_millimetre() -> None:
    for last, gap in ((40, 0.0), (41, 1.0)):
        residual = seam_residual(fold(tube(last)[0]), tube(last)[1])
        assert residual.gap == pytest.approx(gap, abs=1e-12)
        assert (residual.slide, residual.angle) == pytest.approx((0, 0), abs=1e-12)


def test_a_seam_that_is_shifted_along_itself_shows_as_slide() -> None:
    draft = Draft("strip")
    first = draft.panel("first", 60, 30)
    second = first.fold_out("east", "second", 60, angle=-180, inset=(2, 0))
    pattern = Pattern((draft.finish(),))
    residual = seam_residual(fold(pattern), Seam(first.edge("west"), second.edge("far")))
    assert residual.gap == pytest.approx(0, abs=1e-12)
    assert residual.slide == pytest.approx(2, abs=1e-12)


@pytest.mark.parametrize("sides", [(1, 1, 2), (2, 3, 4)])
def test_every_net_of_a_box_closes_and_holds_its_volume(sides: tuple[int, int, int]) -> None:
    a, b, c = sides
    for tree in list(spanning_trees())[::7]:
        folded = fold(Pattern((box_net(sides, tree),)))
        closure = close_edges(folded)
        assert closure.is_closed
        assert len(closure.pairs) == 7
        assert euler_number(folded) == 2
        assert signed_volume(folded) == pytest.approx(a * b * c, abs=1e-9)
        inside_out = fold(Pattern((box_net(sides, tree, angle=90.0),)))
        assert signed_volume(inside_out) == pytest.approx(-a * b * c, abs=1e-9)


# Goldstone & Suzzi Valli, "Unfoldings of the cube", arXiv:1604.05004: eleven nets.
def test_exactly_eleven_of_the_hexominoes_close_to_a_cube() -> None:
    closed = []
    for cells in free_polyominoes(6):
        blank = polyomino_blank(cells, next(polyomino_trees(cells)))
        if close_edges(fold(Pattern((blank,)))).is_closed:
            closed.append(cells)
    assert len(closed) == 11


def test_edges_that_meet_nothing_and_edges_that_meet_too_many_are_named() -> None:
    row = tuple(((x, 0), (x + 1, 0)) for x in range(3))
    caps = (((0, 0), (0, 1)), ((1, 0), (1, 1)))  # both caps close the same end of the tube
    cells = frozenset(cell for pair in (*row, *caps) for cell in pair)
    closure = close_edges(fold(Pattern((polyomino_blank(cells, (*row, *caps)),))))
    assert not closure.is_closed
    assert {edge.panel.panel for edge in closure.overmatched} == {"(2, 0)", "(3, 0)"}
    assert {edge.panel.panel for edge in closure.unmatched if edge.panel.panel.endswith("0)")} == {
        f"({x}, 0)" for x in range(4)
    }  # the open end


def test_a_net_one_part_in_a_thousand_out_does_not_close() -> None:
    net = box_net((2, 3, 4), next(spanning_trees()))
    child = PanelRef("net", net.scores[0].child)
    assert not close_edges(fold(Pattern((net,)), {child: -89.9})).is_closed
    assert close_edges(fold(Pattern((net,)), {child: -89.9}), tolerance=0.1).is_closed


def test_glue_tabs_do_not_count_as_faces() -> None:
    folded = fold(ring((60, 40, 60, 40), 30, 8, 3))
    closure = close_edges(folded)
    assert len(closure.pairs) == 1  # the seam under the tab
    assert len(closure.unmatched) == 8  # the open ends of the tube


# Square pyramid, base 60, height 40: slant 50, lateral edge 58.309519, fold from flat 126.869898 degrees (geometry).
def test_a_square_pyramid_closes_at_the_angle_that_geometry_gives() -> None:
    draft = Draft("pyramid")
    base = draft.panel("base", 60, 60)
    for side in ("south", "east", "north", "west"):
        base.fold_out(side, side, 50, angle=-126.86989764584402, taper=(30, 30))
    folded = fold(Pattern((draft.finish(),), stance=Stance.FACE_DOWN))
    closure = close_edges(folded)
    assert closure.is_closed
    assert signed_volume(folded) == pytest.approx(60 * 60 * 40 / 3, abs=1e-6)
    assert euler_number(folded) == 2
    edge = closure.pairs[0][0]
    assert math.dist(edge.start, edge.end) == pytest.approx(58.309519, abs=1e-6)


# Tray with leaning walls, base 60, top 100, height 40: wall slant 44.721360, fold from flat 63.434949 degrees (geometry).
def test_a_tray_with_leaning_walls_closes_at_the_angle_that_geometry_gives() -> None:
    slant, angle = 44.721359549995796, 63.43494882292201
    draft = Draft("planter")
    base = draft.panel("base", 60, 60)
    walls = [
        base.fold_out(side, side, slant, angle=-angle, taper=(-20, -20)) for side in ("south", "east", "north", "west")
    ]
    folded = fold(Pattern((draft.finish(),), stance=Stance.FACE_DOWN)).standing()
    assert folded.bounds()[1] == pytest.approx((100, 100, 40), abs=1e-9)
    for one, other in zip(walls, walls[1:] + walls[:1], strict=True):
        residual = seam_residual(folded, Seam(one.edge("left"), other.edge("right")))
        assert (residual.gap, residual.slide, residual.angle) == pytest.approx((0, 0, 0), abs=1e-9)
