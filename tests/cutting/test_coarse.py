"""Sizes rounded to a step while plans are looked for: what is cut has the true sizes, and the bound holds for them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.cutting.tables import small_table

from kitwright.cutting import QUICK, PieceType, Stock, TrimmerLimits, generate, lay_out, verify_plan
from kitwright.cutting.coarse import fitted, rounded, steps_for
from kitwright.cutting.generate import make_pricings, pricings_at
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.knapsack import make_table, sheet_value, solve_table
from kitwright.cutting.sketch import Leaf, Pattern, Split, count_kinds, make_layouts
from kitwright.cutting.trace import best_sketch

INCH = 25_400_000


@st.composite
def jobs(draw: st.DrawFn) -> tuple[Job, list[PieceType], Stock]:
    """A few pieces on one sheet, in sizes without a common step but the nanometre, a tenth of a millimetre or more each."""
    size = st.tuples(st.integers(150_003, 400_001), st.integers(150_003, 400_001))
    sizes = draw(st.lists(size, min_size=1, max_size=3))
    turns = draw(st.sampled_from([(0,), (0, 1)]))
    pieces = [PieceType(str(rank), *each, 20, turns) for rank, each in enumerate(sizes)]
    sheet = Stock("sheet", draw(st.integers(400_001, 700_003)), draw(st.integers(400_001, 700_003)))
    return make_job(pieces, [sheet], TrimmerLimits()), pieces, sheet


@given(asked=jobs(), step=st.sampled_from([1_000, 5_000, 20_000, 50_000]))
@settings(deadline=None, max_examples=25)
def test_the_true_best_sheet_lies_between_those_with_sizes_rounded_up_and_down(
    asked: tuple[Job, list[PieceType], Stock], step: int
) -> None:
    job, pieces, sheet = asked
    worth = [kind.area for kind in job.kinds]
    found = []
    for each, size in (
        (rounded(job, step, up=True), (sheet.width // step, sheet.height // step)),
        (job, (job.sheets[0].width, job.sheets[0].height)),
        (rounded(job, step, up=False), (sheet.width // step, sheet.height // step)),
    ):
        table = small_table(each, range(len(job.kinds)), [0], strip=0)
        values = solve_table(table, worth)
        found.append((sheet_value(table, values, *size), table, values, size))
    (low, table, values, size), (true, *_), (high, *_) = found
    assert low <= true <= high
    # and what the sheet with sizes rounded up holds is cut from the true one, in true sizes
    sketch = fitted(job, best_sketch(table, values, worth, size), (job.sheets[0].width, job.sheets[0].height))
    counts = count_kinds(sketch, len(job.kinds))
    assert sum(count * each for count, each in zip(counts, worth, strict=True)) == low
    wanted = [
        replace(piece, count=count)
        for kind, count in zip(job.kinds, counts, strict=True)
        for piece, count in [(kind.pieces[0], count)]
        if count
    ]
    layouts = make_layouts(job, [(Pattern(0, counts, sketch), 1)] if wanted else [])
    plan = lay_out(pieces, [sheet], effort=replace(QUICK, rounds=0, steps=0, nodes=0))
    faults = verify_plan(pieces, [sheet], replace(plan, layouts=layouts, value=len(layouts)))
    assert not {fault.code for fault in faults} - {"missing-piece", "surplus-piece"}


def test_a_strip_is_cut_as_wide_as_its_pieces_ask_and_not_as_they_were_rounded() -> None:
    """Two pieces of 3 2/3 in above each other beside one of 2 in, rounded to half a millimetre: no cut trims a sliver off."""
    third = 93_133_333
    job = make_job(
        [PieceType("card", third, 4 * INCH, 2, (0,)), PieceType("tag", 2 * INCH, 3 * INCH, 1, (0,))],
        [Stock("sheet", 6 * INCH, 9 * INCH)],
        TrimmerLimits(),
    )
    card, tag = (
        next(rank for rank, kind in enumerate(job.kinds) if kind.pieces[0].name == name) for name in ("card", "tag")
    )
    step = 500_000
    at = -(-third // step) * step
    coarse = Split(True, at // step, Split(False, 204, Leaf(card, 0), Leaf(card, 0)), Leaf(tag, 0))
    found = fitted(job, coarse, (6 * INCH, 9 * INCH))
    assert isinstance(found, Split)
    assert found.at == third
    assert found.low == Split(False, 4 * INCH, Leaf(card, 0), Split(False, 4 * INCH, Leaf(card, 0), None))


def many_sums() -> tuple[list[PieceType], list[Stock]]:
    """Twenty-five sizes on the nanometre: more sums than a table can have."""
    sizes = [(110_030_001, 110_030_003), *((10_090_003 + 370_001 * n, 12_010_007 + 530_003 * n) for n in range(24))]
    return [PieceType(str(n), *size, 4, (0, 1)) for n, size in enumerate(sizes)], [
        Stock("sheet", 200_110_001, 199_970_003)
    ]


def test_sizes_with_too_many_sums_are_laid_out_with_rounded_ones_and_the_true_plan_is_verified() -> None:
    pieces, sheets = many_sums()
    plan = lay_out(pieces, sheets, effort=replace(QUICK, steps=100))
    assert plan.is_complete
    assert plan.step is not None
    assert verify_plan(pieces, sheets, plan) == ()


def test_a_certificate_with_a_step_is_refused_with_another_bound_or_a_step_that_no_piece_is_as_large_as() -> None:
    pieces, sheets = many_sums()
    # each piece is worth its area, a sheet its own: true without any table, so a piece is made worth a little more
    plan = lay_out(pieces, sheets, effort=replace(QUICK, steps=0, nodes=0))
    bound = plan.bound
    assert bound.step is not None
    dearer = replace(bound, worth=tuple((name, 2 * each) for name, each in bound.worth))
    assert {"bound-not-proved"} <= {fault.code for fault in verify_plan(pieces, sheets, replace(plan, bound=dearer))}
    for step in (0, -1, 20_000_000):
        wrong = replace(plan, bound=replace(bound, step=step))
        assert "bound-not-proved" in {fault.code for fault in verify_plan(pieces, sheets, wrong)}


def test_sizes_with_few_sums_are_never_rounded_however_fine_they_are() -> None:
    """Thirds of an inch are no whole nanometres, but a sheet of them has a few dozen sums."""
    pieces = [PieceType("card", 93_133_333, 107_950_000, 7, (0, 1)), PieceType("tag", 2 * INCH, 3 * INCH, 1, (0, 1))]
    sheet = Stock("letter", 17 * INCH // 2, 11 * INCH)
    plan = lay_out(pieces, [sheet])
    assert plan.step is None
    assert plan.is_proved
    assert plan.value == 2  # four cards of 3 2/3 x 4 1/4 on a letter sheet: two by two, 7 1/3 x 8 1/2
    assert verify_plan(pieces, [sheet], plan) == ()


def test_no_table_is_made_that_would_be_too_large(monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither of the exact sizes nor of rounded ones: what is made afterwards has no more positions than were counted before."""
    made = []

    def noted(job: Job, *rest: object, **more: object) -> object:
        table = make_table(job, *rest, **more)  # type: ignore[arg-type]
        made.append(table)
        return table

    monkeypatch.setattr(generate, "make_table", noted)
    pieces, sheets = many_sums()
    job = make_job(pieces, sheets, TrimmerLimits())
    assert pricings_at(job, job, job, None) is None
    found = make_pricings(job)
    assert found
    assert made[0] is None
    assert all(len(edge.points) <= 1_500 for each in found for edge in (each.table.across, each.table.up))


def test_steps_are_ones_twos_and_fives_between_the_common_measure_and_the_smallest_side() -> None:
    pieces = [PieceType("card", 40_000_000, 30_000_000, 1, (0,)), PieceType("tag", 200_000, 5_010_000, 1, (0,))]
    job = make_job(pieces, [Stock("sheet", 100_000_000, 90_000_000)], TrimmerLimits())
    assert job.unit == 10_000
    assert list(steps_for(job)) == [20_000, 50_000, 100_000]
    assert list(steps_for(make_job(pieces[:1], [Stock("sheet", 10**9, 9 * 10**8)], TrimmerLimits()))) == [20_000_000]


@pytest.mark.parametrize("upright", [True, False])
def test_what_is_left_over_on_the_near_side_comes_to_the_far_one(upright: bool) -> None:
    """A leftover before a piece: the piece is cut off first, and what needs no cut gets none."""
    job = make_job([PieceType("card", 30, 40, 1, (0,))], [Stock("sheet", 100, 100)], TrimmerLimits())
    wide, high = job.kinds[0].poses[0]
    whole = (70 // job.unit, high) if upright else (wide, 70 // job.unit)
    at = wide if upright else high
    assert fitted(job, Split(upright, 1, None, Leaf(0, 0)), whole) == Split(upright, at, Leaf(0, 0), None)
    assert fitted(job, Split(upright, 1, None, Leaf(0, 0)), (wide, high)) == Leaf(0, 0)
    assert fitted(job, Split(upright, 1, None, None), whole) is None


def test_two_strips_on_each_other_share_the_height_that_is_left() -> None:
    job = make_job([PieceType("card", 30, 40, 2, (0,))], [Stock("sheet", 100, 100)], TrimmerLimits())
    wide, high = job.kinds[0].poses[0]
    found = fitted(job, Split(False, high + 1, Leaf(0, 0), Leaf(0, 0)), (wide, 2 * high + 3))
    assert found == Split(False, high, Leaf(0, 0), Split(False, high, Leaf(0, 0), None))
    pair = Split(False, high + 1, Leaf(0, 0), Leaf(0, 0))
    exact = Split(False, high, Leaf(0, 0), Leaf(0, 0))
    assert fitted(job, pair, (wide, 2 * high)) == exact
    assert fitted(job, Split(False, 2 * high + 2, pair, Leaf(0, 0)), (wide, 3 * high)) == Split(
        False, 2 * high, exact, Leaf(0, 0)
    )
