"""A search of another kind for small batches of different pieces: take some sheets apart at random and fill them again."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import Final

from kitwright.cutting.fill import Liking, fill_left
from kitwright.cutting.job import Job
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import Watch, cost_of

__all__ = ["repack"]

SHEETS_AT_ONCE: Final = (2, 2, 3, 3, 4, 5)
"""How many sheets are taken apart in one go, each as often as it stands here."""


def repack(
    job: Job, start: Sequence[tuple[Pattern, int]], watch: Watch, *, restarts: int, random: Random
) -> list[Pattern]:
    """Improve a plan sheet by sheet, tell the watch of cheaper ones, and give all the patterns met on the way."""
    sheets = [pattern for pattern, times in start for _ in range(times)]
    met = {(pattern.sheet, pattern.counts): pattern for pattern in sheets}
    for _ in range(restarts):
        if len(sheets) < 2 or not watch.goes_on("small batch"):
            break
        taken = choose_sheets(job, sheets, random)
        kept = [pattern for rank, pattern in enumerate(sheets) if rank not in taken]
        wanted = [count - sum(pattern.counts[kind] for pattern in kept) for kind, count in enumerate(job.demand)]
        stock_left = [
            None if sheet.count is None else sheet.count - sum(pattern.sheet == place for pattern in kept)
            for place, sheet in enumerate(job.sheets)
        ]
        used, left = fill_left(job, [max(0, count) for count in wanted], stock_left, random_likings(job, random))
        if any(left):
            continue
        fresh = [pattern for pattern, times in used for _ in range(times)]
        met.update({(pattern.sheet, pattern.counts): pattern for pattern in fresh})
        old = [sheets[rank] for rank in taken]
        if merit(job, fresh) >= merit(job, old):
            sheets = kept + fresh
            watch.tell_plan([(pattern, 1) for pattern in sheets])
    return list(met.values())


def choose_sheets(job: Job, sheets: Sequence[Pattern], random: Random) -> set[int]:
    """A few sheets to be taken apart; half of the time the emptiest one is among them."""
    count = min(len(sheets), random.choice(SHEETS_AT_ONCE))
    taken = set(random.sample(range(len(sheets)), count))
    if random.random() < 0.5:
        taken.add(min(range(len(sheets)), key=lambda rank: covered(job, sheets[rank])))
    return taken


def covered(job: Job, pattern: Pattern) -> int:
    """The area of the pieces of a pattern."""
    return sum(count * kind.area for count, kind in zip(pattern.counts, job.kinds, strict=True))


def merit(job: Job, sheets: Sequence[Pattern]) -> tuple[int, int]:
    """Cheaper is better; at the same price it is better to have some sheets full and others nearly empty."""
    return -cost_of(job, [(pattern, 1) for pattern in sheets]), sum(covered(job, pattern) ** 2 for pattern in sheets)


def random_likings(job: Job, random: Random) -> list[Liking]:
    """One random order of preference for the pieces, by size with some noise."""
    power = random.uniform(0.3, 1.2)
    noise = random.uniform(0.0, 0.6)
    lean = random.uniform(-0.5, 0.5)
    return [
        {
            (kind, pose): (width * height) ** power * (width / height) ** lean * (1 + noise * random.random())
            for kind, entry in enumerate(job.kinds)
            for pose, (width, height) in enumerate(entry.poses)
        }
    ]
