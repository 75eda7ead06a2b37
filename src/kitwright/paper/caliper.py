"""The caliper of a paper: its thickness in millimetres, as measured or estimated from its weight."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake
from kitwright.measure import MM_PER_INCH, Length, Unit, parse_length, plain_number
from kitwright.paper.weight import Grade

__all__ = ["LEAST_CALIPER", "MOST_CALIPER", "Caliper", "estimate_caliper", "parse_caliper"]

LEAST_CALIPER: Final = 0.03
"""Millimetres. Thinner than tissue paper: nothing that can be scored (common practice, no source)."""

MOST_CALIPER: Final = 3.0
"""Millimetres. Thicker than bookbinder's board: nothing that folds on a score (common practice, no source)."""

USE: Final = f"Use a caliper from {LEAST_CALIPER:g} to {MOST_CALIPER:g} mm, such as 0.011 in, 11 pt or 0.28 mm."


@dataclass(frozen=True, slots=True)
class Caliper:
    """A thickness in millimetres, whether it was only estimated, and in a sentence how it came about.

    Raises `Mistake` below 0.03 mm or above 3 mm: such a number is a slip of the unit.
    """

    mm: float
    is_estimate: bool = False
    sentence: str = ""

    def __post_init__(self) -> None:
        if not LEAST_CALIPER <= self.mm <= MOST_CALIPER:
            raise Mistake(f"A paper {plain_number(self.mm)} mm thick cannot be worked here.", do=USE)


MM_PER_POINT: Final = MM_PER_INCH / 1000
"""A point of caliper (also called a mil) is a thousandth of an inch; not the printer's point of 1/72 in."""

MM_PER_MICROMETRE: Final = Fraction(1, 1000)

SMALL_UNITS: Final = {
    "pt": MM_PER_POINT,
    "pt.": MM_PER_POINT,
    "pts": MM_PER_POINT,
    "point": MM_PER_POINT,
    "points": MM_PER_POINT,
    "mil": MM_PER_POINT,
    "mils": MM_PER_POINT,
    "thou": MM_PER_POINT,
    "µm": MM_PER_MICROMETRE,  # micro sign
    "μm": MM_PER_MICROMETRE,  # Greek mu, which looks the same
    "um": MM_PER_MICROMETRE,
    "micron": MM_PER_MICROMETRE,
    "microns": MM_PER_MICROMETRE,
}
SMALL: Final = re.compile(r"(?P<number>\d{1,9}(?:[.,]\d{1,20})?|[.,]\d{1,20})\s*(?P<unit>[^\d\s.,]+\.?)")


def parse_caliper(text: str, unit: Unit | None = None) -> Caliper:
    """Read a measured caliper such as `0.011`, `12 pt` or `0.3 mm`; `unit` is used where the text names none.

    Points and mils are thousandths of an inch, µm and microns thousandths of a millimetre. Raises `Mistake`, also where the number
    cannot be the thickness of a paper.
    """
    small = SMALL.fullmatch(text.strip().lower())
    if small and small["unit"] in SMALL_UNITS:
        mm, hint = Fraction(small["number"].replace(",", ".")) * SMALL_UNITS[small["unit"]], USE
    else:
        read = parse_length(text, unit)
        mm, hint = read.mm, other_reading(read)
    if not LEAST_CALIPER <= mm <= MOST_CALIPER:
        raise Mistake(
            f"{text.strip()!r} is {plain_number(float(mm))} mm, and no paper worked here is that thick.", do=hint
        )
    return Caliper(float(mm), sentence=f"Given as {text.strip()}: {float(mm):.3f} mm.")


def other_reading(read: Length) -> str:
    """What was probably meant by a caliper that cannot be: points written as inches, inches or micrometres as millimetres."""
    other_units = {
        Unit.INCH: (("pt (thousandths of an inch)", MM_PER_POINT),),
        Unit.MILLIMETRE: (("in", MM_PER_INCH), ("µm", MM_PER_MICROMETRE)),
        Unit.CENTIMETRE: (),
    }
    for name, mm in other_units[read.unit]:
        if LEAST_CALIPER <= read.value * mm <= MOST_CALIPER:
            return f"Did you mean {plain_number(float(read.value))} {name}?"
    return USE


@dataclass(frozen=True, slots=True)
class Bulk:
    """How thick a paper is for its weight, in cm³/g (a caliper in µm divided by g/m²), and who says so."""

    cm3_per_g: float
    source: str


COMMON_COVER: Final = "usual calipers of 65, 80 and 100 lb cover; common practice, no source"

BULKS: Final = {
    Grade.BOND: Bulk(
        1.15, "US Government Paper Specification Standards no. 12, JCP O-63: 24 lb 4.1 mils, 28 lb 4.7 mils"
    ),
    Grade.TEXT: Bulk(
        1.33, "US Government Paper Specification Standards no. 11, JCP A91: 105 g/m² 0.140 mm, 150 g/m² 0.200 mm"
    ),
    Grade.COVER: Bulk(1.32, COMMON_COVER),
    Grade.BRISTOL: Bulk(1.32, COMMON_COVER),
    Grade.INDEX: Bulk(
        1.15, "US Government Paper Specification Standards no. 11, JCP K10: 165 g/m² 0.190 mm, 305 g/m² 0.350 mm"
    ),
    Grade.TAG: Bulk(
        1.17, "US Government Paper Specification Standards no. 11, JCP P20: 170 g/m² 0.20 mm, 405 g/m² 0.45 mm"
    ),
}
"""Bulk of each grade, from published pairs of weight and caliper."""

BOARD_BULK: Final = Bulk(1.27, "a study of folding carton in Tiskarstvo 04: 280 g/m² 0.35 mm, 450 g/m² 0.57 mm")


def estimate_caliper(gsm: float, grade: Grade | None) -> Caliper:
    """The likely caliper of a paper of known weight and, where it is known, grade; always marked as an estimate.

    Weight never fixes caliper: mills and finishes differ by a sixth and more (ISO 534:2011 therefore has both measured). The bulk
    used is that of published pairs of weight and caliper. Raises `Mistake` where the weight is absurd.
    """
    bulk = BOARD_BULK if grade is None else BULKS[grade]
    mm = gsm * bulk.cm3_per_g / 1000
    if not LEAST_CALIPER <= mm <= MOST_CALIPER:
        raise Mistake(
            f"A paper of {plain_number(gsm)} g/m² cannot be worked here: it would be about {plain_number(mm)} mm thick.",
            do=USE,
        )
    kind = "carton" if grade is None else grade.value
    return Caliper(
        mm,
        is_estimate=True,
        sentence=(
            f"Estimated from {gsm:.4g} g/m² at {bulk.cm3_per_g:g} cm³/g, as for {kind} ({bulk.source}). "
            "Papers of one weight differ: measure a sheet to be sure."
        ),
    )
