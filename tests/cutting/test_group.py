"""The group of a basis against plain arithmetic with fractions, and shortest ways in it against Dijkstra's."""

import heapq
import math
from fractions import Fraction
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitwright.cutting import group as module
from kitwright.cutting.group import BEYOND, Group, Ints, make_group, unit_for

SIZES = st.integers(1, 4)


def inverse(matrix: list[list[int]]) -> list[list[Fraction]] | None:
    """The exact inverse by elimination; None of a singular matrix."""
    size = len(matrix)
    rows = [[Fraction(each) for each in row] + [Fraction(i == j) for j in range(size)] for i, row in enumerate(matrix)]
    for at in range(size):
        pivot = next((row for row in range(at, size) if rows[row][at]), None)
        if pivot is None:
            return None
        rows[at], rows[pivot] = rows[pivot], rows[at]
        rows[at] = [each / rows[at][at] for each in rows[at]]
        for row in range(size):
            if row != at:
                rows[row] = [a - rows[row][at] * b for a, b in zip(rows[row], rows[at], strict=True)]
    return [row[size:] for row in rows]


def is_mixture(vector: list[int], exact: list[list[Fraction]]) -> bool:
    """Whether a vector is a whole mixture of the basis whose inverse this is."""
    return all(sum(a * b for a, b in zip(row, vector, strict=True)).denominator == 1 for row in exact)


@st.composite
def bases(draw: st.DrawFn) -> tuple[list[list[int]], list[list[Fraction]]]:
    """A square matrix of small whole numbers and its inverse."""
    size = draw(SIZES)
    matrix = draw(st.lists(st.lists(st.integers(0, 6), min_size=size, max_size=size), min_size=size, max_size=size))
    exact = inverse(matrix)
    if exact is None:
        matrix = [[each + 7 * (i == j) for j, each in enumerate(row)] for i, row in enumerate(matrix)]
        exact = inverse(matrix)
    return (matrix, exact) if exact is not None else ([[2]], [[Fraction(1, 2)]])


def as_group(matrix: list[list[int]]) -> Group:
    found = make_group(np.array(matrix, dtype=np.int64))
    assert found is not None
    return found


@given(bases(), st.data())
def test_two_vectors_are_one_element_just_when_they_differ_by_a_whole_mixture(
    basis: tuple[list[list[int]], list[list[Fraction]]], data: st.DataObject
) -> None:
    matrix, exact = basis
    group = as_group(matrix)
    numbers = st.lists(st.integers(-9, 9), min_size=len(matrix), max_size=len(matrix))
    vectors = data.draw(st.lists(numbers, min_size=2, max_size=6))
    # One that differs from the first by the first of the basis.
    vectors.append([a + row[0] for a, row in zip(vectors[0], matrix, strict=True)])
    elements = group.elements(np.array(vectors, dtype=np.int64))
    for (one, first), (two, second) in product(zip(vectors, elements.tolist(), strict=True), repeat=2):
        assert (first == second) == is_mixture([a - b for a, b in zip(one, two, strict=True)], exact)


@given(bases())
def test_a_group_has_as_many_elements_as_the_determinant_says(
    basis: tuple[list[list[int]], list[list[Fraction]]],
) -> None:
    matrix, _ = basis
    assert as_group(matrix).order == round(abs(np.linalg.det(matrix)))


def test_a_worked_example_of_a_diagonal_form() -> None:
    """Wikipedia, "Smith normal form", worked example: the diagonal is 2, 2, 156 (from memory)."""
    group = as_group([[2, 4, 4], [-6, 6, 12], [10, 4, 16]])
    for times in range(1, 157):
        # As many elements come to nothing when taken so many times: that tells finite groups of this kind apart.
        assert math.prod(math.gcd(each, times) for each in group.shape) == math.prod(
            math.gcd(each, times) for each in (2, 2, 156)
        )


@given(st.integers(2, 500), st.data())
def test_a_unit_makes_a_number_its_divisor_shared_with_the_order(order: int, data: st.DataObject) -> None:
    number = data.draw(st.integers(1, order - 1))
    unit = unit_for(number, order)
    assert math.gcd(unit, order) == 1
    assert unit * number % order == math.gcd(number, order) % order


def shortest(group: Group, steps: Ints, costs: list[int]) -> dict[tuple[int, ...], int]:
    """The shortest ways to all elements that can be reached (E. W. Dijkstra, Numerische Mathematik 1, 1959)."""
    found: dict[tuple[int, ...], int] = {}
    waiting = [(0, (0,) * len(group.shape))]
    while waiting:
        length, here = heapq.heappop(waiting)
        if here in found:
            continue
        found[here] = length
        for step, cost in zip(steps.tolist(), costs, strict=True):
            there = tuple((a + b) % order for a, b, order in zip(here, step, group.shape, strict=True))
            heapq.heappush(waiting, (length + cost, there))
    return found


@given(st.lists(st.integers(2, 5), min_size=1, max_size=3), st.data())
def test_lengths_are_those_of_the_shortest_ways(shape: list[int], data: st.DataObject) -> None:
    group = Group(np.eye(len(shape), dtype=np.int64), tuple(shape))
    places = st.tuples(*(st.integers(0, each - 1) for each in shape))
    steps = np.array(data.draw(st.lists(places, min_size=1, max_size=4, unique=True)), dtype=np.int64)
    costs = data.draw(st.lists(st.integers(1, 50), min_size=len(steps), max_size=len(steps)))
    target = np.array(data.draw(places), dtype=np.int64)
    lengths = group.lengths(steps, np.array(costs, dtype=np.int32), target, 1.2)
    there = tuple(target.tolist())
    length = lengths[group.ranks(target)]
    exact = shortest(group, steps, costs).get(there, BEYOND)
    assert length >= exact
    if not any(order % 4 for order in shape if order != 2):
        # Four times any step is nothing here, so no way needs a step more than three times.
        assert length == exact
    assert lengths[0] == 0


def test_a_group_that_is_too_large_is_not_made(monkeypatch: pytest.MonkeyPatch) -> None:
    basis = np.array([[7, 0], [0, 7]], dtype=np.int64)
    assert make_group(basis) is not None
    monkeypatch.setattr(module, "MOST_ELEMENTS", 49)
    assert make_group(basis) is None


def test_a_large_group_looks_at_the_cheapest_steps_only(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "MOST_WORK", 0)
    monkeypatch.setattr(module, "FEWEST_STEPS", 1)
    group = Group(np.eye(1, dtype=np.int64), (12,))
    steps, costs = np.array([[5], [1]], dtype=np.int64), np.array([4, 3], dtype=np.int32)
    lengths = group.lengths(steps, costs, np.array([3], dtype=np.int64), 1.0)
    assert lengths[[1, 2, 3, 4, 5]].tolist() == [3, 6, 9, BEYOND, BEYOND]


def test_a_large_group_goes_on_to_steps_that_lead_to_the_target(monkeypatch: pytest.MonkeyPatch) -> None:
    """The cheap steps stay among the even ones; the cheapest odd one opens the rest, whatever comes between."""
    monkeypatch.setattr(module, "MOST_WORK", 0)
    monkeypatch.setattr(module, "FEWEST_STEPS", 1)
    group = Group(np.eye(1, dtype=np.int64), (8,))
    steps, costs = np.array([[2], [4], [6], [5]], dtype=np.int64), np.array([3, 4, 5, 6], dtype=np.int32)
    lengths = group.lengths(steps, costs, np.array([3], dtype=np.int64), 1.0)
    assert lengths.tolist() == [0, 12, 3, 15, 6, 6, 9, 9]


@given(st.lists(st.integers(1, 6), min_size=1, max_size=3), st.data())
def test_ranks_of_differences_are_those_of_the_elements_subtracted(shape: list[int], data: st.DataObject) -> None:
    group = Group(np.eye(len(shape), dtype=np.int64), tuple(shape))
    places = st.tuples(*(st.integers(0, each - 1) for each in shape))
    elements, steps = (np.array(data.draw(st.lists(places, min_size=1, max_size=4)), dtype=np.int64) for _ in range(2))
    ranks = group.ranks_less(elements, steps)
    for element, row in zip(elements, ranks, strict=True):
        for step, rank in zip(steps, row, strict=True):
            assert rank == group.ranks((element - step) % group.orders)
