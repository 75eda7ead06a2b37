"""Packings by construction: fill the lowest free room with the best block of like things, in several orders, the later ones shuffled."""

from __future__ import annotations

import math
from dataclasses import dataclass
from random import Random
from typing import Final, NamedTuple

import numpy as np
import numpy.typing as npt

from kitwright.proof.packing.job import Item, Job
from kitwright.proof.packing.things import Triple

__all__ = ["SHUFFLED", "Laid", "build_packing", "push_together"]

SEED: Final = 20_260_101
SHUFFLED: Final = 400
"""How many shuffled orders are usually tried after the plain ones."""

MOST_WORK: Final = 60_000
"""Rooms looked at in all, over all orders; keeps two hundred different things to about a second."""


class Laid(NamedTuple):
    """One copy of an item in the units of its job: the item's index, its corner, its size as turned."""

    item: int
    corner: Triple
    size: Triple


class _Room(NamedTuple):
    corner: Triple
    end: Triple


@dataclass(frozen=True, slots=True)
class _Way:
    """How one try decides: which axis is filled last, whether like things go in blocks, and what is taken first."""

    axes: Triple
    in_blocks: bool
    by_longest: bool
    shuffle: Random | None


MOST_PUSHED: Final = 2_000
"""With more things than this they are not pushed together: that only makes a packing look better."""

Lengths = npt.NDArray[np.int64]
"""A row for each thing: along the width, the depth and the height."""


@dataclass(slots=True)
class _Budget:
    left: int


def build_packing(job: Job, *, shuffled: int = SHUFFLED) -> tuple[Laid, ...] | None:
    """A packing of all the things, None if none of the tries gives one (which proves nothing). Always the same for the same job."""
    random = Random(SEED)
    budget = _Budget(MOST_WORK)
    plain = [
        _Way(axes, in_blocks, by_longest, None)
        for in_blocks in (True, False)
        for by_longest in (False, True)
        for axes in ((2, 1, 0), (2, 0, 1), (1, 2, 0), (0, 2, 1))
    ]
    mixed = [
        _Way(random.choice(((2, 1, 0), (2, 0, 1), (0, 1, 2))), random.random() < 0.5, False, random)
        for _ in range(shuffled)
    ]
    for way in (*plain, *mixed):
        laid = _try(job, way, budget)
        if laid is not None:
            return push_together(laid)
        if budget.left <= 0:
            return None
    return None


def _try(job: Job, way: _Way, budget: _Budget) -> tuple[Laid, ...] | None:
    left = {item.index: item.quantity for item in job.items}
    items = _in_order(job, way)
    rooms = [_Room((0, 0, 0), job.space)]
    laid: list[Laid] = []
    waiting = job.volume
    while rooms:
        budget.left -= len(rooms)
        room = min(rooms, key=lambda each: tuple(each.corner[axis] for axis in way.axes))
        block = _best_block(room, items, left, way)
        if block is None:
            rooms.remove(room)
            continue
        index, size, counts = block
        laid.extend(_block_copies(index, room.corner, size, counts))
        number = math.prod(counts)
        left[index] -= number
        waiting -= number * math.prod(size)
        if waiting == 0:
            return tuple(laid)
        end = _ends(room.corner, size, counts)
        rooms = _cut_away(rooms, _Room(room.corner, end))
    return None


def _in_order(job: Job, way: _Way) -> list[Item]:
    def weight(item: Item) -> tuple[float, int]:
        value = float(max(item.ways[0]) if way.by_longest else item.volume)
        if way.shuffle is not None:
            value *= way.shuffle.uniform(0.4, 1.0)
        return (-value, item.index)

    return sorted(job.items, key=weight)


def _best_block(room: _Room, items: list[Item], left: dict[int, int], way: _Way) -> tuple[int, Triple, Triple] | None:
    """The first item in order that goes in; of its turns the one that wastes least beside it, as a block of copies."""
    free = (room.end[0] - room.corner[0], room.end[1] - room.corner[1], room.end[2] - room.corner[2])
    for item in items:
        number = left[item.index]
        if number == 0:
            continue
        choices = []
        for size in item.ways:
            if size[0] > free[0] or size[1] > free[1] or size[2] > free[2]:
                continue
            counts = _counts(free, size, number, way)
            waste = sum(
                (free[axis] - counts[axis] * size[axis]) / free[axis] * weight
                for axis, weight in zip(way.axes, (1.0, 2.0, 4.0), strict=True)
            )
            if way.shuffle is not None:
                waste *= way.shuffle.uniform(0.5, 1.5)
            choices.append((-math.prod(counts) if way.in_blocks else 0, waste, size, counts))
        if choices:
            _, _, size, counts = min(choices)
            return item.index, size, counts
    return None


def _counts(free: Triple, size: Triple, number: int, way: _Way) -> Triple:
    """How many copies go into a full block, filled along the axes from the last to the first."""
    counts = [1, 1, 1]
    if way.in_blocks:
        for axis in reversed(way.axes):
            counts[axis] = max(1, min(free[axis] // size[axis], number // math.prod(counts)))
    return counts[0], counts[1], counts[2]


def _block_copies(index: int, corner: Triple, size: Triple, counts: Triple) -> list[Laid]:
    return [
        Laid(index, (corner[0] + i * size[0], corner[1] + j * size[1], corner[2] + k * size[2]), size)
        for k in range(counts[2])
        for j in range(counts[1])
        for i in range(counts[0])
    ]


def _ends(corner: Triple, size: Triple, counts: Triple) -> Triple:
    first, second, third = (start + edge * count for start, edge, count in zip(corner, size, counts, strict=True))
    return first, second, third


def _cut_away(rooms: list[_Room], taken: _Room) -> list[_Room]:
    """The largest free rooms that remain: each room that is met is cut into those beside the block; those inside others go."""
    whole = []
    cut: list[_Room] = []
    for room in rooms:
        if all(room.corner[axis] < taken.end[axis] and taken.corner[axis] < room.end[axis] for axis in (0, 1, 2)):
            cut.extend(_beside(room, taken))
        else:
            whole.append(room)
    kept: list[_Room] = []
    for room in sorted(
        dict.fromkeys(cut), key=lambda each: -math.prod(e - c for c, e in zip(each.corner, each.end, strict=True))
    ):
        if not any(_is_inside(room, other) for other in whole) and not any(_is_inside(room, other) for other in kept):
            kept.append(room)
    return whole + kept


def _beside(room: _Room, taken: _Room) -> list[_Room]:
    parts = []
    for axis in (0, 1, 2):
        if taken.corner[axis] > room.corner[axis]:
            parts.append(_Room(room.corner, _with(room.end, axis, taken.corner[axis])))
        if taken.end[axis] < room.end[axis]:
            parts.append(_Room(_with(room.corner, axis, taken.end[axis]), room.end))
    return parts


def _with(point: Triple, axis: int, value: int) -> Triple:
    changed = [*point]
    changed[axis] = value
    return changed[0], changed[1], changed[2]


def _is_inside(room: _Room, other: _Room) -> bool:
    (left, front, low), (right, back, high) = room
    (other_left, other_front, other_low), (other_right, other_back, other_high) = other
    return (
        other_left <= left
        and other_front <= front
        and other_low <= low
        and right <= other_right
        and back <= other_back
        and high <= other_high
    )


def push_together(laid: tuple[Laid, ...]) -> tuple[Laid, ...]:
    """The same packing with everything pushed down, to the front and to the left until nothing moves: no thing hangs in the air.

    Very many things stay as they were laid.
    """
    if len(laid) > MOST_PUSHED:
        return laid
    corners = np.array([each.corner for each in laid], dtype=np.int64)
    ends = corners + np.array([each.size for each in laid], dtype=np.int64)
    while True:
        before = corners.copy()
        for axis in (2, 1, 0):
            for place in np.argsort(corners[:, axis], kind="stable"):
                slide = corners[place, axis] - _stop(corners, ends, place, axis)
                corners[place, axis] -= slide
                ends[place, axis] -= slide
        if (corners == before).all():
            return tuple(
                Laid(each.item, (x, y, z), each.size) for each, (x, y, z) in zip(laid, corners.tolist(), strict=True)
            )


def _stop(corners: Lengths, ends: Lengths, place: int, axis: int) -> int:
    """How far a thing can slide towards the wall: to the nearest end of another thing in its way, or to the wall."""
    is_in_the_way = ends[:, axis] <= corners[place, axis]
    for side in {0, 1, 2} - {axis}:
        is_in_the_way &= (corners[:, side] < ends[place, side]) & (corners[place, side] < ends[:, side])
    return int(ends[is_in_the_way, axis].max(initial=0))
