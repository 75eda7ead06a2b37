"""The question in whole numbers on a grid that everything lies on, and what is left of it once some sheets are chosen."""

from __future__ import annotations

import pytest

from kitwright.cutting.job import make_job
from kitwright.cutting.rounding import left_of
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.stock import ANY_TURN, PieceType, Stock, TrimmerLimits

PIECES = (PieceType("card", 40, 20, 3, ANY_TURN),)
STOCKS = (Stock("sheet", 200, 100),)


@pytest.mark.parametrize(
    ("trimmer", "unit"),
    [
        (TrimmerLimits(), 20),
        (TrimmerLimits(smallest_strip=30), 10),
        (TrimmerLimits(longest_cut=250), 10),
        (TrimmerLimits(longest_cut=205, smallest_strip=30), 5),
    ],
)
def test_the_grid_is_the_coarsest_on_which_sizes_and_the_limits_of_the_trimmer_lie(
    trimmer: TrimmerLimits, unit: int
) -> None:
    job = make_job(PIECES, STOCKS, trimmer)
    assert job.unit == unit
    assert job.strip * job.unit == trimmer.smallest_strip
    assert job.reach * job.unit == (trimmer.longest_cut or 200)
    assert [(sheet.width * unit, sheet.height * unit) for sheet in job.sheets] == [(200, 100)]
    assert set(job.kinds[0].poses) == {(40 // unit, 20 // unit), (20 // unit, 40 // unit)}


def test_what_is_left_is_wanted_less_what_the_chosen_sheets_hold() -> None:
    used = [(Pattern(0, (2, 1), None), 2), (Pattern(1, (0, 3), None), 1)]
    rest, ranges = left_of((5, 4), ((3, 5), (0, None)), used)
    assert rest == [1, 0]
    assert ranges == ((1, 3), (0, None))


def test_sheets_that_are_used_up_or_used_often_enough_are_not_asked_for_below_zero() -> None:
    _, ranges = left_of((5,), ((1, 1), (2, 4)), [(Pattern(0, (1,), None), 2), (Pattern(1, (1,), None), 3)])
    assert ranges == ((0, 0), (0, 1))
