"""Whole plans beside a fractional one, on jobs small enough to see through."""

from collections.abc import Sequence
from random import Random

import numpy as np
import pytest

from kitwright.cutting import UPRIGHT, PieceType, Stock, TrimmerLimits
from kitwright.cutting import group as groups
from kitwright.cutting.corner import is_complete, make_corner
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.master import Basis, Master
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import cost_of

Used = list[tuple[Pattern, int]]


def made(demand: Sequence[int], sheets: Sequence[tuple[int, int | None]]) -> Job:
    """A job with kinds of falling size; for each sheet its price and how many there are. What fits does not matter here."""
    pieces = [PieceType(f"kind {rank}", 20 - rank, 10, count, UPRIGHT) for rank, count in enumerate(demand)]
    stocks = [Stock(f"sheet {rank}", 40, 40, count, price) for rank, (price, count) in enumerate(sheets)]
    return make_job(pieces, stocks, TrimmerLimits())


def pattern(*counts: int, sheet: int = 0) -> Pattern:
    return Pattern(sheet, counts, None)


def found(job: Job, basis: Basis, patterns: Sequence[Pattern], below: int) -> Used | None:
    corner = make_corner(job, basis, patterns, below)
    assert corner is not None
    return corner.search(below, np.random.default_rng(0))


def as_counts(used: Used | None) -> dict[tuple[int, ...], int] | None:
    return None if used is None else {(pattern.sheet, *pattern.counts): count for pattern, count in used}


def test_a_pattern_beside_the_basis_makes_it_whole() -> None:
    """Two and a half sheets of pairs: the odd one is cut singly, and nothing is too many."""
    job = made([5, 3], [(6, None)])
    basis = Basis((pattern(2, 0), pattern(0, 1)), (0, 1), (5, 3), (1, 1))
    used = found(job, basis, [pattern(1, 0)], 100)
    assert as_counts(used) in ({(0, 2, 0): 2, (0, 0, 1): 3, (0, 1, 0): 1}, {(0, 2, 0): 3, (0, 0, 1): 3})
    assert used is not None
    assert cost_of(job, used) == 36


def test_only_cheaper_plans_count() -> None:
    job = made([5, 3], [(6, None)])
    basis = Basis((pattern(2, 0), pattern(0, 1)), (0, 1), (5, 3), (1, 1))
    assert found(job, basis, [pattern(1, 0)], 36) is None
    assert found(job, basis, [pattern(1, 0)], 37) is not None


def test_a_basis_that_is_whole_is_a_plan() -> None:
    job = made([4, 3], [(6, None)])
    basis = Basis((pattern(2, 0), pattern(0, 1)), (0, 1), (4, 3), (1, 1))
    assert as_counts(found(job, basis, [], 31)) == {(0, 2, 0): 2, (0, 0, 1): 3}


def test_no_pattern_is_cut_less_than_not_at_all() -> None:
    """By numbers alone three from a dearer sheet, less one pair, would be the cheapest way to one piece."""
    job = made([1], [(6, None), (8, None)])
    basis = Basis((pattern(2),), (0,), (1,), (1,))
    assert as_counts(found(job, basis, [pattern(3, sheet=1)], 100)) == {(0, 2): 1}


def test_no_more_sheets_are_used_than_there_are() -> None:
    """Rounding up both pairs takes four sheets of three; a mixed one, or a dearer sheet, keeps within them."""
    job = made([3, 3], [(6, 3), (9, None)])
    basis = Basis((pattern(2, 0), pattern(0, 2)), (0, 1), (3, 3), (1, 1))
    assert found(job, basis, [], 100) is None
    assert as_counts(found(job, basis, [pattern(1, 1, sheet=1)], 100)) == {(0, 2, 0): 1, (0, 0, 2): 1, (1, 1, 1): 1}
    assert as_counts(found(job, basis, [pattern(1, 1)], 100)) == {(0, 2, 0): 1, (0, 0, 2): 1, (0, 1, 1): 1}


def test_what_is_made_beyond_the_demand_stays_beyond_it() -> None:
    """A kind that comes as a by-product, more than is wanted, may not fall short when other patterns take over."""
    job = made([5, 2], [(6, None), (5, None)])
    basis = Basis((pattern(2, 1),), (0,), (5,), (1,))
    used = found(job, basis, [pattern(1, 0, sheet=1), pattern(5, 0, sheet=1)], 100)
    assert as_counts(used) == {(0, 2, 1): 2, (1, 1, 0): 1}


def test_sheets_that_a_case_must_use_are_a_row_too() -> None:
    """At least three sheets in this case: the pair and a half come as two pairs, or one and a single piece, with an empty third."""
    job = made([3], [(6, None)])
    basis = Basis((pattern(2), pattern(1)), (0, 1), (3, 3), (1, 1))
    used = found(job, basis, [], 100)
    assert used is not None
    assert is_complete(job, used)


def test_the_same_generator_gives_the_same_plan() -> None:
    job = made([35, 27, 11], [(6, None)])
    basis = Basis((pattern(3, 1, 0), pattern(0, 4, 1), pattern(1, 0, 5)), (0, 1, 2), (35, 27, 11), (1, 1, 1))
    others = [pattern(2, 2, 0), pattern(1, 1, 2), pattern(0, 1, 3), pattern(1, 2, 1), pattern(2, 0, 2)]
    first = found(job, basis, others, 1000)
    assert first is not None
    assert first == found(job, basis, others, 1000)


def test_a_plan_is_counted_before_it_is_told() -> None:
    job = made([4], [(6, 3)])
    assert is_complete(job, [(pattern(2), 2)])
    assert not is_complete(job, [(pattern(2), 1)])
    assert not is_complete(job, [(pattern(1), 4)])
    assert not is_complete(job, [(pattern(2), 3), (pattern(1), -1)])


def test_a_basis_with_too_large_a_group_is_left(monkeypatch: pytest.MonkeyPatch) -> None:
    job = made([5, 3], [(6, None)])
    basis = Basis((pattern(2, 0), pattern(0, 3)), (0, 1), (5, 3), (1, 1))
    assert make_corner(job, basis, [], 100) is not None
    monkeypatch.setattr(groups, "MOST_ELEMENTS", 6)
    assert make_corner(job, basis, [], 100) is None


def test_nothing_is_looked_for_below_the_fractional_answer() -> None:
    job = made([5, 3], [(6, None)])
    basis = Basis((pattern(2, 0), pattern(0, 1)), (0, 1), (5, 3), (1, 1))
    assert make_corner(job, basis, [], 33) is None
    assert make_corner(job, basis, [], 34) is not None


def test_a_corner_where_even_numbers_below_zero_cost_too_much_is_left_after_one_turn() -> None:
    job = made([5, 3], [(6, None)])
    basis = Basis((pattern(2, 0), pattern(0, 1)), (0, 1), (5, 3), (1, 1))
    # Five pairs and a single one make six sheets or more; by fractions alone five and a half would do.
    corner = make_corner(job, basis, [pattern(1, 0)], 36)
    assert corner is not None
    assert corner.search(36, np.random.default_rng(0)) is None
    assert corner.turns == 1
    # One piece as three from a dearer sheet, less one pair, would cost 2: that it cannot be is seen only later.
    job = made([1], [(6, None), (8, None)])
    corner = make_corner(job, Basis((pattern(2),), (0,), (1,), (1,)), [pattern(3, sheet=1)], 6)
    assert corner is not None
    assert corner.search(6, np.random.default_rng(0)) is None
    assert corner.turns > 1


def master_of(job: Job, *patterns: Pattern) -> Master:
    master = Master(job)
    for each in patterns:
        master.add(each)
    return master


def test_the_programme_tells_what_its_answer_stands_on() -> None:
    job = made([5, 3], [(6, 2), (9, None)])
    master = master_of(job, pattern(2, 0), pattern(1, 0), pattern(0, 3), pattern(2, 0, sheet=1))
    basis = master.basis(0.0, Random(0))
    assert basis is not None
    # Two sheets of the cheap kind are all there are: one for the second kind, the other and dear ones for the first.
    assert set(basis.patterns) == {pattern(2, 0), pattern(0, 3), pattern(2, 0, sheet=1)}
    assert dict(zip(basis.rows, zip(basis.right, basis.ways, strict=True), strict=True)) == {
        0: (5, 1),
        1: (3, 1),
        2: (2, -1),
    }


def test_prices_that_were_changed_for_another_basis_are_put_back() -> None:
    job = made([5, 3], [(6, None), (7, None)])
    master = master_of(job, pattern(2, 0), pattern(0, 3), pattern(2, 0, sheet=1))
    before = master.solve().value
    random = Random(0)
    seen = {basis.patterns for basis in (master.basis(0.5, random) for _ in range(40)) if basis is not None}
    assert len(seen) == 2
    assert master.solve().value == before


def test_a_basis_that_leaves_pieces_out_is_none() -> None:
    job = made([5, 3], [(6, None)])
    assert master_of(job, pattern(2, 0)).basis(0.0, Random(0)) is None
