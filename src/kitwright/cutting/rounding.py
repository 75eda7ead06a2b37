"""Whole plans from fractional ones: cut each pattern as often as the whole part says, look at what is left, and so on."""

from __future__ import annotations

import math
from collections.abc import Sequence
from random import Random
from typing import Final

from kitwright.cutting.cases import Case, Cases
from kitwright.cutting.choose import choose_whole
from kitwright.cutting.fill import RULES, fill_left, likings
from kitwright.cutting.generate import generate
from kitwright.cutting.job import Job, Ranges
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import Watch, cost_of

__all__ = ["dive", "round_down"]

FEW_SHEETS: Final = 12
"""When no more sheets than this are left to be chosen, they are chosen at once, in whole numbers."""

MOST_OFFERED: Final = 600
"""The last so many patterns are offered for them."""

ROUNDS_BETWEEN: Final = 6
"""Rounds of pricing for what is left, each time something was cut."""

LIKELY: Final = 0.5
"""A pattern that is wanted by at least this fraction of a sheet may be cut once more."""

Used = list[tuple[Pattern, int]]


def round_down(job: Job, cases: Cases, case: Case, watch: Watch, *, nodes: int) -> None:
    """The whole parts of the fractional answer, and the cheapest that is found for the rest; told to the watch."""
    times = [math.floor(each + 1e-6) for each in case.solved.prices.times]
    used = [(pattern, count) for pattern, count in zip(cases.master.patterns, times, strict=False) if count]
    rest, ranges = left_of(job.demand, case.ranges, used)
    finish(job, cases, used, (rest, ranges), watch, nodes=nodes)


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


def finish(job: Job, cases: Cases, used: Used, left: tuple[list[int], Ranges], watch: Watch, *, nodes: int) -> None:
    """Complete a plan for what is left, once by filling sheets, once by choosing among the patterns, and tell the watch."""
    rest, ranges = left
    filled, short = fill_left(job, rest, [high for _, high in ranges], likings(job, RULES))
    if not any(short):
        watch.tell_plan([*used, *filled])
    cost = cost_of(job, used)
    offered = cases.master.patterns[-MOST_OFFERED:]
    if any(rest) and watch.goes_on("rounding"):
        below = None if watch.value is None else watch.value - cost
        enough = watch.bound.value - cost
        chosen = choose_whole(
            job, offered, rest, ranges, watch.listen("rounding"), below=below, enough=enough, nodes=nodes
        )
        if chosen is not None:
            watch.tell_plan([*used, *chosen])


def dive(job: Job, cases: Cases, case: Case, watch: Watch, *, nodes: int, random: Random) -> None:
    """One plan for a case, cut step by step, with new patterns for what is left after each step; told to the watch if it is better."""
    master = cases.master
    used: Used = []
    rest, ranges = left_of(job.demand, case.ranges, used)
    master.set_ranges(ranges)
    prices = master.solve()
    while any(rest) and watch.goes_on("rounding"):
        if sum(prices.times) <= FEW_SHEETS:
            break
        step = next_step(list(zip(master.patterns, prices.times, strict=False)), random)
        if not step:
            break
        used += step
        rest, ranges = left_of(job.demand, case.ranges, used)
        master.set_demand(rest)
        master.set_ranges(ranges)
        start = cases.budget.rounds

        def goes_on(_: object, __: float, start: int = start) -> bool:
            return start - cases.budget.rounds < ROUNDS_BETWEEN and watch.goes_on("rounding")

        prices = generate(cases.pricings, master, ranges, cases.budget, goes_on).prices
    finish(job, cases, used, (rest, ranges), watch, nodes=nodes)
    master.set_demand(job.demand)


def next_step(mixture: Sequence[tuple[Pattern, float]], random: Random) -> Used:
    """What to cut next: the whole parts, and one of the likely patterns once more; without either, the likeliest."""
    whole = {rank: math.floor(times + 1e-6) for rank, (_, times) in enumerate(mixture) if times >= 1 - 1e-6}
    parts = [(times - math.floor(times + 1e-6), rank) for rank, (_, times) in enumerate(mixture)]
    likely = [rank for part, rank in parts if part >= LIKELY]
    if whole and not likely:
        return [(mixture[rank][0], count) for rank, count in whole.items()]
    extra = random.choice(likely) if likely else max(parts)[1]
    whole[extra] = whole.get(extra, 0) + 1
    return [(mixture[rank][0], count) for rank, count in whole.items()]
