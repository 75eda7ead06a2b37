"""The programmes over patterns in whole numbers, solved by HiGHS: the cheapest choice, and the choice of fewest patterns."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, Final

from kitwright.cutting.job import Job, Ranges
from kitwright.cutting.question import Answer, Question
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.solver import Halt, quiet_solver, run, set_whole
from kitwright.cutting.watch import Watch, cost_of

__all__ = ["ask_for_plan", "choose_few", "choose_whole"]

FEW_NODES: Final = 50
HARDER: Final = 0.3
"""With more nodes than that, the solver spends this share of its work on looking near its answers (by itself a twentieth), and no time on
making the programme smaller, which gains little where every pattern is worth about as much as any other."""


def choose_whole(
    job: Job,
    patterns: Sequence[Pattern],
    demand: Sequence[int],
    ranges: Ranges,
    halt: Halt,
    *,
    below: int | None,
    enough: int,
    nodes: int,
    start: Sequence[tuple[Pattern, int]] = (),
) -> Answer:
    """How often to cut each pattern, in whole numbers, so that the demand is met as cheaply as `nodes` of search can find.

    Only answers cheaper than `below` count (None: any); an answer of `enough` cannot be bettered and ends the search, so does a halt.
    `start` is a complete answer within the ranges, that costs no more than `below`, to set out from; its patterns may be chosen too.
    """
    solver = quiet_solver()
    infinity = solver.inf
    wanted = [kind for kind, count in enumerate(demand) if count > 0]
    for kind in wanted:
        solver.addRow(float(demand[kind]), infinity, 0, [], [])
    rows_of_kind = {kind: row for row, kind in enumerate(wanted)}
    for low, high in ranges:
        solver.addRow(float(low) if low else -infinity, infinity if high is None else float(high), 0, [], [])
    step = math.gcd(*(sheet.price for sheet in job.sheets)) or 1
    offered = {(pattern.sheet, pattern.counts): pattern for pattern in (*patterns, *(pattern for pattern, _ in start))}
    usable = [pattern for pattern in offered.values() if any(pattern.counts[kind] for kind in wanted)]
    for pattern in usable:
        entries = [(rows_of_kind[kind], float(pattern.counts[kind])) for kind in wanted if pattern.counts[kind]]
        entries.append((len(wanted) + pattern.sheet, 1.0))
        most = max(-(-demand[kind] // pattern.counts[kind]) for kind in wanted if pattern.counts[kind])
        most = max(most, ranges[pattern.sheet][0])
        rows, values = [row for row, _ in entries], [value for _, value in entries]
        solver.addCol(job.sheets[pattern.sheet].price / step, 0.0, float(most), len(entries), rows, values)
    set_whole(solver, len(usable))
    if start:
        set_out_from(solver, usable, start)
    if start or nodes > FEW_NODES:
        solver.setOptionValue("presolve", "off")
        solver.setOptionValue("mip_heuristic_effort", HARDER)
    if below is not None:
        solver.setOptionValue("objective_bound", below / step + (0.5 if start else -0.5))
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_abs_gap", 0.99)
    solver.setOptionValue("mip_rel_gap", 0.0)
    work = run(solver, halt, enough=enough / step + 0.5)
    values = list(solver.getSolution().col_value)
    if solver.getInfo().primal_solution_status != 2 or len(values) != len(usable):
        return Answer(None, work)
    chosen = [(pattern, round(times)) for pattern, times in zip(usable, values, strict=True) if round(times)]
    return Answer(chosen if below is None or cost_of(job, chosen) < below else None, work)


def ask_for_plan(
    watch: Watch, ranges: Ranges, patterns: Sequence[Pattern], *, nodes: int, is_near: bool = False
) -> Question:
    """Ask for a plan of the whole demand that is cheaper than the best so far; `is_near`: set out from that, where the ranges allow it."""
    job, best, below, enough = watch.job, watch.best or (), watch.value, watch.bound.value
    start = best if is_near and is_within(job, best, ranges) else ()

    def ask(halt: Halt) -> Answer:
        return choose_whole(
            job, patterns, job.demand, ranges, halt, below=below, enough=enough, nodes=nodes, start=start
        )

    return Question(ask)


def is_within(job: Job, used: Sequence[tuple[Pattern, int]], ranges: Ranges) -> bool:
    """Whether a plan keeps to these numbers of sheets."""
    counts = [0] * len(job.sheets)
    for pattern, times in used:
        counts[pattern.sheet] += times
    return all(
        low <= count and (high is None or count <= high) for count, (low, high) in zip(counts, ranges, strict=True)
    )


def set_out_from(solver: Any, patterns: Sequence[Pattern], start: Sequence[tuple[Pattern, int]]) -> None:
    """Begin with an answer that is known. Without presolve only: HiGHS 1.16 forgets what that took out of the cost of such an answer."""
    import highspy  # noqa: PLC0415  # heavy: loaded only when a search is made

    places = {(pattern.sheet, pattern.counts): place for place, pattern in enumerate(patterns)}
    times = [0.0] * len(patterns)
    for pattern, count in start:
        times[places[pattern.sheet, pattern.counts]] += count
    solution = highspy.HighsSolution()
    solution.col_value = times
    solver.setSolution(solution)


def choose_few(
    job: Job,
    patterns: Sequence[Pattern],
    demand: Sequence[int],
    halt: Halt,
    *,
    cost: int,
    fewer_than: int,
    nodes: int,
) -> Answer:
    """Fewer than so many different patterns that meet the demand for at most `cost`, as far as `nodes` of search find them."""
    solver = quiet_solver()
    infinity = solver.inf
    for count in demand:
        solver.addRow(float(count), infinity, 0, [], [])
    counted = [place for place, sheet in enumerate(job.sheets) if sheet.count is not None]
    for place in counted:
        solver.addRow(-infinity, float(job.sheets[place].count or 0), 0, [], [])
    most = [most_times(job, pattern, demand) for pattern in patterns]
    for pattern, times in zip(patterns, most, strict=True):
        entries = [(kind, float(count)) for kind, count in enumerate(pattern.counts) if count]
        if pattern.sheet in counted:
            entries.append((len(demand) + counted.index(pattern.sheet), 1.0))
        solver.addCol(0.0, 0.0, float(times), len(entries), [row for row, _ in entries], [each for _, each in entries])
    size = len(patterns)
    for _ in patterns:
        solver.addCol(1.0, 0.0, 1.0, 0, [], [])
    for place, times in enumerate(most):
        solver.addRow(-infinity, 0.0, 2, [place, size + place], [1.0, -float(times)])
    prices = [float(job.sheets[pattern.sheet].price) for pattern in patterns]
    solver.addRow(-infinity, cost + 0.5, size, list(range(size)), prices)
    solver.addRow(-infinity, fewer_than - 0.5, size, list(range(size, 2 * size)), [1.0] * size)
    set_whole(solver, 2 * size)
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_abs_gap", 0.99)
    solver.setOptionValue("mip_rel_gap", 0.0)
    spent = run(solver, halt)
    values = list(solver.getSolution().col_value)
    if solver.getInfo().primal_solution_status != 2 or len(values) != 2 * size:
        return Answer(None, spent)
    return Answer([(one, round(times)) for one, times in zip(patterns, values, strict=False) if round(times)], spent)


def most_times(job: Job, pattern: Pattern, demand: Sequence[int]) -> int:
    """After how many sheets of a pattern nothing of it is wanted any more, or the stock is out."""
    needed = max((-(-demand[kind] // count) for kind, count in enumerate(pattern.counts) if count), default=0)
    there = job.sheets[pattern.sheet].count
    return needed if there is None else min(needed, there)
