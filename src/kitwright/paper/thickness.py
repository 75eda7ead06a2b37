"""What the thickness of paper does to sizes: every sum with a caliper in it is here and nowhere else. Lengths in millimetres.

The crease model has one parameter, the hinge depth k of the paper: how deep below the outer face the fold turns, as a share of
the caliper t. Scores are drawn where the hinges are. Seen from the end of a box, with c from score to score:

        ┌───────────────────────┐  outer face    outside = c + 2 k t
        │ ┌───────────────────┐ │  hinge         c
        │ │ ┌───────────────┐ │ │  inner face    inside  = c − 2 (1 − k) t

One folded end counts half. Derived from geometry, for sharp folds: both faces run on to the corner.
"""

from __future__ import annotations

import math
from typing import Final

from kitwright.errors import Mistake
from kitwright.measure import MM_PER_INCH, Unit, format_length
from kitwright.paper.stock import Paper

__all__ = [
    "SCORE_ABOVE",
    "calibrated_hinge_depth",
    "caliper_tolerance",
    "fold_strain",
    "inner_loss",
    "layers_thickness",
    "outer_gain",
    "should_be_scored",
]

SCORE_ABOVE: Final = float(MM_PER_INCH * 5 / 1000)
"""Millimetres (0.005 in). Paper thicker than this is scored before it is folded (a printer's published folding guide)."""

HEAVY_GSM: Final = 300
LIGHT_SPREAD: Final = 0.10
HEAVY_SPREAD: Final = 0.05
"""Caliper as sold: within 10 % up to 300 g/m², within 5 % above (board suppliers' published terms)."""

ESTIMATE_SPREAD: Final = 0.15
"""An estimated caliper may be off by this share (common practice, no source; somewhat wider than the published bulks of card and
board, which run from 1.11 to 1.37 cm³/g)."""


def corner_share(angle: float) -> float:
    """How far a face runs on beyond the hinge per millimetre of depth, for a fold of `angle` degrees.

    The tangent of half the angle, written so that 90 degrees give 1 exactly.
    """
    if not 0 <= angle < 180:
        raise Mistake(f"A fold of {angle:g} degrees has no corner.", do="A panel folded back on itself has none.")
    turn = math.radians(angle)
    return math.sin(turn) / (1 + math.cos(turn))


def outer_gain(paper: Paper, *, angle: float = 90) -> float:
    """How much a panel grows on its outside at one folded end: k t for a fold of 90 degrees."""
    return paper.hinge_depth * paper.thickness * corner_share(angle)


def inner_loss(paper: Paper, *, angle: float = 90) -> float:
    """How much a panel loses on its inside at one folded end: (1 − k) t for a fold of 90 degrees."""
    return (1 - paper.hinge_depth) * paper.thickness * corner_share(angle)


def layers_thickness(n: int, paper: Paper) -> float:
    """The thickness of `n` layers of one paper lying flat on each other; glue is thin and not counted."""
    if n < 0:
        raise Mistake(f"{n} layers of paper cannot be.", do="Count the layers from zero.")
    return n * paper.thickness


def calibrated_hinge_depth(
    *, inside_mm: float, apart_mm: float, caliper_mm: float, unit: Unit = Unit.MILLIMETRE
) -> float:
    """The hinge depth k of a paper, from a test strip scored twice `apart_mm` apart, folded to a U and measured inside.

    From 2 (1 − k) = (apart − inside) / t. Raises `Mistake`, in `unit`, where the three numbers cannot belong to one strip.
    """

    def told(mm: float) -> str:
        return f"{format_length(mm, unit)} {unit.value}"

    if caliper_mm <= 0:
        raise Mistake(f"A caliper of {told(caliper_mm)} cannot be.", do="Measure the thickness of the sheet.")
    loss = apart_mm - inside_mm
    depth = 1 - loss / (2 * caliper_mm)
    if not 0 <= depth <= 1:
        least = format_length(apart_mm - 2 * caliper_mm, unit)
        raise Mistake(
            f"Scores {told(apart_mm)} apart that measure {told(inside_mm)} inside do not go with paper {told(caliper_mm)} thick.",
            do=f"The inside should lie between {least} and {told(apart_mm)}. Measure all three again.",
        )
    return depth


def caliper_tolerance(paper: Paper) -> float:
    """How far the caliper of another pack may lie from the one told, up or down, in millimetres.

    A given caliper by the terms of sale of board, an estimated one by the spread of bulks. All sheets of one pack count as one
    thickness.
    """
    if paper.caliper.is_estimate:
        return ESTIMATE_SPREAD * paper.thickness
    return (LIGHT_SPREAD if paper.gsm <= HEAVY_GSM else HEAVY_SPREAD) * paper.thickness


def should_be_scored(paper: Paper) -> bool:
    """Whether the paper is thick enough that it must be scored before it is folded."""
    return paper.thickness > SCORE_ABOVE


def fold_strain(paper: Paper, *, angle: float) -> float:
    """How hard a fold is on the outer fibres, as the caliper (mm) of the paper that a fold flat on itself would strain alike.

    A fold of 90 degrees stretches them half as far as one of 180: the outer face runs t × angle farther round than the inner one.
    """
    return paper.thickness * abs(angle) / 180
