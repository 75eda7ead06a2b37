"""Check a packing again, by its own arithmetic: it shares nothing with the ways in which packings are found."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Final

import numpy as np

from kitwright.proof.packing.things import Clearance, PackedThing, Placement, Space, Turns

__all__ = ["Fault", "FaultKind", "verify_packing"]

SLACK: Final = Fraction(2, 1_000_000)
"""How much larger than its thing a placement may be, in mm: two nanometres, for sizes were rounded up to one."""


LARGEST_INT64: Final = 2**62


class FaultKind(StrEnum):
    """What can be wrong with a packing."""

    OVERLAP = "overlap"
    STICKS_OUT = "sticks out"
    MISSING = "missing"
    WRONG_TURN = "wrong turn"
    SURPLUS = "surplus"


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong, and which placements (or things) it concerns, as `name copy`."""

    kind: FaultKind
    about: tuple[str, ...]


def verify_packing(
    things: Sequence[PackedThing],
    space: Space,
    placements: Sequence[Placement],
    *,
    clearance: Clearance = (0, 0, 0),
) -> tuple[Fault, ...]:
    """All that is wrong with a packing of the things in the space less the clearance; nothing if it is right."""
    return (
        *_count_faults(things, placements),
        *_turn_faults(things, placements),
        *_wall_faults(space, clearance, placements),
        *_overlap_faults(placements),
    )


def _label(placement: Placement) -> str:
    return f"{placement.name} {placement.copy}"


def _count_faults(things: Sequence[PackedThing], placements: Sequence[Placement]) -> Iterator[Fault]:
    wanted = Counter({thing.name: 0 for thing in things})
    for thing in things:
        wanted[thing.name] += thing.quantity
    there = Counter((placement.name, placement.copy) for placement in placements)
    for (name, copy), number in there.items():
        if not 1 <= copy <= wanted[name] or number > 1:
            yield Fault(FaultKind.SURPLUS, (f"{name} {copy}",))
    for name, number in wanted.items():
        for copy in range(1, number + 1):
            if (name, copy) not in there:
                yield Fault(FaultKind.MISSING, (f"{name} {copy}",))


def _turn_faults(things: Sequence[PackedThing], placements: Sequence[Placement]) -> Iterator[Fault]:
    kinds: dict[str, list[PackedThing]] = {}
    for thing in things:
        kinds.setdefault(thing.name, []).append(thing)
    for placement in placements:
        if placement.name in kinds and not any(_is_turn(thing, placement) for thing in kinds[placement.name]):
            yield Fault(FaultKind.WRONG_TURN, (_label(placement),))


def _is_turn(thing: PackedThing, placement: Placement) -> bool:
    length, width, height = (Fraction(edge) for edge in thing.size)
    across, deep, high = placement.size
    if thing.turns is Turns.UPRIGHT:
        return _is_near(high, height) and (
            (_is_near(across, length) and _is_near(deep, width)) or (_is_near(across, width) and _is_near(deep, length))
        )
    same = all(
        _is_near(placed, edge)
        for placed, edge in zip(sorted(placement.size), sorted((length, width, height)), strict=True)
    )
    return same and (thing.turns is Turns.ANY or _is_near(high, min(length, width, height)))


def _is_near(placed: Fraction, edge: Fraction) -> bool:
    return -SLACK / 100 <= placed - edge <= SLACK


def _wall_faults(space: Space, clearance: Clearance, placements: Sequence[Placement]) -> Iterator[Fault]:
    sides = zip((space.width, space.depth, space.height), clearance, strict=True)
    room = [Fraction(edge) - Fraction(free) for edge, free in sides]
    for placement in placements:
        for start, edge, end in zip(placement.corner, placement.size, room, strict=True):
            if start < 0 or start + edge > end + SLACK / 100:
                yield Fault(FaultKind.STICKS_OUT, (_label(placement),))
                break


def _overlap_faults(placements: Sequence[Placement]) -> Iterator[Fault]:
    """Every two that share room, compared in whole numbers of the lengths' common measure: exact, and quick for thousands of things."""
    lengths = [
        (Fraction(at), Fraction(at) + Fraction(side))
        for one in placements
        for at, side in zip(one.corner, one.size, strict=True)
    ]
    measure = math.lcm(*(length.denominator for pair in lengths for length in pair))
    whole = [(int(low * measure), int(high * measure)) for low, high in lengths]
    is_small = all(abs(length) < LARGEST_INT64 for pair in whole for length in pair)
    ends = np.array(whole, dtype=np.int64 if is_small else object).reshape(len(placements), 3, 2)
    for number, one in enumerate(placements):
        later = ends[number + 1 :]
        shared = np.minimum(ends[number, :, 1], later[:, :, 1]) > np.maximum(ends[number, :, 0], later[:, :, 0])
        for other in np.flatnonzero(shared.all(axis=1)):
            yield Fault(FaultKind.OVERLAP, (_label(one), _label(placements[number + 1 + int(other)])))
