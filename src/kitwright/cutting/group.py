"""Whole vectors seen up to whole mixtures of a basis: a finite group, in which a shortest way is found exactly.

As many vectors can be told apart as the determinant of the basis says. Their group is a product of cyclic ones, read off the basis
once it is made diagonal by whole row and column steps (H. J. S. Smith, Philosophical Transactions 151, 1861).
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np
import numpy.typing as npt

__all__ = ["BEYOND", "Group", "Ints", "Lengths", "make_group"]

Ints = npt.NDArray[np.int64]
Lengths = npt.NDArray[np.int32]

BEYOND: Final = 1 << 29
"""No way is as long as this."""

MOST_ELEMENTS: Final = 1 << 21
"""Larger groups are not worked with."""

MOST_WORK: Final = 200_000_000
FEWEST_STEPS: Final = 30
"""Elements that are looked at for one table of lengths; but so many steps are tried in any group."""

COPIES: Final = (1, 2)
"""Each step may be taken once or twice more than so far; by turns that is up to three times."""


class Group:
    """The group of a basis: elements are vectors of places, one for each of its cyclic groups, whose orders are `shape`."""

    def __init__(self, rows: Ints, shape: tuple[int, ...]) -> None:
        self.rows = rows
        self.shape = shape
        self.orders: Ints = np.array(shape, dtype=np.int64)
        self.weights: Ints = np.array([math.prod(shape[rank + 1 :]) for rank in range(len(shape))], dtype=np.int64)

    @property
    def order(self) -> int:
        """How many elements it has."""
        return math.prod(self.shape)

    def elements(self, vectors: Ints) -> Ints:
        """The elements of vectors, one in each row of either."""
        places: Ints = vectors @ self.rows.T % self.orders
        return places

    def lengths(self, steps: Ints, costs: Lengths, target: Ints, longer: float) -> Lengths:
        """The lengths of the shortest ways to all elements, flat, by steps (elements) that cost what they say, above zero.

        The cheapest steps come first, each at most three times; one that cheaper steps make as cheaply is passed over. They end where
        no way to the target that is at most so many times as long as the shortest has dearer ones, or where the group is too large
        for more; then, while there is no way to the target, only steps that lead where none led before. So a way that takes a step
        more often may be missed; none is told shorter than it is.
        """
        found: Lengths = np.full(self.shape, BEYOND, dtype=np.int32)
        found[(0,) * len(self.shape)] = 0
        axes = tuple(range(len(self.shape)))
        left = max(FEWEST_STEPS, MOST_WORK // (len(COPIES) * self.order))
        for rank in np.argsort(costs, kind="stable").tolist():
            step, cost = steps[rank], costs[rank]
            reached = found[tuple(target)]
            if cost > longer * reached or (left <= 0 and reached < BEYOND):
                break
            if found[tuple(step)] <= (cost if left > 0 else BEYOND - 1):
                continue
            left -= 1
            for copies in COPIES:
                moved = np.roll(found, tuple((copies * step % self.orders).tolist()), axis=axes)
                moved += np.int32(copies * cost)
                np.minimum(found, moved, out=found)
        return found.ravel()

    def ranks(self, elements: Ints) -> Ints:
        """Where elements (places in the last dimension) stand in what `lengths` gives."""
        ranks: Ints = elements @ self.weights
        return ranks

    def ranks_less(self, elements: Ints, steps: Ints) -> Ints:
        """Where elements less steps stand in what `lengths` gives: one row for each element, one column for each step."""
        ranks: Ints = np.zeros((len(elements), len(steps)), dtype=np.int64)
        for place, (order, weight) in enumerate(zip(self.shape, self.weights.tolist(), strict=True)):
            less = elements[:, place, None] - steps[None, :, place]
            less += order * (less < 0)
            ranks += weight * less
        return ranks


def make_group(basis: Ints) -> Group | None:
    """The group of a square matrix of whole numbers whose columns are the basis; None where it is too large."""
    size = abs(float(np.linalg.det(basis))) if len(basis) else 1.0
    if not 0.5 < size < MOST_ELEMENTS - 0.5:
        return None
    order = round(size)
    if order == 1:
        return Group(np.zeros((1, len(basis)), dtype=np.int64), (1,))
    rows, orders = diagonal(basis, order)
    kept = [rank for rank, each in enumerate(orders) if each > 1]
    if math.prod(orders) != order:
        return None
    return Group(rows[kept], tuple(orders[rank] for rank in kept))


def diagonal(basis: Ints, order: int) -> tuple[Ints, list[int]]:
    """Whole row steps that make the basis diagonal together with column steps, and the orders on the diagonal.

    All is counted modulo the order of the group, in which every vector that often is nothing.
    """
    size = len(basis)
    matrix, rows = basis % order, np.eye(size, dtype=np.int64)
    orders: list[int] = []
    for at in range(size):
        while True:
            rest = matrix[at:, at:]
            if not rest.any():
                return rows, orders + [order] * (size - at)
            shared = np.where(rest == 0, order, np.gcd(rest, order))
            row, column = (at + int(place) for place in np.unravel_index(int(shared.argmin()), shared.shape))
            for each in (matrix, rows):
                each[[at, row]] = each[[row, at]]
            matrix[:, [at, column]] = matrix[:, [column, at]]
            unit = unit_for(int(matrix[at, at]), order)
            matrix[at], rows[at] = matrix[at] * unit % order, rows[at] * unit % order
            pivot = int(matrix[at, at])
            times = (matrix[at + 1 :, at] // pivot)[:, None]
            matrix[at + 1 :] = (matrix[at + 1 :] - times * matrix[at]) % order
            rows[at + 1 :] = (rows[at + 1 :] - times * rows[at]) % order
            across = matrix[at, at + 1 :] // pivot
            matrix[:, at + 1 :] = (matrix[:, at + 1 :] - matrix[:, [at]] * across) % order
            if not matrix[at + 1 :, at].any() and not matrix[at, at + 1 :].any():
                break
        orders.append(pivot)
    return rows, orders


def unit_for(number: int, order: int) -> int:
    """A factor without a divisor in common with the order that makes the number its greatest common divisor with the order."""
    shared = math.gcd(number, order)
    rest = order // shared
    unit = pow(number // shared, -1, rest) if rest > 1 else 1
    while math.gcd(unit, order) != 1:
        unit += rest
    return unit % order
