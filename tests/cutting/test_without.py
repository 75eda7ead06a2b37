"""The search for small batches: cut trees that change, sheets that are given up, plans chosen among the sheets met."""

from __future__ import annotations

from collections import Counter
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.cutting import UPRIGHT, PieceType, Stock, TrimmerLimits, placements
from kitwright.cutting.area import Area, can_be_cut, copy_area, leftovers_in, pieces_in, put_into, release, sketch_of
from kitwright.cutting.bound import area_bound
from kitwright.cutting.fill import fill_batch
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.plan import Progress
from kitwright.cutting.sketch import Leaf, Pattern, Split, count_kinds, freed, make_layouts
from kitwright.cutting.through_cuts import verify_placements
from kitwright.cutting.watch import Watch
from kitwright.cutting.without import Met, cheaper_sheets, choose_among, do_without

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


def is_whole(area: Area) -> bool:
    """Whether the parts of an area fill it, at most one of them is left over, and no part is cut the same way as the whole."""
    if not area.parts:
        return True
    sides = [(part.width, part.height) if area.upright else (part.height, part.width) for part in area.parts]
    long, high = (area.width, area.height) if area.upright else (area.height, area.width)
    return (
        len(sides) > 1
        and sum(side for side, _ in sides) == long
        and all(side > 0 and across == high for side, across in sides)
        and sum(part.is_left_over for part in area.parts) <= 1
        and all(part.parent is area and is_whole(part) for part in area.parts)
        and not any(part.parts and part.upright is area.upright for part in area.parts)
    )


@given(seed=st.integers(0, 10_000), steps=st.integers(1, 40))
@settings(deadline=None, max_examples=60)
def test_an_area_stays_filled_without_gaps_however_pieces_come_and_go(seed: int, steps: int) -> None:
    random, area = Random(seed), Area(30, 20)
    lying: Counter[tuple[int, int]] = Counter()
    for _ in range(steps):
        there = list(pieces_in(area))
        if there and random.random() < 0.4:
            gone = random.choice(there)
            while gone.parent is not None and random.random() < 0.3:
                gone = gone.parent
            lying -= Counter((piece.width, piece.height) for piece in pieces_in(gone))
            release(gone)
        else:
            free = random.choice(list(leftovers_in(area)) or [None])
            if free is None:
                continue
            size = random.randint(1, free.width), random.randint(1, free.height)
            put_into(free, Leaf(0, 0), size, upright=random.random() < 0.5)
            lying[size] += 1
        assert is_whole(area)
        assert Counter((piece.width, piece.height) for piece in pieces_in(area)) == lying
        assert count_kinds(sketch_of(copy_area(area)), 1) == (lying.total(),)


def test_a_cut_longer_than_the_trimmer_or_with_nothing_to_hold_cannot_be_made() -> None:
    sketch = Split(True, 3, Leaf(0, 0), Split(False, 8, Leaf(1, 0), None))
    pieces = [PieceType("a", 3, 10, 1, UPRIGHT), PieceType("b", 7, 8, 1, UPRIGHT)]
    limits = ((None, 0, True), (10, 7, True), (10, 8, False), (9, 0, False))
    for reach, strip, can in limits:
        job = make_job(pieces, [Stock("sheet", 10, 10)], TrimmerLimits(None, strip))
        job = Job(job.kinds, job.sheets, reach or job.reach, strip, job.unit)
        assert can_be_cut(job, sketch, 10, 10) is can, (reach, strip)


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
        sheet = Area(10, 10)
        (rest,) = put_into(sheet, Leaf(kind_of[low], 0), low, upright=False)
        put_into(rest, Leaf(kind_of[high], 0), high, upright=False)
        met.add(0, sheet)
    choose_among(job, met, watch).take(watch)
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
