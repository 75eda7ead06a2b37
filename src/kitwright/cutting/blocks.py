"""Sheets worth more than they may cost although some kinds are counted: rectangles built up from pieces, as long as they promise enough.

Rectangles are built up by laying two of them side by side or on each other. The promise of a rectangle is what it is worth and the most
that can lie around it on a sheet, less what the sheet may cost: by the table where no piece runs out, and by the pieces that are worth
most for their area where each is used once (X. Viswanathan and A. Bagchi, Operations Research 41, 1993; from memory). A rectangle with
another one that is no larger, worth no less and uses no counted kind more often is left out.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Final

import numpy as np
import numpy.typing as npt

from kitwright.cutting.around import NOWHERE, solve_around
from kitwright.cutting.generate import Pricing
from kitwright.cutting.job import Job
from kitwright.cutting.knapsack import Values, place_of
from kitwright.cutting.sketch import Leaf, Pattern, Sketch, Split, count_kinds, freed
from kitwright.cutting.tally import Tallies, Tally
from kitwright.cutting.watch import GoesOn, for_ever

__all__ = ["Dear", "Limits", "find_dear"]

HASTE: Final = 0.8
"""What a rectangle promises beyond its worth counts only so much when the next one is chosen: so full sheets are found early."""

WORK_OF_LOOKING: Final = 60
LOOKS_A_MICROSECOND: Final = 30
WORK_OF_BUILDING: Final = 25
BUILT_A_MICROSECOND: Final = 60
"""About how long it takes to look whether some rectangles are beaten, and to build upon one: by itself and for those there are."""

AT_ONCE: Final = 16
"""So many rectangles are built upon together."""

ROOM: Final = 256
"""The columns begin with room for so many rectangles."""

Whole = npt.NDArray[np.int64]
Places = npt.NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Limits:
    """What is asked: the worth of each kind, what a sheet (by its place in the job) may hold at most, and which kinds are counted."""

    worth: Sequence[int]
    most: Sequence[int]
    tally: Tally


@dataclass(frozen=True, slots=True)
class Dear:
    """Patterns worth more than their sheet may hold, what it took to find them, and whether no others need be looked for."""

    patterns: tuple[Pattern, ...]
    work: int
    is_all: bool


def find_dear(
    job: Job,
    pricing: Pricing,
    inside: Values,
    limits: Limits,
    *,
    enough: int,
    work: int,
    goes_on: GoesOn = for_ever,
) -> Dear:
    """Sheets of a pricing that are worth more than the limits allow: at least `enough` where there are so many.

    `inside` are the values of its table for these worths, `work` about how many microseconds it may take (counted, not measured).
    Limits of the trimmer are left out of account.
    """
    return Building(job, pricing, inside, limits).find(enough, work, goes_on)


class AreaWorths:
    """What pieces that lie in an area (grid squares) are worth at most, each used as often as it is wanted."""

    def __init__(self, job: Job, worth: Sequence[int]) -> None:
        ranked = sorted(range(len(worth)), key=lambda kind: -worth[kind] / job.kinds[kind].area)
        self.areas = list(
            accumulate((float(job.kinds[kind].area * job.kinds[kind].count) for kind in ranked), initial=0.0)
        )
        self.worths = list(accumulate((float(worth[kind] * job.kinds[kind].count) for kind in ranked), initial=0.0))

    def of(self, areas: Whole) -> Whole:
        """Of these areas, rounded up."""
        return np.asarray(np.floor(np.interp(areas, self.areas, self.worths)).astype(np.int64) + 1)


class Building:
    """The state of one search: the rectangles found as columns of numbers, those built upon, and a heap of the others."""

    def __init__(self, job: Job, pricing: Pricing, inside: Values, limits: Limits) -> None:
        self.job = job
        self.limits = limits
        self.sheets = [(place, job.sheets[place], limits.most[place]) for place in pricing.sheets]
        self.wide = max(sheet.width for _, sheet, _ in self.sheets)
        self.high = max(sheet.height for _, sheet, _ in self.sheets)
        table = pricing.table
        roots = [
            (place_of(table.across, sheet.width), place_of(table.up, sheet.height), -most)
            for _, sheet, most in self.sheets
        ]
        self.around = solve_around(pricing.surroundings, inside, roots)
        self.across, self.up = np.array(table.across.points), np.array(table.up.points)
        self.beside = AreaWorths(job, limits.worth)
        self.kinds = pricing.kinds
        self.waiting: list[tuple[float, int]] = []
        """A heap: how good a rectangle looks, and its number."""
        self.made_of: list[Leaf | tuple[int, int, bool]] = []
        """A piece; or two rectangles, the second beside the first or on it."""
        self.known = Rectangles(limits.tally)
        self.built_upon = Rectangles(limits.tally)
        self.numbers: list[int] = []
        """Of those built upon."""
        self.dear: list[int] = []
        self.worths: dict[tuple[int, ...], int] = {}
        """The most that a rectangle of this height, width and use of the counted kinds is worth."""

    def find(self, enough: int, most: int, goes_on: GoesOn) -> Dear:
        """Follow what looks best until enough was found, nothing is left, or the work is more than it may be."""
        self.begin()
        work = 0
        while self.waiting and len(self.dear) < enough and work < most and goes_on():
            work += self.look_at_some()
        best = sorted(self.dear, key=lambda number: (-self.known.worth(number), number))[: 2 * enough]
        found = {(each.sheet, each.counts): each for number in best for each in self.patterns_of(number)}
        return Dear(tuple(found.values()), work, is_all=not self.waiting)

    def look_at_some(self) -> int:
        """Build upon the next ones that are not beaten; how much work that was."""
        there, before = self.built_upon, self.built_upon.count
        next_ones = np.array([heapq.heappop(self.waiting)[1] for _ in range(min(AT_ONCE, len(self.waiting)))])
        sizes, uses = self.known.sizes[:, next_ones], self.known.uses[:, next_ones]
        is_beaten = there.beat(sizes, uses).any(axis=1)
        next_ones, sizes, uses = next_ones[~is_beaten], sizes[:, ~is_beaten], uses[:, ~is_beaten]
        there.add(sizes, uses)
        by_each_other = np.asarray(np.tril(there.beat(sizes, uses)[:, before:], -1).any(axis=1))
        there.keep(before, ~by_each_other)
        fresh = there.count - before
        self.numbers += next_ones[~by_each_other].tolist()
        if fresh:
            self.build_upon(fresh)
        return (
            WORK_OF_LOOKING + before // LOOKS_A_MICROSECOND + fresh * (WORK_OF_BUILDING + before // BUILT_A_MICROSECOND)
        )

    def begin(self) -> None:
        """Every single piece in each of its poses."""
        worth, tally = self.limits.worth, self.limits.tally
        leaves = [
            (Leaf(kind, pose), width, height, worth[kind])
            for kind in self.kinds
            if worth[kind] > 0
            for pose, (width, height) in enumerate(self.job.kinds[kind].poses)
            if width <= self.wide and height <= self.high
        ]
        if leaves:
            uses = np.concatenate([tally.of(leaf.kind) for leaf, *_ in leaves], axis=1)
            sizes = np.array([sizes for _, *sizes in leaves], dtype=np.int64).T
            beyond = self.beyond(sizes)
            good = np.flatnonzero(sizes[2] + beyond > 0)
            kept = self.take_up(sizes[:, good], uses[:, good], beyond[good])
            self.made_of += [leaves[good[rank]][0] for rank in kept]

    def build_upon(self, fresh: int) -> None:
        """The last ones beside, and on, every one built upon so far, themselves too."""
        sizes, uses = self.built_upon.all()
        own, own_uses = sizes[:, -fresh:], uses[:, -fresh:]
        free = self.limits.tally.fit(uses, own_uses)
        free[:, -fresh:] &= np.tri(fresh, dtype=np.bool_)  # two of the last ones only once
        before = len(self.numbers) - fresh
        for is_beside, limit in ((True, self.wide), (False, self.high)):
            along, side = (0, 1) if is_beside else (1, 0)
            lengths = own[along][:, None] + sizes[along]
            rows, columns = np.nonzero(free & (lengths <= limit))
            made = np.empty((3, len(rows)), dtype=np.int64)
            made[along] = lengths[rows, columns]
            made[side] = np.maximum(own[side, rows], sizes[side, columns])
            made[2] = own[2, rows] + sizes[2, columns]
            beyond = self.beyond(made)
            good = np.flatnonzero(made[2] + beyond > 0)
            rows, columns = rows[good], columns[good]
            kept = self.take_up(made[:, good], own_uses[:, rows] + uses[:, columns], beyond[good])
            pairs = zip((rows[kept] + before).tolist(), columns[kept].tolist(), strict=True)
            self.made_of += [(self.numbers[one], self.numbers[other], is_beside) for one, other in pairs]

    def take_up(self, sizes: Whole, uses: Tallies, beyond: Whole) -> list[int]:
        """Add rectangles to the known and waiting ones, but for those that are there already; which of them."""
        kept = []
        for place, (worth, *key) in enumerate(zip(*sizes[::-1].tolist(), *uses.tolist(), strict=True)):
            if worth > self.worths.get(tuple(key), 0):
                self.worths[tuple(key)] = worth
                kept.append(place)
        sizes, uses, first = sizes[:, kept], uses[:, kept], self.known.count
        self.known.add(sizes, uses)
        looks = -sizes[2] - HASTE * beyond[kept]
        for look in zip(looks.tolist(), range(first, self.known.count), strict=True):
            heapq.heappush(self.waiting, look)
        dear = np.zeros(len(kept), dtype=np.bool_)
        for _, sheet, most in self.sheets:
            dear |= (sizes[0] <= sheet.width) & (sizes[1] <= sheet.height) & (sizes[2] > most)
        self.dear += (first + np.flatnonzero(dear)).tolist()
        return kept

    def beyond(self, sizes: Whole) -> Whole:
        """The most that can lie around rectangles of these sizes, less what the sheet may hold."""
        around = self.around[places_of(self.across, sizes[0]), places_of(self.up, sizes[1])]
        area = sizes[0] * sizes[1]
        beside = np.full(len(area), NOWHERE)
        for _, sheet, most in self.sheets:
            rest = sheet.width * sheet.height - area
            np.maximum(beside, np.where(rest >= 0, self.beside.of(rest) - most, NOWHERE), out=beside)
        return np.asarray(np.minimum(around, beside))

    def patterns_of(self, number: int) -> Iterator[Pattern]:
        """The rectangle in the corner of every sheet that may not hold so much."""
        width, height, worth = self.known.size(number)
        for place, sheet, most in self.sheets:
            if worth > most and width <= sheet.width and height <= sheet.height:
                sketch = freed(self.sketch_of(number), (width, height), (sheet.width, sheet.height), self.job.reach)
                yield Pattern(place, count_kinds(sketch, len(self.job.kinds)), sketch)

    def sketch_of(self, number: int) -> Sketch:
        """How a rectangle is cut."""
        made_of = self.made_of[number]
        if isinstance(made_of, Leaf):
            return made_of
        one, other, is_beside = made_of
        width, height, _ = self.known.size(number)
        parts = []
        for part in (one, other):
            wide, high, _ = self.known.size(part)
            size = (wide, height) if is_beside else (width, high)
            parts.append(freed(self.sketch_of(part), (wide, high), size, self.job.reach))
        at = self.known.size(one)[0 if is_beside else 1]
        return Split(is_beside, at, parts[0], parts[1])


class Rectangles:
    """Columns of width, height and worth, and of how often each uses the counted kinds, that grow."""

    def __init__(self, tally: Tally) -> None:
        self.tally = tally
        self.count = 0
        self.sizes = np.zeros((3, ROOM), dtype=np.int64)
        self.uses = np.repeat(tally.nothing, ROOM, axis=1)

    def add(self, sizes: Whole, uses: Tallies) -> None:
        """Put columns at the end."""
        first, self.count = self.count, self.count + sizes.shape[1]
        while self.count > self.sizes.shape[1]:
            self.sizes = np.concatenate([self.sizes, np.zeros_like(self.sizes)], axis=1)
            self.uses = np.concatenate([self.uses, np.zeros_like(self.uses)], axis=1)
        self.sizes[:, first : self.count] = sizes
        self.uses[:, first : self.count] = uses

    def all(self) -> tuple[Whole, Tallies]:
        """All columns."""
        return self.sizes[:, : self.count], self.uses[:, : self.count]

    def keep(self, first: int, which: npt.NDArray[np.bool_]) -> None:
        """Of the columns from the first on, keep only these."""
        sizes, uses = self.sizes[:, first : self.count][:, which], self.uses[:, first : self.count][:, which]
        self.count = first
        self.add(sizes, uses)

    def size(self, number: int) -> tuple[int, int, int]:
        """The width, height and worth of one."""
        width, height, worth = self.sizes[:, number].tolist()
        return width, height, worth

    def worth(self, number: int) -> int:
        """The worth of one."""
        return self.size(number)[2]

    def beat(self, size: Whole, uses: Tallies) -> npt.NDArray[np.bool_]:
        """For each of some others (rows), which of these are no larger, worth no less and use nothing more often."""
        sizes, used = self.all()
        smaller = (sizes[0] <= size[0][:, None]) & (sizes[1] <= size[1][:, None]) & (sizes[2] >= size[2][:, None])
        return np.asarray(smaller & self.tally.within(used, uses))


def places_of(points: Whole, lengths: Whole) -> Places:
    """For each length, the place of the first point that is no shorter (or of the last)."""
    return np.minimum(np.searchsorted(points, lengths), len(points) - 1)
