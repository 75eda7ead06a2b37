"""The most that can lie on a sheet around an area: from the whole sheet inwards, over every cut that can set the area free.

The counterpart of the table of what lies inside areas; together they say how good a sheet with a certain area in it can be
(X. Viswanathan and A. Bagchi, Operations Research 41, 1993; from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from kitwright.cutting.knapsack import CutTable, Values

__all__ = ["NOWHERE", "Surroundings", "make_surroundings", "solve_around"]

NOWHERE: Final = -(1 << 60)
"""The value around an area that is on no sheet."""

Places = npt.NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Surroundings:
    """For every two places of an edge of a table (whole, part), the place of what is left of the whole; -1 where the part is longer."""

    across: Places
    up: Places


def make_surroundings(table: CutTable) -> Surroundings:
    """What only depends on the positions."""
    return Surroundings(rests_of(table.across.points), rests_of(table.up.points))


def rests_of(points: Sequence[int]) -> Places:
    """The same for one edge."""
    lengths = np.array(points)
    return np.asarray(np.searchsorted(lengths, lengths[:, None] - lengths[None, :], side="right") - 1)


def solve_around(surroundings: Surroundings, inside: Values, roots: Iterable[tuple[int, int, int]]) -> Values:
    """For every area (places across × places up), the most that it can be worth to be cut out of a sheet.

    `inside` is what areas are worth; a root is the places of a sheet's width and height, and a value that is added for that sheet.
    """
    columns, rows = inside.shape
    around = np.full(inside.shape, NOWHERE, dtype=np.int64)
    for column, row, value in roots:
        around[column, row] = max(around[column, row], value)
    for total in range(columns + rows - 3, 1, -1):
        i = np.arange(max(1, total - rows + 1), min(columns - 1, total - 1) + 1)
        j = total - i
        best = around[i, j]
        first = int(i[0]) + 1
        if first < columns:
            rest = surroundings.across[first:, i].T
            wholes = around[first:, j].T + np.where(rest >= 0, inside[rest, j[:, None]], NOWHERE)
            np.maximum(best, wholes.max(axis=1), out=best)
        first = int(j[-1]) + 1
        if first < rows:
            rest = surroundings.up[first:, j].T
            wholes = around[i, first:] + np.where(rest >= 0, inside[i[:, None], rest], NOWHERE)
            np.maximum(best, wholes.max(axis=1), out=best)
        around[i, j] = best
    around[around < NOWHERE // 2] = NOWHERE
    return around
