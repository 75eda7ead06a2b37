"""How large an offcut can be at the most: what the rest of its sheet would have to be worth, by the certificate of the bound.

In any cut tree the sides of a cut may change places, so an offcut may be thought of in the upper right corner of its sheet, freed by
strips that are cut off at the left and at the bottom one after the other. The worth of such strips is known from the table of best
values. What a sheet falls short of its price is paid out of the difference between a plan's value and the fractional bound; that leaves
only some sizes. This is a relaxation: nothing larger exists in any plan of that value, but not everything it allows does.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from itertools import islice
from typing import Final

import numpy as np

from kitwright.cutting.generate import Pricing, make_pricings
from kitwright.cutting.job import Job, Ranges, ranges_of
from kitwright.cutting.knapsack import CutTable, Values, solve_table, solving_work
from kitwright.cutting.plan import Bound
from kitwright.cutting.watch import GoesOn, for_ever
from kitwright.cutting.work import Stopped

__all__ = ["offcuts_allowed"]

WORK_OF_A_PLACE: Final = 6
"""Microseconds for each place of the table."""

MOST_CASES: Final = 16
"""With a bound of more cases than this, the sizes are not worked out."""

IMPOSSIBLE: Final = -(2**62)
LARGEST: Final = 2**61
"""Worths above this are too large for the tables, which reckon in whole numbers of 64 bits."""


def offcuts_allowed(
    job: Job, bound: Bound, value: int, *, work: int, goes_on: GoesOn = for_ever
) -> tuple[list[tuple[str, int, int]] | None, int]:
    """The offcuts (stock, width, height in nm) that a plan of this value may have; what it has otherwise lies inside one of them.

    A bound by cases allows what any of them allows. None where that takes too much work to tell (microseconds, counted), or the numbers
    are too large, or a stop is heard. Then the work.
    """
    cases = list(islice(cases_of(job, bound, ranges_of(job)), MOST_CASES + 1))
    if len(cases) > MOST_CASES:
        return None, 0
    pricings = make_pricings(job)
    spent = sum(work_of(pricing) for pricing in pricings) * len(cases)
    if not pricings or any(each.step is not None for each in pricings) or spent > work:
        return None, 0
    if max(most_worth(job, case) for case, _ in cases) > LARGEST:
        return None, 0
    allowed = (
        (job.sheets[place].stock.name, width * job.unit, height * job.unit)
        for case, ranges in cases
        if case.value <= value
        for pricing in pricings
        for place, width, height in sizes_in_case(
            job, pricing, (case, ranges), slack_of(job, case, value, ranges), goes_on
        )
    )
    try:
        return list(dict.fromkeys(allowed)), spent
    except Stopped:
        return None, spent


def most_worth(job: Job, case: Bound) -> int:
    """What the pieces of one sheet are worth at most by a bound that holds: its price and rent; and no piece is worth more than this."""
    rents = [abs(rent) for _, rent in case.rent]
    prices = [case.scale * sheet.price for sheet in job.sheets]
    return max((*prices, *(worth for _, worth in case.worth)), default=0) + max(rents, default=0)


def work_of(pricing: Pricing) -> int:
    """How much work the sizes of all sheets of a pricing are in one case."""
    columns, rows = len(pricing.table.across.points), len(pricing.table.up.points)
    return solving_work(pricing.table) + len(pricing.sheets) * (WORK_OF_A_PLACE * columns * (rows + columns // 2))


def cases_of(job: Job, bound: Bound, ranges: Ranges) -> Iterator[tuple[Bound, Ranges]]:
    """The bounds that have a certificate of their own, and how many of each sheet there may be where they hold."""
    fork = bound.fork
    if fork is None:
        yield bound, ranges
        return
    place = next(place for place, sheet in enumerate(job.sheets) if sheet.stock.name == fork.stock)
    low, high = ranges[place]
    before, after = ranges[:place], ranges[place + 1 :]
    yield from cases_of(job, fork.few, (*before, (low, fork.at if high is None else min(high, fork.at)), *after))
    yield from cases_of(job, fork.many, (*before, (max(low, fork.at + 1), high), *after))


def sizes_in_case(
    job: Job, pricing: Pricing, holds: tuple[Bound, Ranges], slack: int, goes_on: GoesOn
) -> Iterator[tuple[int, int, int]]:
    """The place of a sheet and the sizes of offcuts that it may have by one bound. Raises `Stopped`."""
    case, ranges = holds
    worth_of, rent_of = dict(case.worth), dict(case.rent)
    worth = [min(worth_of.get(piece.name, 0) for piece in kind.pieces) for kind in job.kinds]
    values = solve_table(pricing.table, worth)
    for place in pricing.sheets:
        sheet = job.sheets[place]
        if ranges[place][1] != 0:
            least = case.scale * sheet.price + rent_of.get(sheet.stock.name, 0) - slack
            for width, height in sizes_beside(pricing.table, values, (sheet.width, sheet.height), least, goes_on):
                yield place, width, height


def slack_of(job: Job, bound: Bound, value: int, ranges: Ranges) -> int:
    """By how much all sheets of a plan of this value together may fall short of their prices, in 1 / scale."""
    worth_of, rent_of = dict(bound.worth), dict(bound.rent)
    total = sum(worth_of.get(piece.name, 0) * piece.count for kind in job.kinds for piece in kind.pieces)
    rents = 0
    for sheet, (low, high) in zip(job.sheets, ranges, strict=True):
        rent = rent_of.get(sheet.stock.name, 0)
        rents += rent * (high or 0) if rent > 0 else rent * low
    return bound.scale * value + rents - total


def sizes_beside(
    table: CutTable, values: Values, size: tuple[int, int], least: int, goes_on: GoesOn
) -> list[tuple[int, int]]:
    """The sizes of offcuts beside which strips worth at least `least` can be cut from a sheet. Raises `Stopped`."""
    width, height = size
    xs = [point for point in table.across.points if point <= width]
    ys = [point for point in table.up.points if point <= height]
    best = np.full((len(xs), len(ys)), IMPOSSIBLE, dtype=np.int64)
    best[0, 0] = 0
    rest_x = np.array([bisect_right(xs, width - x) - 1 for x in xs])
    rest_y = np.array([bisect_right(ys, height - y) - 1 for y in ys])
    known_x = {x: place for place, x in enumerate(xs)}
    known_y = {y: place for place, y in enumerate(ys)}
    steps_y = [
        np.array([(strip, known_y[y + more]) for strip, more in enumerate(ys) if strip and y + more in known_y]).T
        for y in ys
    ]
    for i, x in enumerate(xs):
        if not goes_on():
            raise Stopped
        row, beneath = best[i], values[rest_x[i]]
        for j, steps in enumerate(steps_y):
            if row[j] < 0 or not steps.size:
                continue
            strips, targets = steps
            row[targets] = np.maximum(row[targets], row[j] + beneath[strips])
        for strip, more in enumerate(xs):
            target = known_x.get(x + more) if strip else None
            if target is not None:
                np.maximum(best[target], row + values[strip][rest_y], out=best[target])
    places = zip(*(each.tolist() for each in np.nonzero(best >= max(least, 0))), strict=True)
    return [(width - xs[i], height - ys[j]) for i, j in places if i + j and xs[i] < width and ys[j] < height]
