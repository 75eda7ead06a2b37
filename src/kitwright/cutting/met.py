"""The sheets met on the way of a search for a small batch, and the cheapest plan that can be made of them."""

from __future__ import annotations

from typing import Final

from kitwright.cutting.choose import ask_for_plan
from kitwright.cutting.job import Job, ranges_of
from kitwright.cutting.lying import Lying
from kitwright.cutting.question import Question
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import Watch

__all__ = ["Met", "choose_among"]

MOST_MET: Final = 3_000
"""So many of the last sheets are kept."""

NODES: Final = 30
"""How hard the whole-number programme is asked."""


class Met:
    """The last sheets met on the way, each with different pieces. It lives as long as one search."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.patterns: dict[tuple[int, tuple[int, ...]], Pattern] = {}

    def add(self, sheet: Lying) -> None:
        """Take up a sheet as it is cut now, if nothing like it is there and the trimmer can make its cuts."""
        counts = [0] * len(self.job.kinds)
        for _, leaf in sheet.pieces:
            counts[leaf.kind] += 1
        key = sheet.place, tuple(counts)
        if key not in self.patterns and (pattern := sheet.pattern(self.job)) is not None:
            self.keep(pattern)

    def keep(self, pattern: Pattern) -> None:
        """Take up a pattern that can be cut; the one that was met longest ago makes room for it."""
        self.patterns.setdefault((pattern.sheet, pattern.counts), pattern)
        if len(self.patterns) > MOST_MET:
            del self.patterns[next(iter(self.patterns))]


def choose_among(job: Job, met: Met, watch: Watch) -> Question:
    """Ask for the cheapest plan of sheets that were met."""
    return ask_for_plan(watch, ranges_of(job), list(met.patterns.values()), nodes=NODES)
