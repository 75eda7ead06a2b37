"""Readings on a test strip and what they come to, each with how far it may be off."""

from __future__ import annotations

import pytest
from tests.paper.crease import inside
from tests.proof.tolerance.papers import CARD

from kitwright.errors import Mistake
from kitwright.measure import Unit
from kitwright.proof.tolerance import (
    READING,
    TOO_COARSE,
    Measured,
    cut_limit,
    hinge_depth,
    print_percent,
    sheet_thickness,
)

SLIDING, RULER = READING["sliding caliper"], READING["ruler"]


def test_ten_sheets_are_measured_ten_times_as_well_as_one() -> None:
    # US Government Paper Specification Standards no. 11, JCP K10: 110 lb index is 0.230 mm thick; ten sheets 2.30 mm (sum)
    found = sheet_thickness(stack=2.30, sheets=10, reading=SLIDING)
    assert found.value == pytest.approx(0.230)
    assert found.off == pytest.approx(SLIDING / 10)


def test_a_single_sheet_may_be_measured() -> None:
    assert sheet_thickness(stack=0.23, sheets=1, reading=SLIDING) == Measured(0.23, SLIDING)


@pytest.mark.parametrize(("stack", "sheets"), [(2.3, 0), (2.3, 1000), (50.0, 10), (0.0, 10)])
def test_a_stack_that_no_paper_makes_is_refused(stack: float, sheets: int) -> None:
    with pytest.raises(Mistake):
        sheet_thickness(stack=stack, sheets=sheets, reading=SLIDING)


def test_the_hinge_is_found_from_what_the_inside_loses() -> None:
    # a slip case in board of 5/32 in loses 3/16 in inside between two scores, 1.2 thicknesses: k = 0.4 (a binder's rule, from memory)
    t, loss = 25.4 * 5 / 32, 25.4 * 3 / 16
    found = hinge_depth(apart=100.0, insides=[100.0 - loss], caliper=Measured(t, 0.0), reading=0.0)
    assert found.value == pytest.approx(0.4)
    assert found.off == 0.0


def test_the_hinge_of_a_paper_is_found_again_from_a_strip_folded_of_it() -> None:
    strip = inside(100.0, CARD)
    found = hinge_depth(apart=100.0, insides=[strip] * 3, caliper=Measured(CARD.thickness, 0.0), reading=SLIDING)
    assert found.value == pytest.approx(CARD.hinge_depth)


def test_a_reading_that_is_off_by_its_limit_moves_the_hinge_by_no_more_than_is_told() -> None:
    t = Measured(0.30, 0.005)
    told = hinge_depth(apart=100.0, insides=[99.70], caliper=t, reading=0.02)
    for apart in (99.98, 100.02):
        for within in (99.68, 99.72):
            there = hinge_depth(apart=apart, insides=[within], caliper=Measured(0.30, 0.0), reading=0.0)
            assert abs(there.value - told.value) <= told.off


def test_a_ruler_is_too_coarse_for_the_hinge_of_thin_card_and_a_sliding_caliper_is_not() -> None:
    card = Measured(0.30, 0.005)
    assert hinge_depth(apart=100.0, insides=[99.70], caliper=card, reading=RULER).is_too_coarse
    assert not hinge_depth(apart=100.0, insides=[99.70], caliper=card, reading=SLIDING).is_too_coarse
    assert hinge_depth(apart=100.0, insides=[99.70], caliper=card, reading=RULER).off > TOO_COARSE


def test_several_strips_count_with_their_mean() -> None:
    found = hinge_depth(apart=100.0, insides=[99.6, 99.8], caliper=Measured(0.4, 0.0), reading=0.0)
    assert found.value == pytest.approx(1 - 0.3 / 0.8)


@pytest.mark.parametrize("insides", [[], [100.1], [99.0]])
def test_an_inside_that_no_fold_gives_is_refused(insides: list[float]) -> None:
    with pytest.raises(Mistake):
        hinge_depth(apart=100.0, insides=insides, caliper=Measured(0.3, 0.0), reading=SLIDING)


def test_a_printer_that_prints_small_is_told_to_print_larger() -> None:
    assert print_percent(bar=150.0, true=150.0) == 100.0
    assert print_percent(bar=145.5, true=150.0) == pytest.approx(103.0928)
    for bar in (75.0, 300.0, 0.001):
        with pytest.raises(Mistake, match="not printed at 100"):
            print_percent(bar=bar, true=150.0)


def test_the_accuracy_of_cuts_is_the_farthest_of_the_pieces() -> None:
    found = cut_limit(aim=25.0, pieces=[25.1, 24.8, 25.0, 25.0, 25.15], reading=SLIDING)
    assert found.value == pytest.approx(0.2)
    assert found.off == SLIDING
    with pytest.raises(Mistake, match="4 pieces tell too little"):
        cut_limit(aim=25.0, pieces=[25.0] * 4, reading=SLIDING)
    with pytest.raises(Mistake, match="15 mm off"):
        cut_limit(aim=25.0, pieces=[25.0] * 4 + [40.0], reading=SLIDING)


def test_a_maker_in_inches_is_told_of_readings_in_inches() -> None:
    inch = 25.4
    with pytest.raises(Mistake, match=r"A bar of 6 in that measures 2 1/2 in was not printed"):
        print_percent(bar=2.5 * inch, true=6 * inch, unit=Unit.INCH)
    with pytest.raises(Mistake, match=r"1/2 in off\. Cut all of them to 3/4 in\."):
        cut_limit(aim=0.75 * inch, pieces=[0.75 * inch] * 4 + [1.25 * inch], reading=SLIDING, unit=Unit.INCH)
    with pytest.raises(
        Mistake, match=r"Scores 4 in apart that measure 3 1/2 in inside do not go with paper 0\.012 in thick"
    ):
        caliper = Measured(0.012 * inch, 0.0)
        hinge_depth(apart=4 * inch, insides=[3.5 * inch], caliper=caliper, reading=SLIDING, unit=Unit.INCH)
    with pytest.raises(Mistake, match=r"10 sheets in 11 in would be 1.100 in thick each"):
        sheet_thickness(stack=11 * inch, sheets=10, reading=SLIDING, unit=Unit.INCH)
