"""The most valuable pieces that one sheet gives by through cuts, each at most so often: best first, with a bound on what is outside.

Rectangles are built up by laying two of them side by side or on each other; the best promise is followed first. The promise of a rectangle
in the corner of the sheet is what it is worth and the most that the rest of the sheet can be worth where no piece runs out (X. Viswanathan
and A. Bagchi, Best-first search methods for constrained two-dimensional cutting stock problems, Operations Research 41, 1993; from memory).
When no promise is better than what was built, that is the most there is.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np
from numpy.typing import NDArray

from kitwright.cutting.job import Job
from kitwright.cutting.sketch import Leaf, Sketch, Split, freed
from kitwright.cutting.watch import GoesOn, for_ever

__all__ = ["Fullest", "SheetTables", "fullest_sheet", "make_tables"]

MOST_CELLS: Final = 60_000
"""Sheets with more grid squares than this are not looked at: the tables would take seconds."""

WORK_OF_A_NODE: Final = 200
WORK_OF_A_PROMISE: Final = 20
MOST_WORK: Final = 2_000_000
"""Microseconds that a rectangle built upon takes, and one taken up; no more than so many in all, which also keeps the memory small."""

Whole = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class SheetTables:
    """For a sheet of a job: `inside[x, y]`, the most an area of that size can be worth where no piece runs out; `outside[x, y]`, the most
    that what is outside a rectangle of that size in the corner can be worth.
    """

    place: int
    worth: tuple[int, ...]
    inside: Whole
    outside: Whole


@dataclass(frozen=True, slots=True)
class Fullest:
    """The best found: its worth, how many of each kind, the sketch, a worth that no sheet exceeds, and the work (microseconds, counted)."""

    worth: int
    counts: tuple[int, ...]
    sketch: Sketch
    at_most: int
    work: int

    @property
    def is_proved(self) -> bool:
        """Whether nothing can be worth more."""
        return self.worth >= self.at_most


def make_tables(job: Job, place: int, worth: Sequence[int], goes_on: GoesOn = for_ever) -> SheetTables | None:
    """The tables of a sheet, given what a piece of each kind is worth; None where its grid is too fine, or a stop was heard.

    Limits of the trimmer are left out of account, so that the tables are upper bounds with them too.
    """
    width, height = job.sheets[place].width, job.sheets[place].height
    if width * height > MOST_CELLS:
        return None
    inside = np.zeros((width + 1, height + 1), dtype=np.int64)
    for kind, value in zip(job.kinds, worth, strict=True):
        for wide, high in kind.poses:
            if wide <= width and high <= height:
                inside[wide:, high:] = np.maximum(inside[wide:, high:], value)
    for x in range(1, width + 1):
        if not goes_on():
            return None
        for y in range(1, height + 1):
            half, best = x // 2, inside[x, y]
            if half:
                best = max(best, (inside[1 : half + 1, y] + inside[x - 1 : x - half - 1 : -1, y]).max())
            half = y // 2
            if half:
                best = max(best, (inside[x, 1 : half + 1] + inside[x, y - 1 : y - half - 1 : -1]).max())
            inside[x, y] = best
    outside = np.zeros_like(inside)
    for x in range(width, 0, -1):
        if not goes_on():
            return None
        for y in range(height, 0, -1):
            right = (outside[x + 1 :, y] + inside[1 : width - x + 1, y]).max() if x < width else 0
            above = (outside[x, y + 1 :] + inside[x, 1 : height - y + 1]).max() if y < height else 0
            outside[x, y] = max(right, above)
    return SheetTables(place, tuple(worth), inside, outside)


def fullest_sheet(
    job: Job,
    tables: SheetTables,
    most: Sequence[int],
    *,
    nodes: int,
    work: int = MOST_WORK,
    goes_on: GoesOn = for_ever,
) -> Fullest | None:
    """The most valuable pieces of one sheet, at most `most` of each kind; at most `nodes` rectangles are built upon, within the work.

    None for a trimmer with a longest cut or a narrowest strip, which this search knows nothing of.
    """
    sheet = job.sheets[tables.place]
    if job.strip or job.reach < max(sheet.width, sheet.height):
        return None
    return Search(job, tables, np.array(most, dtype=np.int64)).run(nodes, min(work, MOST_WORK), goes_on)


@dataclass(frozen=True, slots=True)
class Block:
    """A rectangle that was built: its size, worth, pieces, and how to cut it."""

    width: int
    height: int
    worth: int
    counts: Whole
    sketch: Sketch


@dataclass(eq=False)
class Search:
    """The state of one search: promises on a heap, and the rectangles that were built upon as columns of numbers."""

    job: Job
    tables: SheetTables
    most: Whole
    heap: list[tuple[int, int, int, Block]] = field(default_factory=list)
    seen: dict[bytes, list[tuple[int, int]]] = field(default_factory=dict)
    closed: list[Block] = field(default_factory=list)
    best: Block | None = None
    pushed: int = 0

    @property
    def work(self) -> int:
        """What was done so far."""
        return WORK_OF_A_NODE * len(self.closed) + WORK_OF_A_PROMISE * self.pushed

    def run(self, nodes: int, work: int, goes_on: GoesOn) -> Fullest:
        """Follow the best promise until none is better than what was built."""
        self.begin()
        columns = Columns(len(self.job.kinds))
        at_most = self.worth
        while self.heap:
            promise, _, _, block = heapq.heappop(self.heap)
            if -promise <= self.worth:
                break
            if len(self.closed) >= nodes or self.work >= work or not goes_on():
                at_most = max(at_most, -promise)
                break
            self.closed.append(block)
            columns.add(block)
            self.build_upon(block, columns)
        return self.answer(max(at_most, self.worth))

    @property
    def worth(self) -> int:
        """Of the best so far."""
        return 0 if self.best is None else self.best.worth

    def answer(self, at_most: int) -> Fullest:
        """The best as it is cut from the sheet."""
        if self.best is None:
            return Fullest(0, (0,) * len(self.job.kinds), None, at_most, self.work)
        sheet, block = self.job.sheets[self.tables.place], self.best
        own, size = (block.width, block.height), (sheet.width, sheet.height)
        sketch = freed(block.sketch, own, size, self.job.reach)
        return Fullest(block.worth, tuple(int(count) for count in block.counts), sketch, at_most, self.work)

    def begin(self) -> None:
        """Every single piece in each of its poses."""
        for number, kind in enumerate(self.job.kinds):
            if not self.most[number] or self.tables.place not in kind.sheets:
                continue
            for pose, (width, height) in enumerate(kind.poses):
                counts = np.zeros(len(self.job.kinds), dtype=np.int64)
                counts[number] = 1
                self.push(width, height, self.tables.worth[number], counts, Leaf(number, pose))

    def push(self, width: int, height: int, worth: int, counts: Whole, sketch: Sketch) -> None:
        """Take up a rectangle, unless it promises nothing better or the same pieces lie in a smaller one."""
        sheet = self.job.sheets[self.tables.place]
        if width > sheet.width or height > sheet.height:
            return
        promise = worth + int(self.tables.outside[width, height])
        if promise <= self.worth:
            return
        known = self.seen.setdefault(counts.tobytes(), [])
        if any(wide <= width and high <= height for wide, high in known):
            return
        known.append((width, height))
        block = Block(width, height, worth, counts, sketch)
        if worth > self.worth:
            self.best = block
        self.pushed += 1
        heapq.heappush(self.heap, (-promise, -worth, self.pushed, block))

    def build_upon(self, block: Block, columns: Columns) -> None:
        """The block beside, and on, every rectangle built upon so far, itself too."""
        sheet = self.job.sheets[self.tables.place]
        wide, high, worth, counts = columns.filled()
        enough = (counts + block.counts <= self.most).all(axis=1)
        for upright in (True, False):
            width = wide + block.width if upright else np.maximum(wide, block.width)
            height = np.maximum(high, block.height) if upright else high + block.height
            fit = np.nonzero(enough & (width <= sheet.width) & (height <= sheet.height))[0]
            promise = worth[fit] + block.worth + self.tables.outside[width[fit], height[fit]]
            for place in fit[promise > self.worth]:
                other = self.closed[place]
                self.push(
                    int(width[place]),
                    int(height[place]),
                    other.worth + block.worth,
                    other.counts + block.counts,
                    joined(other, block, upright=upright),
                )


def joined(one: Block, other: Block, *, upright: bool) -> Sketch:
    """Two rectangles side by side, or one on the other, with what is left over beside the smaller."""
    if upright:
        high = max(one.height, other.height)
        parts = [
            each.sketch if each.height == high else Split(False, each.height, each.sketch, None)
            for each in (one, other)
        ]
        return Split(True, one.width, parts[0], parts[1])
    wide = max(one.width, other.width)
    parts = [each.sketch if each.width == wide else Split(True, each.width, each.sketch, None) for each in (one, other)]
    return Split(False, one.height, parts[0], parts[1])


class Columns:
    """The rectangles built upon, as arrays that grow."""

    def __init__(self, kinds: int) -> None:
        self.count = 0
        self.numbers = np.zeros((256, 3), dtype=np.int64)
        self.counts = np.zeros((256, kinds), dtype=np.int64)

    def add(self, block: Block) -> None:
        """One more."""
        if self.count == len(self.numbers):
            self.numbers = np.concatenate([self.numbers, np.zeros_like(self.numbers)])
            self.counts = np.concatenate([self.counts, np.zeros_like(self.counts)])
        self.numbers[self.count] = (block.width, block.height, block.worth)
        self.counts[self.count] = block.counts
        self.count += 1

    def filled(self) -> tuple[Whole, Whole, Whole, Whole]:
        """Widths, heights, worths and counts."""
        rows = self.numbers[: self.count]
        return rows[:, 0], rows[:, 1], rows[:, 2], self.counts[: self.count]
