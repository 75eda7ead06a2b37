"""What pieces are worth by their sides alone: dual feasible functions, which give a good bound at once where pieces are large.

A function f from 0..1 to 0..1 is dual feasible if f of numbers that add up to at most 1 adds up to at most 1. With two of them a piece of a
sheet is worth f(width) × g(height), and no sheet can hold more than 1 (S. P. Fekete and J. Schepers, Mathematical Methods of Operations
Research 60, 2004; from memory). A bound is claimed only after the tables of the exact best sheet have checked it, like any other: a
choice made for one size of sheet may be worth too much on another.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from kitwright.cutting.job import Job, Sheet

__all__ = ["worths_by_sides"]

MOST_STEPS: Final = 100
"""Of the lengths that the functions may turn on, so many are tried, spread over all of them."""

KEPT: Final = 3
"""The best so many choices are given."""

Reals = NDArray[np.float64]


def worths_by_sides(job: Job, scale: int) -> Iterator[list[int]]:
    """For each size of sheet, the best few choices of what every kind is worth (in 1 / `scale` of that sheet's price), best first."""
    for sheet in {(each.width, each.height): each for each in job.sheets}.values():
        yield from best_worths(job, sheet, scale)


def best_worths(job: Job, sheet: Sheet, scale: int) -> Iterator[list[int]]:
    """The choices for one sheet that make all pieces together worth most."""
    counts = np.array(job.demand, dtype=np.float64)
    lengths = [
        sorted({pose[side] for kind in job.kinds for pose in kind.poses if pose[side] <= extent})
        for side, extent in enumerate((sheet.width, sheet.height))
    ]
    if not all(lengths):
        return
    across, up = functions(sheet.width, lengths[0]), functions(sheet.height, lengths[1])
    places = [
        [
            (bisect_left(lengths[0], wide), bisect_left(lengths[1], high))
            for wide, high in kind.poses
            if wide <= sheet.width and high <= sheet.height
        ]
        for kind in job.kinds
    ]
    is_square = sheet.width == sheet.height
    totals = []
    for rank, row in enumerate(across):
        found = worths(row, up, places, is_square=is_square)
        totals += [(float(total), rank, place) for place, total in enumerate(found @ counts)]
    for _, rank, place in sorted(totals, reverse=True)[:KEPT]:
        worth = worths(across[rank], up[place : place + 1], places, is_square=is_square)[0]
        yield [int(each * scale * sheet.price) for each in worth]


def worths(row: Reals, up: Reals, places: Sequence[Sequence[tuple[int, int]]], *, is_square: bool) -> Reals:
    """Worths `[function, kind]` for one function of the width and each of the height, whichever way a piece lies.

    `places` are where the lengths of the poses of every kind stand among those of the functions. A square sheet may be thought of as
    lying the other way with all that is on it, so the mean of both ways holds; else the lowest does.
    """
    together = np.mean if is_square else np.min
    found = np.zeros((len(up), len(places)))
    for kind, fitting in enumerate(places):
        if fitting:
            found[:, kind] = together([row[wide] * up[:, high] for wide, high in fitting], axis=0)
    return found


def functions(extent: int, lengths: Sequence[int]) -> Reals:
    """Dual feasible functions as rows: `[function, length]`, at these lengths of at most `extent`."""
    x = np.array(lengths, dtype=np.int64)
    plain = x / extent
    # the second: k lengths that are a little over 1 / (k + 1) fill the whole
    rows = [plain, *(np.where((k + 1) * x % extent == 0, plain, (k + 1) * x // extent / k) for k in range(1, 8))]
    for step in spread(steps(extent, lengths)):
        rows.append(np.where(x > extent - step, 1.0, np.where(x < step, 0.0, plain)))
        whole = extent // step
        rows.append(
            np.where(2 * x > extent, whole - (extent - x) // step, np.where(2 * x == extent, whole / 2, x // step))
            / whole
        )
    return np.unique(np.array(rows), axis=0)


def steps(extent: int, lengths: Sequence[int]) -> list[int]:
    """The lengths, up to half, at which a function can begin to count the lengths at hand otherwise."""
    near = {near for length in lengths for near in (length, length + 1, extent - length, extent - length + 1)}
    return sorted(each for each in near if 0 < each <= extent // 2)


def spread(found: Sequence[int]) -> list[int]:
    """At most `MOST_STEPS` of them, spread evenly."""
    if len(found) <= MOST_STEPS:
        return list(found)
    return [found[rank * len(found) // MOST_STEPS] for rank in range(MOST_STEPS)]
