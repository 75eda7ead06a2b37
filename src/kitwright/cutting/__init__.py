"""Layouts of pieces on sheets by straight cuts from edge to edge: the fewest sheets, with a bound and an independent check."""

from kitwright.cutting.alike import same_for_every
from kitwright.cutting.by_hand import ByHand, FreeSheet, faults_of, find_tree, free_to_turn, joined, lay_by_hand
from kitwright.cutting.fault import Fault, FaultCode
from kitwright.cutting.gather import Gathered, gather_offcut
from kitwright.cutting.leftover import USUAL_KEEPING, KeepRule, Leftover, largest_kept, leftovers
from kitwright.cutting.nest import Mat, MatLayout, NestedPlan, Nestling, Outlined
from kitwright.cutting.nest_check import verify_nested
from kitwright.cutting.nest_search import fewest_by_area, nest
from kitwright.cutting.order import BenchPiece, BenchStep, Holds, TopPoints, count_guide_settings, cut_order
from kitwright.cutting.plan import (
    QUICK,
    STEADY,
    THOROUGH,
    Bound,
    CutPlan,
    Effort,
    Fork,
    Objective,
    Progress,
    ProgressCall,
    Reason,
    Unplaced,
)
from kitwright.cutting.possible import MOST_TIMES, Possible, most_times
from kitwright.cutting.search import lay_out
from kitwright.cutting.stock import ANY_TURN, NM_PER_MM, UPRIGHT, Margins, PieceType, Stock, TrimmerLimits, to_mm, to_nm
from kitwright.cutting.through_cuts import can_be_cut_through, verify_placements
from kitwright.cutting.tree import (
    Axis,
    Cut,
    CutTree,
    Layout,
    Offcut,
    Part,
    Placement,
    Region,
    count_parts,
    offcuts,
    placements,
)
from kitwright.cutting.verify import verify_plan

__all__ = [
    "ANY_TURN",
    "MOST_TIMES",
    "NM_PER_MM",
    "QUICK",
    "STEADY",
    "THOROUGH",
    "UPRIGHT",
    "USUAL_KEEPING",
    "Axis",
    "BenchPiece",
    "BenchStep",
    "Bound",
    "ByHand",
    "Cut",
    "CutPlan",
    "CutTree",
    "Effort",
    "Fault",
    "FaultCode",
    "Fork",
    "FreeSheet",
    "Gathered",
    "Holds",
    "KeepRule",
    "Layout",
    "Leftover",
    "Margins",
    "Mat",
    "MatLayout",
    "NestedPlan",
    "Nestling",
    "Objective",
    "Offcut",
    "Outlined",
    "Part",
    "PieceType",
    "Placement",
    "Possible",
    "Progress",
    "ProgressCall",
    "Reason",
    "Region",
    "Stock",
    "TopPoints",
    "TrimmerLimits",
    "Unplaced",
    "can_be_cut_through",
    "count_guide_settings",
    "count_parts",
    "cut_order",
    "faults_of",
    "fewest_by_area",
    "find_tree",
    "free_to_turn",
    "gather_offcut",
    "joined",
    "largest_kept",
    "lay_by_hand",
    "lay_out",
    "leftovers",
    "most_times",
    "nest",
    "offcuts",
    "placements",
    "same_for_every",
    "to_mm",
    "to_nm",
    "verify_nested",
    "verify_placements",
    "verify_plan",
]
