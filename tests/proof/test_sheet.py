"""Blanks on their sheets, numbers on the ruler, thicknesses that were only estimated."""

from __future__ import annotations

from fractions import Fraction

import pytest

from kitwright.findings import Severity
from kitwright.measure import MM_PER_INCH, Ruler, Unit
from kitwright.paper import Caliper, Grain, Margins, Paper, Print, turns_on_sheet
from kitwright.pattern import Blank, Draft
from kitwright.proof import check_caliper, check_ruler, check_sheet

INCHES = Ruler(Unit.INCH, MM_PER_INCH / 16)
INCH = float(MM_PER_INCH)
NONE = Margins()


def paper(print_: Print = Print.NONE, *, margins: Margins = NONE, caliper: Caliper | None = None) -> Paper:
    """A letter sheet, upright."""
    return Paper(
        key="kraft",
        label="Kraft",
        sheet_width_mm=MM_PER_INCH * 17 / 2,
        sheet_height_mm=MM_PER_INCH * 11,
        gsm=216,
        caliper=caliper or Caliper(0.28, is_estimate=False),
        grain=Grain.LONG,
        print_=print_,
        margins=margins,
    )


def blank(width: float, height: float) -> Blank:
    """A plain rectangle, sides in inches."""
    draft = Draft("piece")
    draft.panel("face", width * INCH, height * INCH)
    return draft.finish()


@pytest.mark.parametrize(
    ("size", "print_", "turn", "severity", "lack"),
    [
        ((8.5, 11), Print.NONE, 0, Severity.OK, 0.0),
        ((11, 8.5), Print.NONE, 0, Severity.OK, 0.0),
        ((11, 8.5), Print.ALL_OVER, 0, Severity.OK, 0.0),
        ((11, 8.5), Print.ONE_WAY, 0, Severity.FAIL, 2.5),
        ((11, 8.5), Print.ONE_WAY, 1, Severity.OK, 0.0),
        ((11, 8.5), Print.ONE_WAY, 2, Severity.FAIL, 2.5),
        ((11, 8.5), Print.ONE_WAY, 3, Severity.OK, 0.0),
        ((8.5, 11), Print.ONE_WAY, 1, Severity.FAIL, 2.5),
        ((8.5625, 11), Print.NONE, 0, Severity.FAIL, 0.0625),
        ((8.5, 11.0625), Print.NONE, 0, Severity.FAIL, 0.0625),
        ((8, 10), Print.NONE, 0, Severity.OK, -0.5),
    ],
)  # a letter sheet is 8 1/2 x 11 in: ANSI/ASME Y14.1, size A
def test_a_blank_lies_on_its_sheet_only_as_its_print_allows(
    size: tuple[float, float], print_: Print, turn: int, severity: Severity, lack: float
) -> None:
    made = paper(print_)
    turns = turns_on_sheet(made, print_turn=turn, has_up=True, fibres=None)
    found = check_sheet("part", blank(*size), made, INCHES, turns=turns)
    assert (found.code, found.severity) == ("blank-on-sheet", severity)
    assert found.measured == pytest.approx(lack * INCH, abs=1e-9)
    assert found.margin == pytest.approx(-lack * INCH, abs=1e-9)


def test_edges_that_cannot_be_used_make_the_sheet_smaller() -> None:
    quarter = MM_PER_INCH / 4
    margins = Margins(left=quarter, right=quarter, bottom=quarter, top=Fraction(0))
    assert check_sheet("p", blank(8, 10.75), paper(margins=margins), INCHES, turns=(0, 1)).severity is Severity.OK
    found = check_sheet("p", blank(8.5, 10), paper(margins=margins), INCHES, turns=(0, 1))
    assert found.severity is Severity.FAIL
    assert found.message == (
        "Its blank of 8 1/2 × 10 is 1/2 in too large for a sheet of Kraft (8 × 10 3/4 usable). "
        "A sheet would need 8 1/2 × 10 to use."
    )


def test_a_print_that_keeps_a_blank_from_lying_down_is_named() -> None:
    found = check_sheet("p", blank(11, 8.5), paper(Print.ONE_WAY), INCHES, turns=(0,))
    assert found.message == (
        "Its blank of 11 × 8 1/2 is 2 1/2 in too large for a sheet of Kraft (8 1/2 × 11 usable) lying as its one-way print asks. "
        "A sheet would need 11 × 8 1/2 to use."
    )


def test_numbers_between_the_marks_are_noted_with_the_worst() -> None:
    on = check_ruler("p", {"width": 6 * INCH, "score 1": 4.0625 * INCH}, INCHES)
    assert (on.severity, on.message) == (Severity.OK, "Every cut and score lies on a 1/16 in mark.")
    off = check_ruler("p", {"width": 6 * INCH, "score 1": 4.01 * INCH, "score 2": 2.03 * INCH}, INCHES)
    assert off.severity is Severity.NOTE
    assert off.message == "2 of its numbers lie between the 1/16 in marks, first of all the score 2: 2.030 in."
    assert off.measured == pytest.approx(2.03 * INCH)
    assert off.required == pytest.approx(2 * INCH)
    assert off.margin == pytest.approx(-0.03 * INCH)


def test_only_an_estimated_thickness_is_noted() -> None:
    assert check_caliper(paper(), INCHES) is None
    found = check_caliper(paper(caliper=Caliper(0.28, is_estimate=True)), INCHES)
    assert found is not None
    assert (found.severity, found.about) == (Severity.NOTE, "Kraft")
    assert "Measure a stack of ten sheets" in found.message


@pytest.mark.parametrize(
    ("ruler", "says"),
    [
        (INCHES, "0.011 in, likely 0.009 in to 0.013 in."),
        (Ruler(Unit.MILLIMETRE, Fraction(1)), "0.28 mm, likely 0.24 mm to 0.32 mm."),
        (Ruler(Unit.CENTIMETRE, Fraction(1)), "0.028 cm, likely 0.024 cm to 0.032 cm."),
    ],
)
def test_a_thickness_is_told_finer_than_a_size(ruler: Ruler, says: str) -> None:
    found = check_caliper(paper(caliper=Caliper(0.28, is_estimate=True)), ruler)
    assert found is not None
    assert says in found.message
