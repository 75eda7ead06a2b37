"""Fewer different layouts for the same cost: a person has to follow each of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial
from typing import Final

from kitwright.cutting.choose import choose_few
from kitwright.cutting.fill import RULES, Filler, likings
from kitwright.cutting.job import Job
from kitwright.cutting.question import Question
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import Watch, cost_of

__all__ = ["with_fewer_layouts"]

WORK_OF_AN_ENTRY: Final = 2
NODES_OF_THE_ROOT: Final = 20
"""A node of the programme takes about so many microseconds for each row and column; the first one as much as so many."""

MOST_CANDIDATES: Final = 120
"""Besides the patterns in the plan, so many others are offered."""


def with_fewer_layouts(
    job: Job, used: Sequence[tuple[Pattern, int]], others: Sequence[Pattern], watch: Watch, *, nodes: int
) -> list[tuple[Pattern, int]]:
    """A plan that costs no more and uses fewer patterns, as far as `nodes` of search find one; pieces beyond the demand may come up."""
    plan = put_together(used)
    cost = cost_of(job, plan)
    offered = [*even_shares(job, plan, watch), *others]
    while len(plan) > 1 and watch.work > 0 and watch.hears_no_stop("fewer layouts"):
        patterns = [pattern for pattern, _ in plan]
        known = {(pattern.sheet, pattern.counts) for pattern in patterns}
        most = most_patterns(job, nodes, watch.work) - len(plan)
        if most < 0:
            return plan
        others_offered = [pattern for pattern in offered if (pattern.sheet, pattern.counts) not in known]
        patterns += others_offered[: min(most, MOST_CANDIDATES)]
        ask = partial(choose_few, job, patterns, job.demand, cost=cost, fewer_than=len(plan), nodes=nodes)
        answer = Question(ask).take(watch, "fewer layouts")
        if answer is None or len(answer) >= len(plan) or cost_of(job, answer) > cost:
            return plan
        plan = list(answer)
    return plan


def most_patterns(job: Job, nodes: int, work: int) -> int:
    """How many patterns the programme can choose among within this work: it has two columns for each, and a row for each and each kind."""
    entries = work // (WORK_OF_AN_ENTRY * (NODES_OF_THE_ROOT + nodes))
    kinds = len(job.kinds)
    return max(0, math.isqrt(kinds * kinds + 2 * entries) - kinds) // 2


def even_shares(job: Job, plan: Sequence[tuple[Pattern, int]], watch: Watch) -> list[Pattern]:
    """Sheets that hold an even share of everything that is wanted, for as many sheets as the plan uses of a stock, or some fewer."""
    if len(plan) < 2:
        return []
    totals = {sum(times for _, times in plan), *(times for _, times in plan)}
    filler = Filler(job, likings(job, RULES))
    found = {}
    for total in sorted(totals):
        if not watch.hears_no_stop("fewer layouts"):
            break
        wanted = [-(-count // total) for count in job.demand]
        pattern = filler.best_pattern(wanted, [sheet.count for sheet in job.sheets], watch.ear("fewer layouts"))
        if pattern is not None:
            found[pattern.sheet, pattern.counts] = pattern
    return list(found.values())


def put_together(used: Sequence[tuple[Pattern, int]]) -> list[tuple[Pattern, int]]:
    """Patterns that give the same from the same sheet counted as one."""
    first: dict[tuple[int, tuple[int, ...]], Pattern] = {}
    times: dict[tuple[int, tuple[int, ...]], int] = {}
    for pattern, count in used:
        key = (pattern.sheet, pattern.counts)
        first.setdefault(key, pattern)
        times[key] = times.get(key, 0) + count
    return [(first[key], count) for key, count in times.items()]
