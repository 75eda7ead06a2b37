"""The rules of one postal service: classes in the order in which they are tried, each with its ranges, clause, date and status."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from kitwright.measure import Unit
from kitwright.proof.mailing.piece import Feature, Shape

__all__ = [
    "Clause",
    "Condition",
    "Effect",
    "Kind",
    "MailClass",
    "Quantity",
    "Range",
    "Service",
    "Sides",
    "Smallest",
    "Status",
]


class Kind(StrEnum):
    """What a piece is to a service, from too small to too big."""

    TOO_SMALL = "too small"
    LETTER = "letter"
    NON_MACHINABLE = "non-machinable letter"
    LARGE_LETTER = "large letter"
    PARCEL = "parcel"
    TOO_BIG = "too big"


class Status(StrEnum):
    """How far a rule can be trusted."""

    READ = "read"
    SECOND_HAND = "second-hand"
    MEMORY = "from memory"


class Sides(StrEnum):
    """Which side a class calls the length: the one along the address, or the longest one."""

    ADDRESS = "address"
    LONGEST = "longest"


class Effect(StrEnum):
    """What follows where a piece misses a condition of a class."""

    NON_MACHINABLE = "non-machinable"
    NEXT_CLASS = "next class"


class Quantity(StrEnum):
    """What is measured against a range. The first four must be stated by every class."""

    LENGTH = "length"
    HEIGHT = "height"
    THICKNESS = "thickness"
    WEIGHT = "weight"
    ASPECT = "aspect"
    LENGTH_PLUS_GIRTH = "length_plus_girth"
    SUM_OF_SIDES = "sum_of_sides"

    @property
    def words(self) -> str:
        """The quantity as a person says it."""
        special = {
            Quantity.ASPECT: "length ÷ height",
            Quantity.LENGTH_PLUS_GIRTH: "length plus girth",
            Quantity.SUM_OF_SIDES: "sum of length, height and thickness",
        }
        return special.get(self, self.value)

    @property
    def is_length(self) -> bool:
        """Whether it is measured in units of length."""
        return self not in (Quantity.WEIGHT, Quantity.ASPECT)


@dataclass(frozen=True, slots=True)
class Range:
    """Both ends pass. Lengths in mm, weights in grams, all exact; an aspect is kept *squared*, so that √2 is exact too.

    `written` are the two ends as the rule writes them, unit and all.
    """

    start: Fraction
    end: Fraction
    written: tuple[str, str]

    def has(self, value: Fraction) -> bool:
        """Whether the value lies in the range."""
        return self.start <= value <= self.end

    def covers(self, other: Range) -> bool:
        """Whether the other range lies within this one."""
        return self.start <= other.start and other.end <= self.end


@dataclass(frozen=True, slots=True)
class Clause:
    """Where a rule is written: the clause, the text it stands in, the date of that text, and how far to trust it."""

    name: str
    source: str
    date: str
    status: Status

    def __str__(self) -> str:
        """The clause as it is printed beside a verdict."""
        said = f"{self.name}, {self.source}, {self.date}"
        return said if self.status is Status.READ else f"{said} ({self.status.value})"


@dataclass(frozen=True, slots=True)
class Condition:
    """Something a class asks for beside its sizes: a range, the absence of features, or the address along the long side.

    `says` is what is wrong if it is missed. A range is asked for only where the piece is longer or higher than the two
    `if_…_over` lengths, if these are given (one of the two is enough).
    """

    effect: Effect
    says: str
    clause: Clause
    without: frozenset[Feature] = frozenset()
    ranges: tuple[tuple[Quantity, Range], ...] = ()
    if_length_over: Fraction | None = None
    if_height_over: Fraction | None = None
    address_along_long_side: bool = False
    corner_radius: tuple[tuple[Shape, Fraction], ...] = ()
    most_unevenness: Fraction | None = None


@dataclass(frozen=True, slots=True)
class MailClass:
    """One row of a service: what a piece of this shape is if all of its ranges and conditions hold."""

    name: str
    kind: Kind
    sides: Sides
    shapes: frozenset[Shape]
    ranges: tuple[tuple[Quantity, Range], ...]
    clause: Clause
    conditions: tuple[Condition, ...] = ()


@dataclass(frozen=True, slots=True)
class Smallest:
    """Below this, a piece of such a shape may not be mailed at all; sizes in mm, longest side first.

    It holds for pieces of at most `thickness_to` where that is given, otherwise for all.
    """

    length: Fraction
    height: Fraction
    thickness: Fraction
    thickness_to: Fraction | None
    shapes: frozenset[Shape]
    clause: Clause


@dataclass(frozen=True, slots=True)
class Service:
    """All the rules of one postal service, as they stood at their dates."""

    code: str
    name: str
    place: str
    unit: Unit
    smallest: Smallest | None
    classes: tuple[MailClass, ...]
