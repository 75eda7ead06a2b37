"""A better bound by cases: either at most so many sheets of a stock are used, or more; each case has its own fractional programme.

Sheets come whole, and the mixture of stocks that the fractional programme likes best mostly does not (Land and Doig, Econometrica 28,
1960). The cases that are left open are the only ones in which a cheaper plan can be.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from kitwright.cutting.generate import Budget, Pricing, Solved, generate, pricing_work
from kitwright.cutting.job import Job, Ranges, ranges_of
from kitwright.cutting.master import Master
from kitwright.cutting.plan import Bound, Effort, Fork
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import Watch

__all__ = ["Case", "Cases", "open_cases"]

NEARLY_WHOLE: Final = 1e-6
"""A number of sheets this near to a whole one is whole."""

SHARE_OF_PRICING: Final = 2
"""Pricing may take one part in so many of the work that is left: whole plans are to be looked for, too."""


@dataclass(slots=True, eq=False)
class Case:
    """One case: how many of each sheet may be used, the fractional answer and how many sheets it uses; its two sides once divided."""

    ranges: Ranges
    solved: Solved
    used: tuple[float, ...]
    sides: tuple[int, int, Case, Case] | None = None
    """The sheet, the most of it on the first side, and the two sides."""

    def proof(self, job: Job) -> Bound:
        """The bound of this case: its own, or that of its sides where it is better."""
        if self.sides is None:
            return self.solved.bound
        sheet, at, few, many = self.sides
        proofs = few.proof(job), many.proof(job)
        value = min(proof.value for proof in proofs)
        if value <= self.solved.bound.value:
            return self.solved.bound
        return Bound(value, 1, (), fork=Fork(job.sheets[sheet].stock.name, at, *proofs))


class Cases:
    """All cases of one job; the open ones are its leaves. It lives as long as one search."""

    def __init__(self, job: Job, pricings: Sequence[Pricing], master: Master, budget: Budget) -> None:
        self.job = job
        self.pricings = pricings
        self.master = master
        self.budget = budget
        self.round_work = pricing_work(pricings)
        self.top: Case | None = None
        self.open: list[Case] = []

    def start(self, watch: Watch, *, to_the_end: bool) -> None:
        """The case of the whole job; its bound is told to the watch on the way. Without `to_the_end`, only as long as it may get better."""

        def goes_on(bound: Bound, value: float) -> bool:
            watch.spend(self.round_work)
            watch.tell_bound(bound)
            return (to_the_end or value > watch.bound.value) and watch.goes_on("bound")

        self.top = self.solve(ranges_of(self.job), goes_on)
        watch.tell_bound(self.top.solved.bound)
        self.open = [self.top]

    def solve(self, ranges: Ranges, goes_on: Callable[[Bound, float], bool]) -> Case:
        """One case, solved in fractions."""
        self.master.set_ranges(ranges)
        solved = generate(self.pricings, self.master, ranges, self.budget, goes_on)
        return Case(ranges, solved, tuple(self.master.use(solved.prices)))

    def lowest(self) -> Case:
        """The open case with the lowest bound: the first that a cheaper plan could be in."""
        return min(self.open, key=lambda case: (case.solved.bound.value, case.solved.prices.value))

    def divide(self, watch: Watch) -> bool:
        """Divide the lowest case once, and tell the watch if the bound is better; False if it cannot be divided or the budget is spent."""
        case = self.lowest()
        choice = self.choose(case)
        if self.top is None or choice is None or self.budget.rounds <= 0:
            return False
        sheet, at = choice
        low, high = case.ranges[sheet]
        goal = watch.value

        def goes_on(bound: Bound, _: float) -> bool:
            watch.spend(self.round_work)
            return (goal is None or bound.value < goal) and watch.goes_on("cases")

        few, many = (
            self.solve((*case.ranges[:sheet], side, *case.ranges[sheet + 1 :]), goes_on)
            for side in ((low, at), (at + 1, high))
        )
        case.sides = (sheet, at, few, many)
        self.open = [*(other for other in self.open if other is not case), few, many]
        watch.tell_bound(self.top.proof(self.job))
        return True

    def choose(self, case: Case) -> tuple[int, int] | None:
        """The sheet whose fraction costs most, and the whole number below; None if all are whole."""
        best: tuple[float, int, int] | None = None
        for sheet, count in enumerate(case.used):
            part = min(count - math.floor(count), math.ceil(count) - count)
            weight = part * (1 + self.job.sheets[sheet].price)
            if part > NEARLY_WHOLE and (best is None or weight > best[0]):
                best = weight, sheet, math.floor(count)
        return best and (best[1], best[2])


def open_cases(
    job: Job,
    known: Iterable[Pattern],
    pricings: Sequence[Pricing],
    watch: Watch,
    effort: Effort,
    *,
    to_the_end: bool,
) -> Cases | None:
    """The fractional programme, begun with known patterns, its bound told to the watch; None where its tables would take too much work."""
    rounds = min(effort.rounds, watch.work // (SHARE_OF_PRICING * max(1, pricing_work(pricings))))
    if not pricings or not rounds or not watch.goes_on("bound"):
        return None
    master = Master(job)
    for pattern in known:
        master.add(pattern)
    cases = Cases(job, pricings, master, Budget(rounds))
    cases.start(watch, to_the_end=to_the_end)
    return cases
