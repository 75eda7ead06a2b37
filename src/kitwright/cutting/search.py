"""From the question to the plan: what can be cut at all, a first plan, a bound, and a better plan where there is one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from random import Random
from typing import Final

from kitwright.cutting.bound import area_bound
from kitwright.cutting.cases import open_cases
from kitwright.cutting.check import check_question, find_unplaceable
from kitwright.cutting.fewer import with_fewer_layouts
from kitwright.cutting.fill import fill_batch
from kitwright.cutting.generate import make_pricings
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.plan import QUICK, CutPlan, Effort, ProgressCall, Reason, Unplaced, objective_of
from kitwright.cutting.sketch import Pattern, make_layouts
from kitwright.cutting.small_batch import SmallBatch
from kitwright.cutting.stock import PieceType, Stock, TrimmerLimits
from kitwright.cutting.watch import Watch, cost_of
from kitwright.cutting.whole import find_whole_plan

__all__ = ["lay_out", "search_plan"]

SHARE_FOR_LAYOUTS: Final = 4
"""One part in so many of the work is kept for the search for fewer different layouts."""

SMALL_BATCH: Final = 400
"""Up to so many pieces, sheets are also partly emptied and filled again one by one."""


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
    return search_plan(demand, stocks, trimmer=trimmer, effort=effort, seed=seed, progress=progress)[0]


def search_plan(
    demand: Sequence[PieceType],
    stocks: Sequence[Stock],
    *,
    trimmer: TrimmerLimits | None,
    effort: Effort,
    seed: int = 0,
    progress: ProgressCall | None,
) -> tuple[CutPlan, int]:
    """The same, and how much work it was (microseconds of an ordinary machine, counted and not measured)."""
    limits = trimmer or TrimmerLimits()
    check_question(demand, stocks, trimmer)
    unplaceable = find_unplaceable(demand, stocks, limits)
    missing = {entry.piece for entry in unplaceable}
    job = make_job([piece for piece in demand if piece.name not in missing], stocks, limits)
    work = effort.work_for(sum(job.demand))
    watch = Watch(job, area_bound(job), progress, work=work - work // SHARE_FOR_LAYOUTS)
    if not watch.hears_no_stop("first plan"):
        stopped = tuple(
            Unplaced(piece.name, piece.count, Reason.STOPPED) for piece in demand if piece.name not in missing
        )
        return CutPlan((), unplaceable + stopped, objective_of(stocks), 0, watch.bound), 0
    first, left = fill_batch(job, watch.ear("filling sheets"))
    if not any(left):
        watch.tell_plan(first)
    if job.kinds:
        improve(job, first, watch, effort, Random(seed))
    watch.work = max(0, watch.work) + work // SHARE_FOR_LAYOUTS
    used = first if watch.best is None else with_fewer_layouts(job, watch.best, watch.others, watch, nodes=effort.nodes)
    plan = CutPlan(
        layouts=make_layouts(job, used),
        unplaced=unplaceable
        + (shortages(job, left, stocks, first, is_stopped=watch.is_stopped) if watch.best is None else ()),
        objective=objective_of(stocks),
        value=cost_of(job, used),
        bound=watch.bound,
        step=watch.step,
    )
    return plan, work - watch.work


def improve(job: Job, first: Sequence[tuple[Pattern, int]], watch: Watch, effort: Effort, random: Random) -> None:
    """Better plans and bounds, told to the watch, until the plan is proved, the effort is spent or the watch says stop."""
    pricings = make_pricings(job) if watch.goes_on("bound") else ()
    watch.step = next((pricing.step for pricing in pricings), None)
    if sum(job.demand) <= SMALL_BATCH:
        SmallBatch(job, watch, pricings, random).improve(first, effort)
    elif cases := open_cases(job, [pattern for pattern, _ in first], pricings, watch, effort, to_the_end=True):
        find_whole_plan(job, cases, watch, nodes=effort.nodes, patterns=effort.patterns, random=random)


def shortages(
    job: Job, left: Sequence[int], stocks: Sequence[Stock], used: Sequence[tuple[Pattern, int]], *, is_stopped: bool
) -> tuple[Unplaced, ...]:
    """What is left of the demand, by name, and why; of pieces that are alike, the last ones named are short."""
    cut = Counter({stock.name: 0 for stock in stocks})
    for pattern, times in used:
        cut[job.sheets[pattern.sheet].stock.name] += times
    there = [stock for stock in stocks if stock.count is None or cut[stock.name] < stock.count]
    found = []
    for kind, count in zip(job.kinds, left, strict=True):
        rest = count
        for piece in reversed(kind.pieces):
            short = min(rest, piece.count)
            rest -= short
            if short and is_stopped:
                found.append(Unplaced(piece.name, short, Reason.STOPPED))
            elif short:
                beyond = next((stock for stock in there if piece.may_come_from(stock) and has_room(stock, piece)), None)
                reason = Reason.USED_UP if beyond is None else Reason.OUT_OF_REACH
                found.append(Unplaced(piece.name, short, reason, "" if beyond is None else beyond.name))
    return tuple(found)


def has_room(stock: Stock, piece: PieceType) -> bool:
    """Whether a piece would lie on a sheet."""
    return any(
        width <= stock.usable_width and height <= stock.usable_height for width, height in map(piece.size, piece.turns)
    )
