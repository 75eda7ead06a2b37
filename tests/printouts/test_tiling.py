from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.printouts.drawing import Circle, Drawing, Group, Label, Line, Polygon, Role
from kitwright.printouts.ink import Text, ink_of
from kitwright.printouts.lettering import text_width
from kitwright.printouts.tiling import Tile, tile

WIDE = Drawing(
    500, 100, (Polygon(((1, 1), (499, 1), (499, 99), (1, 99)), Role.CUT), Line((1, 99), (499, 1), Role.VALLEY))
)


def targets(each: Tile) -> list[tuple[float, float]]:
    """Centres of the targets that lie on the field."""
    found = [
        mark.marks[0].centre
        for mark in each.drawing.marks
        if isinstance(mark, Group) and mark.name == "target" and isinstance(mark.marks[0], Circle)
    ]
    wide, high = each.drawing.width, each.drawing.height
    return [(x, y) for x, y in found if 0 < x < wide and 0 < y < high]


def test_a_drawing_that_fits_is_one_field_without_marks() -> None:
    (only,) = tile(WIDE, width=520, height=200)
    assert (only.name, only.row, only.column) == ("A1", 1, 1)
    assert targets(only) == []
    assert only.drawing.clipped


def test_a_wide_drawing_is_cut_into_fields_that_share_their_strips() -> None:
    tiles = tile(WIDE, width=185, height=230, overlap=12, may_turn=False)
    assert [each.name for each in tiles] == ["A1", "A2", "A3"]  # 3 × 185 − 2 × 12 = 531 ≥ 500
    for left, right in pairwise(tiles):
        shared = {(round(x - 173, 6), round(y, 6)) for x, y in targets(left) if x > 173}
        assert shared == {(round(x, 6), round(y, 6)) for x, y in targets(right) if x < 12}
        assert len(shared) == 2


def test_the_drawing_runs_on_exactly_where_the_last_field_ended() -> None:
    one, two, _ = tile(WIDE, width=185, height=230, overlap=12, may_turn=False)
    here, there = (
        [mark for mark in each.drawing.marks if isinstance(mark, Line) and mark.role is Role.VALLEY]
        for each in (one, two)
    )
    assert here[0].start[0] - there[0].start[0] == pytest.approx(173)
    assert here[0].start[1] == there[0].start[1]


def test_the_drawing_is_turned_where_that_takes_fewer_pages() -> None:
    tall = Drawing(100, 200, (Polygon(((1, 1), (99, 1), (99, 199), (1, 199)), Role.CUT),))
    assert len(tile(tall, width=220, height=120, may_turn=False)) == 2
    (only,) = tile(tall, width=220, height=120)
    (polygon,) = [mark for mark in only.drawing.marks if isinstance(mark, Polygon)]
    xs = [x for x, _ in polygon.points]
    assert max(xs) - min(xs) == pytest.approx(198)


def test_fields_with_nothing_on_them_are_left_out() -> None:
    corner = Drawing(400, 400, (Line((1, 1), (399, 1), Role.CUT), Line((1, 1), (1, 399), Role.CUT)))
    tiles = tile(corner, width=206, height=206)
    assert [each.name for each in tiles] == ["A1", "B1", "B2"]


def test_the_map_shows_every_page_and_tints_this_one() -> None:
    tiles = tile(WIDE, width=185, height=230, may_turn=False)
    for each in tiles:
        names = [ink for ink in ink_of(each.key) if isinstance(ink, Text)]
        assert [name.text for name in names] == ["A1", "A2", "A3"]
        assert [name.text for name in names if name.weight == "bold"] == [each.name]


@settings(max_examples=40, deadline=None)
@given(width=st.floats(20, 900), height=st.floats(20, 900), x=st.floats(0, 1), y=st.floats(0, 1))
def test_every_point_of_a_drawing_is_on_some_page(width: float, height: float, x: float, y: float) -> None:
    dot = Circle((x * width, y * height), 0.1, Role.CUT)
    drawing = Drawing(width, height, (dot,))
    tiles = tile(drawing, width=185, height=240)
    assert tiles
    found = [
        mark.centre
        for each in tiles
        for mark in each.drawing.marks
        if isinstance(mark, Circle) and mark.radius == pytest.approx(0.1)
    ]
    assert any(-0.2 <= cx <= 185.2 and -0.2 <= cy <= 240.2 for cx, cy in found)


def test_an_overlap_needs_room_for_its_marks_and_the_field_room_for_the_overlap() -> None:
    with pytest.raises(ValueError, match="cannot overlap by 3 mm"):
        tile(WIDE, width=185, height=230, overlap=3)
    with pytest.raises(ValueError, match="cannot overlap by 80 mm"):
        tile(WIDE, width=185, height=230, overlap=80)


def test_more_than_26_pages_in_a_row_are_refused() -> None:
    with pytest.raises(ValueError, match="would take 1 × 29 pages"):
        tile(Drawing(5000, 100, WIDE.marks), width=185, height=230, may_turn=False)


def test_a_name_does_not_straddle_two_pages() -> None:
    label = Label("front", (100.0, 50.0), room=(150.0, 40.0))
    drawing = Drawing(200, 100, (Line((0, 0), (200, 0), Role.CUT), label))
    fields = tile(drawing, width=110, height=120, overlap=12, may_turn=False)
    assert len(fields) == 2
    shown = [
        text.at[0]
        for field in fields
        for text in ink_of(field.drawing)
        if isinstance(text, Text) and text.text == "front" and 0 < text.at[0] < 110
    ]
    half = text_width("front", label.size) / 2
    (at,) = shown  # on one page only, and clear of the strip of 12 mm at its inner edge
    assert at + half <= 98 or at - half >= 12
