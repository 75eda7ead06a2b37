"""The score chart and the pieces to cut away, against blanks worked by hand. Inches where it says so, else millimetres."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.pattern.readings import distinct_positions, mark_count, scored_by_mistake, scored_the_wrong_way, times_scored

import kitwright.forms  # noqa: F401  # fills the catalogue
from kitwright.catalogue import get
from kitwright.pattern import Blank, Draft, FoldWay, RuleSide, ScoreChart, score_chart

IN = 25.4


def blank_of(form: str, **inches: float | str) -> Blank:
    """A form's first blank; lengths in inches."""
    millimetres = {name: value * IN if not isinstance(value, str) else value for name, value in inches.items()}
    return get(form)(**millimetres).draw().blanks[0]


def chart_of(form: str, **inches: float | str) -> ScoreChart:
    """The chart of a form's first blank; lengths in inches."""
    return score_chart(blank_of(form, **inches))


def marks(chart: ScoreChart, unit: float = 1.0) -> list[tuple[str, str, list[object]]]:
    """Side, way and positions of every pass."""
    return [
        (each.side.value, each.way.value, [pytest.approx(mark.at / unit, abs=1e-9) for mark in each.marks])
        for each in chart.passes
    ]


def test_a_tray_6_by_4_by_2_is_cut_10_by_8_and_scored_at_2_and_8_and_at_2_and_6() -> None:
    chart = chart_of("tray", width=6, depth=4, height=2, tab=0.5)
    assert (chart.width / IN, chart.height / IN) == pytest.approx((10, 8))
    assert marks(chart, IN) == [("width", "mountain", [2, 8]), ("height", "mountain", [2, 6])]
    assert chart.aslant == ()
    assert all(mark.runs == () for each in chart.passes for mark in each.marks)


def test_a_tray_has_one_piece_to_cut_away_at_each_corner() -> None:
    chart = chart_of("tray", width=6, depth=4, height=2, tab=0.5)
    taper = 0.5 * math.tan(math.radians(15))
    tab = 0.5 * (2 - taper)
    rest = sum(IN**2 * (4 - tab) for _ in range(4))
    assert [(piece.is_inside, piece.is_rectangle) for piece in chart.cut_away] == [(False, False)] * 4
    assert [(piece.width / IN, piece.height / IN) for piece in chart.cut_away] == [pytest.approx((2, 2))] * 4
    blank = blank_of("tray", width=6, depth=4, height=2, tab=0.5)
    assert chart.width * chart.height - blank.area == pytest.approx(rest)


def test_a_tray_deeper_than_wide_is_scored_along_its_longer_side_first() -> None:
    chart = chart_of("tray", width=4, depth=6, height=2, tab=0.5)
    assert marks(chart, IN) == [("height", "mountain", [2, 8]), ("width", "mountain", [2, 6])]


def test_a_half_of_a_wrap_box_is_scored_at_the_bottom_and_the_hem_and_at_both_sides() -> None:
    # 4 1/4 wide, 2 deep, 6 high, hem 1/2: cut 2 at 8 1/4 × 8 1/2
    chart = chart_of("two-half wrap box", width=4.25, depth=2, height=6, hem=0.5)
    assert (chart.width / IN, chart.height / IN) == pytest.approx((8.25, 8.5))
    assert marks(chart, IN) == [("height", "mountain", [2, 8]), ("width", "mountain", [2, 6.25])]
    assert all(mark.runs == () for each in chart.passes for mark in each.marks)


def test_the_two_lower_corners_of_a_wrap_box_half_are_plain_rectangles() -> None:
    chart = chart_of("two-half wrap box", width=4.25, depth=2, height=6, hem=0.5)
    corners = [piece for piece in chart.cut_away if piece.is_rectangle]
    assert [(piece.width / IN, piece.height / IN) for piece in corners] == [pytest.approx((2, 2))] * 2
    # what is taken between the hems: two notches; what is taken at their outer ends: two slivers
    assert len(chart.cut_away) == 6


def test_an_envelope_is_scored_at_both_folds_and_at_both_tabs() -> None:
    # 5 3/4 × 4 3/8, tabs 5/8, back 3 1/2, flap 1 3/4: cut 7 × 9 5/8
    chart = chart_of("side-seam envelope", width=5.75, height=4.375, side_tab=0.625, back=3.5, flap=1.75)
    assert (chart.width / IN, chart.height / IN) == pytest.approx((7, 9.625))
    assert marks(chart, IN) == [("height", "mountain", [3.5, 7.875]), ("width", "mountain", [0.625, 6.375])]


def test_a_flap_lid_is_one_strip_with_four_scores() -> None:
    chart = chart_of("flap lid", width=6.25, depth=4.25, front_flap=1.75, back=2.5, hem=0.375)
    assert (chart.width / IN, chart.height / IN) == pytest.approx((6.25, 9.25))
    assert marks(chart, IN) == [("height", "mountain", [0.375, 2.125, 6.375, 8.875])]
    assert chart.cut_away == ()


def test_a_card_folded_at_its_side_has_one_mark_in_the_middle() -> None:
    chart = chart_of("half-fold card", width=4.25, height=5.5, fold="side")
    assert (chart.width / IN, chart.height / IN) == pytest.approx((8.5, 5.5))
    assert marks(chart, IN) == [("width", "mountain", [4.25])]


def test_a_flat_card_has_no_marks_and_nothing_to_cut_away() -> None:
    chart = chart_of("flat card", width=6, height=4)
    assert (chart.passes, chart.cut_away) == ((), ())


def test_a_score_that_would_run_on_over_a_panel_is_told_to_stop() -> None:
    draft = Draft("blank")
    foot = draft.panel("base", 100, 60).fold_out("south", "foot", 10, inset=(30, 30))
    foot.fold_out("right", "ear", 8)  # its score lies at x = 30, under the middle of the base
    chart = score_chart(draft.finish())
    (width,) = [each for each in chart.passes if each.side is RuleSide.WIDTH]
    assert [(mark.at, mark.runs) for mark in width.marks] == [(30, ((0, 10),))]
    (height,) = [each for each in chart.passes if each.side is RuleSide.HEIGHT]
    assert [(mark.at, mark.runs) for mark in height.marks] == [(10, ())]


def test_two_scores_in_one_line_are_one_mark_with_two_runs_where_a_panel_lies_between() -> None:
    draft = Draft("blank")
    first = draft.panel("base", 100, 60)
    for side in ("south", "north"):
        first.fold_out(side, side, 10, inset=(30, 30)).fold_out(
            "right" if side == "south" else "left", f"{side} ear", 8
        )
    chart = score_chart(draft.finish())
    (width,) = [each for each in chart.passes if each.side is RuleSide.WIDTH]
    assert [(mark.at, mark.runs) for mark in width.marks] == [(30, ((0, 10), (70, 80)))]


def test_valleys_are_a_pass_of_their_own_measured_from_the_other_edge() -> None:
    draft = Draft("blank")
    first = draft.panel("base", 100, 60)
    first.fold_out("east", "wing", 15, angle=90)
    first.fold_out("north", "flap", 20, angle=90)
    # the wing's edge lies at 100 of 115, the flap's at 60 of 80
    assert marks(score_chart(draft.finish())) == [("width", "valley", [15]), ("height", "valley", [20])]


def test_a_strip_folded_to_and_fro_is_scored_from_both_sides() -> None:
    draft = Draft("blank")
    second = draft.panel("one", 50, 60).fold_out("east", "two", 50, angle=180)
    second.fold_out("far", "three", 40, angle=-180)
    assert marks(score_chart(draft.finish())) == [("width", "mountain", [100]), ("width", "valley", [90])]


def test_a_mountain_and_a_valley_in_one_line_are_scored_from_their_own_sides_and_keep_to_their_own_stretch() -> None:
    draft = Draft("blank")
    first = draft.panel("base", 100, 60)
    first.fold_out("east", "lower", 20, inset=(0, 30), angle=-90)
    first.fold_out("east", "upper", 20, inset=(30, 0), angle=90)
    found = [(each.way, [(mark.at, mark.runs) for mark in each.marks]) for each in score_chart(draft.finish()).passes]
    assert found == [(FoldWay.MOUNTAIN, [(100, ((0, 30),))]), (FoldWay.VALLEY, [(20, ((30, 60),))])]


def test_a_score_aslant_is_left_to_a_template() -> None:
    draft = Draft("kite")
    kite = draft.shape("kite", ((0, 0), (40, -30), (80, 0), (40, 60)), ("a", "b", "c", "d"))
    kite.fold_out("a", "wing", 10)
    chart = score_chart(draft.finish())
    assert chart.passes == ()
    assert [score.child for score in chart.aslant] == ["wing"]


def test_a_hole_is_cut_away_inside_and_the_largest_piece_comes_first() -> None:
    draft = Draft("tag")
    tag = draft.panel("front", 40, 80)
    tag.round_hole("north", diameter=6, inwards=12)
    tag.chamfer("north", 8)
    pieces = score_chart(draft.finish()).cut_away
    # a corner of 8 × 8 / 2 = 32 mm² is more than a hole of 9 π = 28.3 mm²
    assert [(piece.is_inside, piece.is_rectangle) for piece in pieces] == [
        (False, False),
        (False, False),
        (True, False),
    ]
    assert [(piece.width, piece.height) for piece in pieces] == [
        pytest.approx(size) for size in ((8, 8), (8, 8), (6, 6))
    ]


@st.composite
def patchworks(draw: st.DrawFn) -> Blank:
    """A blank with walls, ears on the walls and feet on parts of sides, folded either way."""
    draft = Draft("blank")
    first = draft.panel("base", draw(st.integers(60, 120)), draw(st.integers(60, 120)))
    angles = st.sampled_from((-180.0, -90.0, 90.0))
    for side in draw(st.lists(st.sampled_from(("south", "east", "north", "west")), unique=True, min_size=1)):
        inset = draw(st.sampled_from(((0.0, 0.0), (20.0, 20.0), (0.0, 20.0))))
        wall = first.fold_out(side, side, draw(st.integers(10, 40)), inset=inset, angle=draw(angles))
        if side in {"south", "north"} and draw(st.booleans()):
            wall.fold_out("left", f"{side} ear", draw(st.integers(4, 15)), angle=draw(angles))
        if draw(st.booleans()):
            wall.fold_out("far", f"{side} hem", draw(st.integers(4, 9)), angle=draw(angles))
    return draft.finish()


@settings(deadline=None, max_examples=80)
@given(blank=patchworks())
def test_every_score_is_set_exactly_once_nothing_else_is_scored_and_no_mark_is_wasted(blank: Blank) -> None:
    chart = score_chart(blank)
    assert [times_scored(chart, score) for score in blank.scores] == [1] * len(blank.scores)
    assert scored_by_mistake(chart, blank) < 0.05
    assert scored_the_wrong_way(chart, blank) == 0
    assert mark_count(chart) <= distinct_positions(blank)
    for each in chart.passes:
        assert each.length == pytest.approx(chart.width if each.side is RuleSide.WIDTH else chart.height)
        assert all(0 < mark.at < each.length for mark in each.marks)
        assert list(each.marks) == sorted(each.marks, key=lambda mark: mark.at)
