"""Two sheets are put into one where their pieces go onto it, and only there."""

from __future__ import annotations

import pytest

from kitwright.cutting import UPRIGHT, PieceType, Stock, TrimmerLimits, placements
from kitwright.cutting.bound import area_bound
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.sketch import Leaf, Pattern, freed, make_layouts
from kitwright.cutting.through_cuts import verify_placements
from kitwright.cutting.two_in_one import put_two_in_one
from kitwright.cutting.watch import Watch


def one_to_a_sheet(
    sizes: tuple[tuple[int, int], ...], *stocks: Stock, places: tuple[int, ...] = ()
) -> tuple[Job, Watch]:
    """A plan that lays every piece on a sheet of its own: the first, or that in its place among `places`."""
    pieces = [PieceType(str(i), w, h, 1, UPRIGHT) for i, (w, h) in enumerate(sizes)]
    job = make_job(pieces, list(stocks), TrimmerLimits())
    watch = Watch(job, area_bound(job), None)
    plan = []
    for number, kind in enumerate(job.kinds):
        place = places[int(kind.pieces[0].name)] if places else 0
        sheet = job.sheets[place]
        counts = tuple(int(each == number) for each in range(len(job.kinds)))
        sketch = freed(Leaf(number, 0), kind.poses[0], (sheet.width, sheet.height), job.reach)
        plan.append((Pattern(place, counts, sketch), 1))
    assert watch.tell_plan(plan)
    return job, watch


def test_three_sheets_whose_pieces_fill_one_become_one() -> None:
    job, watch = one_to_a_sheet(((9, 10), (6, 7), (6, 3)), Stock("sheet", 15, 10))
    put_two_in_one(job, watch)
    assert (watch.value, watch.is_proved) == (1, True)
    (layout,) = make_layouts(job, watch.best or [])
    assert verify_placements(15, 10, placements(layout)) == ()
    assert len(placements(layout)) == 3


def test_pieces_with_the_area_of_a_sheet_that_do_not_go_onto_it_stay_on_two() -> None:
    job, watch = one_to_a_sheet(((9, 8), (8, 9)), Stock("sheet", 15, 10))
    put_two_in_one(job, watch)
    assert watch.value == 2


@pytest.mark.parametrize(("count", "value"), [(1, 5), (None, 5)])
def test_a_dearer_sheet_is_taken_where_it_costs_less_than_both(count: int | None, value: int) -> None:
    small, large = Stock("small", 8, 8, None, 4), Stock("large", 15, 10, count, 5)
    job, watch = one_to_a_sheet(((8, 8), (7, 8)), small, large)
    put_two_in_one(job, watch)
    assert watch.value == value


def test_the_only_large_sheet_may_be_used_again_by_both() -> None:
    small, large = Stock("small", 8, 8, None, 4), Stock("large", 15, 10, 1, 5)
    job, watch = one_to_a_sheet(((5, 8), (9, 9)), small, large, places=(0, 1))
    assert watch.value == 9
    put_two_in_one(job, watch)
    assert watch.value == 5
