"""Laying out: first things that every plan promises, and what is said about a question that cannot be answered."""

from dataclasses import replace
from fractions import Fraction

import pytest

from kitwright.cutting import (
    ANY_TURN,
    UPRIGHT,
    Margins,
    Objective,
    PieceType,
    Reason,
    Stock,
    TrimmerLimits,
    count_parts,
    lay_out,
    to_nm,
    verify_plan,
)
from kitwright.errors import Mistake, Mistakes
from kitwright.measure import Ruler, Unit

INCH = Fraction(127, 5)
NO_MARGINS = Margins()
RULER = Ruler(Unit.INCH, INCH / 16)


def inches(value: int | str) -> int:
    return to_nm(Fraction(value) * INCH)


def piece(
    name: str,
    width: int | str,
    height: int | str,
    count: int,
    turns: tuple[int, ...] = ANY_TURN,
    *,
    stocks: tuple[str, ...] | None = None,
) -> PieceType:
    return PieceType(name, inches(width), inches(height), count, turns, stocks)


def sheet(
    name: str = "12 × 12",
    width: int | str = 12,
    height: int | str = 12,
    *,
    count: int | None = None,
    price: int | None = None,
    margins: Margins = NO_MARGINS,
) -> Stock:
    return Stock(name, inches(width), inches(height), count, price, margins)


def test_three_5_by_7_come_from_a_12_by_12_and_a_fourth_needs_another_sheet() -> None:
    # Published crafters' tip and geometry: three by through cuts, four only by a pinwheel.
    assert lay_out([piece("card", 5, 7, 3)], [sheet()]).value == 1
    assert lay_out([piece("card", 5, 7, 4)], [sheet()]).value == 2


def test_a_plan_for_a_kit_passes_the_verifier() -> None:
    demand = [
        piece("mat", "17/4", "11/2", 24),
        piece("tag", 2, "7/2", 60, UPRIGHT),
        piece("box", "29/4", "41/4", 12, (0, 2)),
    ]
    stocks = [sheet(price=110), sheet("letter", "17/2", 11, price=40, count=5)]
    trimmer = TrimmerLimits(inches(12), inches("1/2"))
    plan = lay_out(demand, stocks, trimmer=trimmer)
    assert verify_plan(demand, stocks, plan, trimmer) == ()
    assert plan.is_complete
    assert plan.objective is Objective.COST


def test_the_same_question_gives_the_same_plan() -> None:
    demand = [piece("mat", "17/4", "11/2", 24), piece("tag", 2, "7/2", 60)]
    assert lay_out(demand, [sheet()]) == lay_out(demand, [sheet()])


def test_offcuts_that_are_there_are_used_first() -> None:
    plan = lay_out([piece("tag", 2, 3, 8)], [sheet(), sheet("scrap", 4, 6, price=0, count=2)])
    assert [(each.stock.name, each.times) for each in plan.layouts] == [("scrap", 2)]
    assert plan.value == 0
    assert plan.is_proved


def test_margins_are_left_free() -> None:
    plan = lay_out([piece("card", 4, 6, 1)], [sheet("torn", 5, 6, margins=Margins(left=inches(1)))])
    assert plan.is_complete
    assert not lay_out([piece("card", 4, 6, 1)], [sheet("torn", 5, 6, margins=Margins(top=inches(1)))]).is_complete


def test_a_piece_larger_than_every_sheet_is_left_out_and_said_by_how_much() -> None:
    plan = lay_out([piece("lid", "25/2", 9, 2, UPRIGHT), piece("tag", 2, 3, 1)], [sheet(), sheet("letter", "17/2", 11)])
    (miss,) = plan.unplaced
    assert (miss.piece, miss.count, miss.reason, miss.over_width) == ("lid", 2, Reason.TOO_LARGE, inches("1/2"))
    assert miss.sentence(RULER) == "“lid” is larger than any sheet: upright on “12 × 12” it is 1/2 in too wide."
    assert [count_parts(layout.tree) for layout in plan.layouts] == [{"tag": 1}]


def test_a_piece_that_no_paper_is_meant_for_is_left_out() -> None:
    plan = lay_out([piece("lid", 3, 3, 1, stocks=("felt",))], [sheet(), sheet("felt", 6, 6, count=0)])
    assert [entry.reason for entry in plan.unplaced] == [Reason.NO_STOCK]


def test_paper_that_runs_out_leaves_pieces_short() -> None:
    demand = [piece("card", 5, 7, 10)]
    stocks = [sheet(count=2)]
    plan = lay_out(demand, stocks)
    assert [(entry.piece, entry.count, entry.reason) for entry in plan.unplaced] == [("card", 4, Reason.USED_UP)]
    assert not plan.is_proved
    assert verify_plan(demand, stocks, plan) == ()


def test_a_trimmer_too_short_for_any_cut_leaves_the_piece_out() -> None:
    plan = lay_out([piece("card", 5, 7, 1)], [sheet()], trimmer=TrimmerLimits(inches(9)))
    assert (
        plan.unplaced[0].sentence(RULER) == "“card” fits “12 × 12”, but the trimmer cannot make the cuts that free it."
    )


def test_a_short_trimmer_still_cuts_across_a_long_sheet() -> None:
    demand = [piece("card", 6, 9, 4)]
    stocks = [sheet("long", 18, 12)]
    trimmer = TrimmerLimits(inches(12))
    plan = lay_out(demand, stocks, trimmer=trimmer)
    assert plan.is_complete
    assert verify_plan(demand, stocks, plan, trimmer) == ()


def test_a_million_parts_are_laid_out() -> None:
    demand = [piece("confetti", "1/2", "1/4", 1_000_000)]
    plan = lay_out(demand, [sheet()])
    assert plan.value == 869  # 1152 go on a sheet without waste: ceil(1 000 000 / 1152)
    assert plan.is_proved
    assert verify_plan(demand, [sheet()], plan) == ()


def test_a_search_stopped_at_once_says_that_nothing_is_laid_out_yet() -> None:
    plan = lay_out([piece("card", 5, 7, 3)], [sheet()], progress=lambda _: False)
    assert plan.layouts == ()
    assert plan.unplaced[0].sentence(RULER) == "3 × “card”: not laid out yet, the search was stopped."


@pytest.mark.parametrize(
    ("demand", "stocks", "words"),
    [
        ([piece("card", 5, 7, 0)], [sheet()], "0 pieces cannot be cut"),
        ([piece("card", 5, 7, -2)], [sheet()], "-2 pieces cannot be cut"),
        ([PieceType("card", 0, 5, 1, ANY_TURN)], [sheet()], "larger than zero"),
        ([piece("card", 5, 7, 1, turns=())], [sheet()], "quarter turns"),
        ([piece("card", 5, 7, 1), piece("card", 3, 4, 1)], [sheet()], "2 pieces named 'card'"),
        ([piece("card", 5, 7, 1, stocks=("felt",))], [sheet()], "no stock named 'felt'"),
        ([piece("card", 5, 7, 1)], [sheet(price=3), sheet("letter", 8, 11)], "'letter' has none"),
        ([piece("card", 5, 7, 1)], [sheet(count=-1)], "-1 sheets"),
        ([piece("card", 5, 7, 1)], [sheet(price=-1)], "below zero"),
        ([piece("card", 5, 7, 1)], [sheet(margins=Margins(left=inches(6), right=inches(6)))], "leave nothing"),
        ([piece("card", 5, 7, 1)], [Stock("sheet", 0, 5)], "larger than zero"),
        ([piece("speck", "1/64", 7, 1)], [sheet()], "768 of them"),
    ],
)
def test_a_question_that_cannot_be_asked_is_a_mistake(demand: list[PieceType], stocks: list[Stock], words: str) -> None:
    with pytest.raises(Mistakes, match=words):
        lay_out(demand, stocks)


def test_a_piece_too_small_for_the_largest_sheet_is_a_mistake_though_there_are_small_ones() -> None:
    large = Stock("large", inches(301), inches(10))
    with pytest.raises(Mistakes, match="301 of them would lie side by side"):
        lay_out([piece("dot", 1, 1, 1)], [large, sheet()])
    assert lay_out([piece("dot", 1, 1, 1)], [replace(large, width=inches(300)), sheet()]).unplaced == ()


def test_all_mistakes_are_told_at_once() -> None:
    with pytest.raises(Mistakes) as caught:
        lay_out([piece("card", 5, 7, 0), piece("tag", 1, 1, 0)], [sheet(count=-1)])
    assert len(caught.value.mistakes) == 3


def test_a_length_finer_than_a_nanometre_is_a_mistake() -> None:
    with pytest.raises(Mistake, match="finer than a nanometre"):
        to_nm(Fraction(1, 3))
