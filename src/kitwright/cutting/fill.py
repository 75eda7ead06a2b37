"""The plain constructive search: fill one sheet after another, corner by corner, with what is still wanted."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

from kitwright.cutting.job import Job
from kitwright.cutting.sketch import Leaf, Pattern, Sketch, Split, count_kinds
from kitwright.cutting.watch import GoesOn, for_ever

__all__ = ["RULES", "Filler", "Liking", "fill_batch", "fill_left", "likings"]

Rule = Callable[[int, int], int]
"""How much a piece of this width and height wants to be laid early."""


def by_area(width: int, height: int) -> int:
    """Large pieces first."""
    return width * height


def by_longest_side(width: int, height: int) -> int:
    """Long pieces first."""
    return max(width, height)


def by_width(width: int, height: int) -> int:
    """Wide pieces first, then high ones."""
    return width * 1_000_000 + height


def by_height(width: int, height: int) -> int:
    """High pieces first, then wide ones."""
    return height * 1_000_000 + width


RULES: tuple[Rule, ...] = (by_area, by_longest_side, by_width, by_height)


Liking = Mapping[tuple[int, int], float]
"""The same, worked out for each kind and pose of a job."""


Score = tuple[float, float]
"""How much area a sheet gives for its price, and how much of it is covered."""


class Wish(NamedTuple):
    """How much a pose of a kind is liked (less is more), and its size."""

    wish: float
    kind: int
    pose: int
    width: int
    height: int


class Block(NamedTuple):
    """A column (upright) or row of `times` equal pieces along one edge of an area, and how good that is (less is better)."""

    waste: float
    kind: int
    pose: int
    upright: bool
    times: int


def likings(job: Job, rules: Sequence[Rule]) -> list[Liking]:
    """For each rule, how much every pose of every kind wants to be laid early."""
    return [
        {
            (kind, pose): float(rule(*size))
            for kind, entry in enumerate(job.kinds)
            for pose, size in enumerate(entry.poses)
        }
        for rule in rules
    ]


def fill_batch(job: Job, goes_on: GoesOn = for_ever) -> tuple[list[tuple[Pattern, int]], tuple[int, ...]]:
    """Patterns and how often each is cut for the whole job, and what is left of the demand when no sheet is left or a stop is heard."""
    return fill_left(job, job.demand, [sheet.count for sheet in job.sheets], likings(job, RULES), goes_on)


def fill_left(
    job: Job,
    wanted: Sequence[int],
    stock: Sequence[int | None],
    choices: Sequence[Liking],
    goes_on: GoesOn = for_ever,
) -> tuple[list[tuple[Pattern, int]], tuple[int, ...]]:
    """The same for what is still wanted, from the stock that is left, with the best of several likings for every sheet."""
    left = list(wanted)
    stock_left = list(stock)
    filler = Filler(job, choices)
    used: list[tuple[Pattern, int]] = []
    while any(left):
        pattern = filler.best_pattern(left, stock_left, goes_on)
        if pattern is None:
            break
        times = min(left[kind] // count for kind, count in enumerate(pattern.counts) if count)
        here = stock_left[pattern.sheet]
        if here is not None:
            times = min(times, here)
            stock_left[pattern.sheet] = here - times
        left = [count - times * pattern.counts[kind] for kind, count in enumerate(left)]
        used.append((pattern, times))
    return used, tuple(left)


class Filler:
    """Fills sheets of a job. What a sheet was filled with is kept, and serves again as long as no less is wanted that it could hold."""

    def __init__(self, job: Job, choices: Sequence[Liking]) -> None:
        self.job = job
        self.orders = [[in_order(job, sheet, liking) for liking in choices] for sheet in range(len(job.sheets))]
        self.most = [
            tuple(
                (kind, sheet.width * sheet.height // job.kinds[kind].area)
                for kind in sorted({each.kind for each in orders[0]})
            )
            for sheet, orders in zip(job.sheets, self.orders, strict=True)
        ]
        """The kinds that a sheet can hold, and how many of each by area alone."""
        self.filled: dict[int, tuple[tuple[int, ...], list[tuple[Score, Pattern]]]] = {}

    def best_pattern(
        self, left: Sequence[int], stock_left: Sequence[int | None], goes_on: GoesOn = for_ever
    ) -> Pattern | None:
        """The pattern that covers most for its price among all sheets and likings; None if nothing fits on what is there, or at a stop."""
        best: tuple[Score, Pattern] | None = None
        for sheet in range(len(self.job.sheets)):
            if stock_left[sheet] == 0:
                continue
            wanted = tuple(min(left[kind], most) for kind, most in self.most[sheet])
            if not any(wanted):
                continue
            if sheet not in self.filled or self.filled[sheet][0] != wanted:
                if not goes_on():
                    return None
                self.filled[sheet] = (wanted, self.fillings(sheet, wanted))
            for score, pattern in self.filled[sheet][1]:
                if best is None or score > best[0]:
                    best = (score, pattern)
        return best[1] if best else None

    def fillings(self, index: int, wanted: Sequence[int]) -> list[tuple[Score, Pattern]]:
        """A sheet filled by every liking, and how good each is; `wanted` of the kinds that it can hold."""
        job, sheet, found = self.job, self.job.sheets[index], []
        for order in self.orders[index]:
            left = {kind: count for (kind, _), count in zip(self.most[index], wanted, strict=True) if count}
            sketch = fill_sheet(job, (sheet.width, sheet.height), left, order)
            if sketch is None:
                continue
            pattern = Pattern(index, count_kinds(sketch, len(job.kinds)), sketch)
            covered = sum(count * job.kinds[kind].area for kind, count in enumerate(pattern.counts) if count)
            share = covered / (sheet.width * sheet.height)
            found.append(((covered / sheet.price if sheet.price else float("inf"), share), pattern))
        return found


def in_order(job: Job, sheet: int, liking: Liking) -> list[Wish]:
    """The poses that lie on a sheet, the one that is liked best first."""
    width, height = job.sheets[sheet].width, job.sheets[sheet].height
    poses = (
        Wish(-liking[kind, pose], kind, pose, *size)
        for kind, entry in enumerate(job.kinds)
        if sheet in entry.sheets
        for pose, size in enumerate(entry.poses)
        if size[0] <= width and size[1] <= height
    )
    return sorted(poses, key=lambda each: each.wish)


def fill_sheet(job: Job, size: tuple[int, int], left: dict[int, int], order: Sequence[Wish]) -> Sketch:
    """One sheet filled with at most what is `left`, which is used up; the piece that is liked best goes first into each corner."""

    def fill(width: int, height: int) -> Sketch:
        block = best_block(job, left, (width, height), order)
        if block is None:
            return None
        left[block.kind] -= block.times
        own_width, own_height = job.kinds[block.kind].poses[block.pose]
        if block.upright:
            beside = fill(width - own_width, height) if own_width < width else None
            above = fill(own_width, height - block.times * own_height) if block.times * own_height < height else None
            strip = chain(False, own_height, height, block, above)
            return Split(True, own_width, strip, beside) if own_width < width else strip
        beside = fill(width, height - own_height) if own_height < height else None
        above = fill(width - block.times * own_width, own_height) if block.times * own_width < width else None
        strip = chain(True, own_width, width, block, above)
        return Split(False, own_height, strip, beside) if own_height < height else strip

    return fill(*size)


def chain(upright: bool, step: int, length: int, block: Block, rest: Sketch) -> Sketch:
    """The pieces of a block one after the other along `length`, then the rest."""
    sketch: Sketch = rest
    for place in range(block.times):
        is_last = place == 0 and block.times * step == length
        piece = Leaf(block.kind, block.pose)
        sketch = piece if is_last else Split(upright, step, piece, sketch)
    return sketch


def best_block(job: Job, left: Mapping[int, int], size: tuple[int, int], order: Sequence[Wish]) -> Block | None:
    """The block for the lower left corner of an area: the piece that is liked best, so that it wastes least of its strip."""
    width, height = size
    best: Block | None = None
    found = 0.0
    for wish, kind, pose, own_width, own_height in order:
        if best is not None and wish > found:
            break
        if own_width > width or own_height > height or not left.get(kind):
            continue
        for block in blocks(job, (kind, pose, left[kind]), width, height):
            if best is None or block.waste < best.waste:
                found, best = wish, block
    return best


def blocks(job: Job, what: tuple[int, int, int], width: int, height: int) -> Iterator[Block]:
    """The column and the row of one piece that the trimmer can cut from an area."""
    kind, pose, count = what
    own_width, own_height = job.kinds[kind].poses[pose]
    column = min(count, height // own_height)
    while column and not may_chain(job, own_height, column, height, own_width):
        column -= 1
    if column and may_cut(job, own_width, width, height):
        yield Block((height - column * own_height) * own_width, kind, pose, True, column)
    row = min(count, width // own_width)
    while row and not may_chain(job, own_width, row, width, own_height):
        row -= 1
    if row and may_cut(job, own_height, height, width):
        yield Block((width - row * own_width) * own_height, kind, pose, False, row)


def may_cut(job: Job, at: int, extent: int, length: int) -> bool:
    """Whether a cut of this length, `at` of `extent`, can be made; no cut is needed at the very edge."""
    return at == extent or (length <= job.reach and max(at, extent - at) >= job.strip)


def may_chain(job: Job, step: int, times: int, extent: int, length: int) -> bool:
    """Whether `times` pieces can be cut off one after the other along `extent`; the last cut is the hardest to hold."""
    if times * step < extent:
        return may_cut(job, step, extent - (times - 1) * step, length)
    return times == 1 or may_cut(job, step, 2 * step, length)
