"""The proof: checks on plain values, one small module per concept, and the report that gathers their findings."""

from kitwright.proof.accurate import check_accuracy
from kitwright.proof.backs import check_backs, check_core
from kitwright.proof.contents import check_packing
from kitwright.proof.counts import Pairing, check_counts
from kitwright.proof.fit import (
    ENVELOPE_PLAY,
    GRIP,
    LID_PLAY,
    LOOSE_BAND,
    Play,
    check_band_place,
    check_envelope,
    check_lid_height,
    check_mat,
    check_over,
)
from kitwright.proof.grain import check_grain, scores_across
from kitwright.proof.made import check_layers, check_motion, check_pass_through, check_seams, check_tabs
from kitwright.proof.pocket import check_pocket, is_turned_in_pocket
from kitwright.proof.printed import Printed, check_print, check_prints_agree
from kitwright.proof.report import Proof
from kitwright.proof.sheet import check_caliper, check_ruler, check_sheet
from kitwright.proof.side_by_side import check_side_by_side, most_in_rows
from kitwright.proof.stacked import FINGER_ROOM, check_stack
from kitwright.proof.thick import LIES_FLAT, check_thickness
from kitwright.proof.together import CLOSE, check_together

__all__ = [
    "CLOSE",
    "ENVELOPE_PLAY",
    "FINGER_ROOM",
    "GRIP",
    "LID_PLAY",
    "LIES_FLAT",
    "LOOSE_BAND",
    "Pairing",
    "Play",
    "Printed",
    "Proof",
    "check_accuracy",
    "check_backs",
    "check_band_place",
    "check_caliper",
    "check_core",
    "check_counts",
    "check_envelope",
    "check_grain",
    "check_layers",
    "check_lid_height",
    "check_mat",
    "check_motion",
    "check_over",
    "check_packing",
    "check_pass_through",
    "check_pocket",
    "check_print",
    "check_prints_agree",
    "check_ruler",
    "check_seams",
    "check_sheet",
    "check_side_by_side",
    "check_stack",
    "check_tabs",
    "check_thickness",
    "check_together",
    "is_turned_in_pocket",
    "most_in_rows",
    "scores_across",
]
