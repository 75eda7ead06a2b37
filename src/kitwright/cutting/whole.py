"""From fractions to whole sheets: an integer programme over the patterns, with more patterns near the optimum as long as it fails."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random
from typing import Final

from kitwright.cutting.bound import price_step
from kitwright.cutting.generate import Pricing, whole_scale
from kitwright.cutting.job import Job
from kitwright.cutting.knapsack import Values, sheet_value, solve_table
from kitwright.cutting.master import Master, Prices, choose_whole
from kitwright.cutting.near import NearWalk
from kitwright.cutting.sketch import Pattern, count_kinds
from kitwright.cutting.watch import Watch

__all__ = ["find_whole_plan"]

AT_A_TIME: Final = 200
"""New patterns before the integer programme is asked again."""

WALKS: Final = 400
"""Random walks for them at the most."""

MOST_COLUMNS: Final = 1_500
"""The integer programme is asked with the patterns that lose least, up to so many (and never more than the effort allows)."""


@dataclass(slots=True, eq=False)
class Pool:
    """The patterns that may be in a better plan, and what each loses against the fractional programme (in 1 / scale)."""

    job: Job
    prices: Prices
    scale: int
    worth: list[int]
    patterns: dict[tuple[int, tuple[int, ...]], tuple[int, Pattern]]

    def add(self, pattern: Pattern) -> None:
        """Take up a pattern; the copies of a piece beyond what is wanted count for nothing."""
        value = sum(
            each * min(count, wanted)
            for each, count, wanted in zip(self.worth, pattern.counts, self.job.demand, strict=True)
        )
        loss = self.job.sheets[pattern.sheet].price * self.scale + round(self.prices.rent[pattern.sheet] * self.scale)
        self.patterns.setdefault((pattern.sheet, pattern.counts), (loss - value, pattern))

    def within(self, slack: int, most: int) -> list[Pattern]:
        """The patterns that lose no more than `slack`, those that lose least first."""
        fitting = sorted(
            (entry for entry in self.patterns.values() if entry[0] <= slack),
            key=lambda entry: (entry[0], entry[1].sheet, entry[1].counts),
        )
        return [pattern for _, pattern in fitting[:most]]


def find_whole_plan(
    job: Job,
    pricings: Sequence[Pricing],
    master: Master,
    prices: Prices,
    watch: Watch,
    *,
    nodes: int,
    patterns: int,
    random: Random,
) -> None:
    """Look for cheaper plans until one is proved best, `patterns` patterns were looked at, or the watch says stop."""
    scale = whole_scale(job)
    pool = Pool(job, prices, scale, [round(each * scale) for each in prices.worth], {})
    for pattern in master.patterns:
        pool.add(pattern)
    tables = [solve_table(pricing.table, pool.worth) for pricing in pricings]
    step = price_step(job)
    counts = [sheet.count for sheet in job.sheets]
    failures = 0
    watch.others = pool.within(scale * (watch.bound.value + step), MOST_COLUMNS)
    while watch.goes_on("whole sheets"):
        goal = watch.value - step if watch.value is not None else watch.bound.value + 10 * step
        slack = round((goal - prices.value) * scale) + 1000
        chosen = pool.within(slack, min(patterns, MOST_COLUMNS))
        watch.others = chosen
        answer = choose_whole(job, chosen, job.demand, counts, below=watch.value, enough=watch.bound.value, nodes=nodes)
        if answer is not None and watch.tell_plan(answer):
            failures = 0
            continue
        before = len(pool.patterns)
        failures += 1
        if (
            before >= patterns
            or failures * AT_A_TIME >= patterns
            or any(pricing.strict.is_limited for pricing in pricings)
        ):
            return
        widen(pool, pricings, tables, slack, random)


def widen(pool: Pool, pricings: Sequence[Pricing], tables: Sequence[Values], slack: int, random: Random) -> None:
    """Put random patterns into the pool that lose no more than `slack`."""
    before = len(pool.patterns)
    job = pool.job
    for _ in range(WALKS):
        for pricing, values in zip(pricings, tables, strict=True):
            for place in pricing.sheets:
                sheet = job.sheets[place]
                price = sheet.price * pool.scale + round(pool.prices.rent[place] * pool.scale)
                gap = price - sheet_value(pricing.table, values, sheet.width, sheet.height)
                if gap > slack:
                    continue
                share = random.choice((0.0, 1.0, random.random()))
                walk = NearWalk(pricing.table, values, pool.worth, random)
                sketch = walk.sketch((sheet.width, sheet.height), round((slack - gap) * share))
                if sketch is not None:
                    pool.add(Pattern(place, count_kinds(sketch, len(job.kinds)), sketch))
        if len(pool.patterns) >= before + AT_A_TIME:
            return
