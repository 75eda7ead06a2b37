"""From a kit and a number of kits to sheets: every blank is counted, laid the way its print asks, and the layouts pass the
independent check."""

from __future__ import annotations

from importlib import resources

import pytest

from kitwright.cutting import placements, to_mm, to_nm, verify_plan
from kitwright.errors import Mistake
from kitwright.findings import Severity
from kitwright.kit import blank_label, read_kit
from kitwright.measure import Unit
from kitwright.plan import MOST_KITS, plan
from kitwright.printouts.make.as_data import plan_as_data
from kitwright.printouts.make.bench_words import score_sentences
from tests.kit.documents import head, part

INCH = 25.4


def example(name: str) -> str:
    return resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8")


def cards(sheet: str, size: str, *, quantity: int = 1, more: str = "", turn: int = 0) -> str:
    return head(sheet=sheet, more=more) + part("card", "flat card", size=size, quantity=quantity, turn=90 * turn)


@pytest.mark.parametrize(("many", "sheets"), [(1, 1), (3, 1), (4, 2), (6, 2), (7, 3), (12, 4)])
def test_three_5_by_7_cards_come_out_of_a_12_in_sheet_by_through_cuts(many: int, sheets: int) -> None:
    # geometry: a fourth would need a pinwheel, which no sequence of through cuts makes (guillotine patterns: Gilmore & Gomory 1965)
    made = plan(read_kit(cards("12 x 12", "5 x 7")), batch=many)
    (paper,) = made.papers
    assert paper.sheets == sheets
    assert paper.faults == ()
    if many % 3 == 0:
        assert paper.at_least == sheets or not paper.cut_plan.is_proved


@pytest.mark.parametrize(("many", "sheets"), [(4, 1), (8, 2), (9, 3)])
def test_a_pinwheel_laid_by_hand_is_used_and_the_area_says_how_few_sheets_there_can_be(many: int, sheets: int) -> None:
    # by hand: four cards of 35 sq in leave 4 of 144; nine have 315, more than two sheets have
    places = ("0 x 0", "5 x 0, turned 90", "7 x 5", "0 x 7, turned 90")
    laid = ", ".join(f'"card at {place}"' for place in places)
    (paper,) = plan(read_kit(cards("12 x 12", "5 x 7", more=f"laid = [[{laid}]]")), batch=many).papers
    assert [free.times for free in paper.free] == [many // 4]
    assert (paper.sheets, paper.at_least) == (sheets, sheets)


def test_three_thirds_of_a_side_go_into_it() -> None:
    """A third of an inch is no whole nanometre: rounded to the nearest one, three pieces of 2 1/3 would be a nanometre longer than 7."""
    made = plan(read_kit(cards("7 x 9", "2 1/3 x 4 1/2", quantity=6)))
    (paper,) = made.papers
    assert paper.sheets == 1
    assert paper.faults == ()


@pytest.mark.parametrize("batch", [1, 12, 100])
@pytest.mark.parametrize("name", ["postcard-set", "recipe-box", "thank-you-cards"])
def test_the_examples_are_laid_out_without_a_fault_and_with_every_piece(name: str, batch: int) -> None:
    made = plan(read_kit(example(name)), batch=batch)
    assert made.proof.is_proved
    for paper in made.papers:
        assert paper.faults == ()
        assert verify_plan(paper.demand, paper.stocks, paper.cut_plan, None) == ()
        cut: dict[str, int] = {}
        for layout in paper.cut_plan.layouts:
            for placed in placements(layout):
                cut[placed.piece] = cut.get(placed.piece, 0) + layout.times
        assert cut == {line.label: line.in_batch for line in paper.lines}
        assert paper.at_least is not None
        assert paper.at_least <= paper.sheets == sum(layout.times for layout in paper.cut_plan.layouts)
        area = sum(line.in_batch * line.blank.size[0] * line.blank.size[1] for line in paper.lines)
        sheet = float(paper.paper.sheet_width_mm * paper.paper.sheet_height_mm)
        assert paper.at_least >= area / sheet - 1e-9  # no plan beats the area


@pytest.mark.parametrize("batch", [1, 12, 100])
@pytest.mark.parametrize("name", ["postcard-set", "recipe-box", "thank-you-cards"])
def test_the_examples_need_no_more_sheets_than_is_proved_and_can_be_cut_with_a_ruler_and_a_hand(
    name: str, batch: int
) -> None:
    made = plan(read_kit(example(name)), batch=batch)
    for paper in made.papers:
        assert paper.cut_plan.is_proved
        for step in paper.steps:
            assert made.ruler.is_on_mark(float(to_mm(step.guide)))
            assert step.guide >= to_nm(
                12.7
            )  # half an inch lies under the guide: enough to hold (common practice, no source)
            across, along = step.take.width, step.take.height
            assert {step.guide < across and step.length == along, step.guide < along and step.length == across} != {
                False
            }


def test_an_offcut_on_hand_is_cut_before_a_sheet_is() -> None:
    text = cards("12 x 12", "5 x 7") + '[[offcut]]\npaper = "card"\nsize = "5 1/2 x 7 1/2"\n'
    (paper,) = plan(read_kit(text), batch=1).papers
    assert (paper.sheets, paper.offcuts_used) == (0, 1)
    (more,) = plan(read_kit(text), batch=4).papers
    assert (more.sheets, more.offcuts_used) == (1, 1)


def test_the_cut_list_counts_copies_parts_and_kits() -> None:
    made = plan(read_kit(example("recipe-box")), batch=6)
    counts = {line.label: (line.per_kit, line.in_batch) for line in made.lines}
    assert counts == {
        "recipe card": (24, 144),
        "divider": (5, 30),
        "box: half": (2, 12),  # two equal halves
        "lid": (1, 6),
        "belly band": (1, 6),
        "tag": (1, 6),
    }
    assert [line.label for line in made.lines] == list(counts)  # in the order of the document


def test_what_must_be_bought_is_what_is_not_on_hand() -> None:
    text = cards("6 x 6", "6 x 6", more="on-hand = 4")
    assert [plan(read_kit(text), batch=batch).papers[0].to_buy for batch in (3, 4, 10)] == [0, 0, 6]
    assert plan(read_kit(cards("6 x 6", "6 x 6")), batch=3).papers[0].to_buy == 3


@pytest.mark.parametrize(("turn", "turns"), [(0, (0,)), (1, (3,)), (2, (2,)), (3, (1,))])
def test_a_one_way_print_lays_a_blank_turned_back_by_its_turn(turn: int, turns: tuple[int, ...]) -> None:
    made = plan(read_kit(cards("12 x 12", "5 x 7", more='print = "one-way"', turn=turn)), batch=4)
    (paper,) = made.papers
    assert paper.demand[0].turns == turns
    lying = [placed for layout in paper.cut_plan.layouts for placed in placements(layout)]
    wide, high = (5, 7) if turn % 2 == 0 else (7, 5)
    for placed in lying:
        assert (float(to_mm(placed.width)), float(to_mm(placed.height))) == pytest.approx((wide * INCH, high * INCH))
    assert paper.sheets == 2  # no more than two lie the same way on a sheet


def test_edges_that_cannot_be_used_stay_free() -> None:
    text = cards("12 x 12", "5 x 6", more='margins = { left = "1", bottom = "1/2" }')
    (paper,) = plan(read_kit(text), batch=2).papers
    for layout in paper.cut_plan.layouts:
        for placed in placements(layout):
            assert float(to_mm(placed.x)) >= INCH
            assert float(to_mm(placed.y)) >= INCH / 2
            assert float(to_mm(placed.x + placed.width)) <= 12 * INCH
            assert float(to_mm(placed.y + placed.height)) <= 12 * INCH


def test_a_blank_that_fits_no_sheet_is_left_out_and_told_and_the_proof_fails() -> None:
    made = plan(read_kit(cards("12 x 12", "13 x 4")), batch=2)
    (paper,) = made.papers
    assert not paper.cut_plan.is_complete
    (lacking,) = paper.cut_plan.unplaced
    assert "card" in lacking.sentence(made.ruler)
    assert [each.code for each in made.proof.of(Severity.FAIL)] == ["blank-on-sheet"]


def test_papers_that_no_part_uses_are_not_planned() -> None:
    assert [paper.paper.key for paper in plan(read_kit(cards("12 x 12", "6 x 4"))).papers] == ["card"]


@pytest.mark.parametrize("batch", [0, -1, MOST_KITS + 1, 10**9])
def test_a_number_of_kits_that_cannot_be_meant_is_a_mistake(batch: int) -> None:
    with pytest.raises(Mistake, match=f"A batch of {batch:,} kits cannot be planned"):
        plan(read_kit(cards("12 x 12", "6 x 4")), batch=batch)


def test_the_largest_batch_there_is_can_be_planned() -> None:
    (paper,) = plan(read_kit(cards("12 x 12", "6 x 4")), batch=MOST_KITS).papers
    assert paper.sheets == -(-MOST_KITS // 6)


def test_a_blank_is_called_as_its_part_unless_there_are_several() -> None:
    made = plan(read_kit(example("recipe-box")))
    box, lid = made.built.part("box"), made.built.part("lid")
    assert [blank_label(box, blank) for blank in box.pattern.blanks] == ["box: half"]
    assert [blank_label(lid, blank) for blank in lid.pattern.blanks] == ["lid"]
    assert made.kit.unit is Unit.INCH


@pytest.mark.parametrize(("grain", "turn", "sheets"), [("height", 0, 2), ("width", 1, 1)])
def test_a_blank_is_laid_so_that_its_grain_runs_as_asked_even_if_that_takes_more_sheets(
    grain: str, turn: int, sheets: int
) -> None:
    # geometry: of 4 x 8 three come out of 8 x 12, all lying or two standing and one lying; only two if all stand
    text = cards("8 x 12", "4 x 8", more='grain = "long"')
    (free,) = plan(read_kit(text), batch=3).papers
    (kept,) = plan(read_kit(f'{text}grain = "{grain}"\n'), batch=3).papers
    assert (free.sheets, kept.sheets) == (1, sheets)
    assert kept.turns("card") == {turn}
    assert kept.faults == ()


def test_the_score_chart_tells_which_scores_run_across_the_grain_of_the_pieces_as_they_are_laid() -> None:
    text = head(sheet="8 x 12", more='grain = "long"') + part("card", "half-fold card", size="4 x 4", fold="top")
    told = {}
    for grain in ("height", "width"):
        made = plan(read_kit(f'{text}grain = "{grain}"\n'))
        (line,) = made.lines
        told[grain] = next(score_sentences(line, made.ruler, fibres=made.straining(line)))
    assert told["width"] == "Print side up. Turn it a quarter to the right. The 8 side along the rule: score at 4."
    assert told["height"] == f"{told['width']} These run across the grain: press deeper, in two light passes."
    made = plan(read_kit(text.replace('grain = "long"', "")))
    assert made.straining(made.lines[0]) == frozenset()


@pytest.mark.parametrize("price", ["", 'price = "1.10"'])
def test_no_least_number_of_sheets_is_told_where_a_piece_goes_on_none(price: str) -> None:
    large = '[[part]]\nname = "large"\nform = "flat card"\nsize = "13 x 5"\npaper = "card"\n'
    made = plan(read_kit(cards("12 x 12", "5 x 7", more=price) + large), batch=4)
    assert (made.papers[0].sheets, made.papers[0].at_least) == (2, None)
    assert plan_as_data(made)["papers"][0]["at_least"] is None
