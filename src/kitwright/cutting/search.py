"""From the question to the plan: what can be cut at all, a first plan, a bound, and a better plan where there is one."""

from __future__ import annotations

from collections.abc import Sequence

from kitwright.cutting.bound import area_bound
from kitwright.cutting.check import check_question, find_unplaceable
from kitwright.cutting.fill import fill_batch
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.plan import QUICK, CutPlan, Effort, Progress, ProgressCall, Reason, Unplaced, objective_of
from kitwright.cutting.sketch import Pattern, make_layouts
from kitwright.cutting.stock import PieceType, Stock, TrimmerLimits

__all__ = ["lay_out"]


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
    bound = area_bound(job)
    if progress is not None and not progress(Progress("first plan", None, bound.value)):
        stopped = tuple(
            Unplaced(piece.name, piece.count, Reason.STOPPED) for piece in demand if piece.name not in missing
        )
        return CutPlan((), unplaceable + stopped, objective_of(stocks), 0, bound, job.unit)
    used, left = fill_batch(job)
    short = shortages(job, left)
    return CutPlan(
        layouts=make_layouts(job, used),
        unplaced=unplaceable + short,
        objective=objective_of(stocks),
        value=cost_of(job, used),
        bound=bound,
        grid=job.unit,
    )


def cost_of(job: Job, used: Sequence[tuple[Pattern, int]]) -> int:
    """What the patterns cost in all."""
    return sum(job.sheets[pattern.sheet].price * times for pattern, times in used)


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
