"""Folds across the grain: which they are, how heavy the card may be for them, and that nothing is said of a grain not known.

A fold along the grain is smooth, a fold across it may crack: Roberts & Etherington, Bookbinding and the Conservation of Books, "grain".
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.folding.shapes import tray

from kitwright.findings import Finding, Severity
from kitwright.paper import Caliper, Fibres, Grain, Paper, Print
from kitwright.pattern import Draft, Pattern
from kitwright.proof import check_grain, scores_across

INCH = 25.4


def paper(points: float, grain: Grain = Grain.LONG, print_: Print = Print.NONE) -> Paper:
    """An upright Letter sheet so many thousandths of an inch thick."""
    size = Fraction(2159, 10), Fraction(2794, 10)
    caliper = Caliper(points * INCH / 1000, is_estimate=False)
    return Paper(
        key="p",
        label="P",
        sheet_width_mm=size[0],
        sheet_height_mm=size[1],
        gsm=216,
        caliper=caliper,
        grain=grain,
        print_=print_,
    )


def half_fold(angle: float = -180) -> Pattern:
    """A Letter sheet cut in two and folded in half: the blank 5 1/2 wide, 8 1/2 high, its score level."""
    draft = Draft("card")
    draft.panel("front", 5.5 * INCH, 4.25 * INCH).fold_out("north", "back", 4.25 * INCH, angle=angle)
    return Pattern((draft.finish(),))


def judge(pattern: Pattern, made: Paper, turns: tuple[int, ...], asked: Fibres | None = None) -> dict[str, Finding]:
    return {each.code: each for each in check_grain("card", pattern, made, turns=turns, asked=asked)}


def test_a_level_score_runs_across_fibres_that_run_up_and_along_those_that_run_level() -> None:
    (blank,) = half_fold().blanks
    assert [score.child for score in scores_across(blank, Fibres.HEIGHT)] == ["back"]
    assert scores_across(blank, Fibres.WIDTH) == ()
    assert scores_across(blank, None) == ()


def test_the_walls_of_a_tray_run_across_the_grain_on_two_of_its_sides() -> None:
    (blank,) = tray(60, 40, 20).blanks
    for fibres, sides in ((Fibres.HEIGHT, {"south", "north"}), (Fibres.WIDTH, {"east", "west"})):
        walls = {score.child for score in scores_across(blank, fibres) if score.parent == blank.root.name}
        assert walls == sides


# 0.005 in: score what is thicker or folded across the grain, a printer's published folding guide.
# 0.010 in, and half as much for a right angle: common practice, no source.
@pytest.mark.parametrize(
    ("points", "angle", "severity"),
    [
        (5, -180, Severity.OK),
        (5.5, -180, Severity.NOTE),
        (10, -180, Severity.NOTE),
        (10.5, -180, Severity.WARNING),
        (10, -90, Severity.OK),
        (11, -90, Severity.NOTE),
        (11, 90, Severity.NOTE),
        (20.5, -90, Severity.WARNING),
    ],
)
def test_heavier_card_and_sharper_folds_are_judged_harder_across_the_grain(
    points: float, angle: float, severity: Severity
) -> None:
    found = judge(half_fold(angle), paper(points), (0,))["scores-and-grain"]
    assert found.severity is severity
    assert found.margin is not None
    assert (found.margin >= 0) is (severity is Severity.OK)
    assert found.because


def test_along_the_grain_even_heavy_card_folds_well() -> None:
    found = judge(half_fold(), paper(16), (1,))["scores-and-grain"]
    assert (found.severity, found.message) == (Severity.OK, "All its scores run along the grain.")


def test_of_two_ways_of_lying_the_worse_counts_and_is_told_as_possible() -> None:
    found = judge(half_fold(), paper(11), (0, 1))["scores-and-grain"]
    assert found.severity is Severity.WARNING
    assert found.message.startswith("The score of the back may run across the grain, and card so heavy may crack there")


def test_nothing_is_said_of_a_grain_that_is_not_known_or_a_blank_without_scores() -> None:
    assert judge(half_fold(), paper(16, Grain.UNKNOWN), (0, 1)) == {}
    draft = Draft("card")
    draft.panel("front", 60, 40)
    assert judge(Pattern((draft.finish(),)), paper(16), (0, 1)) == {}


def test_what_is_asked_of_the_grain_is_kept_fails_against_the_print_or_cannot_be_told() -> None:
    asked = Fibres.WIDTH
    assert judge(half_fold(), paper(11), (1,), asked)["grain-as-asked"].severity is Severity.OK
    assert judge(half_fold(), paper(11, print_=Print.ONE_WAY), (0,), asked)["grain-as-asked"].severity is Severity.FAIL
    assert judge(half_fold(), paper(11, Grain.UNKNOWN), (0, 1), asked)["grain-as-asked"].severity is Severity.NOTE


def crossed(level: float, upright: float, more: float = 0.0) -> Pattern:
    """A panel with a fold at its upper edge, one at the right, and one at the left, by these angles."""
    draft = Draft("card")
    body = draft.panel("body", 100, 60)
    body.fold_out("north", "top", 30, angle=level)
    body.fold_out("east", "right", 30, angle=upright)
    body.fold_out("west", "left", 30, angle=more or upright)
    return Pattern((draft.finish(),))


def test_where_it_may_lie_either_way_the_hardest_fold_counts_and_not_the_most_folds() -> None:
    found = judge(crossed(-180, -90), paper(11), turns=(0, 1))["scores-and-grain"]
    assert found.message.startswith("The score of the top may run across the grain")
    assert found.severity is Severity.WARNING  # 0.011 in folded flat


def test_a_score_that_is_not_folded_strains_nothing_and_is_not_named() -> None:
    found = judge(crossed(-90, -90, 0.0), paper(12), turns=(1,))["scores-and-grain"]
    assert found.message.startswith("The scores of the right and the left run")
    draft = Draft("card")
    body = draft.panel("body", 100, 60)
    body.fold_out("east", "right", 30, angle=-90)
    body.fold_out("west", "flat", 30, angle=0)
    found = judge(Pattern((draft.finish(),)), paper(12), turns=(1,))["scores-and-grain"]
    assert found.message.startswith("The score of the right runs across the grain")


def test_of_several_scores_the_hardest_is_named_first() -> None:
    found = judge(crossed(-90, -90, -180), paper(12), turns=(1,))["scores-and-grain"]
    assert found.message.startswith("The scores of the left and the right run across the grain")


def test_a_grain_that_is_asked_for_must_run_so_whichever_way_the_blank_may_lie() -> None:
    assert judge(half_fold(), paper(5), turns=(0, 1), asked=Fibres.WIDTH)["grain-as-asked"].severity is Severity.FAIL
    ways = {
        turn: judge(half_fold(), paper(5), turns=(turn,), asked=Fibres.WIDTH)["grain-as-asked"].severity
        for turn in (0, 1)
    }
    assert set(ways.values()) == {Severity.OK, Severity.FAIL}
