"""The two programmes over patterns, solved by HiGHS: how often to cut each (in fractions), and the same in whole numbers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from kitwright.cutting.job import Job
from kitwright.cutting.sketch import Pattern

__all__ = ["Master", "Prices", "choose_few", "choose_whole"]


@dataclass(frozen=True, slots=True)
class Prices:
    """The answer of the fractional programme: its value, what each kind is worth and each sheet's rent, how often each pattern is cut."""

    value: float
    worth: tuple[float, ...]
    rent: tuple[float, ...]
    times: tuple[float, ...]


def quiet_solver() -> Any:
    """A HiGHS solver that says nothing, uses one thread and one seed, so that its answers can be repeated."""
    import highspy  # noqa: PLC0415  # heavy: loaded only when a search is made

    class Silent(highspy.Highs):
        """HiGHS greets on standard output when its callbacks are switched on; they are not needed here."""

        def enableCallbacks(self) -> None:  # noqa: N802  # the library's name
            """Leave them off."""

    solver: Any = Silent()  # type: ignore[no-untyped-call]  # its types are not declared
    for option, value in (("output_flag", False), ("log_to_console", False), ("threads", 1), ("random_seed", 0)):
        solver.setOptionValue(option, value)
    return solver


class Master:
    """The fractional programme, to which patterns are added one by one. Rows: demand of each kind, then count of each counted sheet."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.patterns: list[Pattern] = []
        self.known: set[tuple[int, tuple[int, ...]]] = set()
        self.solver = quiet_solver()
        infinity = self.solver.inf
        for kind in job.kinds:
            self.solver.addRow(float(kind.count), infinity, 0, [], [])
        self.counted = [place for place, sheet in enumerate(job.sheets) if sheet.count is not None]
        for place in self.counted:
            self.solver.addRow(-infinity, float(job.sheets[place].count or 0), 0, [], [])
        # Leaving a piece out is possible, but dearer than anything else.
        dear = 1000.0 * (1 + max(sheet.price for sheet in job.sheets))
        for row in range(len(job.kinds)):
            self.solver.addCol(dear, 0.0, infinity, 1, [row], [1.0])

    def add(self, pattern: Pattern) -> bool:
        """Take up a pattern; False if one that gives the same from the same sheet is there already."""
        key = (pattern.sheet, pattern.counts)
        if key in self.known:
            return False
        self.known.add(key)
        self.patterns.append(pattern)
        rows = [kind for kind, count in enumerate(pattern.counts) if count]
        values = [float(pattern.counts[kind]) for kind in rows]
        if pattern.sheet in self.counted:
            rows.append(len(self.job.kinds) + self.counted.index(pattern.sheet))
            values.append(1.0)
        price = float(self.job.sheets[pattern.sheet].price)
        self.solver.addCol(price, 0.0, self.solver.inf, len(rows), rows, values)
        return True

    def solve(self) -> Prices:
        """The best mixture of the patterns so far."""
        self.solver.run()
        solution = self.solver.getSolution()
        kinds = len(self.job.kinds)
        duals = list(solution.row_dual)
        rent = [0.0] * len(self.job.sheets)
        for rank, place in enumerate(self.counted):
            rent[place] = max(0.0, -duals[kinds + rank])
        worth = tuple(max(0.0, dual) for dual in duals[:kinds])
        value = self.solver.getInfo().objective_function_value
        return Prices(value, worth, tuple(rent), tuple(solution.col_value)[kinds:])


def choose_whole(
    job: Job,
    patterns: Sequence[Pattern],
    demand: Sequence[int],
    stock_left: Sequence[int | None],
    *,
    below: int | None,
    enough: int,
    nodes: int,
) -> list[tuple[Pattern, int]] | None:
    """How often to cut each pattern, in whole numbers, so that the demand is met as cheaply as `nodes` of search can find.

    Only answers cheaper than `below` count (None: any); an answer of `enough` cannot be bettered and ends the search. None: not found.
    """
    solver = quiet_solver()
    infinity = solver.inf
    wanted = [kind for kind, count in enumerate(demand) if count > 0]
    for kind in wanted:
        solver.addRow(float(demand[kind]), infinity, 0, [], [])
    rows_of_kind = {kind: row for row, kind in enumerate(wanted)}
    counted = [place for place, count in enumerate(stock_left) if count is not None]
    for place in counted:
        solver.addRow(-infinity, float(stock_left[place] or 0), 0, [], [])
    step = math.gcd(*(sheet.price for sheet in job.sheets)) or 1
    usable = [pattern for pattern in patterns if any(pattern.counts[kind] for kind in wanted)]
    prices = [float(job.sheets[pattern.sheet].price) for pattern in usable]
    for pattern, price in zip(usable, prices, strict=True):
        entries = [(rows_of_kind[kind], float(pattern.counts[kind])) for kind in wanted if pattern.counts[kind]]
        if pattern.sheet in counted:
            entries.append((len(wanted) + counted.index(pattern.sheet), 1.0))
        most = max(-(-demand[kind] // pattern.counts[kind]) for kind in wanted if pattern.counts[kind])
        solver.addCol(
            price, 0.0, float(most), len(entries), [row for row, _ in entries], [value for _, value in entries]
        )
    set_whole(solver, len(usable))
    if below is not None:
        solver.addRow(-infinity, below - 0.5 * step, len(usable), list(range(len(usable))), prices)
    solver.setOptionValue("objective_target", enough + 0.5 * step)
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_abs_gap", 0.99 * step)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.run()
    values = list(solver.getSolution().col_value)
    if solver.getInfo().primal_solution_status != 2 or len(values) != len(usable):
        return None
    return [(pattern, round(times)) for pattern, times in zip(usable, values, strict=True) if round(times)]


def choose_few(
    job: Job, patterns: Sequence[Pattern], demand: Sequence[int], *, cost: int, fewer_than: int, nodes: int
) -> list[tuple[Pattern, int]] | None:
    """Fewer than so many different patterns that meet the demand for at most `cost`, or None if `nodes` of search find none."""
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
    solver.run()
    values = list(solver.getSolution().col_value)
    if solver.getInfo().primal_solution_status != 2 or len(values) != 2 * size:
        return None
    return [(pattern, round(times)) for pattern, times in zip(patterns, values, strict=False) if round(times)]


def most_times(job: Job, pattern: Pattern, demand: Sequence[int]) -> int:
    """After how many sheets of a pattern nothing of it is wanted any more, or the stock is out."""
    needed = max((-(-demand[kind] // count) for kind, count in enumerate(pattern.counts) if count), default=0)
    there = job.sheets[pattern.sheet].count
    return needed if there is None else min(needed, there)


def set_whole(solver: Any, columns: int) -> None:
    """Let every column take whole numbers only."""
    import highspy  # noqa: PLC0415  # heavy: loaded only when a search is made
    import numpy as np  # noqa: PLC0415

    places = np.arange(columns, dtype=np.int32)
    kinds = np.array([highspy.HighsVarType.kInteger] * columns)
    solver.changeColsIntegrality(columns, places, kinds)
