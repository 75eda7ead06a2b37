"""Offcuts on hand beside whole sheets: what is shown of the one is not taken for the other."""

from kitwright.cutting import verify_plan
from kitwright.kit import read_kit, write_kit
from kitwright.plan import plan
from kitwright.printouts.make.sheet_pages import hand_sentences
from kitwright.web.printed import sheets_of

DOCUMENT = """
[kit]
name = "Cards"
units = "in"

[paper.kraft]
sheet = "12 x 12"
weight = "80 lb cover"
caliper = "0.011"
laid = [["card at 0 x 0", "card at 5 x 0"]]

[[part]]
name = "card"
form = "flat card"
size = "5 x 7"
paper = "kraft"
quantity = 4

[[offcut]]
paper = "kraft"
size = "5 x 14"
"""


def test_a_sheet_laid_by_hand_stays_as_it_is_and_the_rest_comes_from_the_offcut() -> None:
    # Three cards: two lie on a sheet by hand, the third is cut from the offcut of 5 × 14.
    made = plan(read_kit(DOCUMENT.replace("quantity = 4", "quantity = 3")))
    (paper,) = made.papers
    assert (paper.sheets, paper.offcuts_used, paper.by_hand, paper.at_least) == (1, 1, 1, 1)
    assert verify_plan(paper.demand, paper.stocks, paper.cut_plan) == ()
    assert [(sheet.number, sheet.by_hand, len(sheet.lying)) for sheet in sheets_of(made, paper)] == [(0, 0, 2)]
    assert paper.cut_area_mm2 == (12 * 12 + 5 * 14) * 25.4**2


def test_sheets_laid_by_hand_are_left_out_where_every_kit_is_cut_alike() -> None:
    (paper,) = plan(read_kit(DOCUMENT), batch=3, alike=True).papers
    # three 5 × 7 come from a 12 × 12 by through cuts (geometry): a kit of four takes two sheets, three kits together four
    assert (paper.by_hand, paper.offcuts_used, paper.sheets, paper.same_costs) == (0, 0, 6, 2)
    assert hand_sentences(paper) == (
        "What you laid by hand is left out, because every kit is cut by the same layouts.",
    )
    said = read_kit(DOCUMENT.replace('units = "in"', 'units = "in"\nalike = true'))
    assert read_kit(write_kit(said)).alike
    (same,) = plan(said, batch=3).papers
    assert (same.sheets, same.same_costs, sheets_of(plan(said, batch=3), same)[0].by_hand) == (6, 2, None)
