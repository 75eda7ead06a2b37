"""How much is nothing: every tolerance of geometry, in one place, with its unit and the reason for its size."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

__all__ = [
    "CORNER_GRID",
    "CRAFT_TOLERANCE",
    "LEAST_AREA",
    "LEAST_CLASH",
    "LEAST_SINK",
    "MACHINE_TOLERANCE",
    "NEAR_MARK",
    "NUMERIC_TOLERANCE",
    "ON_LIMIT",
    "SEAM_OVERLAP",
    "exact_length",
]

NUMERIC_TOLERANCE: Final = 1e-6
"""Millimetres. Two computed points this close are one point. A part of 1 m carries about 1e-13 m of rounding; this is far above that and
far below anything a hand can see."""

CRAFT_TOLERANCE: Final = 0.1
"""Millimetres. What a person at a trimmer cannot tell from zero: a tenth of a millimetre, the width of a fine scored line. A seam that
misses by less than this closes by itself. Common practice, no source."""

NEAR_MARK: Final = Fraction(1, 1000)
"""Millimetres. A computed length this close to a mark lies on it: far below the width of the mark, far above rounding in the computer."""

ON_LIMIT: Final = float(NEAR_MARK) + NUMERIC_TOLERANCE
"""Millimetres. A length that misses a limit by less lies on it: sizes are rounded to marks with this much slack."""

LEAST_SINK: Final = float(NEAR_MARK) / 2
"""Millimetres. How deep the card of one side may lie in the other's: half of the slack that free play in all has."""

MACHINE_TOLERANCE: Final = 0.01
"""Millimetres that no cutting machine can tell."""

CORNER_GRID: Final = 1e-7
"""Millimetres. Corners are taken on this grid when shapes are laid on each other: edges that agree but for the last bit can otherwise be
taken for an overlap of the whole shape."""

SEAM_OVERLAP: Final = 1e-6
"""Millimetres, a nanometre. Panels that touch grow by this and shrink again, and so become one shape."""

LEAST_AREA: Final = CRAFT_TOLERANCE**2
"""Square millimetres. An overlap or a rest of less than this is nothing: a square of the craft tolerance."""

LEAST_CLASH: Final = 0.02
"""Cubic millimetres that do not matter: what the slanted end of a glue tab rubs in a fold. 0.05 mm over the end of a wall 20 mm long in
card of 0.3 mm is fifteen times as much."""

FINEST: Final = 10**7
"""A computed length is taken as a fraction with no larger denominator than this."""


def exact_length(mm: float | Fraction) -> Fraction:
    """A computed length (mm) as the fraction that is meant, without the binary dust of a decimal number."""
    return Fraction(mm).limit_denominator(FINEST)
