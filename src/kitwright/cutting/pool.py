"""The patterns that may be in a better plan of one case: those that lose little against its fractional answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random
from typing import Final

from kitwright.cutting.bound import price_step
from kitwright.cutting.cases import Case, Cases
from kitwright.cutting.generate import Pricing, pricing_work, whole_scale
from kitwright.cutting.job import Job
from kitwright.cutting.knapsack import Values, sheet_value, solve_table
from kitwright.cutting.near import NearWalk
from kitwright.cutting.sketch import Pattern, Sketch
from kitwright.cutting.trace import best_sketch
from kitwright.cutting.watch import Watch

__all__ = ["Pool", "choose_offered", "make_pool"]

PAIRS_A_PATTERN: Final = 6
FEWEST_AT_A_TIME: Final = 40
"""New patterns that are looked for at a time: one for so many pairs of kinds, but no fewer than this."""

IDLE_WALKS: Final = 12
"""After so many rounds of random walks that find nothing new, no more are made."""

WORK_OF_A_WALK: Final = 5_000
"""About so many microseconds are taken by one walk."""

CHANGED_WORTHS: Final = 12
"""So many times the best patterns for slightly changed worths are taken up first."""

NOISES: Final = (0.002, 0.01, 0.03, 0.08)
"""By how much the worths are changed."""


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


def choose_offered(pool: Pool, cases: Cases, watch: Watch, *, most: int, random: Random) -> list[Pattern]:
    """New patterns for the pool, and those of it that may be in a better plan, at most so many."""
    for pattern in cases.master.patterns:
        pool.add(pattern)
    step = price_step(pool.job)
    goal = watch.value - step if watch.value is not None else watch.bound.value + 10 * step
    slack = round((goal - pool.case.solved.prices.value) * pool.scale) + 1000
    widen(pool, cases.pricings, slack, watch, random)
    return pool.within(slack, most)


def widen(pool: Pool, pricings: Sequence[Pricing], slack: int, watch: Watch, random: Random) -> None:
    """Put patterns into the pool that lose little: the best ones for worths changed a little, then random walks within `slack`."""
    before = len(pool.patterns)
    for _ in range(CHANGED_WORTHS):
        if not watch.goes_on("whole sheets"):
            return
        watch.spend(pricing_work(pricings))
        noise = random.choice(NOISES)
        worth = [round(each * (1 + noise * random.uniform(-1, 1))) for each in pool.worth]
        for pricing in pricings:
            values = solve_table(pricing.strict, worth)
            for place in pricing.sheets:
                sheet = pool.job.sheets[place]
                add_sketch(
                    pool, pricing, place, best_sketch(pricing.strict, values, worth, pricing.size(pool.job, sheet))
                )
    idle = 0
    enough = before + max(FEWEST_AT_A_TIME, len(pool.job.kinds) ** 2 // PAIRS_A_PATTERN)
    while len(pool.patterns) < enough and idle < IDLE_WALKS and watch.goes_on("whole sheets"):
        watch.spend(WORK_OF_A_WALK * len(pool.job.sheets))
        idle = 0 if walk_once(pool, pricings, slack, random) else idle + 1


def walk_once(pool: Pool, pricings: Sequence[Pricing], slack: int, random: Random) -> bool:
    """One random walk for every sheet that can be in a better plan; whether anything new came of it."""
    before = len(pool.patterns)
    for pricing, values in zip(pricings, pool.tables, strict=True):
        for place in pricing.sheets:
            sheet = pool.job.sheets[place]
            price = sheet.price * pool.scale + pool.rent[place]
            size = pricing.size(pool.job, sheet)
            gap = price - sheet_value(pricing.strict, values, *size)
            if gap > slack:
                continue
            share = random.choice((0.0, 1.0, random.random()))
            walk = NearWalk(pricing.strict, values, pool.worth, random)
            add_sketch(pool, pricing, place, walk.sketch(size, round((slack - gap) * share)))
    return len(pool.patterns) > before


def add_sketch(pool: Pool, pricing: Pricing, place: int, sketch: Sketch) -> None:
    """Take up a sketch on a sheet, unless it is empty or cannot be cut."""
    pattern = None if sketch is None else pricing.pattern(pool.job, place, sketch)
    if pattern is not None:
        pool.add(pattern)
