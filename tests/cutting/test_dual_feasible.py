"""Bounds from the sides of pieces alone."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.cutting import UPRIGHT, PieceType, Stock, TrimmerLimits, lay_out, verify_plan
from kitwright.cutting.bound import area_bound
from kitwright.cutting.dual_feasible import functions, worths_by_sides
from kitwright.cutting.generate import make_pricings, price, whole_scale
from kitwright.cutting.job import make_job, ranges_of
from kitwright.cutting.plan import Effort

NO_SEARCH = Effort(rounds=0, patterns=0, nodes=0, steps=0, work=10**9, work_a_piece=10**6)


@given(extent=st.integers(2, 60), data=st.data())
@settings(deadline=None, max_examples=60)
def test_lengths_that_fit_together_are_never_worth_more_than_the_whole(extent: int, data: st.DataObject) -> None:
    lengths: list[int] = []
    left = extent
    while left and len(lengths) < 12:
        lengths.append(data.draw(st.integers(1, left)))
        left -= lengths[-1]
    different = sorted(set(lengths))
    rows = functions(extent, different)
    assert np.all(rows[:, [different.index(length) for length in lengths]].sum(axis=1) <= 1 + 1e-9)
    assert rows.min() >= 0


def bounds(pieces: list[PieceType], sheet: Stock) -> tuple[int, int]:
    """From the area, and from the sides."""
    job = make_job(pieces, [sheet], TrimmerLimits())
    worths = list(worths_by_sides(job, whole_scale(job)))
    return area_bound(job).value, max(
        price(job, make_pricings(job), worth, [0], ranges_of(job)).bound.value for worth in worths
    )


def test_pieces_over_half_a_sheet_need_a_sheet_each_though_their_area_would_not() -> None:
    assert bounds([PieceType("card", 51, 51, 7, (0, 1))], Stock("sheet", 100, 100)) == (2, 7)


def test_pieces_over_a_third_of_a_side_go_four_to_a_sheet_at_most() -> None:
    assert bounds([PieceType("mat", 34, 34, 12, UPRIGHT)], Stock("sheet", 100, 100)) == (2, 3)


def test_the_bound_is_in_the_plan_and_the_verifier_believes_it() -> None:
    pieces = [PieceType(str(rank), 51 + rank, 60 - rank, 1, (0, 1)) for rank in range(6)]
    plan = lay_out(pieces, [Stock("sheet", 100, 100)], effort=NO_SEARCH)
    assert (plan.value, plan.bound.value) == (6, 6)
    assert verify_plan(pieces, [Stock("sheet", 100, 100)], plan) == ()


def test_where_the_sizes_have_too_many_sums_a_bound_from_the_sides_is_checked_with_rounded_ones() -> None:
    # Most pieces are over half of the small sheet and so worth one each; on the large one, whose sums are too many for a table, dozens lie.
    pieces = [
        PieceType(str(rank), 5_003_017 + 37_003 * rank, 5_011_019 + 53_001 * rank, 3, (0, 1)) for rank in range(16)
    ]
    pieces += [
        PieceType(f"small {rank}", 1_009_003 + 31_001 * rank, 1_201_007 + 29_003 * rank, 3, (0, 1))
        for rank in range(16)
    ]
    pieces += [
        PieceType("board", 31_003_001, 31_003_003, 3, (0, 1))
    ]  # one to a sheet, so that the area does not settle it
    stocks = [Stock("small", 9_001_003, 9_001_007), Stock("large", 60_013_001, 59_981_003)]
    plan = lay_out(pieces, stocks, effort=NO_SEARCH)
    assert plan.is_complete
    assert plan.step is not None
    assert plan.bound.step == plan.step
    assert plan.bound.value <= plan.value
    assert verify_plan(pieces, stocks, plan) == ()
