"""Basis weight and grams per square metre: how heavy a paper is, in both ways of saying it."""

from __future__ import annotations

import re
from enum import StrEnum
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake, Unreadable
from kitwright.measure import MM_PER_INCH, nearest_word, plain_number, suggestion

__all__ = [
    "Grade",
    "find_grade",
    "grams_per_square_metre",
    "parse_weight",
    "pounds",
    "weight_g",
]

GRAMS_PER_POUND: Final = Fraction("453.59237")
"""One pound avoirdupois, exactly (yard and pound agreement of 1959, 24 FR 5348)."""

SHEETS_WEIGHED: Final = 500
"""The number of sheets of the basic size whose weight is the basis weight."""

MM2_PER_M2: Final = 1_000_000

LIGHTEST_GSM: Final = 15
HEAVIEST_GSM: Final = 2000
"""Lighter than tissue paper or heavier than bookbinder's board is a slip of the keyboard (common practice, no source)."""


class Grade(StrEnum):
    """The trade grades whose weight is told in pounds; each has a basic size of its own, so the pounds do not compare.

    Basic sizes: Roberts & Etherington, *Bookbinding and the Conservation of Books*, "basis weight"; sizes.com, "Printing paper
    sizes in the United States".
    """

    BOND = "bond"
    TEXT = "text"
    COVER = "cover"
    BRISTOL = "bristol"
    INDEX = "index"
    TAG = "tag"

    @property
    def basic_size_in(self) -> tuple[Fraction, Fraction]:
        """The two sides of the basic size, in inches."""
        return {
            Grade.BOND: (Fraction(17), Fraction(22)),
            Grade.TEXT: (Fraction(25), Fraction(38)),
            Grade.COVER: (Fraction(20), Fraction(26)),
            Grade.BRISTOL: (Fraction(45, 2), Fraction(57, 2)),
            Grade.INDEX: (Fraction(51, 2), Fraction(61, 2)),
            Grade.TAG: (Fraction(24), Fraction(36)),
        }[self]

    @property
    def gsm_per_pound(self) -> Fraction:
        """Grams per square metre in one pound of basis weight, exactly: 1406.139 divided by the basic size in square inches."""
        first, second = self.basic_size_in
        ream_m2 = SHEETS_WEIGHED * first * second * MM_PER_INCH**2 / MM2_PER_M2
        return GRAMS_PER_POUND / ream_m2


def grams_per_square_metre(pounds: float | Fraction, grade: Grade) -> float:
    """Grams per square metre of a paper sold by basis weight.

    >>> round(grams_per_square_metre(80, Grade.COVER), 1)
    216.3
    """
    return float(Fraction(pounds) * grade.gsm_per_pound)


def pounds(gsm: float | Fraction, grade: Grade) -> float:
    """The basis weight in pounds of a paper told in grams per square metre."""
    return float(Fraction(gsm) / grade.gsm_per_pound)


EXAMPLES: Final = "Write it like 80 lb cover, 110 lb index or 216 gsm."
POUND_WORDS: Final = ("lb", "lbs", "lb.", "#", "pound", "pounds")
GSM_WORDS: Final = ("gsm", "g/m2", "g/m²", "g/m^2", "g/sqm", "g/qm", "gr/m2", "grams")
WEIGHT: Final = re.compile(r"(?P<number>\d{1,9}(?:[.,]\d{1,20})?)\s*(?P<unit>[^\d\s][^\s]*)?\s*(?P<grade>.*)")


def parse_weight(text: str) -> float:
    """Read a weight such as `80 lb cover`, `216 gsm` or `216 g/m²` into grams per square metre.

    Raises `Mistake` where it cannot be read, where pounds come without a grade, or where no paper weighs that.
    """
    found = WEIGHT.fullmatch(text.strip().lower())
    if found is None:
        raise Unreadable(f"{text.strip()!r} is not a weight that can be read.", do=EXAMPLES)
    number = Fraction(found["number"].replace(",", "."))
    unit, words = found["unit"] or "", found["grade"].strip()
    if unit in POUND_WORDS:
        gsm = grams_per_square_metre(number, grade_of_pounds(words, text))
    elif unit in GSM_WORDS:
        if words:
            grade_named(words, text)
        gsm = float(number)
    elif not unit:
        raise Unreadable(f"{text.strip()!r} has no unit.", do=EXAMPLES)
    elif unit in tuple(Grade):
        raise Mistake(f"{text.strip()!r} has no unit.", do=f"Write {found['number']} lb {unit} if it is in pounds.")
    else:
        near = nearest_word(unit, ("lb", "gsm"))
        what = f"{unit!r} in {text.strip()!r} is not a unit of paper weight."
        raise Mistake(what, do=f"Did you mean {near!r}?") if near else Unreadable(what, do=EXAMPLES)
    if not LIGHTEST_GSM <= gsm <= HEAVIEST_GSM:
        raise Mistake(
            f"{text.strip()!r} comes to {plain_number(gsm)} g/m², and no paper weighs that.",
            do=f"Check the number and its unit: papers weigh from {LIGHTEST_GSM} to {HEAVIEST_GSM} g/m².",
        )
    return gsm


def find_grade(text: str) -> Grade | None:
    """The grade named in a weight that `parse_weight` accepts, such as *cover* in `80 lb cover`; None where it names none."""
    words = text.strip().lower().split()
    return next((Grade(word) for word in reversed(words) if word in tuple(Grade)), None)


def grade_of_pounds(words: str, text: str) -> Grade:
    """The grade that must follow a weight in pounds."""
    if not words:
        raise Mistake(
            f"{text.strip()!r} does not say of which grade, and 80 lb cover is nearly twice as heavy as 80 lb text.",
            do=f"Add one of {', '.join(Grade)}; the wrapper of the paper says which.",
        )
    return grade_named(words, text)


def grade_named(words: str, text: str) -> Grade:
    """The grade in `words`; refuses words that are not a grade, offering the nearest that is."""
    if words in tuple(Grade):
        return Grade(words)
    raise Mistake(
        f"{words!r} in {text.strip()!r} is not a grade of paper known here.",
        do=f"{suggestion(words, [grade.value for grade in Grade])} The wrapper of the paper says which.",
    )


def weight_g(area_mm2: float | Fraction, gsm: float) -> float:
    """The weight in grams of so many square millimetres of a paper."""
    return float(area_mm2) * gsm / MM2_PER_M2
