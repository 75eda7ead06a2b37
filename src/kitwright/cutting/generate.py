"""Column generation: patterns that the fractional programme would pay for, until there are none; and the bound that follows on the way.

Gilmore and Gomory, Operations Research 9 (1961) and 13 (1965). Every round gives a valid bound: what pieces are worth, in whole numbers,
checked against the exact best sheet (Farley, Operations Research 38, 1990).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from kitwright.cutting.area import can_be_cut
from kitwright.cutting.around import Surroundings, make_surroundings
from kitwright.cutting.bound import bound_from, nothing_proved
from kitwright.cutting.coarse import fitted, rounded, steps_for
from kitwright.cutting.job import Job, Ranges, Sheet
from kitwright.cutting.knapsack import CutTable, Values, make_table, sheet_value, solve_table, solving_work
from kitwright.cutting.master import Master, Prices
from kitwright.cutting.plan import Bound
from kitwright.cutting.sketch import Pattern, Sketch, count_kinds
from kitwright.cutting.trace import sketches_from_best

__all__ = ["Budget", "Pricing", "Solved", "generate", "make_pricings", "price", "pricing_work", "whole_scale"]


@dataclass(frozen=True, eq=False)
class Pricing:
    """Sheets that may hold the same kinds, with the table that values them, exactly (`strict`: with what the hand can hold).

    With a `step` (nm) the tables are of sizes rounded to it: `table` of all rounded down, so that no sheet is worth more than it says,
    and `strict` of pieces rounded up, so that what it holds can be cut.
    """

    kinds: tuple[int, ...]
    sheets: tuple[int, ...]
    table: CutTable
    strict: CutTable
    step: int | None = None

    def size(self, job: Job, sheet: Sheet) -> tuple[int, int]:
        """The width and height of a sheet as the tables have them."""
        if self.step is None:
            return sheet.width, sheet.height
        return sheet.width * job.unit // self.step, sheet.height * job.unit // self.step

    def pattern(self, job: Job, place: int, sketch: Sketch) -> Pattern | None:
        """A sketch that was found in `strict` as a pattern of a sheet of the job; None where the trimmer cannot cut it in true sizes."""
        sheet = job.sheets[place]
        if self.step is not None:
            sketch = fitted(job, sketch, (sheet.width, sheet.height))
            if not can_be_cut(job, sketch, sheet.width, sheet.height):
                return None
        return Pattern(place, count_kinds(sketch, len(job.kinds)), sketch)

    @cached_property
    def surroundings(self) -> Surroundings:
        """What is worked out once for valuing what lies around areas of the table."""
        return make_surroundings(self.table)


def make_pricings(job: Job) -> tuple[Pricing, ...]:
    """The tables for all sheets of a job, exact or of sizes rounded to the finest step with which they are small enough.

    None at all where there is no such step.
    """
    exact = pricings_at(job, job, job, None)
    if exact is not None:
        return exact
    for step in steps_for(job):
        found = pricings_at(job, rounded(job, step, up=False), rounded(job, step, up=True), step)
        if found is not None:
            return found
    return ()


def pricings_at(job: Job, easier: Job, harder: Job, step: int | None) -> tuple[Pricing, ...] | None:
    """The tables of two jobs between which the true one lies; None where one would be too large."""
    groups: dict[tuple[int, ...], list[int]] = {}
    for place in range(len(job.sheets)):
        kinds = tuple(rank for rank, kind in enumerate(job.kinds) if place in kind.sheets)
        if kinds:
            groups.setdefault(kinds, []).append(place)
    pricings = []
    for kinds, sheets in groups.items():
        table = make_table(easier, kinds, sheets, strip=0)
        is_same = step is None and not job.strip
        strict = table if is_same or table is None else make_table(harder, kinds, sheets, strip=harder.strip)
        if table is None or strict is None:
            return None
        pricings.append(Pricing(kinds, tuple(sheets), table, strict, step))
    return tuple(pricings)


WORK_OF_A_MASTER: Final = 3_000
"""About how many microseconds the fractional programme over the patterns takes, with all that belongs to a round besides the tables."""


def pricing_work(pricings: Sequence[Pricing]) -> int:
    """About how long one round of pricing takes, in microseconds (counted, not measured)."""
    tables = (table for each in pricings for table in dict.fromkeys((each.table, each.strict)))
    return WORK_OF_A_MASTER + sum(map(solving_work, tables))


MOST_PATTERNS: Final = 8
"""So many patterns of a sheet may come of one round of pricing."""


def whole_scale(job: Job) -> int:
    """In how many parts one unit of the objective is divided, so that worths are whole numbers and sums fit a machine word."""
    return max(1000, 1_000_000_000 // max(1, *(sheet.price for sheet in job.sheets)))


@dataclass(frozen=True, slots=True, eq=False)
class Priced:
    """What one round of pricing found: the bound that these worths prove, and patterns by how much they are worth beyond their price."""

    bound: Bound
    patterns: tuple[tuple[int, Pattern], ...]


def price(job: Job, pricings: Sequence[Pricing], worth: Sequence[int], rent: Sequence[int], ranges: Ranges) -> Priced:
    """The best patterns of every sheet for these worths (in 1 / `whole_scale`), and the bound that they prove within the ranges.

    `pricings` are those of the whole job: a sheet that none of them has is taken to hold nothing.
    """
    scale = whole_scale(job)
    values = [0] * len(job.sheets)
    found: list[tuple[int, Pattern]] = []
    step = None
    for pricing in pricings:
        step = pricing.step
        table_values = solve_table(pricing.table, worth)
        strict_values = table_values if pricing.strict is pricing.table else solve_table(pricing.strict, worth)
        for place in pricing.sheets:
            sheet = job.sheets[place]
            values[place] = sheet_value(pricing.table, table_values, *pricing.size(job, sheet))
            found += patterns_of(job, pricing, strict_values, worth, (place, scale * sheet.price + rent[place]))
    return Priced(replace(proved_bound(job, worth, values, scale, ranges), step=step), tuple(found))


def patterns_of(
    job: Job, pricing: Pricing, values: Values, worth: Sequence[int], what: tuple[int, int]
) -> list[tuple[int, Pattern]]:
    """The best pattern of a sheet and some others that are worth more than its price, and how much more."""
    if not values.any():
        return []
    place, cost = what
    sheet = job.sheets[place]
    found: dict[tuple[int, ...], tuple[int, Pattern]] = {}
    for value, sketch in sketches_from_best(pricing.strict, values, worth, pricing.size(job, sheet)):
        if found and (value <= cost or len(found) == MOST_PATTERNS):
            break
        pattern = pricing.pattern(job, place, sketch)
        if pattern is not None:
            found.setdefault(pattern.counts, (value - cost, pattern))
    return list(found.values())


def proved_bound(job: Job, worth: Sequence[int], values: Sequence[int], scale: int, ranges: Ranges) -> Bound:
    """The bound for these worths, when a sheet can hold pieces worth `values` at most: scale and rents are made to fit.

    A sheet that there is no end of can have no rent above zero, so the scale is raised until what it holds is not worth more than
    its price. Where the worths leave room the other way, the scale is lowered too, and the better bound of the two is taken.
    """
    endless = [
        (value, sheet.price)
        for value, sheet, (_, high) in zip(values, job.sheets, ranges, strict=True)
        if high is None and value
    ]
    if any(not cost for _, cost in endless):
        return nothing_proved(job)
    fitting = max((-(-value // cost) for value, cost in endless), default=scale)
    found = [bound_at(job, worth, values, tried, ranges) for tried in dict.fromkeys((fitting, max(fitting, scale)))]
    return max(found, key=lambda bound: bound.value)


def bound_at(job: Job, worth: Sequence[int], values: Sequence[int], scale: int, ranges: Ranges) -> Bound:
    """The same at a given scale: each sheet's rent is what it may be worth beyond its price (below zero only where some must be used)."""
    excess = [value - scale * sheet.price for value, sheet in zip(values, job.sheets, strict=True)]
    rent = [more if more > 0 or low else 0 for more, (low, _) in zip(excess, ranges, strict=True)]
    return bound_from(job, worth, rent, scale, ranges)


@dataclass(slots=True)
class Budget:
    """How many rounds of pricing may still be made, over all parts of one search."""

    rounds: int


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """The fractional programme within ranges: its last answer and the best bound met."""

    prices: Prices
    bound: Bound


def generate(
    pricings: Sequence[Pricing], master: Master, ranges: Ranges, budget: Budget, goes_on: Callable[[Bound, float], bool]
) -> Solved:
    """Add patterns that pay to the master until there are none, the budget is spent or `goes_on`, told the bound and the value
    of the programme so far, has enough.

    `ranges` are those that the master keeps to.
    """
    job, scale = master.job, whole_scale(master.job)
    best = nothing_proved(job)
    prices = master.solve()
    while budget.rounds > 0:
        budget.rounds -= 1
        worth = [int(each * scale) for each in prices.worth]
        rent = [math.ceil(each * scale) for each in prices.rent]
        priced = price(job, pricings, worth, rent, ranges)
        best = max(best, priced.bound, key=lambda bound: bound.value)
        fresh = [pattern for gain, pattern in priced.patterns if gain > scale * SMALLEST_GAIN and master.add(pattern)]
        if not fresh:
            return Solved(prices, best)
        if not goes_on(best, prices.value):
            break
        prices = master.solve()
    return Solved(master.solve(), best)


SMALLEST_GAIN: Final = 1e-7
"""A pattern worth less than this beyond its price (in units of the objective) only feeds rounding errors."""
