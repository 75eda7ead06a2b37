"""The caliper of a paper: its thickness in millimetres, and whether it was measured or estimated."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kitwright.errors import Mistake

__all__ = ["LEAST_CALIPER", "MOST_CALIPER", "Caliper"]

LEAST_CALIPER: Final = 0.03
"""Millimetres. Thinner than tissue paper: nothing that can be scored (common practice, no source)."""

MOST_CALIPER: Final = 3.0
"""Millimetres. Thicker than bookbinder's board: nothing that folds on a score (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Caliper:
    """A thickness in millimetres, how it came about in a sentence, and whether that was an estimate.

    Raises `Mistake` below 0.03 mm or above 3 mm: such a number is a slip of the unit.
    """

    mm: float
    is_estimate: bool = False
    sentence: str = ""

    def __post_init__(self) -> None:
        if not LEAST_CALIPER <= self.mm <= MOST_CALIPER:
            raise Mistake(
                f"A paper {self.mm:g} mm thick cannot be worked here.",
                do=f"Use a caliper from {LEAST_CALIPER:g} to {MOST_CALIPER:g} mm, such as 0.011 in, 11 pt or 0.28 mm.",
            )
