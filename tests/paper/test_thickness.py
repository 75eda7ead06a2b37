"""The crease model against geometry and the bend allowance of the handbooks."""

import math
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.paper.crease import inside, outside

from kitwright.errors import Mistake
from kitwright.measure import CRAFT_TOLERANCE
from kitwright.paper import (
    Caliper,
    Paper,
    calibrated_hinge_depth,
    caliper_tolerance,
    inner_loss,
    layers_thickness,
    outer_gain,
    should_be_scored,
)


def card(mm: float = 0.3, *, hinge_depth: float = 0.5, gsm: float = 240.0, is_estimate: bool = False) -> Paper:
    return Paper(
        key="card",
        label="Card",
        sheet_width_mm=Fraction(300),
        sheet_height_mm=Fraction(300),
        gsm=gsm,
        caliper=Caliper(mm, is_estimate),
        hinge_depth=hinge_depth,
    )


CALIPERS = st.floats(0.05, 2)
DEPTHS = st.floats(0, 1)
LENGTHS = st.floats(20, 600)


def exact(value: float) -> Any:
    return pytest.approx(value, abs=1e-9)


# The rows below follow from geometry: two rectangles of thickness t that turn about a line k t below their outer faces.


def test_with_the_hinge_on_the_outer_face_the_outside_is_the_score_length_and_the_inside_loses_two_thicknesses() -> (
    None
):
    assert outside(100, card(hinge_depth=0)) == 100
    assert inside(100, card(hinge_depth=0)) == exact(99.4)


def test_with_the_hinge_in_the_middle_the_outside_gains_one_thickness_and_the_inside_loses_one() -> None:
    assert outside(100, card()) == exact(100.3)
    assert inside(100, card()) == exact(99.7)


def test_with_the_hinge_on_the_inner_face_the_inside_is_the_score_length_and_the_outside_gains_two_thicknesses() -> (
    None
):
    assert outside(100, card(hinge_depth=1)) == exact(100.6)
    assert inside(100, card(hinge_depth=1)) == 100


def test_one_folded_end_counts_half() -> None:
    assert outside(100, card(), ends=1) == exact(100.15)
    assert inside(100, card(), ends=1) == exact(99.85)
    assert outside(100, card(), ends=0) == 100


def test_the_faces_of_a_right_angle_run_on_by_their_depth_from_the_hinge() -> None:
    assert outer_gain(card(0.3, hinge_depth=0.4)) == exact(0.12)
    assert inner_loss(card(0.3, hinge_depth=0.4)) == exact(0.18)


@pytest.mark.parametrize(
    ("angle", "share"), [(0, 0), (60, 1 / math.sqrt(3)), (72, 0.7265425280), (90, 1), (120, math.sqrt(3))]
)
def test_other_angles_run_on_by_the_tangent_of_half_the_angle(angle: float, share: float) -> None:
    # Half-angle tangents of the hexagon, pentagon, square and triangle.
    assert outer_gain(card(0.3, hinge_depth=1), angle=angle) == exact(0.3 * share)
    assert inner_loss(card(0.3, hinge_depth=0), angle=angle) == exact(0.3 * share)


@settings(deadline=None, max_examples=60)
@given(CALIPERS, DEPTHS, st.floats(1, 170))
def test_the_two_faces_of_a_folded_paper_stay_one_thickness_apart(mm: float, depth: float, angle: float) -> None:
    # The inner and outer corner of a mitred bend lie t / cos(angle / 2) apart, by plane geometry.
    paper = card(mm, hinge_depth=depth)
    along = outer_gain(paper, angle=angle) + inner_loss(paper, angle=angle)
    assert math.hypot(along, mm) == pytest.approx(mm / math.cos(math.radians(angle) / 2))


@pytest.mark.parametrize("angle", [-1, 180, 270, float("nan")])
def test_a_fold_without_a_corner_is_refused(angle: float) -> None:
    with pytest.raises(Mistake, match="has no corner"):
        outer_gain(card(), angle=angle)


@settings(deadline=None, max_examples=60)
@given(LENGTHS, CALIPERS, DEPTHS)
def test_outside_less_inside_is_two_walls_whatever_the_hinge_depth(length: float, mm: float, depth: float) -> None:
    paper = card(mm, hinge_depth=depth)
    assert outside(length, paper) - inside(length, paper) == exact(layers_thickness(2, paper))


# The bend allowance of sheet metal, Machinery's Handbook, 26th ed., as cited in a published table: BA = A (R + K t),
# BD = 2 (R + t) tan(A / 2) − BA. Our crease model is compared with it, not derived from it.


def bend_allowance(radius: float, thickness: float, share: float, angle: float = 90) -> float:
    return math.radians(angle) * (radius + share * thickness)


def bend_deduction(radius: float, thickness: float, share: float, angle: float = 90) -> float:
    return 2 * (radius + thickness) * math.tan(math.radians(angle) / 2) - bend_allowance(
        radius, thickness, share, angle
    )


@pytest.mark.parametrize(
    ("radius", "thickness", "share", "allowance", "deduction"),
    [(0.060, 0.060, 0.463, 0.13788, 0.10212), (0.030, 0.048, 0.438, 0.08015, 0.07585), (0, 1, 0.5, 0.7854, 1.2146)],
)
def test_the_handbook_formula_used_for_comparison_gives_the_handbook_answers(
    radius: float, thickness: float, share: float, allowance: float, deduction: float
) -> None:
    assert bend_allowance(radius, thickness, share) == pytest.approx(allowance, abs=5e-5)
    assert bend_deduction(radius, thickness, share) == pytest.approx(deduction, abs=5e-5)


def test_a_hinge_depth_of_0_6073_is_the_handbook_bend_with_a_sharp_corner_and_the_neutral_line_in_the_middle() -> None:
    # Two flanges cut to the score: together they gain 2 k t on the outside; the handbook says 1.2146 t.
    assert 2 * outer_gain(card(0.3, hinge_depth=0.6073)) == pytest.approx(bend_deduction(0, 0.3, 0.5), abs=1e-4)


@pytest.mark.parametrize("mm", [0.2413, 0.2794, 0.3556])
def test_for_usual_cover_the_usual_hinge_depth_agrees_with_the_handbook_within_the_craft_tolerance(mm: float) -> None:
    # 65, 80 and 100 lb cover: usual calipers, common practice, no source.
    assert abs(2 * outer_gain(card(mm)) - bend_deduction(0, mm, 0.5)) < CRAFT_TOLERANCE


@pytest.mark.parametrize("depth", [0, 0.4, 0.5, 1])
def test_the_hinge_depth_cancels_in_a_lid_over_a_base_of_the_same_paper(depth: float) -> None:
    # By arithmetic, score to score: 101.6 − 100 − 2 × 0.3.
    assert inside(101.6, card(hinge_depth=depth)) - outside(100, card(hinge_depth=depth)) == exact(1.00)


def test_layers_add_up() -> None:
    assert layers_thickness(0, card()) == 0
    assert layers_thickness(24, card()) == exact(7.2)


def test_a_negative_number_of_layers_is_refused() -> None:
    with pytest.raises(Mistake, match="-1 layers of paper cannot be"):
        layers_thickness(-1, card())


def test_a_case_makers_allowance_calibrates_the_hinge_depth_to_0_4() -> None:
    # A box maker's published guide: inside = crease to crease less 3/16 in; the board 5/32 in thick is from memory. 3/16 = 1.2 t.
    depth = calibrated_hinge_depth(inside_mm=100 - 3 / 16 * 25.4, apart_mm=100, caliper_mm=5 / 32 * 25.4)
    assert depth == exact(0.4)


@settings(deadline=None, max_examples=60)
@given(st.floats(0.01, 0.99), CALIPERS)
def test_calibrating_from_the_inside_a_paper_would_show_gives_back_its_hinge_depth(depth: float, mm: float) -> None:
    measured = inside(100, card(mm, hinge_depth=depth))
    assert calibrated_hinge_depth(inside_mm=measured, apart_mm=100, caliper_mm=mm) == pytest.approx(depth, abs=1e-9)


@pytest.mark.parametrize(("measured", "depth"), [(99.5, 0), (100, 1)])
def test_both_ends_of_the_hinge_depth_can_be_calibrated(measured: float, depth: float) -> None:
    assert calibrated_hinge_depth(inside_mm=measured, apart_mm=100, caliper_mm=0.25) == pytest.approx(depth, abs=1e-9)


@pytest.mark.parametrize("measured", [100.1, 99.3])
def test_measurements_that_no_strip_can_give_are_refused_with_the_range_that_can(measured: float) -> None:
    with pytest.raises(
        Mistake, match=r"do not go with paper 0\.3 mm thick\. The inside should lie between 99\.4 and 100 mm"
    ):
        calibrated_hinge_depth(inside_mm=measured, apart_mm=100, caliper_mm=0.3)


@pytest.mark.parametrize("mm", [0, -0.3])
def test_a_strip_without_thickness_calibrates_nothing(mm: float) -> None:
    with pytest.raises(Mistake, match="cannot be"):
        calibrated_hinge_depth(inside_mm=99, apart_mm=100, caliper_mm=mm)


@pytest.mark.parametrize(
    ("gsm", "is_estimate", "mm"), [(300, False, 0.03), (301, False, 0.015), (300, True, 0.045), (400, True, 0.045)]
)
def test_the_caliper_of_another_pack_varies_as_board_is_sold(gsm: float, is_estimate: bool, mm: float) -> None:
    # Board suppliers' published terms: ±10 % to 300 g/m², ±5 % above; estimates ±15 %: common practice, no source.
    assert caliper_tolerance(card(0.3, gsm=gsm, is_estimate=is_estimate)) == exact(mm)


def test_paper_over_five_thousandths_of_an_inch_is_scored_first() -> None:
    # A printer's published folding guide: score above 0.005 in.
    assert not should_be_scored(card(0.127))
    assert should_be_scored(card(0.128))
