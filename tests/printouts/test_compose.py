import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.printouts.compose import beside, canvas, fitted, key_to, print_up_arrow, roles_on, ruler_bar, stacked
from kitwright.printouts.drawing import Dimension, Drawing, Group, Label, Line, Mark, Polygon, Role
from kitwright.printouts.ink import Text, bounds, ink_of

SQUARE = ((0.0, 0.0), (200.0, 0.0), (200.0, 150.0), (0.0, 150.0))
PLATE = (Polygon(SQUARE, Role.CUT), Dimension((0, 0), (200, 0), "200 mm", -8), Label("front", (100, 75)))


def only_lines(drawing: Drawing) -> list[Line]:
    found: list[Line] = []

    def visit(marks: tuple[Mark, ...]) -> None:
        for mark in marks:
            if isinstance(mark, Group):
                visit(mark.marks)
            elif isinstance(mark, Line):
                found.append(mark)

    visit(drawing.marks)
    return found


def words_on(drawing: Drawing) -> list[str]:
    return [ink.text for ink in ink_of(drawing) if isinstance(ink, Text)]


def test_a_canvas_is_as_small_as_its_marks_and_a_margin_allow() -> None:
    drawing = canvas((Line((-5, 10), (25, 30), Role.CUT),), margin=2)
    assert drawing == Drawing(34, 24, (Line((2, 2), (32, 22), Role.CUT),))
    with pytest.raises(ValueError, match="nothing to draw"):
        canvas(())


@settings(max_examples=40, deadline=None)
@given(width=st.floats(40, 400), height=st.floats(40, 400))
def test_a_fitted_drawing_fits_and_touches_a_side_of_its_box(width: float, height: float) -> None:
    made = fitted(PLATE, width=width, height=height)
    assert made.drawing.width <= width + 1e-9
    assert made.drawing.height <= height + 1e-9
    assert made.drawing.width > width * 0.998 - 0.1 or made.drawing.height > height * 0.998 - 0.1
    (polygon,) = [mark for mark in made.drawing.marks if isinstance(mark, Polygon)]
    assert polygon.points[1][0] - polygon.points[0][0] == pytest.approx(200 * made.move.factor)


def test_a_fitted_drawing_keeps_its_letters_and_is_not_blown_up() -> None:
    small = fitted(PLATE, width=60, height=60).drawing
    assert {ink.size for ink in ink_of(small) if isinstance(ink, Text)} == {3.5}
    assert fitted(PLATE, width=4000, height=4000, largest=1).move.factor == 1


@settings(max_examples=40, deadline=None)
@given(width=st.floats(30, 120), height=st.floats(6, 30), long=st.floats(5, 800), deep=st.floats(1, 300))
def test_a_picture_keeps_its_width_and_is_as_high_as_its_words_need(
    width: float, height: float, long: float, deep: float
) -> None:
    thing = Polygon(((0.0, 0.0), (long, 0.0), (long, deep), (0.0, deep)), Role.CUT)
    words = (Dimension((0, 0), (long, 0), "12 5/16", -8), Dimension((0, deep), (long / 8, deep), "about 3/16", 4))
    made = fitted((thing, *words, Label("hem", (long / 2, deep / 2))), width=width, height=height)
    assert made.drawing.width <= width + 1e-9
    assert {"12 5/16", "about 3/16", "hem"} == set(words_on(made.drawing))
    left, low, right, high = bounds(made.drawing.marks) or (0, 0, 0, 0)
    assert (left, low) == pytest.approx((0.5, 0.5))
    assert (right, high) == pytest.approx((made.drawing.width - 0.5, made.drawing.height - 0.5))
    # the words never take all: the thing keeps a share of the size that it has without them, whatever that asks of the height
    alone = fitted((thing,), width=width, height=height).move.factor
    assert made.move.factor >= 0.1 * alone - 1e-3
    assert made.drawing.height <= max(height, 0.4 * alone * deep + 40) + 1e-9


def test_drawings_stand_side_by_side_or_below_each_other_without_touching() -> None:
    one, two = (
        Drawing(30, 20, (Line((0, 0), (30, 20), Role.CUT),)),
        Drawing(10, 40, (Line((0, 0), (10, 40), Role.CUT),)),
    )
    row = beside([one, two], gap=5, align="middle")
    assert (row.width, row.height) == (45, 40)
    assert only_lines(row) == [Line((0, 10), (30, 30), Role.CUT), Line((35, 0), (45, 40), Role.CUT)]
    pile = stacked([one, two], gap=5)
    assert (pile.width, pile.height) == (30, 65)
    assert only_lines(pile) == [Line((0, 45), (30, 65), Role.CUT), Line((0, 0), (10, 40), Role.CUT)]


def test_the_ruler_bar_is_true_in_both_units() -> None:
    # 1 in = 25.4 mm exactly (international yard and pound agreement of 1959, 24 FR 5348).
    bar = ruler_bar()
    ticks = [line for line in only_lines(bar) if line.start[0] == line.end[0]]
    up = sorted(line.start[0] for line in ticks if line.end[1] > line.start[1])
    down = sorted(line.start[0] for line in ticks if line.end[1] < line.start[1])
    assert len(up) == 101
    assert up[-1] - up[0] == pytest.approx(100)
    assert len(down) == 33
    assert down[-1] - down[0] == pytest.approx(101.6)
    assert down[8] - down[0] == pytest.approx(25.4)
    box = bounds(bar.marks)
    assert box is not None
    assert min(box) > 0
    assert box[2] < bar.width
    assert box[3] < bar.height


def test_the_numbers_on_the_ruler_stand_on_their_marks() -> None:
    words = words_on(ruler_bar())
    assert words == [*map(str, range(11)), "cm", *map(str, range(5)), "in"]


def test_a_key_explains_each_role_once_in_words() -> None:
    drawing = Drawing(
        10,
        10,
        (
            Line((0, 0), (1, 1), Role.VALLEY),
            Group("x", (Line((0, 0), (1, 1), Role.CUT), Line((0, 0), (1, 1), Role.SLIT), Polygon(SQUARE, Role.GLUE))),
            Label("note", (0, 0)),
        ),
    )
    assert roles_on(drawing) == (Role.CUT, Role.SLIT, Role.VALLEY, Role.GLUE, Role.NOTE)
    assert words_on(key_to(roles_on(drawing))) == ["cut", "valley fold: fold the paper towards you", "glue here"]


def test_the_print_up_arrow_points_the_way_it_is_told() -> None:
    box = bounds((print_up_arrow((50, 50), angle=90, length=12),))
    assert box is not None
    assert (box[1], box[3]) == pytest.approx((44, 56))
    level = bounds((print_up_arrow((50, 50), angle=0, length=12),))
    assert level is not None
    assert (level[0], level[2]) == pytest.approx((44, 56))
