"""Layouts of pieces on sheets by straight cuts from edge to edge: the fewest sheets, with a bound and an independent check."""

from kitwright.cutting.fault import Fault, FaultCode
from kitwright.cutting.order import BenchPiece, BenchStep, Holds, TopPoints, count_guide_settings, cut_order
from kitwright.cutting.plan import (
    QUICK,
    STEADY,
    THOROUGH,
    Bound,
    CutPlan,
    Effort,
    Objective,
    Progress,
    ProgressCall,
    Reason,
    Unplaced,
)
from kitwright.cutting.search import lay_out
from kitwright.cutting.stock import ANY_TURN, NM_PER_MM, UPRIGHT, Margins, PieceType, Stock, TrimmerLimits, to_mm, to_nm
from kitwright.cutting.through_cuts import can_be_cut_through, verify_placements
from kitwright.cutting.tree import Axis, Cut, CutTree, Layout, Offcut, Part, Placement, count_parts, offcuts, placements
from kitwright.cutting.verify import verify_plan

__all__ = [
    "ANY_TURN",
    "NM_PER_MM",
    "QUICK",
    "STEADY",
    "THOROUGH",
    "UPRIGHT",
    "Axis",
    "BenchPiece",
    "BenchStep",
    "Bound",
    "Cut",
    "CutPlan",
    "CutTree",
    "Effort",
    "Fault",
    "FaultCode",
    "Holds",
    "Layout",
    "Margins",
    "Objective",
    "Offcut",
    "Part",
    "PieceType",
    "Placement",
    "Progress",
    "ProgressCall",
    "Reason",
    "Stock",
    "TopPoints",
    "TrimmerLimits",
    "Unplaced",
    "can_be_cut_through",
    "count_guide_settings",
    "count_parts",
    "cut_order",
    "lay_out",
    "offcuts",
    "placements",
    "to_mm",
    "to_nm",
    "verify_placements",
    "verify_plan",
]
