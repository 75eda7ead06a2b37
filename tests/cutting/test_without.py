"""The search for small batches: sheets that are given up and others filled anew, plans chosen among the sheets met."""

from __future__ import annotations

from collections import Counter
from random import Random

from kitwright.cutting import UPRIGHT, PieceType, Stock, TrimmerLimits, placements
from kitwright.cutting.bound import area_bound
from kitwright.cutting.fill import fill_batch
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.lying import empty_sheet, free_on, lay
from kitwright.cutting.met import Met, choose_among
from kitwright.cutting.plan import Progress
from kitwright.cutting.sketch import Leaf, Pattern, count_kinds, freed, make_layouts
from kitwright.cutting.through_cuts import verify_placements
from kitwright.cutting.watch import Watch
from kitwright.cutting.without import burden, cheaper_sheets, choose_sheets, do_without, tell

# J. O. Berkey, P. Y. Wang, J. Oper. Res. Soc. 38 (1987), class 1, the first batch of 20: no better plan than 8 sheets of 10 × 10 upright
# is known, and the bound proves that.
BATCH = (
    (5, 9), (4, 2), (10, 6), (5, 7), (6, 3), (10, 7), (1, 5), (3, 5), (6, 9), (2, 4),
    (6, 7), (7, 2), (8, 3), (4, 10), (4, 5), (10, 3), (8, 3), (7, 8), (8, 3), (8, 7),
)  # fmt: skip


def make(sizes: tuple[tuple[int, int], ...], *stocks: Stock, turns: tuple[int, ...] = UPRIGHT) -> Job:
    """One piece of each size."""
    pieces = [PieceType(str(rank), *size, 1, turns) for rank, size in enumerate(sizes)]
    return make_job(pieces, list(stocks), TrimmerLimits())


def test_a_sheet_is_given_up_or_exchanged_for_what_costs_less_and_is_there() -> None:
    job = make(((2, 2),), Stock("dear", 9, 9, None, 50), Stock("cheap", 8, 8, 1, 30), Stock("dearest", 9, 10, None, 90))

    def results(sheets: list[int]) -> set[tuple[int, ...]]:
        return {tuple(sorted(cheaper_sheets(job, sheets, Random(seed)))) for seed in range(200)}

    assert results([0, 0]) == {(0,), (0, 1), (1,), (2,)}
    # there is no second cheap one
    assert results([0, 0, 1]) == {(0, 1), (0, 0), (1, 2)}


def test_a_batch_of_different_pieces_needs_no_more_sheets_than_is_known_to_be_possible() -> None:
    job = make(BATCH, Stock("sheet", 10, 10))
    watch = Watch(job, area_bound(job), None)
    first, _ = fill_batch(job)
    watch.tell_plan([*first, (first[0][0], 3)])  # a poor plan to begin with
    met = Met(job)
    steps = 3_000
    while steps > 0:  # it ends with each better plan
        steps -= do_without(job, watch, met, steps=steps, random=Random(0))
    assert watch.value == 8
    assert met.patterns
    layouts = make_layouts(job, watch.best or [])
    assert all(verify_placements(10, 10, placements(layout)) == () for layout in layouts)
    assert sorted(placed.piece for layout in layouts for placed in placements(layout)) == sorted(map(str, range(20)))


def test_a_plan_is_chosen_among_the_sheets_that_were_met() -> None:
    sizes = ((10, 6), (10, 4), (10, 7), (10, 3))
    job = make(sizes, Stock("sheet", 10, 10))
    kind_of = {kind.poses[0]: rank for rank, kind in enumerate(job.kinds)}
    watch, met = Watch(job, area_bound(job), None), Met(job)
    alone = [freed(Leaf(kind_of[size], 0), size, (10, 10), job.reach) for size in sizes]
    watch.tell_plan([(Pattern(0, count_kinds(sketch, 4), sketch), 1) for sketch in alone])
    for low, high in (sizes[:2], sizes[2:]):
        sheet = empty_sheet(job, 0)
        assert lay(job, free_on(sheet, [sheet.area]), [kind_of[low], kind_of[high]], Random(0)) == []
        met.add(sheet)
    found = choose_among(job, met, watch).take(watch, "small batch")
    assert found is not None
    assert watch.tell_plan(found)
    assert watch.value == 2


def test_a_step_that_lays_many_pieces_counts_more_than_once() -> None:
    looks = []
    for side, count in ((24, 60), (12, 15)):
        # 16 or 4 of 5 × 5 go on a sheet: four sheets are needed, although the area is that of three
        job = make(((5, 5),) * count, Stock("sheet", side, side))
        seen: list[Progress] = []

        def look(progress: Progress, seen: list[Progress] = seen) -> bool:
            seen.append(progress)
            return True

        watch = Watch(job, area_bound(job), look)
        watch.tell_plan(fill_batch(job)[0])
        do_without(job, watch, Met(job), steps=90, random=Random(0))
        assert watch.value == 4
        looks.append(len(seen))
    assert 2 * looks[0] < looks[1] < 90


def test_a_plan_is_told_only_if_the_trimmer_can_cut_every_sheet_of_it() -> None:
    job = make(((10, 10), (10, 6), (10, 4)), Stock("sheet", 10, 10))
    sheets = [empty_sheet(job, 0), empty_sheet(job, 0), empty_sheet(job, 0)]
    assert lay(job, free_on(sheets[0], [sheets[0].area]), [0], Random(0)) == []
    assert lay(job, free_on(sheets[1], [sheets[1].area]), [1, 2], Random(0)) == []
    for reach, value in ((job.reach, 2), (job.reach - 1, None)):
        short = Job(job.kinds, job.sheets, reach, job.strip, job.unit)
        watch = Watch(short, area_bound(short), None)
        tell(sheets, watch)  # the third sheet is not used
        assert watch.value == value


def test_a_large_piece_that_waits_counts_more_than_small_ones_of_the_same_area() -> None:
    assert [burden(area) for area in (1, 16, 81, 10_000)] == [1, 32, 243, 100_000]
    assert burden(90 * 90) > 3 * burden(90 * 30) > 9 * burden(30 * 30)


def test_steps_go_to_sheets_with_much_waste_more_often_but_to_all() -> None:
    chosen = [choose_sheets(list(range(10)), Random(seed)) for seed in range(2_000)]
    often = Counter(rank for few in chosen for rank in few)
    assert {len(few) for few in chosen} == {len(set(few)) for few in chosen} == {2, 3}
    assert all(often[rank] > 100 for rank in range(10))
    assert often[9] > 1.5 * often[0]
    assert choose_sheets([7], Random(0)) == [0]
