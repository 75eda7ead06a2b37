import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, unary_union
from tests.folding.shapes import FROM_ABOVE, FROM_FRONT, block_plates, box_net, ring, spanning_trees, tray

from kitwright.folding import (
    ISOMETRIC,
    Folded,
    Plate,
    View,
    Viewpoint,
    fold,
    look,
    plates,
    seen_areas,
    shift,
)
from kitwright.pattern import Blank, Draft, Panel, Pattern, Side, Stance


def cube() -> Folded:
    return fold(Pattern((box_net((40, 40, 40), next(spanning_trees())),)))


def bounds(view: View) -> tuple[float, ...]:
    """Least x, least y, greatest x, greatest y of all that is drawn."""
    points = [point for face in view.faces for ring, _ in face.pieces for point in ring]
    points += [point for edge in view.edges for point in (edge.start, edge.end)]
    return (*np.min(points, axis=0), *np.max(points, axis=0))


def panels(view: View) -> set[str]:
    return {face.panel.panel for face in view.faces}


# ISO 5456-3: in an isometric view all three axes are foreshortened alike, by √(2/3); a cube shows as a regular hexagon.
def test_a_cube_shows_three_equal_faces_and_nine_equal_edges() -> None:
    view = look(plates(cube()), ISOMETRIC)
    assert [face.area for face in view.faces] == pytest.approx([40 * 40 / math.sqrt(3)] * 3, abs=1e-6)
    assert len(view.edges) == 9
    assert [math.dist(edge.start, edge.end) for edge in view.edges] == pytest.approx(
        [40 * math.sqrt(2 / 3)] * 9, abs=1e-6
    )
    assert all(face.is_print for face in view.faces)


def test_a_plain_block_is_drawn_like_a_box_of_its_size() -> None:
    view = look(block_plates("gift", (0, 0, 0), (40, 40, 40)), ISOMETRIC)
    assert [face.area for face in view.faces] == pytest.approx([40 * 40 / math.sqrt(3)] * 3, abs=1e-6)
    assert len(view.edges) == 9


def test_a_block_stands_in_the_picture_where_it_stands_in_the_world() -> None:
    block = block_plates("gift", (10, 20, 30), (17, 20, 42))
    assert bounds(look(block, FROM_FRONT)) == pytest.approx((10, 30, 17, 42))
    assert look((), FROM_FRONT) == View((), ())


def test_a_cube_from_the_front_shows_one_face_and_four_edges() -> None:
    view = look(plates(cube()), FROM_FRONT)
    assert [face.area for face in view.faces] == pytest.approx([1600], abs=1e-6)
    assert len({frozenset((edge.start, edge.end)) for edge in view.edges}) == 4


def test_the_viewpoint_says_where_the_viewer_stands() -> None:
    standing = Draft("card")
    standing.panel("face", 30, 20)
    folded = fold(Pattern((standing.finish(),), stance=Stance.STANDING))
    (front,) = look(plates(folded), FROM_FRONT).faces
    assert front.is_print
    assert front.arrow is not None
    assert front.arrow.direction == pytest.approx((0, 1))
    (behind,) = look(plates(folded), Viewpoint(180, 0)).faces
    assert (behind.is_print, behind.arrow) == (False, None)
    assert look(plates(folded), FROM_ABOVE).faces == ()
    assert len({frozenset((edge.start, edge.end)) for edge in look(plates(folded), FROM_ABOVE).edges}) == 1


@pytest.mark.parametrize(("tabs", "from_outside"), [(Side.UNDER, False), (Side.OVER, True)])
def test_tabs_show_on_the_side_on_which_they_are_glued(tabs: Side, from_outside: bool) -> None:
    folded = fold(tray(60, 40, 20, tabs=tabs))
    west = look(plates(folded), Viewpoint(90, 0))  # face down, the west wall stands on the right
    assert any("tab" in tag for tag in panels(west)) is from_outside
    inside = look(plates(folded), Viewpoint(-90, 60))
    on_west_wall = {"south right tab", "north left tab"}
    assert bool(panels(inside) & on_west_wall) is not from_outside


def test_a_hole_lets_what_is_behind_show() -> None:
    hole = ((10.0, 5.0), (20.0, 5.0), (20.0, 15.0), (10.0, 15.0))
    panel = Panel("window", ((0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)), ("a", "b", "c", "d"), holes=(hole,))
    window = plates(fold(Pattern((Blank("card", (panel,), ()),), stance=Stance.STANDING)))
    view = look((*window, *block_plates("gift", (0, 5, 0), (30, 10, 20))), FROM_FRONT)
    areas = {face.panel.panel: face.area for face in view.faces}
    assert areas == pytest.approx({"window": 500, "gift": 100})
    assert sum(
        math.dist(edge.start, edge.end) for edge in view.edges if edge.panels == (window[0].panel,)
    ) == pytest.approx(140)
    assert [edge for edge in view.edges if edge.panels != (window[0].panel,) and 12 < edge.start[0] < 18] == []


def test_a_lid_lifted_off_shows_what_is_in_the_box() -> None:
    base, lid = fold(tray(60, 40, 20)).standing(), fold(tray(60, 40, 10, name="lid")).standing()
    lid = lid.moved(np.diag([1.0, -1.0, -1.0, 1.0])).standing()
    scene = (*plates(base), *block_plates("cards", (5, 5, 0), (55, 35, 15)))
    assert "cards" in panels(look(scene, ISOMETRIC))
    assert "cards" not in panels(look((*scene, *plates(lid.moved(shift(0, 0, 12)))), ISOMETRIC))
    assert "cards" in panels(look((*scene, *plates(lid.moved(shift(0, 0, 90)))), ISOMETRIC))


def test_how_much_of_every_plate_is_seen_is_what_its_faces_in_the_picture_measure() -> None:
    scene = (*plates(fold(tray(60, 40, 20))), *block_plates("gift", (10, 10, 2), (30, 25, 45)))
    for viewpoint in (ISOMETRIC, Viewpoint(30, -20), FROM_ABOVE):
        areas = [(tag, area) for tag, area in seen_areas(scene, viewpoint) if area]
        faces = [(face.panel, face.area) for face in look(scene, viewpoint).faces]
        assert [tag for tag, _ in areas] == [tag for tag, _ in faces] != []
        assert [area for _, area in areas] == pytest.approx([area for _, area in faces], rel=1e-9)


def test_a_panel_that_passes_through_another_is_cut_where_they_meet() -> None:
    draft = Draft("frame")
    floor = draft.panel("floor", 50, 40)
    floor.fold_out("east", "wall", 30, angle=90).fold_out("far", "roof", 70, angle=90, inset=(5, 5))
    floor.fold_out("west", "other wall", 60, angle=90)
    view = look(plates(fold(Pattern((draft.finish(),)))), Viewpoint(0, 89.9))
    roof = next(face for face in view.faces if face.panel.panel == "roof")
    assert roof.area == pytest.approx(70 * 30, rel=1e-3)
    view = look(plates(fold(Pattern((draft.finish(),)))), Viewpoint(-89.9, 0))
    roof_seen = [face for face in view.faces if face.panel.panel == "roof"]
    assert sum(face.area for face in roof_seen) < 1


# A second, slower way to the same answer: shoot a ray through a point of the picture and take the plate that it meets first.
def nearest(scene: tuple[Plate, ...], viewpoint: Viewpoint, at: tuple[float, float]) -> set[object]:
    axes = viewpoint.axes
    eye = at[0] * axes[0] + at[1] * axes[1]
    hits: list[tuple[float, object]] = []
    for plate in scene:
        towards = float(plate.normal @ axes[2])
        if abs(towards) < 1e-3:
            continue
        way = float(plate.normal @ (plate.ring[0] - eye)) / towards
        first = plate.ring[1] - plate.ring[0]
        first /= np.linalg.norm(first)
        frame = np.array((first, np.cross(plate.normal, first)))
        spot = frame @ (eye + way * axes[2] - plate.ring[0])
        if Polygon((plate.ring - plate.ring[0]) @ frame.T).covers(Point(spot)):
            hits.append((way, plate.panel))
    best = max((way for way, _ in hits), default=0.0)
    return {tag for way, tag in hits if way > best - 1e-6}


@settings(deadline=None, max_examples=40)
@given(
    turn=st.floats(-180, 180),
    rise=st.floats(-90, 90),
    share=st.sampled_from([1.0, 0.7, 0.31]),
    data=st.data(),
)
def test_every_point_of_a_view_shows_the_plate_that_a_ray_meets_first(
    turn: float, rise: float, share: float, data: st.DataObject
) -> None:
    viewpoint = Viewpoint(turn, rise)
    folded = fold(
        data.draw(st.sampled_from([tray(60, 40, 25), ring((60, 40, 60, 40), 30, 8, 3)])), share=share
    ).standing()
    scene = (*plates(folded), *block_plates("gift", (10, 10, 2), (30, 25, 45)))
    view = look(scene, viewpoint)
    assume(view.faces)
    left, low, right, high = bounds(view)
    shapes = [(face.panel, [Polygon(*piece) for piece in face.pieces]) for face in view.faces]
    for _ in range(25):
        at = (data.draw(st.floats(left, right)), data.draw(st.floats(low, high)))
        point = Point(at)
        if any(piece.boundary.distance(point) < 1e-3 for _, pieces in shapes for piece in pieces):
            continue
        shown = {tag for tag, pieces in shapes if any(piece.contains(point) for piece in pieces)}
        expected = nearest(scene, viewpoint, at)
        assert shown <= expected
        assert bool(shown) is bool(expected)
        assert len(shown) <= 1


@settings(deadline=None, max_examples=25)
@given(turn=st.floats(-178, 178), rise=st.floats(2, 80))
def test_lines_are_drawn_where_visible_faces_end_and_nowhere_else(turn: float, rise: float) -> None:
    assume(2 < abs(turn) % 90 < 88)  # walls seen nearly edge on are drawn as lines
    view = look(plates(fold(tray(60, 40, 25))), Viewpoint(turn, rise))
    ends = unary_union([Polygon(*piece).boundary for face in view.faces for piece in face.pieces])
    lines = unary_union([LineString((edge.start, edge.end)) for edge in view.edges])
    assert lines.difference(ends.buffer(0.01)).length == 0
    assert ends.difference(lines.buffer(0.01)).length == 0


def test_what_was_drawn_stays_the_same_from_run_to_run() -> None:
    one, other = (look(plates(fold(tray(60, 40, 25))), ISOMETRIC) for _ in range(2))
    assert one == other
