"""An integer programme that is solved while the search goes on: the two share the work of two cores."""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor, wait
from typing import Final

from kitwright.cutting.choose import choose_whole
from kitwright.cutting.job import Job, Ranges
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.solver import Halt
from kitwright.cutting.watch import Watch

__all__ = ["Question"]

BETWEEN_LOOKS: Final = 0.02
"""Seconds between two looks whether a stop is asked for."""


class Question:
    """An integer programme on its way beside the search, which may look for more patterns meanwhile.

    What it finds is taken up at a set place of the search and not when it is found, so that the same effort gives the same plan.
    """

    def __init__(
        self, ranges: Ranges, patterns: Sequence[Pattern], watch: Watch, *, nodes: int, is_near: bool = False
    ) -> None:
        """Ask for a plan cheaper than the best so far within ranges; `is_near`: set out from that one, where it is within them."""
        job, best = watch.job, watch.best or ()
        self.halt = Halt()
        thread = ThreadPoolExecutor(1)
        self.answer = thread.submit(
            choose_whole,
            job,
            patterns,
            job.demand,
            ranges,
            self.halt,
            below=watch.value,
            enough=watch.bound.value,
            nodes=nodes,
            start=best if is_near and is_within(job, best, ranges) else (),
        )
        thread.shutdown(wait=False)

    def take(self, watch: Watch) -> bool:
        """Wait for the answer and tell the watch; whether it made a better plan. A stop is heard while waiting."""
        while not wait((self.answer,), timeout=BETWEEN_LOOKS).done:
            if not watch.hears_no_stop("whole sheets"):
                self.drop()
                return False
        found = self.answer.result()
        return found is not None and watch.tell_plan(found)

    def drop(self) -> None:
        """Let it come to an end soon; nobody waits for the answer."""
        self.halt.say()


def is_within(job: Job, used: Sequence[tuple[Pattern, int]], ranges: Ranges) -> bool:
    """Whether a plan keeps to these numbers of sheets."""
    counts = [0] * len(job.sheets)
    for pattern, times in used:
        counts[pattern.sheet] += times
    return all(
        low <= count and (high is None or count <= high) for count, (low, high) in zip(counts, ranges, strict=True)
    )
