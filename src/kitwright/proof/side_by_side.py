"""Whether pockets that are glued on one face have room there side by side, all of them the same way up. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.measure import ON_LIMIT, Ruler
from kitwright.proof.packing import AnyAnswer, DoesNotFit, Packed, PackedThing, Space, Turns, pack

__all__ = ["Piece", "check_side_by_side", "most_in_rows"]

Piece = tuple[str, int, tuple[float, float]]
"""One kind of pocket: its name, how many of it, and how wide and high each is."""

LEAF: Final = 1.0
"""How deep a leaf is where rectangles are packed as upright boxes: so little (mm) that none can be turned."""


def check_side_by_side(
    about: str,
    pieces: Sequence[Piece],
    face: tuple[float, float],
    ruler: Ruler,
    *,
    where: str,
    leaves: int,
    slip: float,
) -> Finding:
    """Pockets on a face (width, height) of `where`, or on as many `leaves` of that size. Glued by hand, each may be off by `slip`."""
    unit = ruler.unit.value
    count = sum(number for _, number, _ in pieces)
    listed = " and ".join(f"{number} × {name}, {ruler.size(*size)} {unit} each" for name, number, size in pieces)
    room = f"{where} has {f'{leaves} × ' if leaves > 1 else ''}{ruler.size(*face)} {unit} for them"
    answer = packed(pieces, face, leaves=leaves, slip=0.0)
    if isinstance(answer, Packed):
        reading = Reading(count, count, "places were found and checked pair by pair", "pockets", is_upper_limit=True)
        if isinstance(packed(pieces, face, leaves=leaves, slip=slip), Packed):
            return judged("side-by-side", Severity.OK, about, f"All {count} have room side by side: {room}.", reading)
        words = f"All {count} have just room side by side: {room}. One that is glued a little off is in the way of the next."
        return judged("side-by-side", Severity.WARNING, about, words, reading)
    if not isinstance(answer, DoesNotFit):
        words = f"Whether {listed}, have room side by side was not settled in the time given: {room}."
        return Finding("side-by-side", Severity.UNKNOWN, about, words, because="search ended without an answer")
    most = most_in_rows(pieces[0][2], face) * leaves if len(pieces) == 1 else None
    at_most = "" if most is None else f", room for {most} at most"
    words = f"There is no room side by side for {listed}: {room}{at_most}."
    because = f"proved: {answer.proof.value}; all the same way up"
    reading = Reading(count, count - 1 if most is None else most, because, "pockets", is_upper_limit=True)
    return judged("side-by-side", Severity.FAIL, about, words, reading)


def most_in_rows(piece: tuple[float, float], face: tuple[float, float]) -> int:
    """How many rectangles of one size go on a face, all the same way up: in rows and columns as many as in any other way."""
    return math.prod(math.floor((room + ON_LIMIT) / side) for side, room in zip(piece, face, strict=True))


def packed(pieces: Sequence[Piece], face: tuple[float, float], *, leaves: int, slip: float) -> AnyAnswer:
    """Places for all of them, on a leaf each is at least twice `slip` from the next."""
    width, height = (side + ON_LIMIT for side in face)
    things = [
        PackedThing(name, (wide + 2 * slip, LEAF, high + 2 * slip), number, Turns.UPRIGHT)
        for name, number, (wide, high) in pieces
    ]
    return pack(things, Space(width, leaves * LEAF, height))
