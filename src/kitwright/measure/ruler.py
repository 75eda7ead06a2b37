"""The maker's ruler: which marks it has, rounding to them with a direction, and printing lengths as they are read off it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake
from kitwright.measure.length import MM_PER_INCH, Unit, parse_length
from kitwright.measure.tolerance import NEAR_MARK

__all__ = ["Ruler", "format_length", "parse_ruler"]

FINEST_INCH: Final = Fraction(1, 64)
FINEST_MM: Final = Fraction(1, 10)


@dataclass(frozen=True, slots=True)
class Ruler:
    """Marks every `step` millimetres (exact), read in `unit`."""

    unit: Unit
    step: Fraction

    def down(self, mm: float | Fraction) -> Fraction:
        """The largest mark not above `mm`: for a thing that goes inside. In exact millimetres."""
        return math.floor((Fraction(mm) + NEAR_MARK) / self.step) * self.step

    def up(self, mm: float | Fraction) -> Fraction:
        """The smallest mark not below `mm`: for a thing that holds. In exact millimetres."""
        return math.ceil((Fraction(mm) - NEAR_MARK) / self.step) * self.step

    def nearest(self, mm: float | Fraction) -> Fraction:
        """The mark nearest to `mm`, the upper one in the middle. In exact millimetres."""
        return math.floor(Fraction(mm) / self.step + Fraction(1, 2)) * self.step

    def is_on_mark(self, mm: float | Fraction) -> bool:
        """Whether `mm` lies on a mark."""
        return abs(self.nearest(mm) - Fraction(mm)) <= NEAR_MARK

    def format(self, mm: float | Fraction) -> str:
        """The length as read off this ruler, without its unit; lengths between marks are shown finer, never moved to a mark."""
        return format_length(mm, self.unit)

    def with_unit(self, mm: float | Fraction) -> str:
        """The length as read off this ruler, with its unit: `4 1/4 in`, `108 mm`."""
        return f"{self.format(mm)} {self.unit.value}"

    def near(self, mm: float | Fraction) -> str:
        """A measured length for people, with its unit: exact on a mark, otherwise rounded to a place that means something."""
        if self.is_on_mark(mm):
            return self.with_unit(mm)
        places = {Unit.INCH: 3, Unit.CENTIMETRE: 2, Unit.MILLIMETRE: 1}[self.unit]
        return f"{decimal(Fraction(mm) / self.unit.mm, places)} {self.unit.value}"

    def thickness(self, mm: float | Fraction) -> str:
        """How thick card is, with its unit: `0.28 mm`, `0.011 in`. It is read off a caliper, not off this ruler, so finer than a size."""
        places = {Unit.INCH: 3, Unit.CENTIMETRE: 3, Unit.MILLIMETRE: 2}[self.unit]
        return f"{decimal(Fraction(mm) / self.unit.mm, places)} {self.unit.value}"

    def size(self, *lengths: float | Fraction) -> str:
        """Several lengths as a size: `4 1/4 × 5 1/2`."""
        return " × ".join(self.format(length) for length in lengths)

    @property
    def name(self) -> str:
        """The step as it is written in a kit document: `1/16 in`, `0.5 mm`."""
        return self.with_unit(self.step)


def format_length(mm: float | Fraction, unit: Unit) -> str:
    """A length in `unit`, as a maker reads it: `4 1/4`, `108`, `10.8`.

    Inches are shown to 1/64 where that is exact (to a thousandth of a millimetre), otherwise as a decimal to three places;
    millimetres and centimetres to a tenth of a millimetre, or to a hundredth where the value needs it. A tie goes to the even digit.

    >>> format_length(Fraction(2159, 20), Unit.INCH)
    '4 1/4'
    """
    exact = Fraction(mm)
    if unit is Unit.INCH:
        inches = exact / MM_PER_INCH
        marks = round(inches / FINEST_INCH)
        if abs(marks * FINEST_INCH * MM_PER_INCH - exact) <= NEAR_MARK:
            return mixed_number(marks * FINEST_INCH)
        return decimal(inches, 3)
    return decimal(exact / unit.mm, 2 if unit is Unit.MILLIMETRE else 3).rstrip("0").rstrip(".")


def decimal(value: Fraction, places: int) -> str:
    """`value` with so many decimal places, a tie to the even digit (NIST SP 811, B.7.1), and never a minus before zero."""
    return f"{Decimal(round(value * 10**places)).scaleb(-places):.{places}f}"


def mixed_number(value: Fraction) -> str:
    """`17/4` as `4 1/4`, below zero with a minus sign."""
    sign = "-" if value < 0 else ""
    whole, rest = divmod(abs(value), 1)
    words = [str(whole)] if whole or not rest else []
    if rest:
        words.append(f"{rest.numerator}/{rest.denominator}")
    return sign + " ".join(words)


def parse_ruler(text: str, unit: Unit) -> Ruler:
    """Read the finest marks of a ruler, such as `1/16`, `1/32 in` or `0.5 mm`; `unit` where none is written."""
    step = parse_length(text, unit)
    finest = {Unit.INCH: FINEST_INCH * MM_PER_INCH}.get(step.unit, FINEST_MM)
    if step.mm < finest or step.mm > MM_PER_INCH:
        raise Mistake(
            f"A ruler marked every {text.strip()!r} is not usable here.",
            do="Choose 1/8 in, 1/16 in, 1/32 in or 1/64 in." if step.unit is Unit.INCH else "Choose 1 mm or 0.5 mm.",
        )
    return Ruler(step.unit, step.mm)
