"""A packing job in small whole numbers: sizes without their common factor, and positions that things can be pushed to."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from kitwright.proof.packing.things import PackedThing, Triple

__all__ = ["Item", "Job", "make_job", "normal_sums", "round_down"]

MOST_SUMS: Final = 4000
"""More sums than this on one axis are not listed: they would not narrow anything down."""

AXES: Final = (0, 1, 2)


@dataclass(frozen=True, slots=True)
class Item:
    """A thing in the units of its job: how often, and the sizes that its turns give (those that go into the space)."""

    index: int
    quantity: int
    ways: tuple[Triple, ...]

    @property
    def volume(self) -> int:
        """Of one copy."""
        return math.prod(self.ways[0])


@dataclass(frozen=True, slots=True)
class Job:
    """Items and a space in units of `unit` nanometres.

    `sums` are, for each axis, the places at which a thing can begin or end when all are pushed to the left, front and bottom
    (sorted, from 0), None where there are too many of them. The space ends at the last of them: nothing beyond is ever used.
    """

    unit: int
    space: Triple
    items: tuple[Item, ...]
    sums: tuple[tuple[int, ...] | None, tuple[int, ...] | None, tuple[int, ...] | None]

    @property
    def volume(self) -> int:
        """Of all the things together."""
        return sum(item.quantity * item.volume for item in self.items)

    @property
    def count(self) -> int:
        """How many things there are, copies counted."""
        return sum(item.quantity for item in self.items)


def make_job(things: Sequence[PackedThing], inner: Triple) -> tuple[Job | None, int | None]:
    """The job, or None and the index of a thing that goes into the space in none of its turns."""
    ways = [thing.ways for thing in things]
    unit = math.gcd(*(edge for each in ways for way in each for edge in way))
    space = tuple(edge // unit for edge in inner)
    items = []
    for index, (thing, each) in enumerate(zip(things, ways, strict=True)):
        scaled = (tuple(edge // unit for edge in way) for way in each)
        fitting = tuple(
            (way[0], way[1], way[2])
            for way in scaled
            if all(edge <= room for edge, room in zip(way, space, strict=True))
        )
        if not fitting:
            return None, index
        items.append(Item(index, thing.quantity, fitting))
    return _with_sums(unit, space, items), None


def round_down(job: Job, step: int) -> Job:
    """The job in steps of its unit (no larger than the smallest of its sizes), with all sizes rounded down.

    If it has no packing, the job has none: with smaller things and pushed together, one would end at a sum of whole steps.
    """
    items = [
        Item(item.index, item.quantity, tuple((a // step, b // step, c // step) for a, b, c in item.ways))
        for item in job.items
    ]
    return _with_sums(job.unit * step, [edge // step for edge in job.space], items)


def _with_sums(unit: int, space: Sequence[int], items: Sequence[Item]) -> Job:
    """The job of these items, with the sums that they reach."""
    sums = [normal_sums(items, axis, space[axis]) for axis in AXES]
    width, depth, height = (reached[-1] if reached else edge for reached, edge in zip(sums, space, strict=True))
    return Job(unit, (width, depth, height), tuple(items), (sums[0], sums[1], sums[2]))


def normal_sums(items: Iterable[Item], axis: int, room: int) -> tuple[int, ...] | None:
    """All sums of sizes of different things along an axis that are at most `room`, sorted, with 0; None if there are too many.

    Any packing can be pushed so far to the left that each thing touches the wall or another one; then every begin and end is such a sum.
    """
    reached = {0}
    for item in items:
        edges = {way[axis] for way in item.ways}
        for _ in range(min(item.quantity, room // min(edges))):
            more = {start + edge for start in reached for edge in edges if start + edge <= room}
            if more <= reached:
                break
            reached |= more
            if len(reached) > MOST_SUMS:
                return None
    return tuple(sorted(reached))
