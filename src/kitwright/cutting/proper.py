"""A better bound for small batches: from sheets that hold no piece more often than it is wanted (proper patterns).

The fractional programme mixes patterns that repeat a piece of which there is one, and for small batches its bound often stays a little
under the next whole sheet for that reason alone (C. Nitsche, G. Scheithauer, J. Terno, Tighter relaxations for the cutting stock problem,
European Journal of Operational Research 112, 1999; from memory). To count every kind would take too long; so only those are counted that
the best mixture repeats, a few more each time until the bound is met or nothing is repeated (after G. Righini and M. Salani, Networks 51,
2008, who let the state of a dynamic programme grow like that; from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

from kitwright.cutting.blocks import Limits, find_dear
from kitwright.cutting.bound import bound_from, price_step, total_worth
from kitwright.cutting.generate import Pricing, whole_scale
from kitwright.cutting.job import Job, ranges_of
from kitwright.cutting.knapsack import sheet_value, solve_table, solving_work
from kitwright.cutting.master import Master, Prices
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.tally import make_tally
from kitwright.cutting.watch import Watch

__all__ = ["ProperBound"]

COUNTED_MORE: Final = 6
"""So many kinds more are counted at a time: those that the best mixture repeats most."""

ENOUGH: Final = 60
"""So many new patterns end a round."""

MOST_WORK: Final = 1_000_000
"""A round that would take longer than so many microseconds ends the attempt: what it proved would take too long to check, too."""

TABLES_A_ROUND: Final = 4
"""A round counts like so many tables worked out, besides the rectangles."""

NEARLY: Final = 1e-6


class ProperBound:
    """Tries to prove the best plan of a small batch, each time there is a better one. It lives as long as one search.

    `patterns` are those of the fractional programme.
    """

    def __init__(self, job: Job, pricings: Sequence[Pricing], patterns: Sequence[Pattern]) -> None:
        self.job = job
        self.demand = job.demand
        self.pricings = pricings
        self.patterns = patterns
        self.granted = 0
        self.work = 0
        """Microseconds that may be used in all, and what is left of them: less than none where a round took longer."""
        self.round_work = TABLES_A_ROUND * sum(solving_work(pricing.table) for pricing in pricings)
        self.value: int | None = None
        """Of the plan that is tried to be proved."""
        self.prices: Prices | None = None
        """What the mixture of the patterns is worth now; None when there is no more to be done for this plan."""
        self.counted: tuple[int, ...] = ()
        self.master = Master(job)

    def prove(self, watch: Watch, patterns: Iterable[Pattern], *, work: int) -> None:
        """Tell the watch of a bound that meets the best plan, if these patterns and others allow no mixture that is cheaper.

        `work` is about how many microseconds more it may take (counted, not measured), besides what was not used before. Where that is
        not enough, the next call goes on.
        """
        self.granted += work
        self.work += work
        if watch.value is None:
            return
        goal = watch.value - price_step(self.job)
        if watch.value != self.value:
            self.value = watch.value
            known = [*self.patterns, *patterns]
            # the mixture is dearest with all kinds counted: if it is still too cheap then, nothing can be proved
            is_hopeful = goal > 0 and self.begin(known, range(len(self.job.kinds))).value > goal
            self.prices = self.begin(known, ()) if is_hopeful else None
        elif self.prices is not None and self.work >= self.round_work:
            for pattern in patterns:
                self.master.add(self.clipped(pattern))
            self.prices = self.master.solve()
        while self.prices is not None and self.work >= self.round_work and watch.goes_on("bound"):
            if self.prices.value > goal * (1 + NEARLY):
                self.prices = self.master.solve() if self.add_dear(self.prices, goal, watch) else None
            else:
                repeated = self.repeated(self.prices)
                self.prices = self.begin(self.master.patterns, (*self.counted, *repeated)) if repeated else None

    def begin(self, patterns: Sequence[Pattern], counted: Sequence[int]) -> Prices:
        """Begin anew with these patterns and with these kinds counted."""
        self.counted, self.master = tuple(counted), Master(self.job)
        for pattern in patterns:
            self.master.add(self.clipped(pattern))
        return self.master.solve()

    def clipped(self, pattern: Pattern) -> Pattern:
        """A pattern without what it has too much of the kinds that are counted."""
        counts = list(pattern.counts)
        for kind in self.counted:
            counts[kind] = min(counts[kind], self.demand[kind])
        return Pattern(pattern.sheet, tuple(counts), None)

    def repeated(self, prices: Prices) -> list[int]:
        """The kinds that the mixture has too much of, those that it repeats most."""
        repeated: dict[int, float] = {}
        for pattern, times in zip(self.master.patterns, prices.times, strict=True):
            if times > NEARLY:
                for kind, (count, wanted) in enumerate(zip(pattern.counts, self.demand, strict=True)):
                    if count > wanted:
                        repeated[kind] = repeated.get(kind, 0.0) + times * (count - wanted)
        return sorted(repeated, key=lambda kind: -repeated[kind])[:COUNTED_MORE]

    def add_dear(self, prices: Prices, goal: int, watch: Watch) -> bool:
        """Add patterns that these worths leave out of account; if there are none, tell the watch of the bound. False to give up."""
        job, scale = self.job, whole_scale(self.job)
        worth = [int(each * scale) for each in prices.worth]
        rent = [
            0 if sheet.count is None else max(0, math.ceil(each * scale))
            for each, sheet in zip(prices.rent, job.sheets, strict=True)
        ]
        # the largest scale at which these worths prove more than the goal, and so what each sheet may hold then
        scale = (total_worth(job, worth, rent, ranges_of(job)) - 1) // goal
        most = [scale * sheet.price + each for sheet, each in zip(job.sheets, rent, strict=True)]
        # a certificate that counts nothing is checked as if any number were wanted, so at least one kind is counted
        counted = self.counted or (0,)
        limits = Limits(worth, most, make_tally({kind: self.demand[kind] for kind in counted}))
        self.work -= self.round_work
        watch.spend(self.round_work)
        is_proved, goes_on, is_counting = True, False, False
        for pricing in self.pricings:
            inside = solve_table(pricing.table, worth)
            sheets = [(place, job.sheets[place]) for place in pricing.sheets]
            if all(
                sheet_value(pricing.table, inside, each.width, each.height) <= most[place] for place, each in sheets
            ):
                continue
            is_counting = True
            allowed = min(MOST_WORK, self.granted)
            dear = find_dear(job, pricing, inside, limits, enough=ENOUGH, work=allowed, goes_on=watch.ear("bound"))
            self.work -= dear.work
            watch.spend(dear.work)
            is_proved = is_proved and dear.is_all and not dear.patterns
            added = [pattern for pattern in dear.patterns if self.master.add(pattern)]
            is_cut_short = not dear.is_all and allowed < MOST_WORK
            goes_on = goes_on or bool(added) or is_cut_short
        if is_proved:
            bound = bound_from(job, worth, rent, scale, ranges_of(job))
            names = [piece.name for kind in counted for piece in job.kinds[kind].pieces] if is_counting else []
            watch.tell_bound(replace(bound, counted=tuple(sorted(names))))
        return goes_on
