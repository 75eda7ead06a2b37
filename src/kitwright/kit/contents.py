"""How much room contents need in a box: a stack of flat things, other things beside or on it. Millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from kitwright.kit.things import Thing
from kitwright.proof.packing import SPRINGBACK, stack_height

__all__ = ["Room", "room_for", "stack_of"]


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

    def plus(self, width: float, depth: float, height: float) -> Room:
        """The room with so much added to its sides."""
        return Room(self.width + width, self.depth + depth, self.height + height)


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


def room_for(things: Sequence[Thing], *, standing: bool) -> Room:
    """A room that holds all the things: the flat ones stacked, the others put one by one where the room grows least.

    It is a room that is enough, not the least there is. Raises `ValueError` if there are no things.
    """
    if not things:
        raise ValueError("there is nothing to make room for")
    flat = [thing for thing in things if thing.is_flat]
    room = stack_of(flat, standing=standing) if flat else Room(0.0, 0.0, 0.0)
    beside = sorted((thing for thing in things if not thing.is_flat), key=lambda t: -(t.width * t.height * t.thickness))
    for thing in beside:
        long, middle, short = sorted((thing.width, thing.height, thing.thickness), reverse=True)
        for _ in range(thing.count):
            room = min(grown(room, long, middle, short), key=lambda each: (each.volume, each.width))
    return room


def grown(room: Room, long: float, middle: float, short: float) -> tuple[Room, ...]:
    """The rooms that come of putting a thing in front of, beside or on top of what is there, its longest side along the edge."""
    width, depth, height = room.width, room.depth, room.height
    return (
        Room(max(width, long), depth + middle, max(height, short)),
        Room(max(width, long), depth + short, max(height, middle)),
        Room(width + middle, max(depth, long), max(height, short)),
        Room(width + short, max(depth, long), max(height, middle)),
        Room(width + middle, max(depth, short), max(height, long)),
        Room(width + short, max(depth, middle), max(height, long)),
        Room(max(width, middle), depth + short, max(height, long)),
        Room(max(width, long), max(depth, middle), height + short),
        Room(max(width, middle), max(depth, long), height + short),
    )
