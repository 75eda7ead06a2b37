"""One mat being filled: pieces laid one after the other in the first place that is free, and some of them taken out again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import Enum, auto
from random import Random
from typing import Final

from kitwright.cutting.nest_lattice import Lattice, Way
from kitwright.cutting.work import Work

__all__ = ["Filling", "Lying", "Preference", "filled", "kept_of", "settled"]

Lying = tuple[Way, int, int]
"""A way to lie, and its place on the lattice: column and row."""


LOOK: Final = 2000
TAKE: Final = 1500
"""What it takes to look for a place, and to take from the places what a piece covers, but for the bits (nanoseconds, counted)."""


MOST_SETTLED: Final = 60
"""Pieces of a mat that are moved together; among more there is hardly room to move."""


class Preference(Enum):
    """Which of its turns a piece takes."""

    BEGINS_NEAR = auto()
    """The one that begins nearest to the edge from which the mat is filled."""
    ENDS_NEAR = auto()
    """The one that ends nearest to it."""
    ANY = auto()


class Filling:
    """Pieces on a mat, and for each way to lie the places that are free among them."""

    def __init__(self, lattice: Lattice, work: Work, lying: Sequence[Lying] = ()) -> None:
        self.lattice = lattice
        self.work = work
        self.lying = list(lying)
        self.free: dict[tuple[int, int], tuple[int, int]] = {}

    def places(self, way: Way) -> int:
        """The free places as bits."""
        key = way.kind, way.turn
        bits, seen = self.free.get(key, (way.places, 0))
        self.work.does(LOOK)
        if seen < len(self.lying) and bits:
            self.work.does((len(self.lying) - seen) * (TAKE + way.places.bit_length() // 80))
            for other, column, row in self.lying[seen:]:
                taken, by = self.lattice.taken_by(other, column, row, way)
                bits ^= bits & (taken << by if by >= 0 else taken >> -by)
        self.free[key] = bits, len(self.lying)
        return bits

    def lay(self, kind: int, preference: Preference, chance: Random) -> bool:
        """Lay one more piece of a kind; whether there was a place for it."""
        pitch = self.lattice.shadows.pitch
        best: tuple[tuple[float, ...], Lying] | None = None
        for way in self.lattice.ways[kind]:
            places = self.places(way)
            if not places:
                continue
            column, row = self.lattice.place(way, places)
            begins = column * pitch + way.off[0] + way.box[0]
            ends = begins + way.box[2] - way.box[0]
            if preference is Preference.ANY:
                rank: tuple[float, ...] = (chance.random(),)
            else:
                rank = (begins, ends) if preference is Preference.BEGINS_NEAR else (ends, begins)
            if best is None or rank < best[0]:
                best = rank, (way, column, row)
        if best is None:
            return False
        self.lying.append(best[1])
        return True


def filled(
    filling: Filling,
    caps: Sequence[int],
    order: Sequence[int],
    preference: Preference,
    chance: Random,
    *,
    in_runs: bool,
) -> tuple[Lying, ...]:
    """The pieces of a filling once no more go in: kind by kind in this order, at most so many of each.

    `in_runs` lays only some of a kind before the next one has its turn.
    """
    left = list(caps)
    for way, _, _ in filling.lying:
        left[way.kind] -= 1
    alive = [kind for kind in order if left[kind] > 0]
    while alive:
        for kind in tuple(alive):
            run = 1 + int(chance.random() * left[kind]) if in_runs else left[kind]
            while run and left[kind]:
                if not filling.lay(kind, preference, chance):
                    left[kind] = 0
                    break
                left[kind] -= 1
                run -= 1
        alive = [kind for kind in alive if left[kind] > 0]
    return tuple(filling.lying)


def settled(lattice: Lattice, lying: Sequence[Lying]) -> tuple[Lying, ...]:
    """The pieces moved together: each in turn, the first ones first, to the first place that is free for it as it is turned."""
    work = Work(1, lambda: True)
    found = sorted(lying, key=lambda each: (each[1], each[2]))
    for number, (way, _, _) in enumerate(found if len(found) <= MOST_SETTLED else ()):
        others = found[:number] + found[number + 1 :]
        found[number] = (way, *lattice.place(way, Filling(lattice, work, others).places(way)))
    return tuple(found)


def kept_of(lying: Sequence[Lying], chance: Random) -> Iterator[Lying]:
    """What stays of a filling when some is taken out: by chance piece by piece, all to one side, or all of it."""
    way = chance.random()
    if way < 0.5:
        share = chance.random()
        yield from (each for each in lying if chance.random() < share)
    elif way < 0.85:
        columns = [column for _, column, _ in lying]
        at = min(columns) + chance.random() * (max(columns) - min(columns) + 1)
        yield from (each for each in lying if each[1] <= at)
