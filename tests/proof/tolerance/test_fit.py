"""Shares of makes that fit, and how they are told."""

from __future__ import annotations

from fractions import Fraction

import pytest

from kitwright.findings import Finding, Severity
from kitwright.measure import Ruler, Unit
from kitwright.proof.tolerance import (
    FEWEST_THAT_FIT,
    MOST_THAT_MAY_MISS,
    Fit,
    Makes,
    Shape,
    Stack,
    Variation,
    judge_fit,
    percent,
    with_makings,
)

MILLIMETRES = Ruler(Unit.MILLIMETRE, Fraction(1))


def fit(nominal: float, *reaches: float, most: float | None = None, shape: Shape = Shape.UNIFORM) -> Fit:
    moves = {Variation(f"cut {number}", reach, shape): 1.0 for number, reach in enumerate(reaches)}
    return Fit((Stack(nominal, moves),), most, "by hand")


def test_an_even_error_misses_as_often_as_its_share_beyond_the_limit() -> None:
    # one even error of ±1 and 0.5 free: a quarter of all makes is too tight; with at most 1 free another quarter is loose (geometry)
    found = judge_fit(fit(0.5, 1.0, most=1.0), Makes())
    assert found.too_tight == pytest.approx(0.25, abs=0.005)
    assert found.too_loose == pytest.approx(0.25, abs=0.005)
    assert found.share == pytest.approx(0.5, abs=0.01)
    assert found.low < found.share < found.high
    assert found.high - found.low == pytest.approx(2 * 1.959964 * 0.5 / 100_000**0.5, rel=0.01)
    assert (found.nominal, found.least, found.greatest, found.rss) == (0.5, -0.5, 1.5, 1.0)


def test_four_even_errors_miss_the_root_sum_square_in_one_of_twenty_four() -> None:
    # Irwin-Hall: four even errors lie beyond it either way in exactly 1 of 12, so below it in 1 of 24
    found = judge_fit(fit(2.0, 1.0, 1.0, 1.0, 1.0), Makes())
    assert found.rss == 2.0
    assert found.too_tight == pytest.approx(1 / 24, abs=0.002)


def test_a_make_must_fit_everywhere_at_once() -> None:
    one, other = Variation("a", 1.0), Variation("b", 1.0)
    apart = Fit((Stack(0.0, {one: 1.0}), Stack(0.0, {other: 1.0})), None, "")
    together = Fit((Stack(0.0, {one: 1.0}), Stack(0.0, {one: 1.0})), None, "")
    against = Fit((Stack(0.0, {one: 1.0}), Stack(0.0, {one: -1.0})), None, "")
    assert judge_fit(apart, Makes()).share == pytest.approx(0.25, abs=0.005)
    assert judge_fit(together, Makes()).share == pytest.approx(0.5, abs=0.005)
    assert judge_fit(against, Makes()).share == pytest.approx(0.0, abs=0.001)


def told(nominal: float, *reaches: float, severity: Severity = Severity.OK, most: float | None = None) -> Finding:
    finding = Finding("lid-fit-width", severity, "lid", "It goes on.", because="geometry")
    return with_makings(finding, judge_fit(fit(nominal, *reaches, most=most), Makes()), MILLIMETRES)


def test_a_fit_that_never_misses_stays_as_it_is_and_says_so() -> None:
    found = told(1.0, 0.5, 0.5)
    assert found.severity is Severity.OK
    assert found.message == "It goes on. It fits in every make (at the tightest 0 mm free)."
    assert found.makings is not None
    assert found.makings.share == 1.0


def test_a_worst_case_that_misses_by_less_than_a_thousandth_is_none() -> None:
    assert "It fits in every make" in told(0.4995, 0.5).message  # sizes are rounded to marks with that much slack
    assert "worst case" in told(0.4985, 0.5).message


@pytest.mark.parametrize(("nominal", "severity"), [(0.985, Severity.OK), (0.975, Severity.WARNING)])
def test_a_fit_is_a_warning_once_it_misses_in_more_than_one_of_a_hundred(nominal: float, severity: Severity) -> None:
    # an even error of ±1 is too tight in (1 - nominal) / 2 of all makes: 0.75 % and 1.25 % (limit: common practice, no source)
    assert MOST_THAT_MAY_MISS == 0.01
    found = told(nominal, 1.0)
    assert found.severity is severity
    assert "(worst case" in found.message
    assert "too tight)" in found.message


@pytest.mark.parametrize(
    ("nominal", "severity"), [(0.21, Severity.WARNING), (0.19, Severity.FAIL), (0.0, Severity.FAIL)]
)
def test_a_fit_fails_once_fewer_than_three_of_five_makes_go_together(nominal: float, severity: Severity) -> None:
    # an even error of ±1 goes together in (1 + nominal) / 2 of all makes: 60.5 %, 59.5 % and one half (limit: common practice, no source)
    assert FEWEST_THAT_FIT == 0.6
    assert told(nominal, 1.0).severity is severity
    assert told(nominal, 1.0, severity=Severity.NOTE).severity is severity
    assert ("That is too few: at least 60 of 100 should." in told(nominal, 1.0).message) is (severity is Severity.FAIL)


def test_what_can_be_put_right_by_hand_is_a_warning_however_few_makes_fit() -> None:
    finding = Finding("mat-on-card", Severity.NOTE, "mat", "The border is narrow.", because="geometry")
    found = with_makings(finding, judge_fit(fit(0.0, 1.0), Makes()), MILLIMETRES, gravest=Severity.WARNING)
    assert found.severity is Severity.WARNING
    assert "too few" not in found.message


def test_a_make_that_is_too_tight_one_way_and_loose_the_other_counts_as_too_tight() -> None:
    # what one end gains the other loses: half of all makes are more than 0.5 free at one end, and every one is too tight at the other
    one = Variation("a", 1.0)
    both = Fit((Stack(0.0, {one: 1.0}), Stack(0.0, {one: -1.0})), 0.5, "")
    found = judge_fit(both, Makes())
    assert (found.too_tight, found.too_loose, found.share) == pytest.approx((1.0, 0.0, 0.0), abs=0.001)


def test_a_fail_stays_a_fail_and_its_words_stay_as_they_are() -> None:
    found = told(-1.0, 0.1, severity=Severity.FAIL)
    assert (found.severity, found.message) == (Severity.FAIL, "It goes on.")
    assert found.makings is not None
    assert found.makings.too_tight == 1.0


def test_makes_that_are_loose_are_told_but_are_no_warning() -> None:
    found = told(2.0, 1.0, most=2.5)
    assert found.severity is Severity.OK
    assert ", loose in 2" in found.message


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (1.0, "more than 99.9 %"),
        (0.99949, "99.9 %"),
        (0.996, "99.6 %"),
        (0.0004, "less than 0.1 %"),
        (0.0, "0.0 %"),
    ],
)
def test_a_share_is_never_rounded_to_a_certainty(share: float, said: str) -> None:
    assert percent(share) == said
