"""Sizes rounded to a step, for jobs whose sizes have too many different sums; cut trees found so are fitted to the true sizes again.

Pieces rounded up and sheets rounded down make a harder job: every cut tree of it is one of the true job too, once the slack goes to what
is left over. Everything rounded down makes an easier one: if lengths go into a side, the lengths rounded down go into the side rounded
down, as sums of whole steps that are no longer than it. So no sheet holds more in the true job than in that one, and a bound that holds
there holds here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from kitwright.cutting.job import Job
from kitwright.cutting.sketch import Leaf, Sketch, Split, freed

__all__ = ["fitted", "rounded", "steps_for"]

STEPS: Final = tuple(digit * 10**power for power in range(3, 8) for digit in (1, 2, 5))
"""Nanometres, from a thousandth of a millimetre on."""


def steps_for(job: Job) -> Iterator[int]:
    """The steps (nm) to which sizes may be rounded, the finest first: all smaller than the smallest side of a piece."""
    smallest = min(length for kind in job.kinds for pose in kind.poses for length in pose) * job.unit
    yield from (step for step in STEPS if job.unit < step < smallest)


def rounded(job: Job, step: int, *, up: bool) -> Job:
    """The job in steps of so many nanometres: pieces and what a hand must hold rounded up or down, sheets and the longest cut down."""

    def of(length: int) -> int:
        return -(-length * job.unit // step) if up else length * job.unit // step

    kinds = tuple(
        replace(kind, poses=tuple((of(width), of(height)) for width, height in kind.poses)) for kind in job.kinds
    )
    sheets = tuple(
        replace(sheet, width=sheet.width * job.unit // step, height=sheet.height * job.unit // step)
        for sheet in job.sheets
    )
    return Job(kinds, sheets, job.reach * job.unit // step, of(job.strip), step)


def fitted(job: Job, sketch: Sketch, size: tuple[int, int]) -> Sketch:
    """A cut tree of the job with pieces rounded up, as it is cut from a sheet of this true size: each strip as wide as its pieces ask."""
    if sketch is None:
        return None
    if isinstance(sketch, Leaf):
        return freed(sketch, job.kinds[sketch.kind].poses[sketch.pose], size, job.reach)
    low, high = needed(job, sketch.low), needed(job, sketch.high)
    width, height = size
    if low == (0, 0) or high == (0, 0):
        # what is left over beside a strip needs no cut where the strip asks for all there is
        kept, own = (sketch.high, high) if low == (0, 0) else (sketch.low, low)
        at = own[0] if sketch.upright else own[1]
        if at in (0, width if sketch.upright else height):
            return fitted(job, kept, size)
        return Split(sketch.upright, at, fitted(job, kept, (at, height) if sketch.upright else (width, at)), None)
    at = low[0] if sketch.upright else low[1]
    sides = ((at, height), (width - at, height)) if sketch.upright else ((width, at), (width, height - at))
    return Split(sketch.upright, at, fitted(job, sketch.low, sides[0]), fitted(job, sketch.high, sides[1]))


def needed(job: Job, sketch: Sketch) -> tuple[int, int]:
    """The least true width and height in which the pieces of a cut tree can lie as they do; nothing for what is left over."""
    if sketch is None:
        return 0, 0
    if isinstance(sketch, Leaf):
        return job.kinds[sketch.kind].poses[sketch.pose]
    low, high = needed(job, sketch.low), needed(job, sketch.high)
    if sketch.upright:
        return low[0] + high[0], max(low[1], high[1])
    return max(low[0], high[0]), low[1] + high[1]
