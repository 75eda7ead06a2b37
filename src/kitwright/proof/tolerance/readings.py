"""From readings on a test strip to the numbers of a paper, a printer and a hand: thickness, hinge depth, print size, accuracy.

Every number comes with how far it may be off because of the reading alone. Millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kitwright.errors import Mistake
from kitwright.measure import Unit, counted, format_length
from kitwright.paper import LEAST_CALIPER, MOST_CALIPER, calibrated_hinge_depth

__all__ = ["READING", "TOO_COARSE", "Measured", "cut_limit", "hinge_depth", "print_percent", "sheet_thickness"]

READING: Final = {"ruler": 0.25, "sliding caliper": 0.05}
"""How far one reading may be off, ±mm, by tool. Common practice, no source."""

TOO_COARSE: Final = 0.25
"""A hinge depth that may be off by more says less than the usual 0.5 does (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A number, and how far it may be off, up or down, because of the reading."""

    value: float
    off: float

    @property
    def is_too_coarse(self) -> bool:
        """Whether, as a hinge depth, it is off too far to be of use."""
        return self.off > TOO_COARSE


def sheet_thickness(*, stack: float, sheets: int, reading: float, unit: Unit = Unit.MILLIMETRE) -> Measured:
    """The thickness of one sheet, from the height of a pressed stack. Raises `Mistake`, in `unit`, for a stack that no paper makes."""
    if sheets < 1:
        raise Mistake(
            f"A stack of {counted(sheets, 'sheet')} cannot be measured.", do="Stack ten sheets, or say how many."
        )
    value = stack / sheets
    if not LEAST_CALIPER <= value <= MOST_CALIPER:
        raise Mistake(
            f"{counted(sheets, 'sheet')} in {told(stack, unit)} would be {told(value, unit)} thick each.",
            do="Measure the whole stack, pressed flat, and count its sheets.",
        )
    return Measured(value, reading / sheets)


def hinge_depth(
    *, apart: float, insides: Sequence[float], caliper: Measured, reading: float, unit: Unit = Unit.MILLIMETRE
) -> Measured:
    """The hinge depth k, the mean over several folded strips, from scores `apart` mm apart and the room inside each U.

    k = 1 − (apart − inside) / 2t; so a reading that is off by e moves it by e / 2t, for thin card a great deal. Raises `Mistake`
    for readings that cannot belong together.
    """
    if not insides:
        raise Mistake("No strip was measured inside.", do="Fold a strip and measure between its walls.")
    depths = [
        calibrated_hinge_depth(inside_mm=inside, apart_mm=apart, caliper_mm=caliper.value, unit=unit)
        for inside in insides
    ]
    value = math.fsum(depths) / len(depths)
    by_lengths = 2 * reading / (2 * caliper.value)
    by_caliper = (1 - value) * caliper.off / caliper.value
    return Measured(value, by_lengths + by_caliper)


def print_percent(*, bar: float, true: float, unit: Unit = Unit.MILLIMETRE) -> float:
    """At how many percent a page must be printed so that its bar is true, from the length that it had at 100 %. Raises `Mistake`."""
    if not 0.5 < bar / true < 2:
        raise Mistake(
            f"A bar of {told(true, unit)} that measures {told(bar, unit)} was not printed at 100 %.",
            do="Choose actual size, not fit.",
        )
    return 100 * true / bar


def cut_limit(*, aim: float, pieces: Sequence[float], reading: float, unit: Unit = Unit.MILLIMETRE) -> Measured:
    """How far a cut may be off, ±mm: the farthest of several pieces cut to one length. Raises `Mistake` for fewer than five."""
    if len(pieces) < FEWEST:
        raise Mistake(
            f"{counted(len(pieces), 'piece tells', 'pieces tell')} too little.",
            do=f"Cut and measure at least {FEWEST}, better ten.",
        )
    worst = max(abs(piece - aim) for piece in pieces)
    if worst > aim / 2:
        raise Mistake(f"One of the pieces is {told(worst, unit)} off.", do=f"Cut all of them to {told(aim, unit)}.")
    return Measured(worst, reading)


FEWEST: Final = 5


def told(mm: float, unit: Unit) -> str:
    """A length that was read, in the maker's unit."""
    return f"{format_length(mm, unit)} {unit.value}"
