"""Check a packing again, by its own arithmetic: it shares nothing with the ways in which packings are found."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import combinations
from typing import Final

from kitwright.proof.packing.things import Clearance, PackedThing, Placement, Space, Turns

__all__ = ["Fault", "FaultKind", "verify_packing"]

SLACK: Final = Fraction(2, 1_000_000)
"""How much larger than its thing a placement may be, in mm: two nanometres, for sizes were rounded up to one."""


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
    for one, two in combinations(placements, 2):
        if all(
            min(a + m, b + n) > max(a, b) for a, m, b, n in zip(one.corner, one.size, two.corner, two.size, strict=True)
        ):
            yield Fault(FaultKind.OVERLAP, (_label(one), _label(two)))
