"""Two sheets of a plan whose pieces may go onto one: looked at exactly, as far as the effort goes."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, islice
from typing import Final

from kitwright.cutting.job import Job
from kitwright.cutting.one_sheet import SheetTables, fullest_sheet, make_tables
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import Watch

__all__ = ["put_two_in_one"]

NODES: Final = 1_500
"""Rectangles built upon for one pair of sheets."""

WORK_OF_A_CELL: Final = 30
"""Microseconds that each grid square of a sheet takes in its tables."""

MOST_TRIES: Final = 12
"""Pairs looked at, the emptiest first."""


def put_two_in_one(job: Job, watch: Watch) -> None:
    """As long as two sheets of the best plan go onto one that costs less than both, tell the watch of the plan with that one."""
    known: dict[int, SheetTables | None] = {}
    while watch.best is not None and watch.goes_on("small batch"):
        sheets = [pattern for pattern, times in watch.best for _ in range(times)]
        fewer = one_pair_less(job, sheets, known, watch)
        if fewer is None or not watch.tell_plan([(pattern, 1) for pattern in fewer]):
            return


def one_pair_less(
    job: Job, sheets: list[Pattern], known: dict[int, SheetTables | None], watch: Watch
) -> list[Pattern] | None:
    """The sheets with two of them put into one; None where no pair goes. Tables are made, into `known`, where they are wanted."""
    for one, other, place in islice(likely_pairs(job, sheets), MOST_TRIES):
        if place not in known:
            known[place] = tables_within(job, place, watch)
        tables = known[place]
        both = together(sheets[one], sheets[other])
        if not watch.goes_on("small batch"):
            return None
        found = (
            None
            if tables is None
            else fullest_sheet(job, tables, both, nodes=NODES, work=watch.work, goes_on=watch.ear("small batch"))
        )
        watch.spend(0 if found is None else found.work)
        if found is not None and found.counts == both:
            rest = [pattern for rank, pattern in enumerate(sheets) if rank not in (one, other)]
            return [*rest, Pattern(place, both, found.sketch)]
    return None


def tables_within(job: Job, place: int, watch: Watch) -> SheetTables | None:
    """The tables of a sheet; None where they would be too large, or take more work than is left."""
    sheet = job.sheets[place]
    work = WORK_OF_A_CELL * sheet.width * sheet.height
    if work > watch.work:
        return None
    watch.spend(work)
    return make_tables(job, place, [kind.area for kind in job.kinds], watch.ear("small batch"))


def likely_pairs(job: Job, sheets: list[Pattern]) -> Iterator[tuple[int, int, int]]:
    """Two sheets and the place of one that is left when they are gone, costs less and has the area, the emptiest first."""
    ranked = sorted(range(len(sheets)), key=lambda rank: area(job, sheets[rank].counts))
    for one, other in combinations(ranked, 2):
        wanted = area(job, together(sheets[one], sheets[other]))
        price = sum(job.sheets[sheets[rank].sheet].price for rank in (one, other))
        for place, sheet in enumerate(job.sheets):
            used = sum(pattern.sheet == place for rank, pattern in enumerate(sheets) if rank not in (one, other))
            is_left = sheet.count is None or used < sheet.count
            if is_left and sheet.price < price and wanted <= sheet.width * sheet.height:
                yield one, other, place


def together(one: Pattern, other: Pattern) -> tuple[int, ...]:
    """How many of each kind two sheets give."""
    return tuple(a + b for a, b in zip(one.counts, other.counts, strict=True))


def area(job: Job, counts: tuple[int, ...]) -> int:
    """The area of so many pieces of each kind."""
    return sum(count * kind.area for count, kind in zip(counts, job.kinds, strict=True))
