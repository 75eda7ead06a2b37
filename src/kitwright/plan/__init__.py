"""The one pipeline: a kit and a batch in, everything that is shown, printed or stored out. Pure: no files, no clock."""

from kitwright.plan.machine import MachinePaper, lay_on_mats, lay_paper_on_mats
from kitwright.plan.pipeline import (
    MOST_KITS,
    CutLine,
    PaperPlan,
    Plan,
    ProvedKit,
    check_batch,
    cut_lines,
    lay_out_kit,
    piece_type,
    plan,
    sheet_by_hand,
)
from kitwright.plan.stash import FromStash, PaperOnHand, from_stash

__all__ = [
    "MOST_KITS",
    "CutLine",
    "FromStash",
    "MachinePaper",
    "PaperOnHand",
    "PaperPlan",
    "Plan",
    "ProvedKit",
    "check_batch",
    "cut_lines",
    "from_stash",
    "lay_on_mats",
    "lay_out_kit",
    "lay_paper_on_mats",
    "piece_type",
    "plan",
    "sheet_by_hand",
]
