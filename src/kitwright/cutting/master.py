"""The programme over patterns in fractions: how often to cut each, so that the demand is met as cheaply as can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from kitwright.cutting.job import Job, Ranges, ranges_of
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.solver import quiet_solver

__all__ = ["Master", "Prices"]


@dataclass(frozen=True, slots=True)
class Prices:
    """The answer of the fractional programme: its value, what each kind is worth and each sheet's rent, how often each pattern is cut.

    A rent is above zero where more sheets would help, below zero where fewer would.
    """

    value: float
    worth: tuple[float, ...]
    rent: tuple[float, ...]
    times: tuple[float, ...]


class Master:
    """The fractional programme, to which patterns are added one by one. Rows: demand of each kind, then the range of each sheet."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.patterns: list[Pattern] = []
        self.known: set[tuple[int, tuple[int, ...]]] = set()
        self.solver = quiet_solver()
        infinity = self.solver.inf
        for kind in job.kinds:
            self.solver.addRow(float(kind.count), infinity, 0, [], [])
        for _ in job.sheets:
            self.solver.addRow(-infinity, infinity, 0, [], [])
        self.set_ranges(ranges_of(job))
        # Leaving a piece out is possible, but dearer than anything else.
        dear = 1000.0 * (1 + max(sheet.price for sheet in job.sheets))
        for row in range(len(job.kinds)):
            self.solver.addCol(dear, 0.0, infinity, 1, [row], [1.0])

    def set_ranges(self, ranges: Ranges) -> None:
        """From now on, keep to these numbers of sheets."""
        infinity = self.solver.inf
        for place, (low, high) in enumerate(ranges):
            bounds = float(low) if low else -infinity, infinity if high is None else float(high)
            self.solver.changeRowBounds(len(self.job.kinds) + place, *bounds)

    def set_demand(self, demand: Sequence[int]) -> None:
        """From now on, ask for so many of each kind."""
        for row, count in enumerate(demand):
            self.solver.changeRowBounds(row, float(count), self.solver.inf)

    def add(self, pattern: Pattern) -> bool:
        """Take up a pattern; False if one that gives the same from the same sheet is there already."""
        key = (pattern.sheet, pattern.counts)
        if key in self.known:
            return False
        self.known.add(key)
        self.patterns.append(pattern)
        rows = [kind for kind, count in enumerate(pattern.counts) if count]
        values = [float(pattern.counts[kind]) for kind in rows]
        rows.append(len(self.job.kinds) + pattern.sheet)
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
        worth = tuple(max(0.0, dual) for dual in duals[:kinds])
        rent = tuple(-dual for dual in duals[kinds:])
        value = self.solver.getInfo().objective_function_value
        return Prices(value, worth, rent, tuple(solution.col_value)[kinds:])

    def use(self, prices: Prices) -> list[float]:
        """How many sheets of each kind the answer uses."""
        used = [0.0] * len(self.job.sheets)
        for pattern, times in zip(self.patterns, prices.times, strict=False):
            used[pattern.sheet] += times
        return used
