"""Lengths as people write them, exactly: `4 1/4`, `4-1/4`, `4¼`, `4.25"`, `10.8 cm`. Values are rational millimetres."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake, Unreadable

__all__ = ["LARGEST_MM", "MM_PER_INCH", "Length", "Unit", "parse_length", "parse_size"]

MM_PER_INCH: Final = Fraction(127, 5)
"""One international inch, exactly (yard and pound agreement of 1959, 24 FR 5348)."""

LARGEST_MM: Final = 10_000
"""Nothing on a craft table is longer than ten metres; a larger number is a slip of the keyboard."""


class Unit(StrEnum):
    """The units a maker may write."""

    INCH = "in"
    MILLIMETRE = "mm"
    CENTIMETRE = "cm"

    @property
    def mm(self) -> Fraction:
        """Millimetres in one of this unit, exactly."""
        return {Unit.INCH: MM_PER_INCH, Unit.MILLIMETRE: Fraction(1), Unit.CENTIMETRE: Fraction(10)}[self]

    @property
    def in_words(self) -> str:
        """The unit written out, of more than one: inches."""
        return {Unit.INCH: "inches", Unit.MILLIMETRE: "millimetres", Unit.CENTIMETRE: "centimetres"}[self]


UNIT_WORDS: Final = {
    "": None,
    "in": Unit.INCH,
    "in.": Unit.INCH,
    "inch": Unit.INCH,
    "inches": Unit.INCH,
    '"': Unit.INCH,
    "″": Unit.INCH,
    "”": Unit.INCH,
    "''": Unit.INCH,
    "mm": Unit.MILLIMETRE,
    "millimetre": Unit.MILLIMETRE,
    "millimeter": Unit.MILLIMETRE,
    "millimetres": Unit.MILLIMETRE,
    "millimeters": Unit.MILLIMETRE,
    "cm": Unit.CENTIMETRE,
    "centimetre": Unit.CENTIMETRE,
    "centimeter": Unit.CENTIMETRE,
    "centimetres": Unit.CENTIMETRE,
    "centimeters": Unit.CENTIMETRE,
}


@dataclass(frozen=True, slots=True)
class Length:
    """An exact length in millimetres, and the unit in which it was written."""

    mm: Fraction
    unit: Unit

    @property
    def value(self) -> Fraction:
        """The length in its own unit, exactly."""
        return self.mm / self.unit.mm


NUMBER = re.compile(
    r"""(?:
        (?P<whole>\d{1,9})(?:\s+|\s?-\s?)(?P<num>\d{1,9})\s*/\s*(?P<den>\d{1,9})   # 4 1/4, 4-1/4
        | (?P<onlynum>\d{1,9})\s*/\s*(?P<onlyden>\d{1,9})                            # 1/4
        | (?P<decimal>\d{1,9}(?:[.,]\d{1,20})?|[.,]\d{1,20})                         # 4, 4.25, .5
    )\s*(?P<unit>[^\d\s/.,-].*)?""",
    re.VERBOSE,
)

THOUSANDS = re.compile(r"[1-9]\d*,\d{3}")

EXAMPLES: Final = "Write it like 4 1/4, 4-1/4, 4.25, 4.25 in, 108 mm or 10.8 cm."


def plain_fractions(text: str) -> str:
    """Turn `4¼` into `4 1/4`, and odd dashes and slashes into plain ones."""
    written = []
    for sign in text:
        if unicodedata.category(sign) == "No" and unicodedata.decomposition(sign).startswith("<fraction>"):
            plain = unicodedata.normalize("NFKC", sign).replace("\N{FRACTION SLASH}", "/")
            written.append(f" {plain} ")
        else:
            written.append(
                {"\N{FRACTION SLASH}": "/", "–": "-", "‑": "-", "−": "-", "\N{NO-BREAK SPACE}": " "}.get(sign, sign)
            )
    return "".join(written).strip()


def parse_length(text: str, unit: Unit | None = None) -> Length:
    """Read a length above zero; `unit` is used where the text names none.

    Raises `Mistake` for text that is unreadable or ambiguous, has no unit where none was given, or is zero, negative or absurdly large.

    >>> parse_length('4 1/4', Unit.INCH).mm
    Fraction(2159, 20)
    >>> parse_length('10.8 cm').mm
    Fraction(108, 1)
    """
    read = plain_fractions(text)
    if read.startswith("-"):
        raise Mistake(f"{text.strip()!r} is below zero.", do="A length must be larger than zero.")
    found = NUMBER.fullmatch(read)
    if found is None:
        raise Unreadable(f"{text.strip()!r} is not a length that can be read.", do=EXAMPLES)
    words = (found["unit"] or "").strip().lower()
    if words not in UNIT_WORDS:
        raise Mistake(f"{words!r} in {text.strip()!r} is not a unit known here.", do="Use in, mm or cm.")
    own = UNIT_WORDS[words] or unit
    if own is None:
        raise Mistake(f"{text.strip()!r} has no unit.", do="Add in, mm or cm.")
    value = number_value(found, text)
    if value == 0:
        raise Mistake(f"{text.strip()!r} is zero.", do="A length must be larger than zero.")
    mm = value * own.mm
    if mm > LARGEST_MM:
        raise Mistake(f"{text.strip()!r} is longer than ten metres.", do="Check the number and its unit.")
    return Length(mm, own)


def number_value(found: re.Match[str], text: str) -> Fraction:
    """The number in a match of NUMBER; refuses fractions that no ruler has (denominator 0, 5/4 after a whole)."""
    if found["decimal"]:
        if THOUSANDS.fullmatch(found["decimal"]):
            raise Mistake(
                f"{text.strip()!r} can be read in two ways: a comma before three digits may stand for thousands.",
                do="Use a point before decimals, and nothing between thousands.",
            )
        return Fraction(found["decimal"].replace(",", "."))
    top, bottom = int(found["num"] or found["onlynum"]), int(found["den"] or found["onlyden"])
    if bottom == 0:
        raise Unreadable(f"{text.strip()!r} divides by zero.", do=EXAMPLES)
    if found["whole"] and top >= bottom:
        raise Unreadable(
            f"{text.strip()!r} can be read in two ways: the fraction after the whole number is not below one.",
            do=EXAMPLES,
        )
    return int(found["whole"] or 0) + Fraction(top, bottom)


TIMES = re.compile(r"\s*(?:×|(?<![a-z])by(?![a-z])|(?<![a-gi-lo-rt-z])x(?![a-z]))\s*", re.IGNORECASE)
"""What stands between the numbers of a size; an x may follow a unit (mm, cm, in, inch, inches), but no other word."""


def parse_size(text: str, unit: Unit | None = None, *, count: int | None = None) -> tuple[Length, ...]:
    """Read a size such as `6 x 4`, `6 1/4 × 4 1/4 × 2` or `20 x 13 x 2 cm` into its lengths, in the order written.

    A unit written only after the last number holds for all of them. Raises `Mistake`, also if there are not `count` lengths or if
    some numbers before the last have a unit and others have none.
    """
    words = [word.strip() for word in TIMES.split(text)]
    if count is not None and len(words) != count:
        pattern = " x ".join(("6", "4", "2")[:count])
        wanted = {1: "one length", 2: "two lengths", 3: "three lengths"}.get(count, f"{count} lengths")
        raise Mistake(f"{text.strip()!r} should be {wanted}.", do=f"Write it like {pattern}.")
    if not all(words):
        raise Unreadable(f"{text.strip()!r} lacks a number beside an x.", do="Write it like 6 x 4.")
    *before, last = [written_unit(word) for word in words]
    if any(before) and not all((*before, last)):
        raise Mistake(
            f"{text.strip()!r} has a unit after some of its numbers and none after others.",
            do="Write the unit once after the last number, or after every number.",
        )
    return tuple(parse_length(word, last or unit) for word in words)


def written_unit(word: str) -> Unit | None:
    """The unit written in one length, if there is one that is known."""
    found = NUMBER.fullmatch(plain_fractions(word))
    return UNIT_WORDS.get((found["unit"] or "").strip().lower()) if found else None
