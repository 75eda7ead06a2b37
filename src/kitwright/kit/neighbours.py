"""Standard sizes and their neighbours in the other system of units: what a shop has instead. Sizes are width × height, exact mm."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from kitwright.measure import MM_PER_INCH

__all__ = ["CARDS", "ENVELOPES", "SHEETS", "Neighbours", "neighbour"]

Size = tuple[Fraction, Fraction]


def inches(width: str, height: str) -> Size:
    """A size in inches, in mm."""
    return Fraction(width) * MM_PER_INCH, Fraction(height) * MM_PER_INCH


def mm(width: int, height: int) -> Size:
    """A size in millimetres."""
    return Fraction(width), Fraction(height)


@dataclass(frozen=True, slots=True)
class Neighbours:
    """Pairs of sizes, and the names of them: in inches, and in millimetres.

    Where a size has two neighbours, the first pair holds.
    """

    pairs: tuple[tuple[Size, Size], ...]
    names: Mapping[Size, str]

    def of(self, size: Size, *, to_inches: bool) -> Size | None:
        """The neighbour of a size, the same way round; None if it is not one of these."""
        for in_inches, in_mm in self.pairs:
            here, there = (in_mm, in_inches) if to_inches else (in_inches, in_mm)
            if size == here:
                return there
            if size == here[::-1]:
                return there[::-1]
        return None

    def name(self, size: Size) -> str:
        """What a size is called; nothing if it has no name here."""
        return self.names.get(size, self.names.get(size[::-1], ""))


def neighbours(*pairs: tuple[Size, str, Size, str]) -> Neighbours:
    """Neighbours from pairs of sizes, each with its name."""
    names: dict[Size, str] = {}
    for in_inches, inch_name, in_mm, mm_name in pairs:
        names.setdefault(in_inches, inch_name)
        names.setdefault(in_mm, mm_name)
    return Neighbours(tuple((one, other) for one, _, other, _ in pairs), MappingProxyType(names))


SHEETS: Final = neighbours(
    (inches("17/2", "11"), "Letter", mm(210, 297), "A4"),
    (inches("11", "17"), "Tabloid", mm(297, 420), "A3"),
    (inches("11/2", "17/2"), "half Letter", mm(148, 210), "A5"),
    (inches("12", "18"), "Arch B", mm(320, 450), "SRA3"),
    (inches("12", "12"), "12 inch pad", mm(305, 305), "30.5 cm pad"),
    (inches("8", "8"), "8 inch pad", mm(203, 203), "20.3 cm pad"),
    (inches("6", "6"), "6 inch pad", mm(152, 152), "15.2 cm pad"),
)
"""Sheets: ISO 216 and PWG 5101.1 for the sizes with names, ISO 217 for SRA3 (from memory); pads are common practice, no source.
Which is whose neighbour is common practice."""

CARDS: Final = neighbours(
    (inches("17/4", "11/2"), "quarter Letter", mm(105, 148), "A6"),
    (inches("4", "6"), "4 × 6 card", mm(105, 148), "A6"),
    (inches("5", "7"), "5 × 7 card", mm(125, 176), "B6"),
    (inches("11/2", "17/2"), "half Letter", mm(148, 210), "A5"),
)
"""Cards: a quarter of a Letter sheet and A6 are both what comes of cutting the common sheet in four (ISO 216, PWG 5101.1)."""

ENVELOPES: Final = neighbours(
    (inches("35/8", "23/4"), "A2 envelope", mm(114, 162), "C6"),
    (inches("19/4", "13/2"), "A6 envelope", mm(114, 162), "C6"),
    (inches("23/4", "35/4"), "A9 envelope", mm(162, 229), "C5"),
    (inches("33/8", "19/2"), "no. 10 envelope", mm(110, 220), "DL"),
)
"""Envelopes: PWG 5101.1 for A2 and no. 10, printed tables for A6 and A9 announcement envelopes; ISO 269 for C6, C5 and DL. A North
American A2 or A6 envelope has nothing to do with the ISO sheets of that name."""


def neighbour(size: tuple[Fraction, ...], table: Neighbours, *, to_inches: bool) -> Size | None:
    """The neighbour of the first two lengths of a size."""
    return table.of((size[0], size[1]), to_inches=to_inches) if len(size) >= 2 else None
