"""Bounds from sheets that hold no piece more often than it is wanted: the parts of the search, the check of its own, and both together."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import product
from math import gcd
from random import Random

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.cutting.published import CGCUT1
from tests.cutting.tables import small_table
from tests.cutting.trying import fewest_sheets, fits_one_sheet

from kitwright.cutting import (
    QUICK,
    STEADY,
    UPRIGHT,
    CutPlan,
    Objective,
    PieceType,
    Reason,
    Stock,
    TrimmerLimits,
    Unplaced,
    lay_out,
    placements,
    verify_plan,
)
from kitwright.cutting import counted_check as checking
from kitwright.cutting import proper as proper_bound
from kitwright.cutting.around import NOWHERE, make_surroundings, solve_around
from kitwright.cutting.blocks import Dear, Limits, find_dear
from kitwright.cutting.bound import area_bound
from kitwright.cutting.certificate import are_worth_at_most
from kitwright.cutting.fill import fill_batch
from kitwright.cutting.generate import make_pricings
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.knapsack import solve_table
from kitwright.cutting.met import Met
from kitwright.cutting.proper import ProperBound
from kitwright.cutting.sketch import make_layouts
from kitwright.cutting.tally import make_tally
from kitwright.cutting.through_cuts import verify_placements
from kitwright.cutting.watch import Watch
from kitwright.cutting.without import do_without

# J. O. Berkey, P. Y. Wang, J. Oper. Res. Soc. 38 (1987), class 7, the second batch of 20.
TWENTY = (
    (90, 9), (99, 6), (77, 4), (11, 97), (74, 50), (84, 13), (72, 1), (97, 8), (74, 53), (66, 81),
    (76, 10), (94, 33), (90, 19), (68, 61), (89, 30), (100, 19), (72, 45), (88, 4), (74, 13), (19, 77),
)  # fmt: skip

WAYS = st.sampled_from([UPRIGHT, (0, 1), (1, 3)])


def dear_sheets(job: Job, worth: Sequence[int], most: int, counted: Sequence[int], *, work: int = 10**9) -> Dear:
    """All sheets of a job with one sheet that are worth more than this, with these kinds counted."""
    (pricing,) = make_pricings(job)
    limits = Limits(worth, [most], make_tally({kind: job.demand[kind] for kind in counted}))
    return find_dear(job, pricing, solve_table(pricing.table, worth), limits, enough=10**9, work=work)


def most_worth(pieces: Sequence[PieceType], worth: Sequence[int], width: int, height: int) -> int:
    """The most that pieces on one sheet are worth with none of them more often than wanted, by trying all of them."""
    return max(
        sum(count * value for count, value in zip(counts, worth, strict=True))
        for counts in product(*(range(piece.count + 1) for piece in pieces))
        if fits_one_sheet(
            [
                PieceType(piece.name, piece.width, piece.height, count, piece.turns)
                for piece, count in zip(pieces, counts, strict=True)
                if count
            ],
            width,
            height,
            TrimmerLimits(),
        )
    )


def check(pieces: Sequence[PieceType], worth: Sequence[int], size: tuple[int, int], most: int, counted: str) -> bool:
    """Whether the check of certificates accepts that one sheet is worth so much at most, with these pieces (by their names) counted."""
    values = {piece.name: value for piece, value in zip(pieces, worth, strict=True)}
    return not are_worth_at_most([Stock("sheet", *size)], pieces, values, {"sheet": most}, None, counted=counted)


@given(data=st.data())
@settings(deadline=None, max_examples=100)
def test_kinds_in_fields_of_bits_are_counted_as_one_by_one(data: st.DataObject) -> None:
    most = data.draw(st.lists(st.integers(1, 40), min_size=1, max_size=30))
    one, *many = (data.draw(st.tuples(*(st.integers(0, count) for count in most))) for _ in range(5))
    tally = make_tally(dict(enumerate(most)))

    def packed(counts: tuple[int, ...]) -> np.ndarray[tuple[int, ...], np.dtype[np.uint64]]:
        return sum((tally.of(kind) * np.uint64(count) for kind, count in enumerate(counts)), tally.nothing)

    columns = np.concatenate([packed(each) for each in many], axis=1)
    rows = np.concatenate([packed(one), columns], axis=1)
    assert tally.fit(columns, rows).tolist() == [
        [all(a + b <= c for a, b, c in zip(each, other, most, strict=True)) for each in many] for other in (one, *many)
    ]
    assert tally.within(columns, rows).tolist() == [
        [all(a <= b for a, b in zip(each, other, strict=True)) for each in many] for other in (one, *many)
    ]
    assert not tally.of(len(most)).any()


@given(data=st.data())
@settings(deadline=None, max_examples=40)
def test_the_most_around_an_area_is_what_trying_every_cut_gives(data: st.DataObject) -> None:
    width, height = data.draw(st.integers(3, 12)), data.draw(st.integers(3, 12))
    drawn = st.tuples(st.integers(1, width), st.integers(1, height), st.just(1), WAYS)
    pieces = [PieceType(str(i), *each) for i, each in enumerate(data.draw(st.lists(drawn, min_size=1, max_size=4)))]
    assume(
        all(
            any(piece.size(turn)[0] <= width and piece.size(turn)[1] <= height for turn in piece.turns)
            for piece in pieces
        )
    )
    job = make_job(pieces, [Stock("sheet", width, height)], TrimmerLimits())
    (width, height), worth = (
        (job.sheets[0].width, job.sheets[0].height),
        [data.draw(st.integers(0, 9)) for _ in job.kinds],
    )
    table = small_table(job, range(len(job.kinds)), [0], strip=0)
    inside = solve_table(table, worth)
    last = len(table.across.points) - 1, len(table.up.points) - 1
    other = data.draw(st.integers(1, last[0])), data.draw(st.integers(1, last[1]))
    sheets = {(width, height): 100, (table.across.points[other[0]], table.up.points[other[1]]): 103}
    around = solve_around(make_surroundings(table), inside, [(*last, 100), (*other, 103)])

    def within(wide: int, high: int) -> int:
        i = max(place for place, point in enumerate(table.across.points) if point <= wide)
        j = max(place for place, point in enumerate(table.up.points) if point <= high)
        return int(inside[i, j])

    @cache
    def outside(wide: int, high: int) -> int:
        whole = sheets.get((wide, high), NOWHERE)
        beside = [outside(wider, high) + within(wider - wide, high) for wider in range(wide + 1, width + 1)]
        above = [outside(wide, higher) + within(wide, higher - high) for higher in range(high + 1, height + 1)]
        return max([whole, *beside, *above])

    for (i, wide), (j, high) in product(enumerate(table.across.points), enumerate(table.up.points)):
        if i and j:
            assert around[i, j] == max(NOWHERE, outside(wide, high))


def test_nothing_is_around_an_area_that_is_on_no_sheet() -> None:
    job = make_job([PieceType("a", 2, 2, 1, UPRIGHT)], [Stock("sheet", 6, 6)], TrimmerLimits())
    table = small_table(job, [0], [0], strip=0)
    around = solve_around(make_surroundings(table), solve_table(table, [1]), [(1, 2, 0)])
    # the only sheet is one piece wide and two high
    assert around[1, 1] == 1
    assert around[2, 1] == around[1, 3] == NOWHERE


def test_the_published_best_sheet_of_cgcut1_is_dear_by_one_and_not_by_none() -> None:
    pieces = [PieceType(str(i), w, h, most, UPRIGHT) for i, (w, h, most, _) in enumerate(CGCUT1)]
    job = make_job(pieces, [Stock("sheet", 15, 10)], TrimmerLimits())
    by_size = {(w, h): value for w, h, _, value in CGCUT1}
    worth = [by_size[kind.poses[0]] for kind in job.kinds]
    kinds = range(len(job.kinds))
    dear = dear_sheets(job, worth, 243, kinds)
    assert dear.is_all
    assert {sum(map(int.__mul__, each.counts, worth)) for each in dear.patterns} == {244}
    none = dear_sheets(job, worth, 244, kinds)
    assert none.is_all
    assert none.patterns == ()
    values = [value for *_, value in CGCUT1]
    names = "".join(piece.name for piece in pieces)
    assert check(pieces, values, (15, 10), 244, names)
    assert not check(pieces, values, (15, 10), 243, names)


@given(data=st.data())
@settings(deadline=None, max_examples=40)
def test_dear_sheets_and_the_check_agree_with_trying_everything(data: st.DataObject) -> None:
    width, height = data.draw(st.integers(3, 6)), data.draw(st.integers(3, 6))
    drawn = st.tuples(st.integers(1, 4), st.integers(1, 4), st.integers(1, 2), WAYS)
    sizes = data.draw(st.lists(drawn, min_size=1, max_size=4, unique_by=lambda each: tuple(sorted(each[:2]))))
    pieces = [PieceType(str(i), *each) for i, each in enumerate(sizes)]
    assume(
        all(
            any(piece.size(turn)[0] <= width and piece.size(turn)[1] <= height for turn in piece.turns)
            for piece in pieces
        )
    )
    values = {piece.name: data.draw(st.integers(1, 9)) for piece in pieces}
    job = make_job(pieces, [Stock("sheet", width, height)], TrimmerLimits())
    worth = [values[kind.pieces[0].name] for kind in job.kinds]
    best = most_worth(pieces, list(values.values()), width, height)
    some = data.draw(st.sets(st.sampled_from(range(len(job.kinds)))))
    for most, counted in product((best - 1, best), (range(len(job.kinds)), sorted(some))):
        dear = dear_sheets(job, worth, most, counted)
        assert dear.is_all
        names = "".join(piece.name for kind in counted for piece in job.kinds[kind].pieces)
        is_accepted = check(pieces, list(values.values()), (width, height), most, names)
        if most < best:
            assert dear.patterns  # the best sheet is found
            assert not is_accepted
        elif len(counted) == len(job.kinds):
            assert not dear.patterns
            assert is_accepted
        for pattern in dear.patterns:
            (layout,) = make_layouts(job, [(pattern, 1)])
            assert verify_placements(width, height, placements(layout)) == ()
            assert sum(map(int.__mul__, pattern.counts, worth)) > most
            assert all(pattern.counts[kind] <= job.demand[kind] for kind in counted)


def test_a_search_that_runs_out_of_work_does_not_say_that_it_saw_all() -> None:
    job = make_job(
        [PieceType("a", 2, 3, 1, UPRIGHT), PieceType("b", 3, 2, 9, UPRIGHT)], [Stock("s", 12, 12)], TrimmerLimits()
    )
    assert not dear_sheets(job, [1, 1], 9, [0], work=1).is_all
    assert dear_sheets(job, [1, 1], 9, [0]).is_all


def test_what_would_take_too_long_to_check_is_not_accepted(monkeypatch: pytest.MonkeyPatch) -> None:
    pieces = [PieceType(name, *size, 1, UPRIGHT) for name, size in (("a", (10, 6)), ("b", (10, 5)), ("c", (3, 2)))]
    assert check(pieces, [8, 8, 1], (10, 10), 9, "abc")
    monkeypatch.setattr(checking, "MOST_RECTANGLES", 1)
    assert not check(pieces, [8, 8, 1], (10, 10), 9, "abc")


def test_pieces_that_are_alike_are_counted_together() -> None:
    pieces = [PieceType("a", 10, 5, 1, UPRIGHT), PieceType("b", 10, 5, 1, UPRIGHT), PieceType("c", 10, 6, 1, UPRIGHT)]
    assert check(pieces, [8, 8, 9], (10, 10), 16, "ab")
    assert not check(pieces, [8, 8, 9], (10, 10), 15, "ab")


def test_numbers_too_large_for_a_machine_word_are_not_accepted_as_counted() -> None:
    pieces = [PieceType("a", 10, 6, 1, UPRIGHT), PieceType("b", 10, 5, 1, UPRIGHT)]
    assert check(pieces, [8, 8], (10, 10), 8, "ab")
    assert not check(pieces, [2**62, 2**62], (10, 10), 2**62, "ab")


def test_worths_whose_sum_is_too_large_for_a_machine_word_are_added_up_all_the_same() -> None:
    pieces = [PieceType("a", 5, 5, 4, UPRIGHT), PieceType("b", 10, 10, 1, UPRIGHT)]
    assert check(pieces, [2**61, 1], (10, 10), 2**63, "")
    assert not check(pieces, [2**61, 1], (10, 10), 2**63 - 1, "")
    assert not check(pieces, [2**61, 1], (10, 10), 2**62, "")


@given(data=st.data())
@settings(deadline=None, max_examples=30)
def test_no_bound_exceeds_what_trying_everything_needs(data: st.DataObject) -> None:
    """A plan that is one sheet too dear is never proved, and what is proved passes the check."""
    drawn = st.tuples(st.integers(2, 6), st.integers(2, 6), st.just(1), st.sampled_from([UPRIGHT, (0, 1)]))
    pieces = [PieceType(str(i), *each) for i, each in enumerate(data.draw(st.lists(drawn, min_size=3, max_size=6)))]
    fewest = fewest_sheets(pieces, 6, 6, TrimmerLimits())
    assert fewest is not None
    job = make_job(pieces, [Stock("sheet", 6, 6)], TrimmerLimits())
    nothing_cut = tuple(Unplaced(piece.name, 1, Reason.STOPPED) for piece in pieces)
    for value in (fewest, fewest + 1):
        watch = Watch(job, area_bound(job), None)
        watch.value = value
        ProperBound(job, make_pricings(job), ()).prove(watch, (), work=10**7)
        assert watch.bound.value <= fewest
        plan = CutPlan((), nothing_cut, Objective.SHEETS, 0, watch.bound)
        assert verify_plan(pieces, [Stock("sheet", 6, 6)], plan) == ()


@given(data=st.data())
@settings(deadline=None, max_examples=20)
def test_with_several_sheets_and_prices_no_bound_exceeds_a_plan(data: st.DataObject) -> None:
    """The sheets have prices, one of them a count, and some pieces come from one sheet only; each certificate passes the check."""
    drawn = st.tuples(
        st.integers(2, 6), st.integers(2, 6), st.integers(1, 2), st.just((0, 1)), st.sampled_from([None, ("large",)])
    )
    pieces = [PieceType(str(i), *each) for i, each in enumerate(data.draw(st.lists(drawn, min_size=3, max_size=7)))]
    prices = data.draw(st.tuples(st.integers(1, 9), st.integers(1, 9)))
    stocks = [Stock("small", 6, 7, data.draw(st.integers(1, 2)), prices[0]), Stock("large", 9, 8, None, prices[1])]
    plan = lay_out(pieces, stocks, effort=QUICK)
    job = make_job(pieces, stocks, TrimmerLimits())
    nothing_cut = tuple(Unplaced(piece.name, piece.count, Reason.STOPPED) for piece in pieces)
    for value in (plan.value, plan.value + gcd(*prices)):
        watch = Watch(job, area_bound(job), None)
        watch.value = value
        ProperBound(job, make_pricings(job), ()).prove(watch, (), work=10**7)
        assert watch.bound.value <= plan.value
        told = CutPlan((), nothing_cut, Objective.COST, 0, watch.bound)
        assert verify_plan(pieces, stocks, told) == ()


def test_a_batch_whose_mixtures_repeat_pieces_is_proved() -> None:
    """The batch needs five sheets (the best known, and its bound); mixtures that repeat pieces would make do with less than four."""
    pieces = [PieceType(str(rank), *size, 1, (0, 1)) for rank, size in enumerate(TWENTY)]
    stock = Stock("sheet", 100, 100)
    plan = lay_out(pieces, [stock], effort=STEADY)
    assert (plan.value, plan.bound.value) == (5, 5)
    assert plan.bound.counted
    assert verify_plan(pieces, [stock], plan) == ()


def met_of_twenty() -> tuple[Job, Watch, Met]:
    """The batch of twenty with its best plan, and the sheets met on the way to it."""
    pieces = [PieceType(str(rank), *size, 1, (0, 1)) for rank, size in enumerate(TWENTY)]
    job = make_job(pieces, [Stock("sheet", 100, 100)], TrimmerLimits())
    watch, met = Watch(job, area_bound(job), None), Met(job)
    watch.tell_plan(fill_batch(job)[0])
    steps, random = 3_000, Random(0)
    while steps > 0:
        steps -= do_without(job, watch, met, steps=steps, random=random)
    assert watch.value == 5
    return job, watch, met


def test_work_that_was_not_enough_goes_on_at_the_next_call() -> None:
    job, watch, met = met_of_twenty()
    proper = ProperBound(job, make_pricings(job), ())
    proper.round_work = 0
    proper.prove(watch, met.patterns.values(), work=1)  # nothing can be found in that
    calls = 1
    while not watch.is_proved and calls < 40:
        proper.prove(watch, met.patterns.values(), work=60_000)
        calls += 1
    assert watch.is_proved
    assert calls > 2
    assert watch.bound.counted


def test_a_round_that_was_cut_short_proves_nothing_and_ends_the_attempt(monkeypatch: pytest.MonkeyPatch) -> None:
    job, watch, met = met_of_twenty()
    monkeypatch.setattr(proper_bound, "MOST_WORK", 1)
    before = watch.bound
    proper = ProperBound(job, make_pricings(job), ())
    for _ in range(3):
        proper.prove(watch, met.patterns.values(), work=10**6)
    assert watch.bound == before
    assert proper.prices is None
