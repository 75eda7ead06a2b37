"""Batches of few pieces: sheet by sheet as well as by mixtures of patterns, with bounds of three kinds."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import Final

from kitwright.cutting.cases import open_cases
from kitwright.cutting.dual_feasible import worths_by_sides
from kitwright.cutting.generate import Pricing, price, pricing_work, whole_scale
from kitwright.cutting.job import Job, ranges_of
from kitwright.cutting.met import Met, choose_among
from kitwright.cutting.plan import Effort
from kitwright.cutting.proper import ProperBound
from kitwright.cutting.question import Question
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.two_in_one import put_two_in_one
from kitwright.cutting.watch import Watch
from kitwright.cutting.whole import find_whole_plan
from kitwright.cutting.without import do_without

__all__ = ["SmallBatch"]

ALIKE: Final = 2
"""A small batch with fewer pieces of a kind than this, on average, is of different pieces: mixtures of patterns tell little about it."""

FIRST_SHARE: Final = 96
"""One of so many steps comes before the bound is worked on, the others after it."""

SMALL_PATTERNS: Final = 600
SMALL_NODES: Final = 50
"""For a small batch the integer programme is not asked harder than this: it sees the demand only from afar."""

STEPS_A_CHOICE: Final = 12_000
"""After so many steps a plan is chosen among the sheets met; the search starts afresh then, with another sheet given up."""

FIRST_TRY: Final = 24_000
"""The first plan is tried to be proved as long as so many steps of the search take, if there are so many to come."""

WORK_OF_A_STEP: Final = 70
"""A step of the search takes about so many microseconds of counted work."""

STEPS_TO_PROVE: Final = 3
"""After that, trying to prove may take as long as one in so many steps of the search."""


class SmallBatch:
    """Works on a batch of few pieces, sheet by sheet as well as by mixtures of patterns. It lives as long as one search."""

    def __init__(self, job: Job, watch: Watch, pricings: Sequence[Pricing], random: Random) -> None:
        self.job = job
        self.watch = watch
        self.pricings = pricings
        self.random = random
        self.met = Met(job)
        self.question: Question | None = None
        """The cheapest plan of the sheets met, asked for beside the search."""
        self.is_varied = sum(job.demand) < ALIKE * len(job.kinds)

    def improve(self, first: Sequence[tuple[Pattern, int]], effort: Effort) -> None:
        """Better plans and bounds, as far as the effort goes."""
        try:
            job, watch, met = self.job, self.watch, self.met
            nodes, patterns = min(effort.nodes, SMALL_NODES), min(effort.patterns, SMALL_PATTERNS)
            if self.pricings:
                bound_by_sides(job, self.pricings, watch)
            self.go_on(-(-effort.steps // FIRST_SHARE))
            known = [pattern for pattern, _ in (*first, *(watch.best or ()))] + list(met.patterns.values())
            cases = open_cases(job, known, self.pricings, watch, effort, to_the_end=not self.is_varied)
            for pattern in cases.master.patterns if cases else ():
                met.keep(pattern)
            is_exact = all(pricing.step is None for pricing in self.pricings)
            proper = ProperBound(job, self.pricings, cases.master.patterns) if cases and is_exact else None
            if self.is_varied:
                self.go_on(effort.steps, proper)
                self.choose()
                self.take_up()
            if cases:
                find_whole_plan(job, cases, watch, nodes=nodes, patterns=patterns, random=self.random)
            if not self.is_varied:
                self.go_on(effort.steps, proper)
                self.choose()
                self.take_up()
            put_two_in_one(job, watch)
        finally:
            if self.question is not None:
                self.question.drop()

    def go_on(self, steps: int, proper: ProperBound | None = None) -> None:
        """Do without one sheet after the other, and now and then choose a plan among those met; each plan is also tried to be proved."""
        left, rest = steps, STEPS_A_CHOICE
        self.prove(proper, min(left, FIRST_TRY))
        while left > 0 and self.watch.best is not None and self.watch.goes_on("small batch"):
            taken = do_without(self.job, self.watch, self.met, steps=min(left, rest), random=self.random)
            self.watch.spend(taken * WORK_OF_A_STEP)
            left, rest = left - taken, rest - taken
            if rest <= 0:
                rest = STEPS_A_CHOICE
                self.choose()
            self.prove(proper, taken // STEPS_TO_PROVE)

    def choose(self) -> None:
        """Take up the cheapest plan of the sheets met until the last time, and ask for that of the sheets met until now."""
        self.take_up()
        if self.watch.goes_on("small batch"):
            self.question = choose_among(self.job, self.met, self.watch)

    def take_up(self) -> None:
        """Take up what was asked for last, if anything; nobody waits for it where the plan is proved meanwhile."""
        question, self.question = self.question, None
        if question is not None and self.watch.is_proved:
            question.drop()
        elif question is not None:
            found = question.take(self.watch, "small batch")
            if found is not None:
                self.watch.tell_plan(found)

    def prove(self, proper: ProperBound | None, steps: int) -> None:
        """Try to prove the best plan, as long as so many steps of the search allow."""
        if proper is not None:
            proper.prove(self.watch, self.met.patterns.values(), work=steps * WORK_OF_A_STEP)


def bound_by_sides(job: Job, pricings: Sequence[Pricing], watch: Watch) -> None:
    """The bound that follows from what pieces are worth by their sides alone, told to the watch."""
    nothing = [0] * len(job.sheets)
    for worth in worths_by_sides(job, whole_scale(job)):
        if watch.goes_on("bound"):
            watch.tell_bound(price(job, pricings, worth, nothing, ranges_of(job)).bound)
            watch.spend(pricing_work(pricings))
