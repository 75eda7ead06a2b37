"""What a trimmer can free from a sheet: lengths of cuts and widths of strips, each on the very limit and one step beyond it."""

from __future__ import annotations

import pytest

from kitwright.cutting.check import can_hold, is_bared_first, is_within_reach
from kitwright.cutting.plan import Objective, prices_of
from kitwright.cutting.stock import ANY_TURN, Margins, PieceType, Stock, TrimmerLimits
from kitwright.cutting.verify import counted_prices


@pytest.mark.parametrize(
    ("sheet", "piece", "longest"),
    [
        # across the short side first: 60, then as long as the piece is wide, 40; the other way round it takes a cut of 100
        ((100, 60), (40, 30), 60),
        ((60, 100), (30, 40), 60),
        # the second cut is the longer one
        ((100, 60), (80, 30), 80),
        ((60, 100), (30, 80), 80),
        # one cut only
        ((100, 60), (40, 60), 60),
        ((100, 60), (100, 40), 100),
    ],
)
def test_a_piece_is_freed_where_the_longest_of_its_cuts_is_just_as_long_as_the_trimmer_cuts(
    sheet: tuple[int, int], piece: tuple[int, int], longest: int
) -> None:
    stock, card = Stock("sheet", *sheet), PieceType("card", *piece, 1, ANY_TURN)
    assert can_hold(stock, card, 0, TrimmerLimits(longest_cut=longest))
    assert not can_hold(stock, card, 0, TrimmerLimits(longest_cut=longest - 1))
    assert can_hold(stock, card, 0, TrimmerLimits())


@pytest.mark.parametrize(
    ("piece", "strip"), [((40, 60), 60), ((70, 60), 70), ((100, 25), 35), ((100, 45), 45), ((40, 45), 45)]
)
def test_a_piece_is_freed_where_the_wider_side_of_every_cut_is_just_as_wide_as_a_hand_can_hold(
    piece: tuple[int, int], strip: int
) -> None:
    stock, card = Stock("sheet", 100, 60), PieceType("card", *piece, 1, ANY_TURN)
    assert can_hold(stock, card, 0, TrimmerLimits(smallest_strip=strip))
    assert not can_hold(stock, card, 0, TrimmerLimits(smallest_strip=strip + 1))


def test_a_piece_as_large_as_the_sheet_needs_no_cut_and_a_larger_one_has_no_room() -> None:
    narrow = TrimmerLimits(longest_cut=1, smallest_strip=1000)
    assert can_hold(Stock("sheet", 100, 60), PieceType("card", 60, 100, 1, ANY_TURN), 1, narrow)
    assert not can_hold(Stock("sheet", 100, 60), PieceType("card", 60, 100, 1, ANY_TURN), 0, TrimmerLimits())
    assert not can_hold(Stock("sheet", 100, 60), PieceType("card", 60, 101, 1, ANY_TURN), 1, TrimmerLimits())


@pytest.mark.parametrize(
    ("sheet", "margins", "longest"),
    [
        ((100, 60), Margins(left=10, bottom=10), 90),  # 60 along the side, then what is left of the width
        ((60, 100), Margins(right=10, top=10), 90),
        ((100, 60), Margins(left=10), 60),
        ((100, 60), Margins(top=10), 100),
    ],
)
def test_margins_are_cut_off_where_the_longest_of_their_cuts_is_just_as_long_as_the_trimmer_cuts(
    sheet: tuple[int, int], margins: Margins, longest: int
) -> None:
    stock = Stock("sheet", *sheet, margins=margins)
    assert is_bared_first(stock, longest)
    assert not is_bared_first(stock, longest - 1)
    assert is_bared_first(stock, None)


def test_a_sheet_is_begun_where_its_shorter_side_can_be_cut_and_is_held_without_its_margins() -> None:
    stock = Stock("sheet", 100, 60, margins=Margins(left=10, right=10))
    assert is_within_reach(stock, TrimmerLimits(60, 80))
    assert not is_within_reach(stock, TrimmerLimits(59))
    assert not is_within_reach(stock, TrimmerLimits(smallest_strip=81))
    assert is_within_reach(Stock("sheet", 100, 60), TrimmerLimits(1, 1000))


@pytest.mark.parametrize(
    ("prices", "objective", "counted"),
    [
        ((None, None), Objective.SHEETS, (1, 1)),
        ((None, 0), Objective.SHEETS, (1, 0)),
        ((0, 0), Objective.SHEETS, (1, 1)),
        ((5, 0), Objective.COST, (5, 0)),
        ((5, 7), Objective.COST, (5, 7)),
    ],
)
def test_the_check_counts_what_the_search_counts(
    prices: tuple[int | None, int | None], objective: Objective, counted: tuple[int, int]
) -> None:
    stocks = [Stock(name, 100, 60, price=price) for name, price in zip("ab", prices, strict=True)]
    assert counted_prices(stocks) == (objective, dict(zip("ab", counted, strict=True)))
    assert prices_of(stocks) == counted
