"""From the question to the plan: what can be cut at all, a first plan, a bound, and a better plan where there is one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from random import Random
from typing import Final

from kitwright.cutting.bound import area_bound
from kitwright.cutting.cases import Cases
from kitwright.cutting.check import check_question, find_unplaceable
from kitwright.cutting.dual_feasible import worths_by_sides
from kitwright.cutting.fewer import with_fewer_layouts
from kitwright.cutting.fill import fill_batch
from kitwright.cutting.generate import Budget, Pricing, make_pricings, price, whole_scale
from kitwright.cutting.job import Job, make_job, ranges_of
from kitwright.cutting.knapsack import TooFineError, solving_work
from kitwright.cutting.master import Master
from kitwright.cutting.plan import QUICK, CutPlan, Effort, ProgressCall, Reason, Unplaced, objective_of
from kitwright.cutting.sketch import Pattern, make_layouts
from kitwright.cutting.stock import PieceType, Stock, TrimmerLimits
from kitwright.cutting.two_in_one import put_two_in_one
from kitwright.cutting.watch import Watch, cost_of
from kitwright.cutting.whole import find_whole_plan
from kitwright.cutting.without import Met, choose_among, do_without

__all__ = ["lay_out"]

SMALL_BATCH: Final = 400
"""Up to so many pieces, sheets are also partly emptied and filled again one by one."""

ALIKE: Final = 2
"""A small batch with fewer pieces of a kind than this, on average, is of different pieces: mixtures of patterns tell little about it."""

FIRST_SHARE: Final = 96
"""One of so many steps comes before the bound is worked on, the others after it."""

SMALL_PATTERNS: Final = 600
SMALL_NODES: Final = 50
"""For a small batch the integer programme is not asked harder than this: it sees the demand only from afar."""

WORK_OF_A_ROUND: Final = 20_000
"""Microseconds of counted work that one round of pricing may take; dearer tables get fewer rounds."""


def lay_out(
    demand: Sequence[PieceType],
    stocks: Sequence[Stock],
    *,
    trimmer: TrimmerLimits | None = None,
    effort: Effort = QUICK,
    seed: int = 0,
    progress: ProgressCall | None = None,
) -> CutPlan:
    """The cheapest plan found for the demand (or the fewest sheets, where no stock has a price), and a bound that no plan can beat.

    The same question with the same effort and seed gives the same plan on every machine. Pieces that cannot be cut are in
    `unplaced` with the reason. `progress` is called now and then; answering False stops the search and gives the best plan so far.

    Raises `Mistakes` for a question that cannot be asked: sizes or counts of zero, names given twice, some prices missing.
    """
    limits = trimmer or TrimmerLimits()
    check_question(demand, stocks, trimmer)
    unplaceable = find_unplaceable(demand, stocks, limits)
    missing = {entry.piece for entry in unplaceable}
    job = make_job([piece for piece in demand if piece.name not in missing], stocks, limits)
    watch = Watch(job, area_bound(job), progress)
    if not watch.goes_on("first plan"):
        stopped = tuple(
            Unplaced(piece.name, piece.count, Reason.STOPPED) for piece in demand if piece.name not in missing
        )
        return CutPlan((), unplaceable + stopped, objective_of(stocks), 0, watch.bound, job.unit)
    first, left = fill_batch(job)
    if not any(left):
        watch.tell_plan(first)
    if job.kinds:
        improve(job, first, watch, effort, Random(seed))
    used = first if watch.best is None else with_fewer_layouts(job, watch.best, watch.others, watch, nodes=effort.nodes)
    return CutPlan(
        layouts=make_layouts(job, used),
        unplaced=unplaceable + (shortages(job, left) if watch.best is None else ()),
        objective=objective_of(stocks),
        value=cost_of(job, used),
        bound=watch.bound,
        grid=job.unit,
        is_too_fine=watch.is_too_fine,
    )


def improve(job: Job, first: Sequence[tuple[Pattern, int]], watch: Watch, effort: Effort, random: Random) -> None:
    """Better plans and bounds, told to the watch, until the plan is proved, the effort is spent or the watch says stop."""
    try:
        pricings = make_pricings(job) if watch.goes_on("bound") else ()
    except TooFineError:
        pricings, watch.is_too_fine = (), True
    is_small = sum(job.demand) <= SMALL_BATCH
    is_varied = is_small and sum(job.demand) < ALIKE * len(job.kinds)
    met = Met(job)
    if is_small:
        if pricings:
            bound_by_sides(job, pricings, watch)
        do_without(job, watch, met, steps=-(-effort.steps // FIRST_SHARE), random=random)
        effort = replace(effort, nodes=min(effort.nodes, SMALL_NODES), patterns=min(effort.patterns, SMALL_PATTERNS))
    cases = open_cases(job, first, pricings, watch, effort, to_the_end=not is_varied)
    if is_varied:
        for pattern in cases.master.patterns if cases else ():
            met.keep(pattern)
        do_without(job, watch, met, steps=effort.steps, random=random)
        choose_among(job, met, watch)
    if cases:
        find_whole_plan(job, cases, watch, nodes=effort.nodes, patterns=effort.patterns, random=random)
    if is_small and not is_varied:
        do_without(job, watch, met, steps=effort.steps, random=random)
        choose_among(job, met, watch)
    if is_small:
        put_two_in_one(job, watch)


def bound_by_sides(job: Job, pricings: Sequence[Pricing], watch: Watch) -> None:
    """The bound that follows from what pieces are worth by their sides alone, told to the watch."""
    nothing = [0] * len(job.sheets)
    for worth in worths_by_sides(job, whole_scale(job)):
        if watch.goes_on("bound"):
            watch.tell_bound(price(job, pricings, worth, nothing, ranges_of(job)).bound)


def open_cases(
    job: Job,
    first: Sequence[tuple[Pattern, int]],
    pricings: Sequence[Pricing],
    watch: Watch,
    effort: Effort,
    *,
    to_the_end: bool,
) -> Cases | None:
    """The fractional programme, its bound told to the watch; None where its tables would take too long."""
    work = sum(solving_work(pricing.table) for pricing in pricings)
    rounds = min(effort.rounds, effort.rounds * WORK_OF_A_ROUND // max(1, work))
    if not pricings or not rounds or not watch.goes_on("bound"):
        return None
    master = Master(job)
    for pattern, _ in (*first, *(watch.best or ())):
        master.add(pattern)
    cases = Cases(job, pricings, master, Budget(rounds))
    cases.start(watch, to_the_end=to_the_end)
    return cases


def shortages(job: Job, left: Sequence[int]) -> tuple[Unplaced, ...]:
    """What is left of the demand, by name; of pieces that are alike, the last ones named are short."""
    found = []
    for kind, count in zip(job.kinds, left, strict=True):
        rest = count
        for piece in reversed(kind.pieces):
            short = min(rest, piece.count)
            rest -= short
            if short:
                found.append(Unplaced(piece.name, short, Reason.USED_UP))
    return tuple(found)
