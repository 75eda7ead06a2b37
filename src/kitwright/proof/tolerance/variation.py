"""What varies from make to make: a cut, a score, a fold, a glued edge, the thickness of a pack. Lengths in millimetres."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Shape", "Variation"]


class Shape(StrEnum):
    """How errors lie between their limits ±a."""

    UNIFORM = "uniform"
    """Every error is as likely as any other: what to assume where only the limits are known (NIST TN 1297, 4.6)."""
    TRIANGULAR = "triangular"
    """Small errors are likelier, falling off in a straight line to the limits."""
    NORMAL = "normal"
    """Bell-shaped; ±a is three standard deviations, so that 0.27 % lie beyond."""


@dataclass(frozen=True, slots=True)
class Variation:
    """One thing that varies: what it is (a name that no other thing bears), and how far it may be off, up or down.

    Wherever a fit names the same variation it is the same error: the thickness of a pack is one variation, however many layers it
    counts in. Raises `ValueError` for a reach below zero or one that is no number.
    """

    what: str
    reach: float
    shape: Shape = Shape.UNIFORM

    def __post_init__(self) -> None:
        if not (self.reach >= 0 and math.isfinite(self.reach)):
            raise ValueError(f"{self.what} cannot be off by ±{self.reach}")
