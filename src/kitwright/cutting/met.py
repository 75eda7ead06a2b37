"""The sheets met on the way of a search for a small batch, each with different pieces."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from kitwright.cutting.area import Area, can_be_cut, sketch_of
from kitwright.cutting.bound import price_step
from kitwright.cutting.job import Job
from kitwright.cutting.losses import Losses
from kitwright.cutting.sketch import Pattern

__all__ = ["Met"]

MOST_MET: Final = 20_000
"""So many of the last sheets are kept."""

MOST_OFFERED: Final = 3_000
"""A plan is chosen among so many: those that lose least, or the last ones where nobody knows what they lose."""

SHARE: Final = 0.25
"""A sheet loses little if it loses no more than this share of what all sheets of a cheaper plan may lose together."""


class Met:
    """The last sheets met on the way. It lives as long as one search."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.patterns: dict[tuple[int, tuple[int, ...]], Pattern] = {}
        self.losses: Losses | None = None
        self.slack = 0

    def weigh(self, losses: Losses) -> None:
        """From now on it is known what sheets lose."""
        self.losses = losses

    def aim_below(self, value: int) -> None:
        """From now on a plan cheaper than that is looked for."""
        if self.losses is not None:
            self.slack = self.losses.slack(value - price_step(self.job))

    def loses_little(self, place: int, kinds: Sequence[int]) -> bool:
        """Whether a sheet with these pieces is likely to be in a cheaper plan, as far as anybody knows."""
        return self.losses is not None and self.losses.of_these(place, kinds) <= SHARE * self.slack

    def add(self, place: int, area: Area, kinds: Sequence[int]) -> None:
        """Take up a sheet as it is cut now, with the pieces on it, if nothing like it is there and the trimmer can make its cuts."""
        counts = [0] * len(self.job.kinds)
        for kind in kinds:
            counts[kind] += 1
        key = place, tuple(counts)
        if key in self.patterns:
            return
        sketch = sketch_of(area)
        if sketch is not None and can_be_cut(self.job, sketch, area.width, area.height):
            self.keep(Pattern(*key, sketch))

    def keep(self, pattern: Pattern) -> None:
        """Take up a pattern that can be cut; the one that was met longest ago makes room for it."""
        self.patterns.setdefault((pattern.sheet, pattern.counts), pattern)
        if len(self.patterns) > MOST_MET:
            del self.patterns[next(iter(self.patterns))]

    def likely(self) -> list[Pattern]:
        """The sheets among which a cheaper plan is best looked for."""
        if self.losses is None:
            return list(self.patterns.values())[-MOST_OFFERED:]
        weighed = [(self.losses.of(place, counts), place, counts) for place, counts in self.patterns]
        fitting = sorted(entry for entry in weighed if entry[0] <= self.slack)
        return [self.patterns[place, counts] for _, place, counts in fitting[:MOST_OFFERED]]
