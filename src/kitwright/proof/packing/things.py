"""What is to be packed, into what, and the three answers there are. Sizes are in mm; inside, whole nanometres are reckoned with."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import permutations
from typing import Final

from kitwright.errors import Mistake

__all__ = [
    "AnyAnswer",
    "Clearance",
    "DoesNotFit",
    "Packed",
    "PackedThing",
    "Placement",
    "Proof",
    "Space",
    "Triple",
    "Turns",
    "Unknown",
]

NANOMETRES: Final = 10**6
"""Nanometres in a millimetre. Every mark of an inch ruler down to 1/64 in is a whole number of them."""

DUST: Final = Fraction(1, 100)
"""A size this close to a whole nanometre (in nanometres) is that nanometre: it is the dust of decimal fractions, not a size."""

MOST_MM: Final = 10_000

Triple = tuple[int, int, int]
Clearance = tuple[float | Fraction, float | Fraction, float | Fraction]


class Turns(StrEnum):
    """How a thing may be turned."""

    ANY = "any way"
    UPRIGHT = "upright only"
    FLAT = "lying flat"


class Proof(StrEnum):
    """Why there can be no packing."""

    TOO_LONG = "one thing alone is too long"
    VOLUME = "the things are larger than the space"
    SCALES = "rounded as every packing must round them, the things are larger than the space"
    COLOURING = "the things cannot cover the colours of a pattern that the space has"
    SEARCH = "every way was searched"


@dataclass(frozen=True, slots=True)
class PackedThing:
    """A thing to be packed, `quantity` times, as its bounding box (length, width, height) in mm.

    *Upright only* keeps the height vertical; *lying flat* puts the smallest side vertical.

    Raises `Mistake` for a size not above zero or absurdly large, or a quantity below one.
    """

    name: str
    size: tuple[float | Fraction, float | Fraction, float | Fraction]
    quantity: int
    turns: Turns

    def __post_init__(self) -> None:
        """Refuse what cannot be packed because it cannot be."""
        if not all(0 < edge <= MOST_MM for edge in self.size):
            raise Mistake(
                f"{self.name!r} has no size that can be packed.",
                do="All three sizes must be above zero and below ten metres.",
            )
        if self.quantity < 1:
            raise Mistake(
                f"{self.name!r} is to be packed {self.quantity} times.", do="Leave it out, or ask for one or more."
            )

    @property
    def outer(self) -> Triple:
        """The size in whole nanometres, rounded up."""
        first, second, third = (math.ceil(Fraction(edge) * NANOMETRES - DUST) for edge in self.size)
        return first, second, third

    @property
    def ways(self) -> tuple[Triple, ...]:
        """The different sizes along width, depth and height that its allowed turns give, in whole nanometres, sorted."""
        length, width, height = self.outer
        if self.turns is Turns.UPRIGHT:
            return tuple(sorted({(length, width, height), (width, length, height)}))
        every = {(a, b, c) for a, b, c in permutations(self.outer)}
        if self.turns is Turns.FLAT:
            every = {way for way in every if way[2] == min(way)}
        return tuple(sorted(every))


@dataclass(frozen=True, slots=True)
class Space:
    """The inside of a box, in mm: width (left to right), depth (front to back), height.

    Raises `Mistake` for a size not above zero or absurdly large.
    """

    width: float | Fraction
    depth: float | Fraction
    height: float | Fraction

    def __post_init__(self) -> None:
        """Refuse a space that cannot be."""
        if not all(0 < edge <= MOST_MM for edge in (self.width, self.depth, self.height)):
            raise Mistake(
                "A space must be larger than zero and at most ten metres each way.", do="Check its inside sizes."
            )

    def inner(self, clearance: Clearance) -> Triple:
        """What is left for the things after the clearance (free play in all, each way), in whole nanometres, rounded down."""
        sides = zip((self.width, self.depth, self.height), clearance, strict=True)
        width, depth, height = (
            math.floor((Fraction(edge) - Fraction(free)) * NANOMETRES + DUST) for edge, free in sides
        )
        return width, depth, height


@dataclass(frozen=True, slots=True)
class Placement:
    """Where one copy of a thing lies: its name, which copy (from 1), its left front lower corner and its size as turned, in mm."""

    name: str
    copy: int
    corner: tuple[Fraction, Fraction, Fraction]
    size: tuple[Fraction, Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Packed:
    """A packing was found, and checked pair by pair."""

    placements: tuple[Placement, ...]


@dataclass(frozen=True, slots=True)
class DoesNotFit:
    """There is no packing, and why. Never said for want of time."""

    proof: Proof
    reason: str


@dataclass(frozen=True, slots=True)
class Unknown:
    """Neither a packing nor a proof was found within the effort allowed. `established` are the sentences that do hold."""

    established: tuple[str, ...]


AnyAnswer = Packed | DoesNotFit | Unknown
