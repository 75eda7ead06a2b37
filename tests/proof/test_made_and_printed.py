"""Whether a part can be made as drawn, and stands with its print upright: good parts pass, and a part drawn wrong in one way fails
in just that way."""

from __future__ import annotations

from fractions import Fraction
from math import radians, sin

import pytest
from tests.folding.shapes import tray

import kitwright.forms  # noqa: F401  (fills the catalogue)
from kitwright.catalogue import CATALOGUE
from kitwright.findings import Finding, Severity
from kitwright.folding import Folded, fold
from kitwright.measure import Ruler, Unit
from kitwright.paper import Caliper, Paper, Print
from kitwright.pattern import Claims, Draft, Joint, Pattern, Seam, Shows, Side, Stage, Stance, Up
from kitwright.proof import (
    Printed,
    check_layers,
    check_motion,
    check_pass_through,
    check_print,
    check_prints_agree,
    check_seams,
    check_tabs,
)

RULER = Ruler(Unit.MILLIMETRE, Fraction(1, 2))


def folded(pattern: Pattern) -> Folded:
    return fold(pattern)


def paper(print_: Print) -> Paper:
    return Paper(
        key="p",
        label="P",
        sheet_width_mm=Fraction(300),
        sheet_height_mm=Fraction(300),
        gsm=200,
        caliper=Caliper(0.3, is_estimate=False),
        print_=print_,
    )


def strip(*, last: float = 40.0, angle: float = -90.0, tab: float = 10.0) -> Pattern:
    """A band of four sides 60, 40, 60 and `last`, closed with a tab on the first side."""
    draft = Draft("band")
    one = draft.panel("front", 60, 30)
    two = one.fold_out("east", "right", 40)
    three = two.fold_out("far", "back", 60)
    four = three.fold_out("far", "left", last, angle=angle)
    end = four.tab("far", tab, slope=0, name="tab")
    return Pattern(
        (draft.finish(),),
        joints=(Joint(end.ref, one.ref, Side.UNDER),),
        stance=Stance.STANDING,
        claims=Claims(
            seams=(Seam(four.edge("far"), one.edge("west")),),
            shows=(Shows(one.ref, main=True), Shows(two.ref), Shows(three.ref), Shows(four.ref, Up.ANY)),
        ),
        stages=(Stage("Fold.", folds=("right", "back", "left", "tab")),),
    )


def got(finding: Finding | None) -> Finding:
    assert finding is not None
    return finding


def test_a_band_that_is_drawn_right_passes_everything() -> None:
    made = folded(strip())
    assert got(check_seams("band", made, RULER)).message == "Its seam meets when it is folded."
    assert got(check_tabs("band", made)).message == "Its tab lands flat on what it is glued to."
    assert check_pass_through("band", made).severity is Severity.OK
    assert got(check_motion("band", made)).severity is Severity.OK
    assert check_layers("band", made) is None


def test_a_side_that_is_too_short_leaves_a_seam_open_by_as_much() -> None:
    found = got(check_seams("band", folded(strip(last=38.5)), RULER))
    assert (found.code, found.severity) == ("seams-meet", Severity.FAIL)
    assert found.message == "Folded, the far edge of the left and the west edge of the front miss each other by 1.5 mm."
    assert found.measured == pytest.approx(1.5)
    assert found.required == 0.1


def test_a_tenth_of_a_millimetre_is_no_gap() -> None:
    assert got(check_seams("band", folded(strip(last=39.95)), RULER)).severity is Severity.OK
    assert got(check_seams("band", folded(strip(last=39.85)), RULER)).severity is Severity.FAIL


def test_a_fold_that_is_not_square_opens_the_seam_and_lifts_the_tab() -> None:
    made = folded(strip(angle=-80))
    # the end of a side of 40 swings by 10 degrees: a chord of 2 * 40 * sin(5 degrees)
    assert got(check_seams("band", made, RULER)).measured == pytest.approx(80 * sin(radians(5)))
    found = got(check_tabs("band", made))
    assert (found.severity, found.message) == (Severity.FAIL, "Folded, the tab does not lie flat on the front.")


def test_a_tab_longer_than_what_it_is_glued_to_sticks_out() -> None:
    found = got(check_tabs("band", folded(strip(tab=62))))
    assert found.severity is Severity.FAIL
    assert found.message == "The tab sticks out beyond the front with 60 mm² of it."  # 2 mm along 30
    assert found.measured == pytest.approx(60)
    assert (found.required, found.unit) == (1.0, "mm²")


def test_a_part_without_seams_tabs_or_scores_is_not_asked_about_them() -> None:
    draft = Draft("card")
    draft.panel("face", 60, 30)
    made = folded(Pattern((draft.finish(),)))
    assert check_seams("card", made, RULER) is None
    assert check_tabs("card", made) is None
    assert check_motion("card", made) is None
    assert check_pass_through("card", made).severity is Severity.OK


def test_panels_that_pass_through_each_other_fail() -> None:
    draft = Draft("cross")
    base = draft.panel("base", 60, 60)
    base.fold_out("east", "right", 50, angle=-135)
    base.fold_out("west", "left", 50, angle=-135)
    found = check_pass_through("cross", folded(Pattern((draft.finish(),))))
    assert (found.code, found.severity) == ("nothing-passes-through", Severity.FAIL)
    assert "passes through" in found.message
    assert found.margin is not None
    assert found.margin < -1


def test_a_tray_passes_with_its_tabs_inside_or_outside() -> None:
    for side in (Side.UNDER, Side.OVER):
        made = folded(tray(100, 80, 40, tabs=side))
        assert got(check_tabs("tray", made)).message == "All 4 glued panels land flat on what they are glued to."
        assert check_pass_through("tray", made).severity is Severity.OK
        assert check_layers("tray", made) is None


@pytest.mark.parametrize(("turn", "words"), [(1, "on its left side"), (2, "upside down"), (3, "on its right side")])
def test_a_turned_print_fails_on_the_main_face_and_warns_on_the_others(turn: int, words: str) -> None:
    found = list(check_print("band", folded(strip()), paper(Print.ONE_WAY), turn=turn))
    assert {(each.code, each.severity) for each in found} == {
        ("print-up-front", Severity.FAIL),
        ("print-up-right", Severity.WARNING),
        ("print-up-back", Severity.WARNING),
    }  # on the left side no way up was asked for
    front = next(each for each in found if each.code == "print-up-front")
    assert front.message == f"The one-way print is {words} on the front."
    assert front.margin == pytest.approx({1: -90, 2: -180, 3: -90}[turn])
    assert front.unit == "degrees"


def test_an_upright_print_is_told_once_for_all_faces() -> None:
    (found,) = check_print("band", folded(strip()), paper(Print.ONE_WAY), turn=0)
    assert (found.code, found.severity) == ("print-up", Severity.OK)
    assert found.message == "The one-way print stands upright on every face that shows: front, right, back."


@pytest.mark.parametrize("print_", [Print.NONE, Print.ALL_OVER])
def test_other_prints_have_no_way_up(print_: Print) -> None:
    for turn in range(4):
        assert list(check_print("band", folded(strip()), paper(print_), turn=turn)) == []


def test_a_face_that_should_show_and_is_covered_fails_whatever_the_print() -> None:
    draft = Draft("double")
    face = draft.panel("face", 60, 30)
    cover = face.fold_out("north", "cover", 30, angle=180)
    pattern = Pattern(
        (draft.finish(),), stance=Stance.STANDING, claims=Claims(shows=(Shows(face.ref, main=True), Shows(cover.ref)))
    )
    found = list(check_print("double", folded(pattern), paper(Print.NONE), turn=0))
    assert {(each.code, each.severity) for each in found} == {("face-shows", Severity.FAIL)}
    assert found[0].message == "The face should show but is covered."


@pytest.mark.parametrize(("turns", "agree"), [((0, 0), True), ((0, 2), False), ((2, 2), True), ((1, 3), False)])
def test_the_print_of_a_band_is_compared_with_that_of_what_it_goes_round(turns: tuple[int, int], agree: bool) -> None:
    one, other = (
        Printed(name, folded(strip()), paper(Print.ONE_WAY), turn)
        for name, turn in zip(("band", "box"), turns, strict=True)
    )
    found = got(check_prints_agree(one, other))
    assert found.about == "band on box"
    assert (found.severity is Severity.OK) is agree
    plain = Printed("box", folded(strip()), paper(Print.ALL_OVER), 0)
    assert check_prints_agree(one, plain) is None
    assert check_prints_agree(plain, one) is None


LID = CATALOGUE["lift-off lid"]


def lid_findings(*, turn: int) -> list[tuple[str, Severity, str]]:
    """What is told of a one-way print on a lid with its print turned on the blank."""
    made = LID(width=150.0, depth=100.0, height=25.0, tab=12.0, tabs="inside")  # type: ignore[call-arg]
    found = check_print("lid", folded(made.draw()), paper(Print.ONE_WAY), turn=turn)
    return [(each.code, each.severity, each.message) for each in found]


def test_what_no_turn_of_a_blank_can_help_is_no_warning_and_told_once() -> None:
    assert lid_findings(turn=0) == [
        (
            "print-up-elsewhere",
            Severity.NOTE,
            "The faces of one blank cannot all be upright in a one-way print: the main ones are, and it is on its right side on the "
            "right wall, upside down on the back wall, on its left side on the left wall.",
        )
    ]


def test_a_print_that_is_turned_worse_than_it_need_be_is_told_face_by_face() -> None:
    assert {(code, severity) for code, severity, _ in lid_findings(turn=2)} == {
        ("print-up-top", Severity.FAIL),
        ("print-up-front-wall", Severity.FAIL),
        ("print-up-right-wall", Severity.WARNING),
        ("print-up-left-wall", Severity.WARNING),
    }
