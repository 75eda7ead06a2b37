"""`scan` and `laid` of a paper: read, written back, refused in words; and what a plan makes of sheets laid by hand."""

from fractions import Fraction

import pytest

from kitwright.cutting import placements, to_mm
from kitwright.errors import Mistakes
from kitwright.findings import Change
from kitwright.kit import Laid, apply_changes, laid_text, read_kit, scan_text, write_kit
from kitwright.measure import Unit
from kitwright.paper import Scan, UpEdge
from kitwright.plan import plan

DOCUMENT = """[kit]
name = "k"
units = "in"
[paper.p]
sheet = "12 x 12"
weight = "80 lb cover"
{more}
[[part]]
name = "card, large"
form = "flat card"
size = "6 x 4"
paper = "p"
quantity = 2
"""


def kit_with(more: str):
    return read_kit(DOCUMENT.format(more=more))


def test_a_scan_is_read_with_its_real_size_place_and_up() -> None:
    said = '{ picture = "gingham-2", shows = "8 1/2 x 11", at = "0 x 1/2", up = "left" }'
    scan = kit_with(f"scan = {said}").papers["p"].scan
    inch = Fraction(254, 10)
    half = inch / 2
    assert scan == Scan(picture="gingham-2", shows=(17 * half, 11 * inch), at=(Fraction(0), half), up=UpEdge.LEFT)
    assert scan is not None
    assert scan_text(scan, Unit.INCH) == said


@pytest.mark.parametrize(
    "said",
    [
        '"gingham"',
        "{}",
        '{ picture = "../secret" }',
        '{ picture = "A" }',
        '{ picture = "" }',
        '{ picture = "a", shows = "0 x 1" }',
        '{ picture = "a", at = "-1 x 0" }',
        '{ picture = "a", at = "1" }',
        '{ picture = "a", up = "north" }',
        '{ picture = "a", size = "1 x 1" }',
    ],
)
def test_a_scan_that_makes_no_sense_is_told_with_its_line(said: str) -> None:
    with pytest.raises(Mistakes) as caught:
        kit_with(f"scan = {said}")
    assert {each.place.line for each in caught.value.mistakes} == {7}


def test_laid_sheets_come_back_from_the_document_as_they_were_written() -> None:
    inch = Fraction(254, 10)
    sheets = (
        (Laid("card, large", (inch, inch * Fraction(5, 2))), Laid("card, large", (Fraction(0), Fraction(0)), 3)),
        (Laid("card, large", (Fraction(3), inch)),),
    )
    kit = kit_with(f"laid = {laid_text(sheets, Unit.INCH)}")
    assert kit.laid["p"] == sheets
    assert read_kit(write_kit(kit)).laid["p"] == sheets


@pytest.mark.parametrize(
    "said",
    ['"card at 1 x 2"', '["card at 1 x 2"]', "[[]]", '[["card"]]', '[["card at 1"]]', '[["card at -1 x 0"]]', "[[3]]",
     '[["card at 1 x 2, turned 45"]]', '[["card at 1/128 x 2"]]', "[" + '["a at 0 x 0"],' * 201 + "]"],
)  # fmt: skip
def test_a_laid_sheet_that_cannot_be_read_is_told_with_its_line(said: str) -> None:
    with pytest.raises(Mistakes) as caught:
        kit_with(f"laid = {said}")
    assert {each.place.line for each in caught.value.mistakes} == {7}


def test_changing_the_document_puts_scan_and_sheets_in_and_takes_them_out() -> None:
    plain = DOCUMENT.format(more="")
    laid = Change("p", "laid", '[["card, large at 1 x 2"]]', table="paper")
    scan = Change("p", "scan", '{ picture = "gingham" }', table="paper")
    both = apply_changes(plain, [scan, laid])
    assert read_kit(both).papers["p"].scan == Scan(picture="gingham")
    assert read_kit(both).laid["p"][0][0].blank == "card, large"
    gone = [Change("p", key, "", table="paper") for key in ("scan", "laid")]
    assert apply_changes(both, gone) == plain


def test_a_plan_cuts_the_sheet_laid_by_hand_first_and_just_so() -> None:
    made = plan(kit_with('laid = [["card, large at 3 x 4"]]'), batch=1)
    (paper,) = made.papers
    assert paper.faults == ()
    assert paper.by_hand == 1
    (layout,) = paper.cut_plan.layouts
    assert layout.times == 2
    (placed,) = placements(layout)
    assert (to_mm(placed.x), to_mm(placed.y)) == (Fraction(762, 10), Fraction(1016, 10))
    assert paper.sheets == 2
    assert paper.at_least == 1


def test_a_sheet_by_hand_with_a_blank_that_is_no_more_is_left_out_and_named() -> None:
    (paper,) = plan(kit_with('laid = [["lid at 3 x 4"]]'), batch=1).papers
    assert (paper.by_hand, paper.unused, paper.sheets) == (0, (0,), 1)
