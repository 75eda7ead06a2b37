"""Lower bounds: what no plan can do better, with whole numbers that anyone can check."""

from __future__ import annotations

import math
from collections.abc import Sequence

from kitwright.cutting.job import Job, Ranges, ranges_of
from kitwright.cutting.plan import Bound

__all__ = ["area_bound", "bound_from", "nothing_proved", "price_step", "total_worth"]


def price_step(job: Job) -> int:
    """Every plan's value is a multiple of this: the greatest common divisor of the prices."""
    return math.gcd(*(sheet.price for sheet in job.sheets)) or 1


def bound_from(job: Job, worth: Sequence[int], rent: Sequence[int], scale: int, ranges: Ranges) -> Bound:
    """The bound that follows from what each kind is worth and each sheet rents for, given that the two are fit for it.

    A rent above zero is paid for as many sheets as there may be, one below zero for as many as there must be.
    """
    step = price_step(job)
    value = max(0, -(-total_worth(job, worth, rent, ranges) // (scale * step)) * step)
    by_name = [(piece.name, each) for each, kind in zip(worth, job.kinds, strict=True) for piece in kind.pieces]
    rents = [(sheet.stock.name, each) for each, sheet in zip(rent, job.sheets, strict=True) if each]
    return Bound(value, scale, tuple(sorted(by_name)), tuple(sorted(rents)))


def total_worth(job: Job, worth: Sequence[int], rent: Sequence[int], ranges: Ranges) -> int:
    """What everything wanted is worth, less the rents."""
    total = sum(value * kind.count for value, kind in zip(worth, job.kinds, strict=True))
    for value, (low, high) in zip(rent, ranges, strict=True):
        total -= value * (high or 0) if value > 0 else value * low
    return total


def area_bound(job: Job) -> Bound:
    """Paper cannot be cut from nothing: the area wanted, from the sheets that give most area for their price.

    A counted sheet that gives more area for its price than the others is used up first; its rent is what it gives for nothing.
    The best such bound over all choices of the price of area is taken.
    """
    worth = [kind.area for kind in job.kinds]
    best: Bound | None = None
    for base in job.sheets:
        if base.price == 0:
            continue
        area = base.width * base.height
        # One grid square may cost price / area: scaled by the base sheet's area, every kind is worth price × its area.
        values = [each * base.price for each in worth]
        rent = [max(0, sheet.width * sheet.height * base.price - sheet.price * area) for sheet in job.sheets]
        if any(each and sheet.count is None for each, sheet in zip(rent, job.sheets, strict=True)):
            continue
        found = bound_from(job, values, rent, area, ranges_of(job))
        if best is None or found.value > best.value:
            best = found
    return best or nothing_proved(job)


def nothing_proved(job: Job) -> Bound:
    """No plan costs less than nothing."""
    return bound_from(job, [0] * len(job.kinds), [0] * len(job.sheets), 1, ranges_of(job))
