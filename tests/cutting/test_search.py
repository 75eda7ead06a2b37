"""The search against outside values and against trying everything: knapsack optima, cutting-stock optima, brute force."""

from dataclasses import replace
from fractions import Fraction
from functools import cache
from math import gcd

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.cutting.published import GCUT5D
from tests.cutting.tables import small_table
from tests.cutting.trying import fewest_sheets

from kitwright.cutting import QUICK, STEADY, THOROUGH, UPRIGHT, PieceType, Stock, TrimmerLimits, lay_out, verify_plan
from kitwright.cutting.certificate import value_areas
from kitwright.cutting.job import make_job
from kitwright.cutting.knapsack import make_band, sheet_value, solve_table
from kitwright.cutting.search import search_plan
from kitwright.cutting.sketch import count_kinds
from kitwright.cutting.trace import best_sketch

# J. E. Beasley, J. Oper. Res. Soc. 36 (1985), instance gcut1 of the OR-Library: sheet 250 × 250, value of a piece = its area.
GCUT1 = (
    (167, 184),
    (114, 118),
    (167, 152),
    (83, 140),
    (70, 86),
    (143, 166),
    (120, 160),
    (66, 148),
    (87, 141),
    (69, 165),
)

# Cintra, Miyazawa, Wakabayashi, Xavier, Eur. J. Oper. Res. 191 (2008), gcut1d: the same pieces with a demand.
GCUT1D = (33, 38, 100, 97, 78, 30, 27, 84, 67, 23)


@pytest.mark.parametrize(("turns", "optimum"), [((0,), 56460), ((0, 1), 58136)])
def test_the_knapsack_finds_the_published_optimum_of_gcut1(turns: tuple[int, ...], optimum: int) -> None:
    pieces = [PieceType(str(i), w, h, 1, turns) for i, (w, h) in enumerate(GCUT1)]
    job = make_job(pieces, [Stock("sheet", 250, 250)], TrimmerLimits())
    table = small_table(job, range(len(job.kinds)), [0], strip=0)
    worth = [kind.area for kind in job.kinds]
    values = solve_table(table, worth)
    assert sheet_value(table, values, 250, 250) == optimum
    counts = count_kinds(best_sketch(table, values, worth, (250, 250)), len(job.kinds))
    assert sum(count * each for count, each in zip(counts, worth, strict=True)) == optimum


@given(data=st.data())
@settings(deadline=None, max_examples=60)
def test_a_table_along_slanting_lines_holds_the_same_as_one_in_blocks(data: st.DataObject) -> None:
    width = data.draw(st.integers(4, 40))
    height = data.draw(st.one_of(st.just(width), st.integers(4, 40)))
    sizes = data.draw(st.lists(st.tuples(st.integers(1, width), st.integers(1, height)), min_size=1, max_size=6))
    turns = data.draw(st.sampled_from([(0,), (0, 1)]))
    reach = data.draw(st.one_of(st.none(), st.integers(min(width, height), max(width, height))))
    limits = TrimmerLimits(reach, data.draw(st.sampled_from([0, 2, 5])))
    pieces = [PieceType(str(i), w, h, 1, turns) for i, (w, h) in enumerate(sizes)]
    job = make_job(pieces, [Stock("sheet", width, height)], limits)
    assume(job.kinds)
    worth = [data.draw(st.integers(0, 50)) for _ in job.kinds]
    for strip in (0, job.strip):
        table = small_table(job, range(len(job.kinds)), [0], strip=strip)
        xs, ys = table.across.points, table.up.points
        slants = make_band(xs, 0, len(xs), strip), make_band(ys, 0, len(ys), strip)
        in_blocks = solve_table(replace(table, slants=None), worth)
        assert (solve_table(replace(table, slants=slants), worth) == in_blocks).all()


@given(data=st.data())
@settings(deadline=None, max_examples=60)
def test_the_knapsack_and_the_check_of_certificates_agree_although_they_share_no_code(data: st.DataObject) -> None:
    width, height = data.draw(st.integers(4, 14)), data.draw(st.integers(4, 14))
    sizes = data.draw(st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9)), min_size=1, max_size=5, unique=True))
    worth = data.draw(st.lists(st.integers(1, 40), min_size=len(sizes), max_size=len(sizes)))
    turns = data.draw(st.sampled_from([(0,), (0, 1)]))
    reach = data.draw(st.one_of(st.none(), st.integers(3, 14)))
    pieces = [PieceType(str(i), w, h, 1, turns) for i, (w, h) in enumerate(sizes)]
    job = make_job(pieces, [Stock("sheet", width, height)], TrimmerLimits(reach))
    by_kind = [max(worth[int(piece.name)] for piece in kind.pieces) for kind in job.kinds]
    table = small_table(job, range(len(job.kinds)), [0], strip=0)
    values = solve_table(table, by_kind)
    valued = [(*piece.size(turn), worth[int(piece.name)]) for piece in pieces for turn in turns]
    found = sheet_value(table, values, job.sheets[0].width, job.sheets[0].height)
    areas = value_areas([(width, height)], valued, reach, None)
    assert areas is not None
    assert found == areas.value((width, height))
    counts = count_kinds(
        best_sketch(table, values, by_kind, (job.sheets[0].width, job.sheets[0].height)), len(job.kinds)
    )
    assert sum(count * each for count, each in zip(counts, by_kind, strict=True)) == found


WAYS = [UPRIGHT, (0, 2), (0, 1), (1, 3), (0, 1, 2, 3)]
"""Turns that prints and grain allow: as it is, half round, a quarter, only a quarter, any."""


@given(data=st.data())
@settings(deadline=None, max_examples=40)
def test_small_jobs_are_laid_out_on_as_few_sheets_as_trying_everything_finds(data: st.DataObject) -> None:
    width, height = data.draw(st.integers(4, 6)), data.draw(st.integers(4, 6))
    drawn = st.tuples(st.integers(1, 4), st.integers(1, 4), st.sampled_from(WAYS))
    pieces = [
        PieceType(str(i), w, h, 1, turns)
        for i, (w, h, turns) in enumerate(data.draw(st.lists(drawn, min_size=1, max_size=6)))
    ]
    stocks = [Stock("sheet", width, height)]
    trimmer = TrimmerLimits(
        longest_cut=data.draw(st.sampled_from([6, 6, 5, 4])), smallest_strip=data.draw(st.sampled_from([0, 0, 2]))
    )
    plan = lay_out(pieces, stocks, trimmer=trimmer)
    assert verify_plan(pieces, stocks, plan, trimmer) == ()
    optimum = fewest_sheets(pieces, width, height, trimmer)
    assert plan.is_complete == (optimum is not None)
    if optimum is not None:
        assert plan.bound.value <= optimum <= plan.value
        assert (
            plan.value == optimum or trimmer.smallest_strip
        )  # strips that must be held may cost a sheet that was not needed


def most_worth(width: int, height: int, worth: dict[tuple[int, int], Fraction]) -> Fraction:
    """The most that pieces of one sheet can be worth, by every cut of every area; with fractions, and its own code."""

    @cache
    def of(wide: int, high: int) -> Fraction:
        best = worth.get((wide, high), Fraction(0))
        for at in range(1, wide // 2 + 1):
            best = max(best, of(at, high) + of(wide - at, high))
        for at in range(1, high // 2 + 1):
            best = max(best, of(wide, at) + of(wide, high - at))
        return best

    return of(width, height)


@given(data=st.data())
@settings(deadline=None, max_examples=12)
def test_what_a_bound_says_pieces_are_worth_is_never_more_than_a_sheet_costs(data: st.DataObject) -> None:
    """The duals of the linear programme, reckoned again with fractions: weak duality then gives the bound."""
    drawn = st.tuples(st.integers(1, 9), st.integers(1, 9), st.integers(1, 9), st.sampled_from(WAYS))
    pieces = [
        PieceType(str(i), w, h, count, turns)
        for i, (w, h, count, turns) in enumerate(data.draw(st.lists(drawn, min_size=1, max_size=5)))
    ]
    prices = data.draw(st.tuples(st.integers(1, 9), st.integers(1, 9)))
    stocks = [Stock("small", 10, 9, None, prices[0]), Stock("large", 12, 14, None, prices[1])]
    bound = lay_out(pieces, stocks, effort=QUICK).bound
    # cases have certificates of their own, and counted pieces are not free; the verifier's tests look at both
    assume(bound.fork is None and not bound.counted)
    duals = {name: Fraction(value, bound.scale) for name, value in bound.worth}
    by_size: dict[tuple[int, int], Fraction] = {}
    for piece in pieces:
        for turn in piece.turns:
            size = (piece.height, piece.width) if turn % 2 else (piece.width, piece.height)
            by_size[size] = max(by_size.get(size, Fraction(0)), duals[piece.name])
    for stock, price in zip(stocks, prices, strict=True):
        assert most_worth(stock.width, stock.height, by_size) <= price
    total = sum((duals[piece.name] * piece.count for piece in pieces), Fraction(0))
    step = gcd(*prices)
    assert bound.value == -(-total // step) * step


@given(data=st.data())
@settings(deadline=None, max_examples=20)
def test_every_plan_and_every_bound_passes_the_verifier(data: st.DataObject) -> None:
    number = data.draw(st.integers(1, 5))
    pieces = [
        PieceType(
            str(i),
            data.draw(st.integers(1, 12)),
            data.draw(st.integers(1, 12)),
            data.draw(st.integers(1, 60)),
            data.draw(st.sampled_from([UPRIGHT, (0, 1), (1, 2)])),
            data.draw(st.sampled_from([None, None, ("large",)])),
        )
        for i in range(number)
    ]
    count = data.draw(st.one_of(st.none(), st.integers(0, 6)))
    stocks = [
        Stock("large", 20, 15, data.draw(st.one_of(st.none(), st.integers(1, 40))), 80),
        Stock("small", 11, 9, count, data.draw(st.integers(0, 30))),
    ]
    trimmer = TrimmerLimits(data.draw(st.sampled_from([None, 12, 18])), data.draw(st.sampled_from([0, 0, 2, 3])))
    plan = lay_out(pieces, stocks, trimmer=trimmer)
    assert verify_plan(pieces, stocks, plan, trimmer) == ()


def test_the_published_optimum_of_the_cutting_stock_instance_gcut5d_is_reached_and_proved() -> None:
    # optimum 197 (Chen et al. 2016), LP bound 196.8333
    pieces = [PieceType(str(i), w, h, count, UPRIGHT) for i, (w, h, count) in enumerate(GCUT5D)]
    stocks = [Stock("sheet", 500, 500)]
    plan = lay_out(pieces, stocks, effort=STEADY)
    assert (plan.value, plan.bound.value, plan.is_proved) == (197, 197, True)
    assert verify_plan(pieces, stocks, plan) == ()


def test_a_seed_changes_nothing_about_what_is_promised() -> None:
    pieces = [PieceType(str(i), 30 + 7 * i, 50 - 3 * i, 1 + i, (0, 1)) for i in range(8)]
    stocks = [Stock("sheet", 120, 100)]
    plans = [lay_out(pieces, stocks, seed=seed) for seed in (0, 0, 5)]
    assert plans[0] == plans[1]
    assert plans[0].value == plans[2].value


def test_the_same_layout_is_used_again_where_that_costs_nothing() -> None:
    # 4 of each fit on one sheet together: one layout cut ten times is enough.
    pieces = [PieceType("a", 5, 10, 20, UPRIGHT), PieceType("b", 5, 6, 20, UPRIGHT), PieceType("c", 5, 4, 20, UPRIGHT)]
    plan = lay_out(pieces, [Stock("sheet", 20, 10)])
    assert plan.is_proved
    assert len(plan.layouts) == 1
    assert plan.layouts[0].times == 10


def test_a_search_ends_when_its_work_is_done_and_what_it_has_is_sound() -> None:
    """The same question with less and less work: no plan is lost, no bound is wrong, and the work is what is asked for."""
    sizes = [(30 + 7 * rank % 41, 45 + 11 * rank % 53) for rank in range(24)]
    pieces = [PieceType(str(rank), *size, 3, (0, 1)) for rank, size in enumerate(sizes)]
    sheets = [Stock("sheet", 211, 307)]
    spent = []
    for work in (0, 50_000, 400_000):
        plan, done = search_plan(pieces, sheets, trimmer=None, effort=replace(THOROUGH, work=work), progress=None)
        assert plan.is_complete
        assert verify_plan(pieces, sheets, plan) == ()
        spent.append(done)
    assert spent == sorted(spent)
    assert spent[0] < 50_000 < spent[2] < 2 * 400_000


def test_the_work_of_a_search_grows_with_the_pieces_and_is_shared() -> None:
    assert QUICK.work_for(1) < QUICK.work_for(60) < QUICK.work_for(10**6) == QUICK.work
    assert QUICK.shared(4).work_for(10**6) == QUICK.work // 4
    assert QUICK.shared(4).work_for(10) == QUICK.work_for(10)
