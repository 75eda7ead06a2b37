"""From fractions to whole sheets: cases of stocks, rounding, and whole-number programmes over patterns near the optimum."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random
from typing import Final

from kitwright.cutting.bound import price_step
from kitwright.cutting.cases import Case, Cases
from kitwright.cutting.generate import Pricing, whole_scale
from kitwright.cutting.job import Job
from kitwright.cutting.knapsack import Values, sheet_value, solve_table, solving_work
from kitwright.cutting.near import NearWalk
from kitwright.cutting.question import Question
from kitwright.cutting.rounding import dive, round_down
from kitwright.cutting.sketch import Pattern, Sketch, count_kinds
from kitwright.cutting.trace import best_sketch
from kitwright.cutting.watch import Watch

__all__ = ["find_whole_plan"]

PAIRS_A_PATTERN: Final = 12
FEWEST_AT_A_TIME: Final = 40
"""New patterns before the integer programme is asked again: one for so many pairs of kinds, but no fewer than this."""

PAIRS_A_NODE: Final = 8
FEWEST_NODES: Final = 50
"""How hard the integer programme is asked: a node for so many pairs of kinds, but no fewer than this; as many again for each time
that it found nothing."""

PATTERNS_A_FAILURE: Final = 200
"""Each time that it found nothing counts like so many patterns looked at."""

IDLE_WALKS: Final = 12
"""After so many rounds of random walks that find nothing new, no more are made."""

CHANGED_WORTHS: Final = 12
"""So many times the best patterns for slightly changed worths are taken up first."""

NOISES: Final = (0.002, 0.01, 0.03, 0.08)
"""By how much the worths are changed."""

DIVES: Final = 3
"""Roundings between two integer programmes over the pool."""

MOST_COLUMNS: Final = 1_500
"""The integer programme is asked with the patterns that lose least, up to so many (and never more than the effort allows)."""

DIVIDED_AT_ONCE: Final = 40
WORK_OF_DIVIDING: Final = 300_000
"""Cases divided before a plan is looked for again, and the counted microseconds of pricing that they may take."""

ALONE: Final = 2
"""So many integer programmes are waited for at once: mostly they prove the plan, and then nothing else should be under way."""

NODES_OF_A_ROUNDING: Final = 8
"""The rest after rounding is small; its integer programme is not asked harder than this."""


@dataclass(slots=True, eq=False)
class Pool:
    """The patterns that may be in a better plan of one case, and what each loses against its fractional answer (in 1 / scale)."""

    job: Job
    case: Case
    scale: int
    worth: list[int]
    rent: list[int]
    tables: list[Values]
    patterns: dict[tuple[int, tuple[int, ...]], tuple[int, Pattern]]

    def add(self, pattern: Pattern) -> None:
        """Take up a pattern; the copies of a piece beyond what is wanted count for nothing."""
        key = (pattern.sheet, pattern.counts)
        if key in self.patterns:
            return
        value = sum(
            each * min(count, wanted)
            for each, count, wanted in zip(self.worth, pattern.counts, self.job.demand, strict=True)
        )
        price = self.job.sheets[pattern.sheet].price * self.scale + self.rent[pattern.sheet]
        self.patterns[key] = (price - value, pattern)

    def within(self, slack: int, most: int) -> list[Pattern]:
        """The patterns that lose no more than `slack`, those that lose least first."""
        fitting = sorted(
            (entry for entry in self.patterns.values() if entry[0] <= slack),
            key=lambda entry: (entry[0], entry[1].sheet, entry[1].counts),
        )
        return [pattern for _, pattern in fitting[:most]]


def make_pool(job: Job, cases: Cases, case: Case) -> Pool:
    """The pool of a case, with the patterns that are known so far."""
    scale = whole_scale(job)
    prices = case.solved.prices
    worth = [round(each * scale) for each in prices.worth]
    rent = [round(each * scale) for each in prices.rent]
    pool = Pool(job, case, scale, worth, rent, [solve_table(each.strict, worth) for each in cases.pricings], {})
    for pattern in cases.master.patterns:
        pool.add(pattern)
    return pool


def find_whole_plan(job: Job, cases: Cases, watch: Watch, *, nodes: int, patterns: int, random: Random) -> None:
    """Look for cheaper plans until one is proved best, `patterns` patterns were looked at, or the watch says stop."""
    if cases.top is None or not watch.goes_on("rounding"):
        return
    round_down(job, cases, cases.top, watch, nodes=min(nodes, NODES_OF_A_ROUNDING))
    search = WholeSearch(job, cases, watch, patterns, random)
    try:
        search.go_on(nodes)
    finally:
        if search.question is not None:
            search.question.drop()


class WholeSearch:
    """The turns between new patterns and integer programmes over them. It lives as long as one search."""

    def __init__(self, job: Job, cases: Cases, watch: Watch, patterns: int, random: Random) -> None:
        self.job = job
        self.cases = cases
        self.watch = watch
        self.patterns = patterns
        self.random = random
        self.pools: dict[int, Pool] = {}
        self.question: Question | None = None
        """The integer programme that is on its way."""
        self.failures = 0
        """How many in a row found nothing."""

    def go_on(self, nodes: int) -> None:
        """Turn after turn, until the plan is proved, enough patterns were looked at or the watch says stop."""
        job, cases, watch = self.job, self.cases, self.watch
        tries, of_all = 0, 0
        while watch.goes_on("whole sheets"):
            if watch.value is not None:
                divide_some(cases, watch)
            if not watch.goes_on("whole sheets"):
                return
            case = cases.top if cases.top and self.failures % 2 == 0 else cases.lowest()
            pool = self.pools.get(id(case)) or make_pool(job, cases, case)
            self.pools = {id(each.case): each for each in (self.pools.get(id(cases.top)), pool) if each is not None}
            for _ in range(DIVES):
                if watch.goes_on("rounding"):
                    dive(job, cases, case, watch, nodes=min(nodes, NODES_OF_A_ROUNDING), random=self.random)
            watch.others = choose_offered(pool, cases, watch, most=min(self.patterns, MOST_COLUMNS), random=self.random)
            if watch.goes_on("whole sheets"):
                self.take()
            if not watch.goes_on("whole sheets"):
                return
            asked = max(FEWEST_NODES, len(job.kinds) ** 2 // PAIRS_A_NODE) * (1 + self.failures)
            self.question = Question(case.ranges, watch.others, watch, nodes=min(nodes, asked), is_near=of_all % 2 == 1)
            tries += 1
            of_all += case is cases.top
            is_last = len(pool.patterns) >= self.patterns or (self.failures + 1) * PATTERNS_A_FAILURE >= self.patterns
            if is_last or tries <= ALONE:
                self.take()
                if is_last and self.failures:
                    return

    def take(self) -> None:
        """Take up what the integer programme found that is on its way, if there is one."""
        if self.question is not None:
            self.failures = 0 if self.question.take(self.watch) else self.failures + 1
            self.question = None


def choose_offered(pool: Pool, cases: Cases, watch: Watch, *, most: int, random: Random) -> list[Pattern]:
    """New patterns for the pool, and those of it that may be in a better plan, at most so many."""
    for pattern in cases.master.patterns:
        pool.add(pattern)
    step = price_step(pool.job)
    goal = watch.value - step if watch.value is not None else watch.bound.value + 10 * step
    slack = round((goal - pool.case.solved.prices.value) * pool.scale) + 1000
    widen(pool, cases.pricings, slack, watch, random)
    return pool.within(slack, most)


def divide_some(cases: Cases, watch: Watch) -> None:
    """Divide cases until that has taken its share of the work, or there is nothing more to divide."""
    work = sum(solving_work(pricing.table) for pricing in cases.pricings)
    rounds = cases.budget.rounds
    for _ in range(DIVIDED_AT_ONCE):
        if (rounds - cases.budget.rounds) * work > WORK_OF_DIVIDING:
            return
        if not (watch.goes_on("cases") and cases.divide(watch)):
            return


def widen(pool: Pool, pricings: Sequence[Pricing], slack: int, watch: Watch, random: Random) -> None:
    """Put patterns into the pool that lose little: the best ones for worths changed a little, then random walks within `slack`."""
    before = len(pool.patterns)
    for _ in range(CHANGED_WORTHS):
        if not watch.goes_on("whole sheets"):
            return
        noise = random.choice(NOISES)
        worth = [round(each * (1 + noise * random.uniform(-1, 1))) for each in pool.worth]
        for pricing in pricings:
            values = solve_table(pricing.strict, worth)
            for place in pricing.sheets:
                sheet = pool.job.sheets[place]
                add_sketch(pool, place, best_sketch(pricing.strict, values, worth, (sheet.width, sheet.height)))
    idle = 0
    enough = before + max(FEWEST_AT_A_TIME, len(pool.job.kinds) ** 2 // PAIRS_A_PATTERN)
    while len(pool.patterns) < enough and idle < IDLE_WALKS and watch.goes_on("whole sheets"):
        idle = 0 if walk_once(pool, pricings, slack, random) else idle + 1


def walk_once(pool: Pool, pricings: Sequence[Pricing], slack: int, random: Random) -> bool:
    """One random walk for every sheet that can be in a better plan; whether anything new came of it."""
    before = len(pool.patterns)
    for pricing, values in zip(pricings, pool.tables, strict=True):
        for place in pricing.sheets:
            sheet = pool.job.sheets[place]
            price = sheet.price * pool.scale + pool.rent[place]
            gap = price - sheet_value(pricing.strict, values, sheet.width, sheet.height)
            if gap > slack:
                continue
            share = random.choice((0.0, 1.0, random.random()))
            walk = NearWalk(pricing.strict, values, pool.worth, random)
            add_sketch(pool, place, walk.sketch((sheet.width, sheet.height), round((slack - gap) * share)))
    return len(pool.patterns) > before


def add_sketch(pool: Pool, place: int, sketch: Sketch) -> None:
    """Take up a sketch on a sheet, unless it is empty."""
    if sketch is not None:
        pool.add(Pattern(place, count_kinds(sketch, len(pool.job.kinds)), sketch))
