"""The programme over patterns in fractions: how often to cut each, so that the demand is met as cheaply as can be."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from random import Random
from typing import Final

from kitwright.cutting.job import Job, Ranges, ranges_of
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.solver import quiet_solver

__all__ = ["Basis", "Master", "Prices"]


@dataclass(frozen=True, slots=True)
class Prices:
    """The answer of the fractional programme: its value, what each kind is worth and each sheet's rent, how often each pattern is cut.

    A rent is above zero where more sheets would help, below zero where fewer would.
    """

    value: float
    worth: tuple[float, ...]
    rent: tuple[float, ...]
    times: tuple[float, ...]


WAYS: Final = {"kLower": 1, "kUpper": -1}
"""Whether a row at its end, as the solver names it, may be more or less."""


@dataclass(frozen=True, slots=True)
class Basis:
    """What the fractional answer stands on: its patterns, and as many rows that are met exactly (demand of kinds, then sheets).

    `right` is what each of these rows asks for; `ways` is 1 where it may be more, -1 where it may be less.
    """

    patterns: tuple[Pattern, ...]
    rows: tuple[int, ...]
    right: tuple[int, ...]
    ways: tuple[int, ...]


class Master:
    """The fractional programme, to which patterns are added one by one. Rows: demand of each kind, then the range of each sheet."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.patterns: list[Pattern] = []
        self.known: set[tuple[int, tuple[int, ...]]] = set()
        self.solver = quiet_solver()
        infinity = self.solver.inf
        for count in job.demand:
            self.solver.addRow(float(count), infinity, 0, [], [])
        for _ in job.sheets:
            self.solver.addRow(-infinity, infinity, 0, [], [])
        self.set_ranges(ranges_of(job))
        # Leaving a piece out is possible, but dearer than anything else.
        dear = 1000.0 * (1 + max(sheet.price for sheet in job.sheets))
        for row in range(len(job.kinds)):
            self.solver.addCol(dear, 0.0, infinity, 1, [row], [1.0])

    def set_ranges(self, ranges: Ranges) -> None:
        """From now on, keep to these numbers of sheets."""
        self.ranges = ranges
        infinity = self.solver.inf
        for place, (low, high) in enumerate(ranges):
            bounds = float(low) if low else -infinity, infinity if high is None else float(high)
            self.solver.changeRowBounds(len(self.job.kinds) + place, *bounds)

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

    def basis(self, lean: float, random: Random) -> Basis | None:
        """What the best mixture stands on when every pattern's price is changed at random, by at most the share `lean`.

        None where a piece that is left out belongs to it.
        """
        kinds = len(self.job.kinds)
        if lean:
            self.set_prices(lambda: 1 + lean * random.uniform(-1, 1))
        self.solver.run()
        basis = self.solver.getBasis()
        if lean:
            self.set_prices(lambda: 1.0)
        basic = [place for place, status in enumerate(basis.col_status) if status.name == "kBasic"]
        rows = [row for row, status in enumerate(basis.row_status) if status.name != "kBasic"]
        ways = [WAYS.get(basis.row_status[row].name, 0) for row in rows]
        if any(place < kinds for place in basic) or len(basic) != len(rows) or 0 in ways:
            return None
        ends = [*((count, None) for count in self.job.demand), *self.ranges]
        right = [ends[row][0 if way > 0 else 1] or 0 for row, way in zip(rows, ways, strict=True)]
        return Basis(tuple(self.patterns[place - kinds] for place in basic), tuple(rows), tuple(right), tuple(ways))

    def set_prices(self, factor: Callable[[], float]) -> None:
        """From now on, a pattern costs the price of its sheet times a factor, asked for each in turn."""
        for place, pattern in enumerate(self.patterns):
            self.solver.changeColCost(len(self.job.kinds) + place, self.job.sheets[pattern.sheet].price * factor())

    def use(self, prices: Prices) -> list[float]:
        """How many sheets of each kind the answer uses."""
        used = [0.0] * len(self.job.sheets)
        for pattern, times in zip(self.patterns, prices.times, strict=False):
            used[pattern.sheet] += times
        return used
