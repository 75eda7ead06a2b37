"""How contents lie in a box and how much room they need: a stack of flat things, other things beside or on it. Millimetres."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kitwright.findings import Placed
from kitwright.kit.things import Thing
from kitwright.proof.packing import SPRINGBACK, stack_height

__all__ = ["Arrangement", "Room", "arranged", "room_for", "stack_of", "stacked_things"]


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


def room_for(things: Sequence[Thing], *, standing: bool) -> Room:
    """A room that holds all the things: enough, not the least there is. Raises `ValueError` if there are no things."""
    return arranged(things, standing=standing).room


def arranged(things: Sequence[Thing], *, standing: bool) -> Arrangement:
    """All the things: the flat ones stacked, the others put one by one where the room grows least.

    Raises `ValueError` if there are no things.
    """
    if not things:
        raise ValueError("there is nothing to make room for")
    flat = [thing for thing in things if thing.is_flat]
    room = stack_of(flat, standing=standing) if flat else Room(0.0, 0.0, 0.0)
    placed = list(stacked_things(flat, standing=standing))
    beside = sorted((thing for thing in things if not thing.is_flat), key=lambda t: -(t.width * t.height * t.thickness))
    for thing in beside:
        for _ in range(thing.count):
            ways = ways_to_add(room, sorted((thing.width, thing.height, thing.thickness), reverse=True))
            found, corner, size = min(ways, key=lambda way: (way[0].volume, way[0].width))
            placed.append(Placed(thing.name, 1, corner, size))
            room = found
    return Arrangement(room, tuple(placed))


Triple = tuple[float, float, float]


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
