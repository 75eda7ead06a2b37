"""The most valuable way to cut one sheet: an exact programme over all cut trees, for many sheet sizes in one table.

The recursion is that of Gilmore and Gomory (Operations Research 13, 1965) on the positions that sums of piece sizes can reach (Herz,
IBM J. Res. Dev. 16, 1972). Areas whose sides differ by less than the smallest piece do not depend on each other, so a whole block of
them is worked out at once on arrays. Values are whole numbers: nothing is rounded, and the result can be part of a proof.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from kitwright.cutting.job import Job
from kitwright.cutting.sketch import Leaf

__all__ = [
    "CutTable",
    "Values",
    "make_table",
    "place_of",
    "sheet_value",
    "solve_table",
    "solving_work",
]

Values = npt.NDArray[np.int64]
Places = npt.NDArray[np.intp]

MOST_AT_ONCE: Final = 2_000_000
"""Numbers handled in one array operation, so that the memory for it stays small."""

NUMBERS_A_MICROSECOND: Final = 75
"""So many sums of two sides are worked out and compared in a microsecond, along slanting lines; in blocks nearly three times as many."""

BLOCKS_A_SLANT: Final = 4
"""Valuing a slanting line takes about as long as this many blocks, each where two bands cross."""

MOST_POINTS: Final = 1_500
"""With more positions than this along one edge no table is made."""

MOST_WORK: Final = 500_000
"""Nor is one that would take more than so many microseconds to solve (counted, not measured): that is also how long a stop may wait."""


@dataclass(frozen=True, slots=True, eq=False)
class Band:
    """Neighbouring points that do not depend on each other: from place `start` to `stop`, with the cuts of each and their other sides.

    `cuts` and `rests` have one row a point, padded with 0, the empty area.
    """

    start: int
    stop: int
    cuts: Places
    rests: Places
    depths: Places
    """How many cuts each point has."""


@dataclass(frozen=True, slots=True, eq=False)
class Edge:
    """One direction of the table: the points, where cuts across it end to be possible, where strips begin to be wide enough."""

    points: tuple[int, ...]
    bands: tuple[Band, ...]
    band_of: tuple[int, ...]
    """For each point, the band that it lies in (0 also for the point 0)."""
    reach: int
    """Points before this place are no longer than the longest cut."""
    hold: int
    """Points from this place on are wide enough to be held while something is trimmed off beside them."""


@dataclass(frozen=True, slots=True, eq=False)
class CutTable:
    """The areas to be valued for a set of sheets that may hold the same kinds; a seed is a place (x, y), a kind and a pose."""

    across: Edge
    up: Edge
    seeds: tuple[tuple[int, int, int, int], ...]
    is_limited: bool
    sizes: tuple[tuple[tuple[int, int], ...], ...]
    longest_cut: int
    leaves: Mapping[tuple[int, int], tuple[Leaf, ...]]
    """The pieces that fill an area exactly, by its places."""
    slants: tuple[Band, Band] | None
    """Where bands are so narrow that the areas are better valued along slanting lines: all points across, and up, as one band each."""
    is_mirrored: bool
    """Whether an area that lies the other way is always worth the same."""


def make_table(job: Job, kinds: Sequence[int], sheets: Sequence[int], *, strip: int) -> CutTable | None:
    """The table for these sheets and kinds. With `strip` 0 the limit on what can be held is left out, as a bound may.

    None where it would be too large or take too long; nothing large is made before that is known.
    """
    width = max(job.sheets[sheet].width for sheet in sheets)
    height = max(job.sheets[sheet].height for sheet in sheets)
    poses = [(kind, pose, *size) for kind in kinds for pose, size in enumerate(job.kinds[kind].poses)]
    poses = [
        entry
        for entry in poses
        if any(entry[2] <= job.sheets[s].width and entry[3] <= job.sheets[s].height for s in sheets)
    ]
    is_limited = strip > 0 or job.reach < max(width, height)
    extra_x = {job.sheets[sheet].width for sheet in sheets} if is_limited else set()
    extra_y = {job.sheets[sheet].height for sheet in sheets} if is_limited else set()
    xs = points_up_to([entry[2] for entry in poses], width, extra_x | ({strip} if 0 < strip <= width else set()))
    ys = points_up_to([entry[3] for entry in poses], height, extra_y | ({strip} if 0 < strip <= height else set()))
    if xs is None or ys is None or work_for(xs, ys) > MOST_WORK:
        return None
    across, up = make_edge(xs, job.reach, strip), make_edge(ys, job.reach, strip)
    seeds = []
    for kind, pose, wide, high in poses:
        for i in seed_places(xs, wide, strip):
            seeds += [(i, j, kind, pose) for j in seed_places(ys, high, strip)]
    leaves: dict[tuple[int, int], tuple[Leaf, ...]] = {}
    for i, j, kind, pose in seeds:
        leaves[i, j] = (*leaves.get((i, j), ()), Leaf(kind, pose))
    sizes = tuple(kind.poses for kind in job.kinds)
    is_narrow = len(across.bands) * len(up.bands) > BLOCKS_A_SLANT * (len(xs) + len(ys))
    slants = (make_band(xs, 0, len(xs), strip), make_band(ys, 0, len(ys), strip)) if is_narrow else None
    is_mirrored = xs == ys and {(j, i, kind) for i, j, kind, _ in seeds} == {(i, j, kind) for i, j, kind, _ in seeds}
    return CutTable(across, up, tuple(seeds), is_limited, sizes, job.reach, leaves, slants, is_mirrored)


def points_up_to(sizes: Sequence[int], extent: int, extra: set[int]) -> list[int] | None:
    """0, every sum of the sizes up to `extent`, and the extra points, in order; None where there are too many."""
    found = {0}
    for size in sorted(set(sizes), reverse=True):
        newest = found
        while newest:
            newest = {point + size for point in newest if point + size <= extent} - found
            found = found | newest
            if len(found) > MOST_POINTS:
                return None
    return sorted(found | {point for point in extra if point <= extent})


def work_for(xs: Sequence[int], ys: Sequence[int]) -> int:
    """About how long a table of these positions takes to solve, in microseconds (counted, not measured)."""
    cuts_x, cuts_y = (
        int((np.searchsorted(points, np.array(points) // 2, side="right") - 1).sum()) for points in (xs, ys)
    )
    return (cuts_x * len(ys) + cuts_y * len(xs)) // NUMBERS_A_MICROSECOND


def seed_places(points: Sequence[int], size: int, strip: int) -> list[int]:
    """Where a piece enters the table: at its own size, and if that is too narrow to hold, where enough is left beside it."""
    places = [points.index(size)]
    if size < strip:
        beside = next((place for place, point in enumerate(points) if point >= size + strip), None)
        places += [] if beside is None else [beside]
    return places


def make_edge(points: Sequence[int], reach: int, strip: int) -> Edge:
    """One direction of a table, its bands and limits."""
    bands = []
    smallest = points[1] if len(points) > 1 else 1
    start = 1
    while start < len(points):
        stop = bisect_right(points, points[start] + smallest - 1)
        bands.append(make_band(points, start, stop, strip))
        start = stop
    hold = next((place for place, point in enumerate(points) if point >= strip), len(points)) if strip else 0
    band_of = [0] * len(points)
    for rank, band in enumerate(bands):
        band_of[band.start : band.stop] = [rank] * (band.stop - band.start)
    return Edge(tuple(points), tuple(bands), tuple(band_of), bisect_right(points, reach), hold)


def make_band(points: Sequence[int], start: int, stop: int, strip: int) -> Band:
    """The cuts of each point from `start` to `stop`: up to its middle, the rest taken down to the next point."""
    rows: list[list[tuple[int, int]]] = []
    for place in range(start, stop):
        whole = points[place]
        row = []
        for cut in range(1, place):
            rest = whole - points[cut]
            if points[cut] > rest:
                break
            if rest < strip:
                continue
            other = bisect_right(points, rest) - 1
            row.append((cut, other if points[other] >= strip or points[other] == rest else 0))
        rows.append(row)
    widest = max((len(row) for row in rows), default=0)
    cuts = np.zeros((len(rows), widest), dtype=np.intp)
    rests = np.zeros((len(rows), widest), dtype=np.intp)
    for rank, row in enumerate(rows):
        if row:
            cuts[rank, : len(row)], rests[rank, : len(row)] = zip(*row, strict=True)
    return Band(start, stop, cuts, rests, np.array([len(row) for row in rows], dtype=np.intp))


def solve_table(table: CutTable, values: Sequence[int]) -> Values:
    """The greatest value of every area (places across × places up), for what each kind is worth."""
    across, up = table.across, table.up
    seeded = np.zeros((len(across.points), len(up.points)), dtype=np.int64)
    for i, j, kind, _ in table.seeds:
        seeded[i, j] = max(seeded[i, j], values[kind])
    if table.slants:
        return solve_slanting(table, table.slants, seeded)
    best = np.zeros_like(seeded)
    for columns in across.bands:
        # `upright[y, x]` holds the areas of this band of columns, turned so that each row of it is one run of memory
        upright = np.zeros((len(up.points), columns.stop - columns.start), dtype=np.int64)
        candidates = seeded[columns.start : columns.stop].T.copy()
        if up.reach > 1 and columns.cuts.shape[1]:
            np.maximum(candidates[: up.reach], best_pairs(best[:, : up.reach], columns).T, out=candidates[: up.reach])
        cuttable = max(0, min(columns.stop, across.reach) - columns.start)
        for rows in up.bands:
            here = candidates[rows.start : rows.stop]
            if cuttable and rows.cuts.shape[1]:
                np.maximum(here[:, :cuttable], best_pairs(upright[:, :cuttable], rows), out=here[:, :cuttable])
            spread(here, table, (columns, rows), best, upright)
            upright[rows.start : rows.stop] = here
        best[columns.start : columns.stop] = upright.T
    return best


def solve_slanting(table: CutTable, slants: tuple[Band, Band], best: Values) -> Values:
    """The same along the slanting lines of places whose sum is the same, which do not depend on each other (`best` in place)."""
    across, up = table.across, table.up
    columns, rows = slants
    for total in range(2, len(across.points) + len(up.points) - 1):
        last = total // 2 if table.is_mirrored else total - 1
        i = np.arange(max(1, total - len(up.points) + 1), min(len(across.points) - 1, last) + 1)
        j = total - i
        uprights, levels = best[i - 1, j], best[i, j - 1]
        if table.is_limited:
            uprights[i <= across.hold], levels[j <= up.hold] = 0, 0
        if deepest := columns.depths[i].max():
            pairs = best[columns.cuts[i, :deepest], j[:, None]] + best[columns.rests[i, :deepest], j[:, None]]
            np.maximum(uprights, pairs.max(axis=1), out=uprights)
        if deepest := rows.depths[j].max():
            pairs = best[i[:, None], rows.cuts[j, :deepest]] + best[i[:, None], rows.rests[j, :deepest]]
            np.maximum(levels, pairs.max(axis=1), out=levels)
        if table.is_limited:  # a cut from below to above is as long as the area is high
            uprights[j >= up.reach], levels[i >= across.reach] = 0, 0
        best[i, j] = np.maximum(best[i, j], np.maximum(uprights, levels))
        if table.is_mirrored:
            best[j, i] = best[i, j]
    return best


def best_pairs(lines: Values, band: Band) -> Values:
    """For each point of a band, the best sum of two sides over its cuts, along every line."""
    points, cuts = band.cuts.shape
    step = max(1, MOST_AT_ONCE // max(1, cuts * lines.shape[1]))
    found = [
        (lines[band.cuts[start : start + step]] + lines[band.rests[start : start + step]]).max(axis=1)
        for start in range(0, points, step)
    ]
    return found[0] if len(found) == 1 else np.concatenate(found)


def spread(here: Values, table: CutTable, bands: tuple[Band, Band], best: Values, upright: Values) -> None:
    """A larger area is worth at least as much as a smaller one that it can be trimmed to (in place, within one block).

    `here` has a row a height and a column a width. Trimming the width needs a cut as long as the height, and a kept side that can be
    held; the other way round for the height.
    """
    columns, rows = bands
    across, up = table.across, table.up
    high = max(0, min(rows.stop, up.reach) - rows.start)
    wide = max(0, min(columns.stop, across.reach) - columns.start)
    if high and columns.start > max(1, across.hold):
        np.maximum(here[:high, 0], best[columns.start - 1, rows.start : rows.start + high], out=here[:high, 0])
    if wide and rows.start > max(1, up.hold):
        np.maximum(here[0, :wide], upright[rows.start - 1, :wide], out=here[0, :wide])
    for axis in (1, 0, 1):
        first = max(0, across.hold - columns.start) if axis else 0, max(0, up.hold - rows.start) if not axis else 0
        part = here[:high, first[0] :] if axis else here[first[1] :, :wide]
        if part.size:
            np.maximum.accumulate(part, axis=axis, out=part)


def place_of(edge: Edge, length: int) -> int:
    """The place of the largest point that is no longer than `length`."""
    return bisect_right(edge.points, length) - 1


def sheet_value(table: CutTable, best: Values, width: int, height: int) -> int:
    """What the most valuable cut tree on a sheet of this size is worth."""
    return int(best[place_of(table.across, width), place_of(table.up, height)])


def solving_work(table: CutTable) -> int:
    """About how long it takes to solve a table once, in microseconds of an ordinary machine (counted, not measured)."""
    across, up = table.across, table.up
    if table.slants:
        return (
            sum(band.cuts.size * len(edge.points) for band, edge in zip(table.slants, (up, across), strict=True))
            // NUMBERS_A_MICROSECOND
        )
    numbers = sum(band.cuts.size for band in across.bands) * len(up.points)
    numbers += sum(band.cuts.size for band in up.bands) * len(across.points)
    return numbers // 200 + 12 * len(across.bands) * len(up.bands)
