"""From fractions to whole sheets: cases of stocks, whole plans beside the fractional ones, and whole-number programmes over patterns."""

from __future__ import annotations

import math
from random import Random
from typing import Final

import numpy as np

from kitwright.cutting.cases import Case, Cases
from kitwright.cutting.choose import ask_for_plan
from kitwright.cutting.corner import make_corner
from kitwright.cutting.job import Job
from kitwright.cutting.knapsack import solving_work
from kitwright.cutting.pool import Pool, choose_offered, make_pool
from kitwright.cutting.question import Question
from kitwright.cutting.rounding import round_down
from kitwright.cutting.watch import Watch

__all__ = ["find_whole_plan"]

PAIRS_A_NODE: Final = 24
FEWEST_NODES: Final = 50
"""How hard the integer programme is asked: a node for so many pairs of kinds, but no fewer than this."""

PATTERNS_A_FAILURE: Final = 200
"""Each time that nothing was found counts like so many patterns looked at."""

MOST_COLUMNS: Final = 1_500
"""The integer programme is asked with the patterns that lose least, up to so many (and never more than the effort allows)."""

DIVIDED_AT_ONCE: Final = 40
WORK_OF_DIVIDING: Final = 300_000
"""Cases divided before a plan is looked for again, and the counted microseconds of pricing that they may take."""

MOST_BASES: Final = 16
WORK_OF_CORNERS: Final = 2_000_000
WORK_OF_A_CORNER: Final = 25_000
WORK_OF_A_TURN: Final = 25_000
"""Whole plans are looked for beside several bases each time, until that has taken its share of the work: so much for each basis, and for
each of its turns so much and half the order of its group."""

LEANING: Final = 4.0
"""For other bases the prices are changed by up to so many times what the best plan may still cost too much, as a share of the whole."""

MORE_SHEETS: Final = 10
"""Where no plan is known yet, one that costs so many sheets more than the fractional answer will do."""


def find_whole_plan(job: Job, cases: Cases, watch: Watch, *, nodes: int, patterns: int, random: Random) -> None:
    """Look for cheaper plans until one is proved best, `patterns` patterns were looked at, or the watch says stop."""
    if cases.top is None or not watch.goes_on("rounding"):
        return
    round_down(job, cases, cases.top, watch, nodes=nodes)
    search = WholeSearch(job, cases, watch, patterns, random)
    try:
        search.go_on(nodes)
    finally:
        if search.question is not None:
            search.question.drop()


class WholeSearch:
    """The turns between new patterns, whole plans beside the fractional ones and integer programmes. It lives as long as one search."""

    def __init__(self, job: Job, cases: Cases, watch: Watch, patterns: int, random: Random) -> None:
        self.job = job
        self.cases = cases
        self.watch = watch
        self.patterns = patterns
        self.random = random
        self.pools: dict[int, Pool] = {}
        self.question: Question | None = None
        """The integer programme that is on its way beside the rest."""
        self.failures = 0
        """How many turns in a row found nothing."""
        self.asked_top = 0
        """How many programmes were asked for the whole job; every other one sets out from the best plan."""

    def go_on(self, nodes: int) -> None:
        """Turn after turn, until the plan is proved, enough patterns were looked at or the watch says stop."""
        cases, watch = self.cases, self.watch
        while watch.goes_on("whole sheets"):
            if watch.value is not None:
                divide_some(cases, watch)
            if not watch.goes_on("whole sheets"):
                return
            case = cases.top if cases.top and self.failures % 2 == 0 else cases.lowest()
            pool = self.pools.get(id(case)) or make_pool(self.job, cases, case)
            self.pools = {id(each.case): each for each in (self.pools.get(id(cases.top)), pool) if each is not None}
            watch.others = choose_offered(pool, cases, watch, most=min(self.patterns, MOST_COLUMNS), random=self.random)
            is_better = self.look_beside(case)
            if watch.goes_on("whole sheets"):
                is_better |= self.take()
            self.failures = 0 if is_better else self.failures + 1
            is_last = len(pool.patterns) >= self.patterns or self.failures * PATTERNS_A_FAILURE >= self.patterns
            if not watch.goes_on("whole sheets") or (is_last and not is_better):
                return
            self.ask(case, nodes)

    def look_beside(self, case: Case) -> bool:
        """Whole plans beside the fractional answer of a case, and beside those for prices changed a little; whether one is better."""
        watch, value = self.watch, case.solved.prices.value
        dearest = max(sheet.price for sheet in self.job.sheets)
        is_better, work = False, 0
        for turn in range(MOST_BASES):
            if work >= WORK_OF_CORNERS or not watch.goes_on("whole sheets"):
                break
            below = watch.value if watch.value is not None else math.ceil(value) + MORE_SHEETS * dearest
            lean = LEANING * self.random.random() * min(below - value, dearest) / max(1.0, value) if turn else 0.0
            self.cases.master.set_ranges(case.ranges)
            basis = self.cases.master.basis(lean, self.random)
            corner = None if basis is None else make_corner(self.job, basis, watch.others, below)
            if corner is not None:
                generator = np.random.default_rng(self.random.getrandbits(64))
                found = corner.search(below, generator, watch.ear("whole sheets"))
                taken = WORK_OF_A_CORNER + corner.turns * (WORK_OF_A_TURN + corner.group.order // 2)
                work += taken
                watch.spend(taken)
                is_better |= found is not None and watch.tell_plan(found)
        return is_better

    def ask(self, case: Case, nodes: int) -> None:
        """Send an integer programme on its way."""
        asked = max(FEWEST_NODES, len(self.job.kinds) ** 2 // PAIRS_A_NODE)
        is_near = self.asked_top % 2 == 1
        self.question = ask_for_plan(
            self.watch, case.ranges, self.watch.others, nodes=min(nodes, asked), is_near=is_near
        )
        self.asked_top += case is self.cases.top

    def take(self) -> bool:
        """Take up what the integer programme found that is on its way, if there is one; whether it made a better plan."""
        question, self.question = self.question, None
        found = None if question is None else question.take(self.watch, "whole sheets")
        return found is not None and self.watch.tell_plan(found)


def divide_some(cases: Cases, watch: Watch) -> None:
    """Divide cases until that has taken its share of the work, or there is nothing more to divide."""
    work = sum(solving_work(pricing.table) for pricing in cases.pricings)
    rounds = cases.budget.rounds
    for _ in range(DIVIDED_AT_ONCE):
        if (rounds - cases.budget.rounds) * work > WORK_OF_DIVIDING:
            return
        if not (watch.goes_on("cases") and cases.divide(watch)):
            return
