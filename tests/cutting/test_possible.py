"""What can still be made from what is there: the largest number, proved, and what one more takes."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.cutting.trying import fewest_sheets

from kitwright.cutting import ANY_TURN, UPRIGHT, PieceType, Stock, TrimmerLimits, most_times, verify_plan


def test_parts_of_several_kits_share_sheets() -> None:
    # Three 5 × 7 come from a 12 × 12 (geometry); a kit of two needs a sheet of its own alone, but four sheets make six kits.
    card = PieceType("card", 5, 7, 2, ANY_TURN)
    found = most_times([card], Stock("sheet", 12, 12, 4), ())
    assert (found.times, found.at_most, found.missing, found.is_proved) == (6, 6, 1, True)
    assert found.plan is not None
    assert found.plan.value == 4


def test_offcuts_are_used_before_sheets_and_make_more_kits() -> None:
    card = PieceType("card", 5, 7, 2, ANY_TURN)
    found = most_times([card], Stock("sheet", 12, 12, 4), [Stock("offcut", 5, 14, 1)])
    assert (found.times, found.missing, found.is_proved) == (7, 1, True)
    assert found.plan is not None
    assert [(each.stock.name, each.times) for each in found.plan.layouts] == [("sheet", 4), ("offcut", 1)]


def test_offcuts_alone_are_enough_where_the_parts_fit_them() -> None:
    found = most_times([PieceType("tag", 2, 3, 4, UPRIGHT)], Stock("sheet", 12, 12, 0), [Stock("offcut", 4, 6, 5)])
    assert (found.times, found.at_most, found.missing) == (5, 5, 1)


def test_nothing_can_be_made_of_nothing_and_one_kit_takes_so_many_sheets() -> None:
    found = most_times([PieceType("card", 5, 7, 7, ANY_TURN)], Stock("sheet", 12, 12, 0), ())
    assert (found.times, found.at_most, found.plan, found.missing) == (0, 0, None, 3)


def test_a_part_that_fits_no_sheet_makes_no_kit_and_more_sheets_would_not_help() -> None:
    found = most_times([PieceType("card", 13, 7, 1, UPRIGHT)], Stock("sheet", 12, 12, 9), ())
    assert (found.times, found.at_most, found.missing) == (0, 0, None)


def test_a_part_that_the_trimmer_cannot_free_is_told_with_the_reason() -> None:
    # 10 × 25 from 21 × 30 takes cuts of 21 and 25; an offcut of 10 × 26 only one of 10
    card, sheet, short = (
        PieceType("card", 10, 25, 1, ANY_TURN),
        Stock("sheet", 21, 30, 9),
        TrimmerLimits(longest_cut=20),
    )
    never = most_times([card], sheet, (), trimmer=short)
    assert (never.times, never.missing, [each.is_out_of_reach for each in never.unplaced]) == (0, None, [True])
    once = most_times([card], sheet, [Stock("offcut", 10, 26, 1)], trimmer=short)
    assert (once.times, once.at_most, once.missing) == (1, 1, None)
    assert [(each.count, each.is_out_of_reach) for each in once.unplaced] == [(1, True)]
    too_large = most_times([replace(card, height=31)], sheet, (), trimmer=short)
    assert [each.is_out_of_reach for each in too_large.unplaced] == [False]


def test_the_question_ends_at_the_largest_number_that_is_asked_for() -> None:
    found = most_times([PieceType("tag", 1, 1, 1, UPRIGHT)], Stock("sheet", 100, 100, 50), (), most=1000)
    assert (found.times, found.missing) == (1000, None)


@given(
    sizes=st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=1, max_size=2),
    turns=st.sampled_from([UPRIGHT, ANY_TURN]),
    sheets=st.integers(1, 2),
)
@settings(deadline=None, max_examples=20)
def test_the_number_of_kits_is_what_trying_everything_finds(
    sizes: list[tuple[int, int]], turns: tuple[int, ...], sheets: int
) -> None:
    demand = [PieceType(str(i), *size, 1, turns) for i, size in enumerate(sizes)]
    stock = Stock("sheet", 5, 4, sheets)
    found = most_times(demand, stock, (), most=3)
    possible = 0
    for times in (1, 2, 3):
        many = [PieceType(piece.name, piece.width, piece.height, times, turns) for piece in demand]
        needed = fewest_sheets(many, 5, 4, TrimmerLimits())
        if needed is None or needed > sheets:
            break
        possible = times
    assert found.times <= possible <= found.at_most
    if found.plan is not None:
        many = [PieceType(piece.name, piece.width, piece.height, found.times, turns) for piece in demand]
        assert found.plan.value <= sheets
        stocks = [Stock("sheet", 5, 4, None, 1)]
        assert verify_plan(many, stocks, found.plan) == ()
