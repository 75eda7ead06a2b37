import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.printouts.drawing import (
    Arrow,
    Circle,
    Curve,
    Dimension,
    Drawing,
    Group,
    Label,
    Line,
    Mark,
    Move,
    Point,
    Polygon,
    Polyline,
    Role,
    Running,
    placed,
    turned,
)

SQUARE = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))

ALL_KINDS: tuple[Mark, ...] = (
    Line((0, 0), (10, 5), Role.CUT),
    Polyline(((0, 0), (3, 4), (6, 0)), Role.VALLEY),
    Polygon(SQUARE, Role.PIECE, holes=(((5, 5), (9, 5), (9, 9)),)),
    Circle((20, 20), 4, Role.CUT),
    Curve(((0, 0), (0, 5), (5, 5), (5, 0)), Role.MOUNTAIN),
    Label("front", (20, 15), room=(30, 20)),
    Dimension((0, 0), (40, 0), "40", -8),
    Running((0, 0), (40, 0), ((10, "10"), (25, "25")), -6),
    Arrow((5, 5), (30, 5), bend=0.2),
)
DRAWING = Drawing(40, 30, (*ALL_KINDS, Group("inside", ALL_KINDS)))


def only(drawing: Drawing) -> Mark:
    (mark,) = drawing.marks
    return mark


def test_a_drawing_needs_a_width_and_a_height() -> None:
    for width, height in ((0, 10), (10, -1), (math.inf, 10), (10, math.nan)):
        with pytest.raises(ValueError, match="cannot be"):
            Drawing(width, height)


def test_a_curve_has_whole_arcs() -> None:
    with pytest.raises(ValueError, match="a curve of 5 points is not whole"):
        Curve(((0, 0), (1, 1), (2, 1), (3, 0), (4, 0)), Role.CUT)


def scaled(drawing: Drawing, factor: float) -> Drawing:
    return placed(drawing, Move(a=factor), width=drawing.width * factor, height=drawing.height * factor)


def test_scaling_scales_the_thing_drawn_but_neither_letters_nor_arrowheads_nor_the_place_of_a_dimension() -> None:
    label = only(scaled(Drawing(40, 30, (Label("front", (20, 15), size=3.5, room=(30, 20)),)), 0.5))
    assert label == Label("front", (10, 7.5), size=3.5, room=(15, 10))
    dimension = only(scaled(Drawing(40, 30, (Dimension((0, 0), (40, 0), "40", -8),)), 0.5))
    assert dimension == Dimension((0, 0), (20, 0), "40", -8)
    arrow = only(scaled(Drawing(40, 30, (Arrow((0, 0), (40, 0), bend=0.2, head_size=3),)), 0.5))
    assert arrow == Arrow((0, 0), (20, 0), bend=0.2, head_size=3)
    running = only(scaled(Drawing(40, 30, (Running((0, 0), (40, 0), ((10, "10"),), -6),)), 0.5))
    assert running == Running((0, 0), (20, 0), ((5, "10"),), -6)
    assert only(scaled(Drawing(40, 30, (Circle((20, 20), 4, Role.CUT),)), 0.5)) == Circle((10, 10), 2, Role.CUT)


def test_a_quarter_turn_is_anticlockwise_and_swaps_the_sides_of_the_canvas() -> None:
    drawing = turned(Drawing(40, 30, (Line((0, 0), (40, 0), Role.CUT), Label("up", (20, 15)))), 1)
    assert (drawing.width, drawing.height) == (30, 40)
    assert drawing.marks[0] == Line((30, 0), (30, 40), Role.CUT)
    assert drawing.marks[1] == Label("up", (15, 20), angle=90)


def test_four_quarter_turns_change_nothing() -> None:
    assert turned(turned(turned(turned(DRAWING, 1), 1), 1), 1) == DRAWING
    assert turned(DRAWING, 2) == turned(turned(DRAWING, 1), 1)
    assert turned(DRAWING, 3) == turned(turned(DRAWING, 2), 1)
    assert turned(DRAWING, 4) == DRAWING


POINTS = st.tuples(st.floats(-100, 100), st.floats(-100, 100))
MOVES = st.builds(Move, st.floats(-3, 3), st.floats(-3, 3), e=st.floats(-50, 50), f=st.floats(-50, 50))


@settings(max_examples=60, deadline=None)
@given(move=MOVES, p=POINTS, q=POINTS)
def test_a_move_scales_every_distance_by_its_factor(move: Move, p: Point, q: Point) -> None:
    assert math.dist(move.point(p), move.point(q)) == pytest.approx(move.factor * math.dist(p, q), abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(turn=st.floats(0, 359), angle=st.floats(0, 359))
def test_a_move_turns_directions_as_it_turns_points(turn: float, angle: float) -> None:
    move = Move(math.cos(math.radians(turn)), math.sin(math.radians(turn)))
    x, y = move.point((math.cos(math.radians(angle)), math.sin(math.radians(angle))))
    expected = math.radians(move.angle(angle))
    assert (x, y) == pytest.approx((math.cos(expected), math.sin(expected)), abs=1e-9)
