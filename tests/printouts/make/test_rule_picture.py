"""The rule at the bench: stops at their places, with the numbers of the score chart."""

from itertools import pairwise

import pytest

from kitwright.measure import Unit, parse_ruler
from kitwright.pattern import FoldWay, RuleSide, ScoreMark, ScorePass
from kitwright.printouts.drawing import Drawing, Label, Line, Polygon, Polyline, Role
from kitwright.printouts.make.rule_picture import rule_drawing

INCHES, MILLIMETRES = parse_ruler("1/16 in", Unit.INCH), parse_ruler("1 mm", Unit.MILLIMETRE)


def one_pass(length: float, *at: float, way: FoldWay = FoldWay.MOUNTAIN) -> ScorePass:
    return ScorePass(RuleSide.WIDTH, length, way, tuple(ScoreMark(each) for each in at))


def edge(drawing: Drawing) -> tuple[float, float]:
    """Where the card begins and ends."""
    (card,) = [each for each in drawing.marks if isinstance(each, Polygon) and each.role is Role.CUT]
    return card.points[0][0], card.points[1][0]


def stops(drawing: Drawing, role: Role = Role.MOUNTAIN) -> list[Polyline]:
    return [each for each in drawing.marks if isinstance(each, Polyline) and each.role is role]


def words(drawing: Drawing, role: Role) -> list[str]:
    return [each.text for each in drawing.marks if isinstance(each, Label) and each.role is role]


def test_every_stop_stands_at_its_share_of_the_length_with_its_number() -> None:
    drawing = rule_drawing(one_pass(254, 25.4, 127, 228.6), INCHES, width=100)
    left, right = edge(drawing)
    assert right - left == pytest.approx(100)
    # a tenth, a half and nine tenths of ten inches
    assert [each.points[0][0] - left for each in stops(drawing)] == pytest.approx([10, 50, 90])
    assert words(drawing, Role.MOUNTAIN) == ["1", "5", "9"]
    assert words(drawing, Role.DIMENSION) == ["10 in"]


def test_the_figures_of_the_rule_stand_at_whole_inches_and_at_tens_of_millimetres() -> None:
    inches = rule_drawing(one_pass(127, 30), INCHES, width=100)
    assert words(inches, Role.RULER) == ["0", "1", "2", "3", "4", "5"]
    left, _ = edge(inches)
    places = [each.at[0] - left for each in inches.marks if isinstance(each, Label) and each.role is Role.RULER]
    assert places == pytest.approx([0, 20, 40, 60, 80, 100])
    millimetres = rule_drawing(one_pass(95, 30), MILLIMETRES, width=100)
    assert words(millimetres, Role.RULER) == ["0", "10", "20", "30", "40", "50", "60", "70", "80", "90"]
    assert len([each for each in millimetres.marks if isinstance(each, Line)]) == 1 + 96


def test_numbers_of_stops_close_together_do_not_touch() -> None:
    drawing = rule_drawing(one_pass(254, 127, 128.5875, 130.175), INCHES, width=100)
    at = [each.at[0] for each in drawing.marks if isinstance(each, Label) and each.role is Role.MOUNTAIN]
    assert words(drawing, Role.MOUNTAIN) == ["5", "5 1/16", "5 1/8"]
    assert min(b - a for a, b in pairwise(at)) > 15


def test_the_card_shows_the_side_that_is_up() -> None:
    for way, face, role in (
        (FoldWay.MOUNTAIN, Role.PRINT_FACE, Role.MOUNTAIN),
        (FoldWay.VALLEY, Role.BACK_FACE, Role.VALLEY),
    ):
        drawing = rule_drawing(one_pass(100, 30, way=way), MILLIMETRES, width=100)
        faces = {each.role for each in drawing.marks if isinstance(each, Polygon)} - {Role.CUT}
        assert faces == {face}
        assert len(stops(drawing, role)) == 1
