"""Two sheets of a plan whose pieces may go onto one: looked at exactly, as far as the effort goes."""

from __future__ import annotations

from itertools import combinations
from typing import Final

from kitwright.cutting.job import Job
from kitwright.cutting.one_sheet import SheetTables, fullest_sheet, make_tables
from kitwright.cutting.sketch import Pattern
from kitwright.cutting.watch import Watch

__all__ = ["put_two_in_one"]

NODES: Final = 1_500
"""Rectangles built upon for one pair of sheets."""

MOST_PAIRS: Final = 12
"""Pairs looked at, the emptiest first."""


def put_two_in_one(job: Job, watch: Watch) -> None:
    """As long as two sheets of the best plan go onto one that costs less than both, tell the watch of the plan with that one."""
    areas = [kind.area for kind in job.kinds]
    tables = [made for place in range(len(job.sheets)) if (made := make_tables(job, place, areas)) is not None]
    while watch.best is not None and watch.goes_on("small batch"):
        sheets = [pattern for pattern, times in watch.best for _ in range(times)]
        fewer = one_pair_less(job, sheets, tables)
        if fewer is None or not watch.tell_plan([(pattern, 1) for pattern in fewer]):
            return


def one_pair_less(job: Job, sheets: list[Pattern], tables: list[SheetTables]) -> list[Pattern] | None:
    """The sheets with two of them put into one; None where no pair goes."""
    areas = [kind.area for kind in job.kinds]

    def covered(counts: tuple[int, ...]) -> int:
        return sum(count * area for count, area in zip(counts, areas, strict=True))

    ranked = sorted(range(len(sheets)), key=lambda place: covered(sheets[place].counts))
    for one, other in list(combinations(ranked, 2))[:MOST_PAIRS]:
        both = tuple(a + b for a, b in zip(sheets[one].counts, sheets[other].counts, strict=True))
        price = job.sheets[sheets[one].sheet].price + job.sheets[sheets[other].sheet].price
        for each in tables:
            sheet = job.sheets[each.place]
            used = sum(pattern.sheet == each.place for pattern in sheets) - (sheets[one].sheet == each.place)
            if (
                sheet.price >= price
                or covered(both) > sheet.width * sheet.height
                or (sheet.count or used + 1) < used + 1
            ):
                continue
            found = fullest_sheet(job, each, both, nodes=NODES)
            if found is not None and found.counts == both:
                rest = [pattern for place, pattern in enumerate(sheets) if place not in (one, other)]
                return [*rest, Pattern(each.place, both, found.sketch)]
    return None
