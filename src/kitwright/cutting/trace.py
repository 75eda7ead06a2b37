"""Cut trees behind the values of a table: the most valuable one of a sheet, and others that begin with another cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from kitwright.cutting.knapsack import CutTable, Edge, Values, place_of
from kitwright.cutting.sketch import Leaf, Sketch, Split, freed

__all__ = ["best_sketch", "sketches_from_best"]

MOST_CUTS: Final = 24
"""So many first cuts each way are looked at."""


def best_sketch(table: CutTable, best: Values, values: Sequence[int], size: tuple[int, int]) -> Sketch:
    """A cut tree on a sheet of this size that is worth what the table says."""
    return make_tracer(table, best, values).follow(size)


def sketches_from_best(
    table: CutTable, best: Values, values: Sequence[int], size: tuple[int, int]
) -> Iterator[tuple[int, Sketch]]:
    """Cut trees on a sheet of this size and what they are worth: the best one, then others by falling worth that begin with another cut.

    The two sides of that cut are each cut as well as can be, so different first cuts may give the same pieces.
    """
    tracer = make_tracer(table, best, values)
    i, j = place_of(table.across, size[0]), place_of(table.up, size[1])
    yield int(best[i, j]), tracer.follow(size)
    cuts = tracer.first_cuts(table.across, best[:, j], i, upright=True) if size[1] <= table.longest_cut else []
    cuts += tracer.first_cuts(table.up, best[i], j, upright=False) if size[0] <= table.longest_cut else []
    for value, upright, at in sorted(cuts, key=lambda cut: -cut[0]):
        low, high = ((at, size[1]), (size[0] - at, size[1])) if upright else ((size[0], at), (size[0], size[1] - at))
        yield value, Split(upright, at, tracer.follow(low), tracer.follow(high))


def make_tracer(table: CutTable, best: Values, values: Sequence[int]) -> Tracer:
    """A tracer for one set of worths."""
    seeds: dict[tuple[int, int], list[Leaf]] = {}
    for i, j, kind, pose in table.seeds:
        if values[kind] and values[kind] == best[i, j]:
            seeds.setdefault((i, j), []).append(Leaf(kind, pose))
    return Tracer(table, best, seeds)


@dataclass(slots=True, eq=False)
class Tracer:
    """Finds a cut tree behind the values of a table; `seeds` are the pieces that alone are worth what their area is."""

    table: CutTable
    best: Values
    seeds: dict[tuple[int, int], list[Leaf]]
    found: dict[tuple[int, int], Sketch] = field(default_factory=dict)
    """The trees of areas that were traced before."""

    def follow(self, size: tuple[int, int]) -> Sketch:
        """A cut tree for an area of this size."""
        if size not in self.found:
            self.found[size] = self.trace(size)
        return self.found[size]

    def trace(self, size: tuple[int, int]) -> Sketch:
        """The same, worked out."""
        across, up = self.table.across, self.table.up
        i, j = place_of(across, size[0]), place_of(up, size[1])
        value = self.best[i, j]
        if not value:
            return None
        i, j = self.smallest(i, j, size)
        width, height = across.points[i], up.points[j]
        if self.table.is_limited:
            if width < size[0] and size[1] <= self.table.longest_cut:
                return Split(True, width, self.follow((width, size[1])), None)
            if height < size[1] and size[0] <= self.table.longest_cut:
                return Split(False, height, self.follow((size[0], height)), None)
        if (i, j) in self.seeds:
            leaf = self.seeds[i, j][0]
            return freed(leaf, self.table.sizes[leaf.kind][leaf.pose], size, self.table.longest_cut)
        cut = self.cut_of(across, self.best[:, j], i) if size[1] <= self.table.longest_cut else 0
        if cut:
            at = across.points[cut]
            return Split(True, at, self.follow((at, size[1])), self.follow((size[0] - at, size[1])))
        at = up.points[self.cut_of(up, self.best[i], j)]
        return Split(False, at, self.follow((size[0], at)), self.follow((size[0], size[1] - at)))

    def smallest(self, i: int, j: int, size: tuple[int, int]) -> tuple[int, int]:
        """The places of the smallest area of the same value that this one can be trimmed to."""
        across, up, best = self.table.across, self.table.up, self.best
        value = best[i, j]
        for axis in (0, 1, 0):
            if axis == 0 and size[1] <= self.table.longest_cut:
                while i > max(1, across.hold) and best[i - 1, j] == value:
                    i -= 1
            if axis == 1 and size[0] <= self.table.longest_cut:
                while j > max(1, up.hold) and best[i, j - 1] == value:
                    j -= 1
        return i, j

    def cut_of(self, edge: Edge, line: Values, place: int) -> int:
        """The place of a cut whose two sides are together worth the whole, 0 if there is none."""
        band = edge.bands[edge.band_of[place]]
        row = place - band.start
        hits = np.flatnonzero(line[band.cuts[row]] + line[band.rests[row]] == line[place])
        return int(band.cuts[row, hits[0]]) if len(hits) and line[place] else 0

    def first_cuts(self, edge: Edge, line: Values, place: int, *, upright: bool) -> list[tuple[int, bool, int]]:
        """What the sheet is worth with each first cut in this direction (upright or not), at which length: the best ones."""
        if not place:
            return []
        band = edge.bands[edge.band_of[place]]
        row, depth = place - band.start, band.depths[place - band.start]
        cuts = band.cuts[row, :depth]
        worth = line[cuts] + line[band.rests[row, :depth]]
        ranks = np.argsort(-worth, kind="stable")[:MOST_CUTS]
        return [(int(worth[rank]), upright, edge.points[cuts[rank]]) for rank in ranks]
