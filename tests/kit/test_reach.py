"""Whether the maker's trimmer can free every blank from a sheet of its paper: numbers worked out by hand, and what is told."""

import pytest
from tests.kit.documents import built, finding, head, part

from kitwright.cutting import to_mm
from kitwright.findings import Finding, Severity
from kitwright.kit import part_proofs, prove, read_kit
from kitwright.plan import plan
from kitwright.printouts.make.whole_pack import whole_pack

CODE = "blank-in-reach"


def cards(
    trimmer: str, *, size: str = "100 x 250", sheet: str = "A4", more: str = "", then: str = "", kit: str = ""
) -> str:
    """A card, cut with a trimmer of which this is said."""
    text = head(units="mm", ruler="1", sheet=sheet, caliper="0.3", more=more)
    bench = f"{kit}\n[kit.trimmer]\n{trimmer}\n" if trimmer else f"{kit}\n"
    return text.replace("[paper.card]", f"{bench}[paper.card]") + part("card", "flat card", size=size) + then


def found(text: str) -> list[Finding]:
    """What is said of the trimmer."""
    return [each for each in prove(built(text), with_fixes=False).findings if each.code == CODE]


@pytest.mark.parametrize(
    ("size", "sheet", "more", "needs"),
    [
        ("100 x 250", "210 x 297", "", 250),  # across the 210, then along the 250; the other order begins with 297
        ("100 x 180", "210 x 297", "", 210),
        ("210 x 100", "210 x 297", "", 210),  # as wide as the sheet: one cut
        ("90 x 180", "200 x 500", "", 200),
        ("180 x 100", "200 x 300", 'print = "one-way"', 200),  # across the 200, then 100
        ("100 x 250", "300 x 250", 'print = "one-way"', 250),  # as high as the sheet: one cut
        ("250 x 100", "300 x 250", 'print = "one-way"', 250),  # along the 250 of the sheet, then 250 across
        (
            "100 x 80",
            "200 x 300",
            'margins = "10"',
            200,
        ),  # across the 200 of the sheet, its ends and then the card; the margins at the sides off what is left
    ],
)
def test_the_trimmer_must_cut_as_long_as_the_longest_cut_of_the_better_order(
    size: str, sheet: str, more: str, needs: int
) -> None:
    (just,) = found(cards(f'longest-cut = "{needs}"', size=size, sheet=sheet, more=more))
    (short,) = found(cards(f'longest-cut = "{needs - 1}"', size=size, sheet=sheet, more=more))
    assert (just.severity, short.severity) == (Severity.OK, Severity.FAIL)
    assert (short.measured, short.required, short.margin) == (needs, needs - 1, -1)
    assert f"takes a cut of {needs} mm, and its longest is {needs - 1} mm." in short.message


def test_the_hand_must_have_enough_to_hold_at_every_cut() -> None:
    # of 210 the 100 of the card or the 110 beside it lie under the hand; of 297 the 250
    (just,), (narrow,) = found(cards('narrowest = "110"')), found(cards('narrowest = "111"'))
    assert (just.severity, narrow.severity) == (Severity.OK, Severity.FAIL)
    assert (narrow.measured, narrow.required, narrow.margin) == (110, 111, -1)
    assert "110 mm wide at most, and 111 mm must be there to hold." in narrow.message


def test_nothing_is_said_where_nothing_is_said_of_the_trimmer_or_the_blank_is_larger_than_its_sheet() -> None:
    assert found(cards("")) == []
    assert found(cards('stack = "1"')) == []
    assert found(cards('longest-cut = "200"', size="250 x 300")) == []


def test_a_blank_that_an_offcut_gives_or_that_is_laid_by_hand_is_no_failure() -> None:
    offcut = '[[offcut]]\npaper = "card"\nsize = "100 x 260"\n'  # one cut of 100
    laid = 'laid = [["card at 0 x 0"]]'
    (whole,) = found(cards('longest-cut = "200"'))
    (from_offcut,) = found(cards('longest-cut = "200"', then=offcut))
    (by_hand,) = found(cards('longest-cut = "200"', more=laid))
    assert [each.severity for each in (whole, from_offcut, by_hand)] == [Severity.FAIL, Severity.NOTE, Severity.NOTE]
    assert "offcuts on hand" in from_offcut.message
    assert "You laid it by hand" in by_hand.message
    # neither is used where every kit is cut by the same layouts
    (alike,) = found(cards('longest-cut = "200"', more=laid, then=offcut, kit="alike = true"))
    assert alike.severity is Severity.FAIL


def test_another_paper_from_which_it_can_be_freed_is_offered_and_else_how_to_cut_it_by_hand() -> None:
    text = cards('longest-cut = "200"', size="100 x 180")  # takes 210
    nowhere = finding(text, CODE, with_fixes=True)
    assert nowhere.fix is None
    assert "scissors, or with a knife along a ruler, leave longest-cut out under [kit.trimmer]." in nowhere.advice
    assert "Or take sheets that are no longer than 200 mm along one side." in nowhere.advice
    assert [each.severity for each in found(text.replace('"A4"', '"200 x 297"'))] == [Severity.OK]
    smaller = text.replace('[paper.thin]\nsheet = "A4"', '[paper.thin]\nsheet = "200 x 297"')
    fix = finding(smaller, CODE, with_fixes=True).fix
    assert fix is not None
    assert fix.sentence == "Cut card from thin."


def test_what_was_asked_of_the_grain_is_given_up_where_the_blank_can_then_be_freed() -> None:
    # of A4 with the card upright 110 at most lie under the hand, beside its 100; with the card on its side the 150 of it
    text = cards('narrowest = "120"', size="100 x 150", more='grain = "long"')
    assert [each.severity for each in found(text)] == [Severity.OK]
    asked = finding(f'{text}grain = "height"\n', CODE, with_fixes=True)
    assert (asked.severity, asked.measured) == (Severity.FAIL, 110)
    assert "lying as the grain is asked to run" in asked.message
    assert asked.fix is not None
    assert asked.fix.sentence == "Let the grain of card run as it comes."


def test_the_blank_laid_as_its_print_asks_is_told_so() -> None:
    (across,) = found(cards('longest-cut = "200"', size="180 x 250", sheet="260 x 300", more='print = "one-way"'))
    assert "lying as the one-way print asks: that takes a cut of 260 mm" in across.message


def test_a_proof_of_a_part_is_not_taken_over_where_the_trimmer_is_another() -> None:
    before = part_proofs(built(cards('longest-cut = "250"')))
    after = part_proofs(built(cards('longest-cut = "249"')), like=before)
    assert [each.severity for each in after["card"].blanks if each.code == CODE] == [Severity.FAIL]
    same = part_proofs(built(cards('longest-cut = "250"')), like=before)
    assert same["card"] is before["card"]


@pytest.mark.parametrize("longest", [99, 100, 120, 180, 199, 200, 250, 300])
@pytest.mark.parametrize("size", ["100 x 180", "120 x 200", "200 x 99"])
def test_what_the_proof_lets_pass_the_layouts_can_cut(longest: int, size: str) -> None:
    made = plan(read_kit(cards(f'longest-cut = "{longest}"', size=size, sheet="200 x 300")))
    (said,) = [each for each in made.proof.findings if each.code == CODE]
    (paper,) = made.papers
    assert (said.severity is Severity.OK) is (paper.cut_plan.unplaced == ())


@pytest.mark.parametrize(("longest", "sheets"), [(310, 1), (297, 1), (296, 0)])
def test_cards_come_from_a_sheet_with_margins_longer_than_the_trimmer_that_can_be_cut_across(
    longest: int, sheets: int
) -> None:
    text = cards(f'longest-cut = "{longest}"', size="105 x 148", sheet="A3", more='margins = "5"')
    made = plan(read_kit(text), batch=4)
    (paper,) = made.papers
    (said,) = [each for each in made.proof.findings if each.code == CODE]
    assert paper.faults == ()
    assert (paper.sheets, said.severity) == (sheets, Severity.OK if sheets else Severity.FAIL)
    assert paper.cut_plan.is_proved is bool(sheets)
    assert all(to_mm(step.length) <= longest for step in paper.steps)
    if sheets:
        pack = whole_pack(made)
        order = pack["sheets/card-1-cuts.svg"].decode()
        assert "guide at 415 mm" in order and "guide at 287 mm" in order
    else:
        assert "with the margins to cut off, first or last, that takes a cut of 297 mm" in said.message
