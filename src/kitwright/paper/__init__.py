"""Papers: sheets, weight, caliper, grain and print. All arithmetic with the thickness of paper lives in this layer only."""

from kitwright.paper.caliper import LEAST_CALIPER, MOST_CALIPER, Caliper, estimate_caliper, parse_caliper
from kitwright.paper.grain import Fibres, Grain, Print
from kitwright.paper.lying import fibres_in_blank, turns_on_mat, turns_on_sheet
from kitwright.paper.scan import Affine, Scan, UpEdge
from kitwright.paper.stock import Margins, Paper, sheet_weight_g
from kitwright.paper.thickness import (
    SCORE_ABOVE,
    calibrated_hinge_depth,
    caliper_tolerance,
    fold_strain,
    inner_loss,
    layers_thickness,
    outer_gain,
    should_be_scored,
)
from kitwright.paper.weight import Grade, find_grade, grams_per_square_metre, parse_weight, pounds, weight_g

__all__ = [
    "LEAST_CALIPER",
    "MOST_CALIPER",
    "SCORE_ABOVE",
    "Affine",
    "Caliper",
    "Fibres",
    "Grade",
    "Grain",
    "Margins",
    "Paper",
    "Print",
    "Scan",
    "UpEdge",
    "calibrated_hinge_depth",
    "caliper_tolerance",
    "estimate_caliper",
    "fibres_in_blank",
    "find_grade",
    "fold_strain",
    "grams_per_square_metre",
    "inner_loss",
    "layers_thickness",
    "outer_gain",
    "parse_caliper",
    "parse_weight",
    "pounds",
    "sheet_weight_g",
    "should_be_scored",
    "turns_on_mat",
    "turns_on_sheet",
    "weight_g",
]
