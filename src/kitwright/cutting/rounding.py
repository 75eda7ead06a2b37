"""A first whole plan from the fractional one: each pattern as often as the whole part says, and the cheapest found for the rest."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from kitwright.cutting.cases import Case, Cases
from kitwright.cutting.choose import choose_whole
from kitwright.cutting.fill import RULES, fill_left, likings
from kitwright.cutting.job import Job, Ranges
from kitwright.cutting.question import Question
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import Watch, cost_of

__all__ = ["round_down"]

MOST_OFFERED: Final = 600
"""The last so many patterns are offered for the rest."""

MOST_NODES: Final = 8
"""The rest is small; its integer programme is not asked harder than this."""

Used = list[tuple[Pattern, int]]


def round_down(job: Job, cases: Cases, case: Case, watch: Watch, *, nodes: int) -> None:
    """The whole parts of the fractional answer, and the cheapest that is found for the rest, once by filling sheets, once by
    choosing among the patterns; told to the watch.
    """
    times = [math.floor(each + 1e-6) for each in case.solved.prices.times]
    used = [(pattern, count) for pattern, count in zip(cases.master.patterns, times, strict=False) if count]
    rest, ranges = left_of(job.demand, case.ranges, used)
    filled, short = fill_left(job, rest, [high for _, high in ranges], likings(job, RULES), watch.ear("rounding"))
    if not any(short):
        watch.tell_plan([*used, *filled])
    if not any(rest) or not watch.goes_on("rounding"):
        return
    cost = cost_of(job, used)
    below, enough = None if watch.value is None else watch.value - cost, watch.bound.value - cost
    offered = cases.master.patterns[-MOST_OFFERED:]
    question = Question(
        lambda halt: choose_whole(
            job, offered, rest, ranges, halt, below=below, enough=enough, nodes=min(nodes, MOST_NODES)
        )
    )
    chosen = question.take(watch, "rounding")
    if chosen is not None:
        watch.tell_plan([*used, *chosen])


def left_of(demand: Sequence[int], ranges: Ranges, used: Used) -> tuple[list[int], Ranges]:
    """What is still wanted, and how many sheets may still be used."""
    rest = list(demand)
    sheets = [0] * len(ranges)
    for pattern, count in used:
        sheets[pattern.sheet] += count
        rest = [max(0, want - count * each) for want, each in zip(rest, pattern.counts, strict=True)]
    left = tuple(
        (max(0, low - here), None if high is None else max(0, high - here))
        for (low, high), here in zip(ranges, sheets, strict=True)
    )
    return rest, left
