"""Tolerance: what cuts, scores and folds that are a little off, and packs a little thicker, do to every fit."""

from kitwright.proof.tolerance.accuracy import (
    CUTTERS,
    MOST_OFF,
    SCORERS,
    USUAL_ACCURACY,
    USUAL_CUTTER,
    USUAL_SCORER,
    Accuracy,
    accuracy_with,
)
from kitwright.proof.tolerance.fit import Fit, judge_fit
from kitwright.proof.tolerance.lines import Lines, pack_thickness
from kitwright.proof.tolerance.makes import MAKES, Makes, Share
from kitwright.proof.tolerance.readings import (
    READING,
    TOO_COARSE,
    Measured,
    cut_limit,
    hinge_depth,
    print_percent,
    sheet_thickness,
)
from kitwright.proof.tolerance.stack import Stack
from kitwright.proof.tolerance.telling import FEWEST_THAT_FIT, MOST_THAT_MAY_MISS, percent, with_makings
from kitwright.proof.tolerance.variation import Shape, Variation

__all__ = [
    "CUTTERS",
    "FEWEST_THAT_FIT",
    "MAKES",
    "MOST_OFF",
    "MOST_THAT_MAY_MISS",
    "READING",
    "SCORERS",
    "TOO_COARSE",
    "USUAL_ACCURACY",
    "USUAL_CUTTER",
    "USUAL_SCORER",
    "Accuracy",
    "Fit",
    "Lines",
    "Makes",
    "Measured",
    "Shape",
    "Share",
    "Stack",
    "Variation",
    "accuracy_with",
    "cut_limit",
    "hinge_depth",
    "judge_fit",
    "pack_thickness",
    "percent",
    "print_percent",
    "sheet_thickness",
    "with_makings",
]
