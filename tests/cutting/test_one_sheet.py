"""The most valuable pieces of one sheet: published optima, everything tried on small sheets, and layouts that pass the verifier."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.cutting.published import CGCUT1
from tests.cutting.trying import fits_one_sheet

from kitwright.cutting import UPRIGHT, Layout, PieceType, Stock, TrimmerLimits, lay_out, placements, verify_plan
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.one_sheet import Fullest, fullest_sheet, make_tables
from kitwright.cutting.sketch import Pattern, make_layouts
from kitwright.cutting.through_cuts import verify_placements


def found(job: Job, worth: list[int], *, nodes: int = 10_000) -> Fullest:
    tables = make_tables(job, 0, worth)
    assert tables is not None
    best = fullest_sheet(job, tables, job.demand, nodes=nodes)
    assert best is not None
    return best


def layout_of(job: Job, best: Fullest) -> Layout:
    (layout,) = make_layouts(job, [(Pattern(0, best.counts, best.sketch), 1)])
    return layout


def test_the_published_optimum_of_cgcut1_is_found_and_proved() -> None:
    pieces = [PieceType(str(i), w, h, most, UPRIGHT) for i, (w, h, most, _) in enumerate(CGCUT1)]
    job = make_job(pieces, [Stock("sheet", 15, 10)], TrimmerLimits())
    by_size = {(w, h): value for w, h, _, value in CGCUT1}
    best = found(job, [by_size[kind.poses[0]] for kind in job.kinds])
    assert (best.worth, best.is_proved) == (244, True)
    lying = placements(layout_of(job, best))
    assert verify_placements(15, 10, lying) == ()
    assert sum(CGCUT1[int(each.piece)][3] for each in lying) == 244


def test_a_search_that_may_build_upon_little_claims_no_proof() -> None:
    pieces = [PieceType(str(i), w, h, most, UPRIGHT) for i, (w, h, most, _) in enumerate(CGCUT1)]
    job = make_job(pieces, [Stock("sheet", 15, 10)], TrimmerLimits())
    by_size = {(w, h): value for w, h, _, value in CGCUT1}
    best = found(job, [by_size[kind.poses[0]] for kind in job.kinds], nodes=3)
    assert not best.is_proved
    assert best.worth <= 244 <= best.at_most


@given(data=st.data())
@settings(deadline=None, max_examples=25)
def test_on_small_sheets_it_is_the_most_that_trying_everything_finds(data: st.DataObject) -> None:
    width, height = data.draw(st.integers(3, 6)), data.draw(st.integers(3, 6))
    ways = st.sampled_from([UPRIGHT, (0, 1), (1, 3)])
    drawn = st.tuples(st.integers(1, 4), st.integers(1, 4), st.integers(1, 2), ways)
    sizes = data.draw(st.lists(drawn, min_size=1, max_size=3))
    pieces = [PieceType(str(i), w, h, most, turns) for i, (w, h, most, turns) in enumerate(sizes)]
    fitting = [
        p
        for p in pieces
        if fits_one_sheet([PieceType("x", p.width, p.height, 1, p.turns)], width, height, TrimmerLimits())
    ]
    if not fitting:
        return
    job = make_job(fitting, [Stock("sheet", width, height)], TrimmerLimits())
    best = found(job, [kind.area for kind in job.kinds])
    assert best.is_proved
    assert verify_placements(width, height, placements(layout_of(job, best))) == ()
    most = max(
        sum(p.width * p.height * count for p, count in zip(fitting, counts, strict=True))
        for counts in product(*(range(p.count + 1) for p in fitting))
        if fits_one_sheet(
            [PieceType(p.name, p.width, p.height, n, p.turns) for p, n in zip(fitting, counts, strict=True) if n],
            width, height, TrimmerLimits(),
        )
    )  # fmt: skip
    assert best.worth * job.unit**2 == most


@pytest.mark.parametrize("limits", [TrimmerLimits(longest_cut=14), TrimmerLimits(smallest_strip=2)])
def test_a_trimmer_with_limits_is_not_its_business(limits: TrimmerLimits) -> None:
    job = make_job([PieceType("a", 3, 4, 2, UPRIGHT)], [Stock("sheet", 15, 10)], limits)
    tables = make_tables(job, 0, [12])
    assert tables is not None
    assert fullest_sheet(job, tables, job.demand, nodes=10) is None


def test_a_sheet_with_too_fine_a_grid_is_not_looked_at() -> None:
    job = make_job([PieceType("a", 301, 299, 1, UPRIGHT)], [Stock("sheet", 1001, 999)], TrimmerLimits())
    assert make_tables(job, 0, [1]) is None


def test_pieces_that_fill_one_sheet_exactly_are_laid_on_one() -> None:
    # Cut at random from 15 × 10, so that a perfect layout exists.
    sizes = ((9, 6), (6, 3), (6, 3), (4, 4), (5, 4), (6, 2), (2, 2), (4, 2))
    assert sum(w * h for w, h in sizes) == 150
    pieces = [PieceType(str(i), w, h, 1, UPRIGHT) for i, (w, h) in enumerate(sizes)]
    stocks = [Stock("sheet", 15, 10)]
    plan = lay_out(pieces, stocks)
    assert verify_plan(pieces, stocks, plan, None) == ()
    assert (plan.value, plan.is_proved) == (1, True)
