"""How contents lie in a box and how much room they need: a stack of flat things, other things beside or on it. Millimetres."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from kitwright.findings import Placed
from kitwright.kit.rows import Loose, in_rows_and_layers
from kitwright.kit.things import Thing
from kitwright.measure import NEAR_MARK
from kitwright.proof.packing import SPRINGBACK, stack_height

__all__ = ["Arrangement", "Room", "arranged", "is_turned_in", "room_for", "stack_of", "stacked_things"]


CLEARLY: Final = 0.97
"""Rows and layers are more to explain; they must have this share of the other room's surface, or less."""

MOST_REMEMBERED: Final = 64
"""So many arrangements are remembered."""

Triple = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Room:
    """Width, depth and height that something takes up in a box."""

    width: float
    depth: float
    height: float

    @property
    def volume(self) -> float:
        """mm³."""
        return self.width * self.depth * self.height

    @property
    def surface(self) -> float:
        """mm², of all six sides."""
        return 2 * (self.width * self.depth + self.width * self.height + self.depth * self.height)


def stack_of(things: Sequence[Thing], *, standing: bool) -> Room:
    """The room of all flat things in one stack, with springback: lying on the bottom, or standing upright one behind the other.

    Lying, each thing has its longer side along the width; standing, things stay upright as they are looked at.
    """
    thick = stack_height(((thing.count, thing.thickness) for thing in things), springback=SPRINGBACK)
    if standing:
        return Room(max(thing.width for thing in things), thick, max(thing.height for thing in things))
    long = max(max(thing.width, thing.height) for thing in things)
    short = max(min(thing.width, thing.height) for thing in things)
    return Room(long, short, thick)


def stacked_things(things: Sequence[Thing], *, standing: bool) -> tuple[Placed, ...]:
    """Where each of the flat things lies in their stack, in the order in which they are named: upwards, or from the front to the back."""
    placed: list[Placed] = []
    reached = 0.0
    for thing in things:
        thick = stack_height([(thing.count, thing.thickness)], springback=SPRINGBACK)
        long, short = max(thing.width, thing.height), min(thing.width, thing.height)
        corner = (0.0, reached, 0.0) if standing else (0.0, 0.0, reached)
        size = (thing.width, thick, thing.height) if standing else (long, short, thick)
        placed.append(Placed(thing.name, thing.count, corner, size))
        reached += thick
    return tuple(placed)


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Things as they lie, pushed into the left front lower corner, and the room that they take up together."""

    room: Room
    placed: tuple[Placed, ...]

    @property
    def turned(self) -> Arrangement:
        """All of it turned a quarter on the bottom."""
        placed = (
            replace(each, corner=(y, x, z), size=(deep, wide, high))
            for each in self.placed
            for (x, y, z), (wide, deep, high) in ((each.corner, each.size),)
        )
        return Arrangement(Room(self.room.depth, self.room.width, self.room.height), tuple(placed))


def room_for(things: Sequence[Thing], *, standing: bool) -> Room:
    """A room that holds all the things: enough, not the least there is. Raises `ValueError` if there are no things."""
    return arranged(things, standing=standing).room


def arranged(things: Sequence[Thing], *, standing: bool) -> Arrangement:
    """All the things: the flat ones stacked, the others put one by one where the room grows least, or in rows and layers.

    Rows and layers are taken where their room has clearly less surface, and so needs less paper.
    Raises `ValueError` if there are no things.
    """
    return arrangement_of(tuple(things), standing)


@lru_cache(maxsize=MOST_REMEMBERED)
def arrangement_of(things: tuple[Thing, ...], standing: bool) -> Arrangement:
    """The same, remembered: while a change of a box is looked for, what lies in it stays the same."""
    if not things:
        raise ValueError("there is nothing to make room for")
    flat = [thing for thing in things if thing.is_flat]
    stack = stack_of(flat, standing=standing) if flat else Room(0.0, 0.0, 0.0)
    beside = [
        (thing.name, sorted((thing.width, thing.height, thing.thickness), reverse=True))
        for thing in sorted(things, key=lambda thing: -(thing.width * thing.height * thing.thickness))
        for _ in range(0 if thing.is_flat else thing.count)
    ]
    room, loose = one_by_one(stack, beside)
    block = None
    for size, in_rows in in_rows_and_layers(beside):
        for more, corner in beside_or_on(stack, Room(*size)):
            if more.surface < CLEARLY * room.surface:
                room, block = more, (in_rows, corner)
    if block is not None:
        in_rows, corner = block
        loose = moved(in_rows(), corner)
    return Arrangement(room, (*stacked_things(flat, standing=standing), *loose))


def is_turned_in(needed: Room, clear: Room) -> bool:
    """Whether what lies in a box goes in turned a quarter and not as it is."""

    def goes(wide: float, deep: float) -> bool:
        return wide <= clear.width + float(NEAR_MARK) and deep <= clear.depth + float(NEAR_MARK)

    return goes(needed.depth, needed.width) and not goes(needed.width, needed.depth)


def one_by_one(stack: Room, beside: Sequence[Loose]) -> tuple[Room, tuple[Placed, ...]]:
    """The things added to the stack where the room grows least, and of equal rooms in the lowest."""
    room, placed = stack, []
    for name, sides in beside:
        found, corner, size = min(ways_to_add(room, sides), key=lambda way: (round(way[0].volume, 3), way[0].height))
        placed.append(Placed(name, 1, corner, size))
        room = found
    return room, tuple(placed)


def beside_or_on(stack: Room, block: Room) -> Iterator[tuple[Room, Triple]]:
    """The room of the stack with a block behind it, beside it or on it, and the block's corner."""
    for corner in ((0.0, stack.depth, 0.0), (stack.width, 0.0, 0.0), (0.0, 0.0, stack.height)):
        x, y, z = corner
        sides = (x + block.width, y + block.depth, z + block.height)
        yield (
            Room(max(stack.width, sides[0]), max(stack.depth, sides[1]), max(stack.height, sides[2])),
            corner,
        )


def moved(placed: Sequence[Placed], by: Triple) -> tuple[Placed, ...]:
    """The same things further on."""
    return tuple(
        replace(each, corner=(each.corner[0] + by[0], each.corner[1] + by[1], each.corner[2] + by[2]))
        for each in placed
    )


def ways_to_add(room: Room, sides: Sequence[float]) -> Iterator[tuple[Room, Triple, Triple]]:
    """Putting a thing in front of, beside or on top of what is there: the room that comes of it, the thing's corner, its size as turned.

    Its longest side lies along the edge, or stands where it is put in front or beside.
    """
    long, middle, short = sides
    behind, beside, above = (0.0, room.depth, 0.0), (room.width, 0.0, 0.0), (0.0, 0.0, room.height)
    ways: tuple[tuple[Triple, Triple], ...] = (
        (behind, (long, middle, short)),
        (behind, (long, short, middle)),
        (beside, (middle, long, short)),
        (beside, (short, long, middle)),
        (beside, (middle, short, long)),
        (beside, (short, middle, long)),
        (behind, (middle, short, long)),
        (above, (long, middle, short)),
        (above, (middle, long, short)),
    )
    for corner, size in ways:
        width, depth, height = (at + side for at, side in zip(corner, size, strict=True))
        yield Room(max(room.width, width), max(room.depth, depth), max(room.height, height)), corner, size
