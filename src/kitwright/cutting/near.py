"""Random cut trees that are worth nearly as much as the best one: only such patterns can be in a plan that reaches a target.

If a plan costs at most `slack` more than the fractional programme, none of its patterns can be dearer than worth by more than that. A
random walk down the table takes, at each area, any step that does not lose more than what is left of the slack.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

import numpy as np

from kitwright.cutting.knapsack import CutTable, Edge, Values, place_of
from kitwright.cutting.sketch import Leaf, Sketch, Split, freed

__all__ = ["NearWalk"]

LOSE_ON_PURPOSE = 6
"""One step in so many goes to a smaller area although it could be cut."""

LOSE_NOTHING = 0.6
"""So often a step that loses nothing is taken where there is one."""


@dataclass(slots=True, eq=False)
class NearWalk:
    """Walks on one table for one set of worths; `left` is what may still be lost, in the units of the table."""

    table: CutTable
    best: Values
    worth: Sequence[int]
    random: Random
    left: int = 0

    def sketch(self, size: tuple[int, int], slack: int) -> Sketch:
        """A random cut tree on a sheet of this size that is worth at most `slack` less than the best."""
        self.left = slack
        table = self.table
        return self.follow(place_of(table.across, size[0]), place_of(table.up, size[1]), size)

    def follow(self, i: int, j: int, size: tuple[int, int]) -> Sketch:
        """A random cut tree for an area of this size, at these places of the table, paid for out of what is left of the slack."""
        table, best = self.table, self.best
        value = int(best[i, j])
        if not (i and j):
            return None
        if table.is_limited and (trimmed := self.trimmed(i, j, size)):
            return trimmed
        may_cross, may_part = size[1] <= table.longest_cut, size[0] <= table.longest_cut
        steps = self.cut_steps(table.across, best[:, j], i) if may_cross else []
        uprights = len(steps)
        steps += self.cut_steps(table.up, best[i], j) if may_part else []
        cuts = len(steps)
        for leaf in table.leaves.get((i, j), ()):
            loss = value - self.worth[leaf.kind]
            if loss <= self.left:
                steps.append((loss, leaf.kind, leaf.pose))
        if not steps or not self.random.randrange(LOSE_ON_PURPOSE):
            columns = self.smaller(table.across, best[:i, j], value) if may_cross else []
            rows = self.smaller(table.up, best[i, :j], value) if may_part else []
            if len(columns) + len(rows):
                pick = self.random.randrange(len(columns) + len(rows))
                a, b = (columns[pick], j) if pick < len(columns) else (i, rows[pick - len(columns)])
                self.left -= value - int(best[a, b])
                return self.follow(a, b, size)
        if not steps:
            return None
        ranks = [rank for rank, step in enumerate(steps) if not step[0]] if self.random.random() < LOSE_NOTHING else []
        rank = self.random.choice(ranks or range(len(steps)))
        loss, first, second = steps[rank]
        self.left -= loss
        if rank >= cuts:
            return freed(Leaf(first, second), table.sizes[first][second], size, table.longest_cut)
        width, height = size
        if rank < uprights:
            at = table.across.points[first]
            return Split(True, at, self.follow(first, j, (at, height)), self.follow(second, j, (width - at, height)))
        at = table.up.points[first]
        return Split(False, at, self.follow(i, first, (width, at)), self.follow(i, second, (width, height - at)))

    def trimmed(self, i: int, j: int, size: tuple[int, int]) -> Sketch:
        """An area larger than its point is cut down to it at once: the cut that made it could be made, so can this one."""
        width, height = self.table.across.points[i], self.table.up.points[j]
        if width < size[0]:
            return Split(True, width, self.follow(i, j, (width, size[1])), None)
        if height < size[1]:
            return Split(False, height, self.follow(i, j, (size[0], height)), None)
        return None

    def smaller(self, edge: Edge, line: Values, value: int) -> Sequence[int]:
        """The places before this one that are worth little less and can be trimmed to."""
        first = max(1, edge.hold)
        hits: list[int] = (np.flatnonzero(line[first:] >= value - self.left) + first).tolist()
        return hits

    def cut_steps(self, edge: Edge, line: Values, place: int) -> list[tuple[int, int, int]]:
        """The cuts of one area that can be paid for: what each loses, and the places of its two sides."""
        band = edge.bands[edge.band_of[place]]
        cuts, rests = band.cuts[place - band.start], band.rests[place - band.start]
        loss = line[place] - line[cuts] - line[rests]
        fits = np.flatnonzero((loss <= self.left) & (cuts > 0))
        return list(zip(loss[fits].tolist(), cuts[fits].tolist(), rests[fits].tolist(), strict=True))
