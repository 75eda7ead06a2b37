import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.printouts.annotate import spread
from kitwright.printouts.drawing import (
    Arrow,
    Circle,
    Dimension,
    Drawing,
    Label,
    Line,
    Mark,
    Polygon,
    Role,
    Running,
)
from kitwright.printouts.ink import SMALLEST_LETTERS, Disc, Ink, Path, Text, bounds, ink_of
from kitwright.printouts.pieces import fitted_dash, hatch_lines
from kitwright.printouts.style import STYLES, Hatch

SQUARE = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))


def ink(*marks: Mark) -> tuple[Ink, ...]:
    return ink_of(Drawing(100, 100, marks))


def texts(*marks: Mark) -> list[Text]:
    return [each for each in ink(*marks) if isinstance(each, Text)]


def lines(*marks: Mark) -> list[Path]:
    return [each for each in ink(*marks) if isinstance(each, Path) and each.paint == "line"]


def heads(*marks: Mark) -> list[Path]:
    return [each for each in ink(*marks) if isinstance(each, Path) and each.paint == "solid"]


# ---- dashes


@settings(max_examples=80, deadline=None)
@given(length=st.floats(0.5, 2000), role=st.sampled_from([Role.VALLEY, Role.MOUNTAIN, Role.HIDDEN, Role.BEFORE]))
def test_a_dashed_line_begins_and_ends_with_a_whole_dash(length: float, role: Role) -> None:
    dash = fitted_dash(STYLES[role].dash, length, closed=False)
    periods = (length - dash[0]) / sum(dash)
    assert periods == pytest.approx(round(periods), abs=1e-6)
    assert round(periods) >= 1


@settings(max_examples=40, deadline=None)
@given(length=st.floats(20, 2000), role=st.sampled_from([Role.VALLEY, Role.MOUNTAIN]))
def test_dashes_are_stretched_by_a_quarter_at_most_on_lines_of_some_length(length: float, role: Role) -> None:
    dash = fitted_dash(STYLES[role].dash, length, closed=False)
    assert 0.75 < dash[0] / STYLES[role].dash[0] < 1.25


def test_the_dashes_of_a_closed_line_meet() -> None:
    dash = fitted_dash((2.0, 1.0), 31.0, closed=True)
    assert 31.0 / sum(dash) == pytest.approx(10)


def test_continuous_lines_and_points_have_no_dashes() -> None:
    assert fitted_dash((), 30, closed=False) == ()
    assert fitted_dash((2.0, 1.0), 0, closed=False) == ()


# ---- hatching, against an independent geometry library


@settings(max_examples=40, deadline=None)
@given(
    corners=st.lists(st.tuples(st.floats(0, 60), st.floats(0, 60)), min_size=3, max_size=7, unique=True),
    angle=st.sampled_from([0.0, 45.0, 135.0, 90.0, 20.0]),
)
def test_hatch_lines_cover_the_shape_and_nothing_else(corners: list[tuple[float, float]], angle: float) -> None:
    hull = shapely.MultiPoint(corners).convex_hull
    if not isinstance(hull, shapely.Polygon) or hull.area < 50:
        return
    hole = hull.centroid.buffer(2.0, quad_segs=2)
    if not hull.contains(hole.buffer(0.5)):
        return
    shape = hull.difference(hole)
    rings = (tuple(hull.exterior.coords)[:-1], tuple(hole.exterior.coords)[:-1])
    made = shapely.MultiLineString(list(hatch_lines(rings, Hatch(angle, 1.5))))
    assert made.difference(shape.buffer(1e-6)).length == pytest.approx(0, abs=1e-6)
    # Lines 1.5 mm apart: their whole length times 1.5 is the area, as well as strips can give it.
    assert made.length * 1.5 == pytest.approx(shape.area, abs=1.5 * (hull.length + hole.length) / 2)


def test_a_glue_area_is_hatched_at_45_degrees_and_rimmed_but_not_filled() -> None:
    pieces = ink(Polygon(SQUARE, Role.GLUE))
    assert [each.paint for each in pieces if isinstance(each, Path)] == ["line", "line"]
    hatching, rim = pieces
    assert isinstance(hatching, Path)
    assert isinstance(rim, Path)
    (ax, ay), (bx, by) = hatching.rings[0]
    assert (by - ay) == pytest.approx(bx - ax)
    assert rim.rings == (SQUARE,)


# ---- labels


def test_a_label_stands_in_the_middle_of_its_capitals() -> None:
    (text,) = texts(Label("front", (20, 15), size=4))
    assert text.at == pytest.approx((20, 15 - 0.33 * 4))  # half of the font's capital height, 0.66


def test_lines_of_a_label_stand_below_each_other_about_its_point() -> None:
    one, two = texts(Label("left\npanel", (20, 15), size=4))
    assert one.at[1] - two.at[1] == pytest.approx(4.8)
    assert (one.at[1] + 0.66 * 4 + two.at[1]) / 2 == pytest.approx(15)


def test_a_turned_label_has_its_lines_side_by_side() -> None:
    one, two = texts(Label("left\npanel", (20, 15), size=4, angle=90))
    assert two.at[0] - one.at[0] == pytest.approx(4.8)
    assert one.at[1] == two.at[1] == pytest.approx(15)


def test_a_label_without_room_for_its_words_is_made_smaller_then_turned_then_short_then_left_out() -> None:
    (same,) = texts(Label("front panel", (0, 0), size=4, room=(60, 60)))
    assert (same.size, same.angle) == (4, 0)
    (smaller,) = texts(Label("front panel", (0, 0), size=4, room=(18, 60)))
    assert SMALLEST_LETTERS <= smaller.size < 4
    assert smaller.angle == 0
    (upright,) = texts(Label("front panel", (0, 0), size=4, room=(6, 60)))
    assert (upright.size, upright.angle) == (4, 90)
    (short,) = texts(Label("front panel", (0, 0), size=4, room=(6, 6), short="F"))
    assert short.text == "F"
    tiny = Label("front panel", (0, 0), size=4, room=(6, 6))
    assert texts(tiny) == []


@settings(max_examples=60, deadline=None)
@given(
    width=st.floats(2, 60),
    height=st.floats(2, 60),
    words=st.sampled_from(["front", "north wall left tab", "a\nb c", "4 1/4"]),
)
def test_a_label_never_leaves_its_room(width: float, height: float, words: str) -> None:
    for text in texts(Label(words, (0, 0), size=5, room=(width, height), short="N")):
        xs, ys = zip(*text.corners(), strict=True)
        assert (
            max(map(abs, xs)) <= width / 2 + 1e-6 + 0.11 * text.size
        )  # capitals are centred, a g hangs 0.22 below: half of it
        assert max(map(abs, ys)) <= height / 2 + 1e-6 + 0.11 * text.size
        assert text.size >= SMALLEST_LETTERS


def test_a_plate_lies_under_the_words() -> None:
    plate, text = ink(Label("front", (20, 15), plate=True))
    assert isinstance(plate, Path)
    assert isinstance(text, Text)
    assert plate.role is Role.BLANK
    under = shapely.Polygon(plate.rings[0])
    assert under.contains(shapely.Polygon(text.corners()))


def test_words_of_nothing_but_spaces_leave_no_ink() -> None:
    assert ink(Label("  ", (0, 0), plate=True)) == ()


# ---- dimensions


def test_a_dimension_line_stands_beside_what_it_measures_and_is_as_long() -> None:
    one, two, line = lines(Dimension((10, 20), (60, 20), "50 mm", -8))
    assert line.rings == (((10.0, 12.0), (60.0, 12.0)),)
    assert one.rings == (((10.0, 19.0), (10.0, 10.4)),)  # 1 mm free of the edge, 1.6 mm over the line
    assert two.rings == (((60.0, 19.0), (60.0, 10.4)),)
    left, right = heads(Dimension((10, 20), (60, 20), "50 mm", -8))
    assert left.rings[0][0] == (10.0, 12.0)
    assert right.rings[0][0] == (60.0, 12.0)
    assert all(10 <= x <= 60 for head in (left, right) for x, _ in head.rings[0])


@pytest.mark.parametrize(
    ("end", "angle"),
    [((50, 0), 0), ((-50, 0), 0), ((0, 50), 90), ((0, -50), 90), ((50, 50), 45), ((-50, -50), 45), ((50, -50), 315)],
)
def test_a_dimension_is_read_from_below_or_from_the_right(end: tuple[float, float], angle: float) -> None:
    # Reading directions of ISO 129-1 (from memory).
    for offset in (8, -8):
        (text,) = texts(Dimension((0, 0), end, "50", offset))
        assert text.angle == pytest.approx(angle)


@pytest.mark.parametrize("offset", [8, -8])
@pytest.mark.parametrize("turn", range(0, 360, 15))
def test_the_words_of_a_dimension_stand_above_its_line_whichever_way_it_runs(turn: int, offset: float) -> None:
    end = (60 * math.cos(math.radians(turn)), 60 * math.sin(math.radians(turn)))
    mark = Dimension((0, 0), end, "60 mm", offset)
    (text,) = texts(mark)
    line = lines(mark)[2].rings[0]
    up = (-math.sin(math.radians(text.angle)), math.cos(math.radians(text.angle)))
    middle = ((line[0][0] + line[1][0]) / 2, (line[0][1] + line[1][1]) / 2)
    assert (text.at[0] - middle[0]) * up[0] + (text.at[1] - middle[1]) * up[1] == pytest.approx(0.9)


def test_a_short_dimension_has_its_heads_outside_and_its_words_beyond_the_end() -> None:
    mark = Dimension((0, 0), (3, 0), "3 mm", 8)
    left, right = heads(mark)
    assert left.rings[0][0] == (0.0, 8.0)
    assert left.rings[0][1][0] < 0
    assert right.rings[0][0] == (3.0, 8.0)
    assert right.rings[0][1][0] > 3
    (text,) = texts(mark)
    assert min(x for x, _ in text.corners()) > 3


def test_a_dimension_of_nothing_leaves_no_ink() -> None:
    assert ink(Dimension((5, 5), (5, 5), "0")) == ()


# ---- running dimensions


def test_running_dimensions_mark_every_stop_from_one_zero() -> None:
    mark = Running((0, 0), (100, 0), ((75, "75"), (20, "20")), -6)
    (zero,) = [each for each in ink(mark) if isinstance(each, Disc)]
    assert zero.centre == (0.0, -6.0)
    assert [head.rings[0][0] for head in heads(mark)] == [(20, -6), (75, -6)]
    assert [text.text for text in texts(mark)] == ["20", "75"]
    assert [(text.at[0], text.angle, text.anchor) for text in texts(mark)] == [(20, 0, "middle"), (75, 0, "middle")]


def test_running_dimensions_that_have_no_room_along_the_line_stand_square_to_it() -> None:
    mark = Running((0, 0), (12, 0), ((4, "4 1/16"), (8, "8 1/16")), -6)
    assert [text.text for text in texts(mark)] == ["4 1/16", "8 1/16"]
    assert all(text.angle == 90 and text.anchor == "end" for text in texts(mark))


def test_running_dimensions_beside_an_upright_edge_are_read_from_below() -> None:
    right = texts(Running((100, 0), (100, 60), ((20, "20"), (50, "50")), -6))
    assert [(text.angle, text.anchor) for text in right] == [(0, "start")] * 2
    assert all(text.at[0] > 106 for text in right)
    left = texts(Running((0, 0), (0, 60), ((20, "20"), (50, "50")), 6))
    assert [(text.angle, text.anchor) for text in left] == [(0, "end")] * 2
    assert all(text.at[0] < -6 for text in left)


@settings(max_examples=80, deadline=None)
@given(places=st.lists(st.floats(0, 200), min_size=1, max_size=12).map(sorted))
def test_crowded_figures_are_spread_and_lonely_ones_stay(places: list[float]) -> None:
    spots = spread(places, gap=4.0)
    assert all(b - a >= 4.0 - 1e-9 for a, b in pairwise(spots))
    assert sum(spots) == pytest.approx(sum(places), abs=1e-6)
    for i, (place, spot) in enumerate(zip(places, spots, strict=True)):
        alone = all(abs(place - other) > 4.0 * len(places) for j, other in enumerate(places) if j != i)
        if alone:
            assert spot == place


# ---- arrows and boxes


def test_a_bent_arrow_rises_by_its_bend_and_ends_at_its_tip() -> None:
    mark = Arrow((0, 0), (40, 0), bend=0.25, head="none")
    box = bounds((mark,))
    assert box is not None
    assert box == pytest.approx((0, 0, 40, 10), abs=0.6)
    (head,) = heads(Arrow((0, 0), (40, 0), bend=0.25))
    assert head.rings[0][0] == (40.0, 0.0)


def test_the_box_of_marks_holds_their_letters() -> None:
    box = bounds((Line((0, 0), (10, 0), Role.CUT), Label("a long name", (5, 20), size=4)))
    assert box is not None
    left, low, right, high = box
    assert left < -4
    assert right > 14
    assert (low, high) == pytest.approx((0, 20 + 0.33 * 4))
    assert bounds(()) is None


@settings(max_examples=40, deadline=None)
@given(radius=st.floats(0.5, 40), x=st.floats(-20, 20))
def test_the_box_of_a_circle_touches_it(radius: float, x: float) -> None:
    assert bounds((Circle((x, 0), radius, Role.CUT),)) == pytest.approx((x - radius, -radius, x + radius, radius))
