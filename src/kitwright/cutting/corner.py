"""Whole plans next to a fractional one: a few other patterns beside those that it stands on, so that everything comes out whole.

Take the patterns that a fractional answer stands on, and let the numbers of all others be chosen. Then their own numbers follow, and are
whole just if the others add up to the right element of a finite group. So the others are a shortest way in that group, for which there
is a table of all its elements (Gomory, "On the relation between integer and noninteger solutions to linear programs", Proceedings of
the National Academy of Sciences 53, 1965). Only that no number may be below zero is not seen there: what would be is made dearer, step
by step.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from kitwright.cutting.group import BEYOND, Group, Ints, make_group
from kitwright.cutting.job import Job, ranges_of
from kitwright.cutting.master import Basis
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import GoesOn, for_ever
from kitwright.cutting.ways import Reals, Ways

__all__ = ["Corner", "make_corner"]

TURNS: Final = 8
"""So often the ways are looked for, each time with what fell below zero made dearer."""

MOST_STEPS: Final = 2_000_000
"""In a large group there are fewer turns: elements times turns are no more than this, but there are two in any case."""

FINE: Final = 100_000
"""Costs are counted in so many parts of what may be lost."""

OF_A_STEP: Final = 0.002
"""Every step costs at least this share of what may be lost, so that ways have few of them."""

AT_LEAST: Final = 0.5
"""How often a pattern should be cut on average over the ways, so that most of them do not fall below zero."""

PULL: Final = 0.1
SETTLING: Final = 6
"""What falls short is made dearer by this share of what may be lost, less and less over so many turns."""

FARTHEST: Final = 3.0
"""A number farther than this from what it should be counts no more."""

Used = list[tuple[Pattern, int]]


class Corner:
    """A basis, the steps beside it (other patterns, more of a kind than is wanted, fewer sheets than allowed) and what each costs.

    `numbers` are those of the basic patterns, then what the rows that are not tight have to spare; `uses` is how a step changes them.
    """

    def __init__(self, job: Job, basis: Basis, group: Group, patterns: Sequence[Pattern], below: int) -> None:
        self.job = job
        self.basis = basis
        self.group = group
        rows = list(basis.rows)
        self.own = vectors_of(job, basis.patterns)
        self.inverse: Reals = np.linalg.inv(self.own[:, rows].T.astype(float))
        price = prices_of(job, basis.patterns)
        worth: Reals = np.zeros(self.own.shape[1])
        worth[rows] = price @ self.inverse
        right = np.array(basis.right)
        self.slack = min(below - float(worth[rows] @ right), max(sheet.price for sheet in job.sheets))
        basic = {(pattern.sheet, pattern.counts) for pattern in basis.patterns}
        offered = [pattern for pattern in patterns if (pattern.sheet, pattern.counts) not in basic]
        vectors = vectors_of(job, offered)
        loss = prices_of(job, offered) - vectors @ worth
        kept = np.flatnonzero(loss <= self.slack)
        self.patterns: list[Pattern | None] = [*(offered[rank] for rank in kept.tolist()), *(None for _ in rows)]
        spare = np.zeros((len(rows), self.own.shape[1]), dtype=np.int64)
        spare[np.arange(len(rows)), rows] = -np.array(basis.ways)
        self.steps: Ints = np.concatenate([vectors[kept], spare])
        self.loss: Reals = np.maximum(0.0, np.concatenate([loss[kept], -spare @ worth]))
        self.cost: Reals = np.concatenate([prices_of(job, offered)[kept], np.zeros(len(rows))])
        whole = self.inverse @ right
        uses = self.inverse @ self.steps[:, rows].T
        loose, signs, bounds = self.loose_rows()
        self.numbers: Reals = np.concatenate([whole, signs * (whole @ self.own[:, loose] - bounds)])
        more = signs[:, None] * (self.own[:, loose].T @ uses - self.steps[:, loose].T)
        self.uses: Reals = np.concatenate([uses, more])
        elements, target = group.elements(self.steps[:, rows]), group.elements(right[None, :])[0]
        self.ways = Ways(group, elements, target, self.numbers, self.uses)
        self.turns = 0
        """How often ways were looked for so far."""

    def loose_rows(self) -> tuple[list[int], Reals, Reals]:
        """The rows that are not tight: which, whether more (1) or less (-1) is allowed, and than what."""
        kinds, tight = len(self.job.kinds), set(self.basis.rows)
        found = [(row, 1.0, float(count)) for row, count in enumerate(self.job.demand) if row not in tight]
        found += [
            (kinds + place, -1.0, float(high))
            for place, (_, high) in enumerate(ranges_of(self.job))
            if high is not None and kinds + place not in tight
        ]
        return (
            [row for row, _, _ in found],
            np.array([sign for _, sign, _ in found]),
            np.array([end for *_, end in found]),
        )

    def search(self, below: int, random: np.random.Generator, goes_on: GoesOn = for_ever) -> Used | None:
        """The cheapest whole plan met that costs less than `below`, or None. The same generator gives the same plan."""
        best: Used | None = None
        dearer: Reals = np.zeros(len(self.numbers))
        for turn in range(max(2, min(TURNS, MOST_STEPS // self.group.order))):
            if not goes_on():
                break
            self.turns += 1
            costs = np.maximum(0.0, self.loss + dearer @ self.uses) / self.slack + OF_A_STEP
            times = self.ways.walk(np.minimum(costs * FINE, BEYOND).astype(np.int32), random)
            if not len(times):
                break
            numbers = np.rint(self.numbers[:, None] - self.uses @ times.T)
            price = prices_of(self.job, self.basis.patterns) @ numbers[: len(self.basis.patterns)] + self.cost @ times.T
            if not turn and price.min() > below - 0.5:
                # Not even with numbers below zero: making steps dearer would not help.
                break
            price[(numbers < 0).any(axis=0)] = np.inf
            rank = int(price.argmin())
            if price[rank] < below - 0.5:
                best, below = self.plan(numbers[:, rank], times[rank]), round(price[rank])
            short = np.minimum(AT_LEAST - numbers.mean(axis=1), FARTHEST)
            short = np.where((dearer > 0) | (short > 0), np.maximum(short, -FARTHEST), 0.0)
            if short.any():
                pull = PULL / (1 + turn / SETTLING) * self.slack / float(short @ short)
                dearer = np.maximum(0.0, dearer + pull * short)
        return best if best is not None and is_complete(self.job, best) else None

    def plan(self, numbers: Reals, times: Ints) -> Used:
        """The patterns and how often each is cut."""
        chosen = [
            *zip(self.basis.patterns, numbers.tolist(), strict=False),
            *zip(self.patterns, times.tolist(), strict=True),
        ]
        return [(pattern, round(count)) for pattern, count in chosen if pattern is not None and count]


def make_corner(job: Job, basis: Basis, patterns: Sequence[Pattern], below: int) -> Corner | None:
    """What is needed to look for whole plans beside a basis that cost less than `below`; None where its group is too large for that."""
    rows = list(basis.rows)
    group = make_group(vectors_of(job, basis.patterns)[:, rows].T.copy())
    corner = None if group is None else Corner(job, basis, group, patterns, below)
    return corner if corner is not None and corner.slack > 0 else None


def is_complete(job: Job, used: Used) -> bool:
    """Whether a plan gives all that is wanted from the sheets that there are. What was worked out with fractions is counted here."""
    times: Ints = np.array([count for _, count in used], dtype=np.int64)
    made = times @ vectors_of(job, [pattern for pattern, _ in used])
    sheets = made[len(job.kinds) :].tolist()
    return bool((times > 0).all() and (made[: len(job.kinds)] >= job.demand).all()) and all(
        high is None or count <= high for count, (_, high) in zip(sheets, ranges_of(job), strict=True)
    )


def vectors_of(job: Job, patterns: Sequence[Pattern]) -> Ints:
    """What patterns give of each kind and take of each sheet, one in each row."""
    kinds = len(job.kinds)
    vectors = np.zeros((len(patterns), kinds + len(job.sheets)), dtype=np.int64)
    for rank, pattern in enumerate(patterns):
        vectors[rank, :kinds] = pattern.counts
        vectors[rank, kinds + pattern.sheet] = 1
    return vectors


def prices_of(job: Job, patterns: Sequence[Pattern]) -> Reals:
    """What patterns cost."""
    return np.array([job.sheets[pattern.sheet].price for pattern in patterns], dtype=float)
