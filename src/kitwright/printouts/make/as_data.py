"""A plan as plain data for other programs: every number of proof, cut list and layouts. Lengths in mm, names say the unit."""

from __future__ import annotations

from typing import Any

from kitwright.cutting import Placement, placements, to_mm
from kitwright.findings import Finding, Makings, Placed
from kitwright.plan import CutLine, FromStash, MachinePaper, PaperPlan, Plan
from kitwright.proof import Proof

__all__ = ["finding_as_data", "mats_as_data", "plan_as_data", "proof_as_data", "sheets_as_data", "stash_as_data"]


def plan_as_data(plan: Plan) -> dict[str, Any]:
    """Everything about a plan."""
    return {
        "kit": plan.kit.name,
        "unit": plan.kit.unit.value,
        "ruler": plan.ruler.name,
        "batch": plan.batch,
        "proof": proof_as_data(plan.proof),
        "cut_list": [line_as_data(line) for line in plan.lines],
        "papers": sheets_as_data(plan),
    }


def mats_as_data(papers: tuple[MachinePaper, ...]) -> list[dict[str, Any]]:
    """The mats of a cutting machine, paper by paper; places from the lower left corner of the sheet."""
    return [
        {
            "paper": each.paper.label,
            "mats": each.nested.mats,
            "at_least": each.fewest,
            "sheets_with_the_trimmer": each.by_trimmer,
            "gap_mm": each.nested.mat.gap,
            "unplaced": dict(each.nested.unplaced),
            "layouts": [
                {
                    "times": layout.times,
                    "pieces": [
                        {
                            "piece": piece.name,
                            "turned_left": 90 * piece.turn,
                            "zero_at_mm": [piece.x + each.corner[0], piece.y + each.corner[1]],
                        }
                        for piece in layout.pieces
                    ],
                }
                for layout in each.nested.layouts
            ],
        }
        for each in papers
    ]


def proof_as_data(proof: Proof) -> dict[str, Any]:
    """The findings with all their numbers."""
    return {
        "proved": proof.is_proved,
        "verdict": proof.verdict.value,
        "findings": [finding_as_data(finding) for finding in proof.findings],
    }


def finding_as_data(finding: Finding) -> dict[str, Any]:
    """One finding."""
    fix = finding.fix
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "about": finding.about,
        "parts": list(finding.parts),
        "message": finding.message,
        "measured": finding.measured,
        "required": finding.required,
        "margin": finding.margin,
        "unit": finding.unit,
        "because": finding.because,
        "fix": None
        if fix is None
        else {
            "sentence": fix.sentence,
            "changes": [
                {"table": change.table, "name": change.name, "key": change.key, "value": change.value}
                for change in fix.changes
            ],
        },
        "advice": finding.advice or None,
        "makes": None if finding.makings is None else makings_as_data(finding.makings),
        "placed": [placed_as_data(each) for each in finding.placed],
    }


def makings_as_data(makings: Makings) -> dict[str, Any]:
    """What becomes of a fit over many makes: shares from 0 to 1, free plays in mm."""
    return {
        "count": makings.count,
        "share": makings.share,
        "share_at_least": makings.low,
        "share_at_most": makings.high,
        "confidence": 0.95,
        "too_tight": makings.too_tight,
        "too_loose": makings.too_loose,
        "nominal_mm": makings.nominal,
        "least_mm": makings.least,
        "greatest_mm": makings.greatest,
        "rss_mm": makings.rss,
        "because": makings.because,
    }


def placed_as_data(placed: Placed) -> dict[str, Any]:
    """One block of things in its box: corner and size along width, depth, height."""
    return {
        "name": placed.name,
        "count": placed.count,
        "corner_mm": list(placed.corner),
        "size_mm": list(placed.size),
    }


def line_as_data(line: CutLine) -> dict[str, Any]:
    """One line of the cut list with its score chart."""
    return {
        "blank": line.label,
        "paper": line.part.paper.key,
        "per_kit": line.per_kit,
        "in_batch": line.in_batch,
        "width_mm": line.chart.width,
        "height_mm": line.chart.height,
        "passes": [
            {
                "side": each.side.value,
                "way": each.way.value,
                "marks": [{"at_mm": mark.at, "runs_mm": [list(run) for run in mark.runs]} for mark in each.marks],
            }
            for each in line.chart.passes
        ],
        "cut_away": [
            {
                "width_mm": piece.width,
                "height_mm": piece.height,
                "is_rectangle": piece.is_rectangle,
                "is_hole": piece.is_inside,
            }
            for piece in line.chart.cut_away
        ],
    }


def sheets_as_data(plan: Plan) -> list[dict[str, Any]]:
    """The layouts of every paper."""
    return [paper_as_data(paper, plan) for paper in plan.papers]


def stash_as_data(found: FromStash, made: Plan | None) -> dict[str, Any]:
    """What can be made from what is on hand, and what to buy for a batch."""
    buys = (
        {}
        if made is None
        else {paper.paper.key: None if paper.cut_plan.unplaced else paper.to_buy for paper in made.papers}
    )
    return {
        "kits": found.kits,
        "at_most": found.at_most,
        "proved_most": found.is_proved,
        "papers": [
            {
                "paper": each.paper.key,
                "sheets_on_hand": each.paper.on_hand,
                "offcuts_on_hand": each.offcuts,
                "enough_for": None if each.enough_for is None else each.enough_for.times,
                "missing_for_one_more": None if each.enough_for is None else each.enough_for.missing,
                "cannot_be_cut": [] if each.enough_for is None else [one.piece for one in each.enough_for.unplaced],
                "to_buy": buys.get(each.paper.key),
            }
            for each in found.papers
        ],
        "kits_wanted": None if made is None else made.batch,
    }


def paper_as_data(paper: PaperPlan, plan: Plan) -> dict[str, Any]:
    """The layouts of one paper."""
    found = paper.cut_plan
    return {
        "paper": paper.paper.key,
        "sheets": paper.sheets,
        "to_buy": paper.to_buy,
        "at_least": paper.at_least,
        "bound": found.bound.value,
        "objective": found.objective.value,
        "value": found.value,
        "proved_best": found.is_proved and not paper.free,
        "offcuts_used": paper.offcuts_used,
        "same_for_every_kit_costs_sheets": None if paper.shared is None else paper.same_costs,
        "sheets_at_once": paper.at_once,
        "largest_left_over_proved": paper.gathered.is_proved,
        "left_over": [
            {
                "layout": one.layout,
                "stock": one.stock,
                "times": one.times,
                "x_mm": float(to_mm(one.x)),
                "y_mm": float(to_mm(one.y)),
                "width_mm": float(to_mm(one.width)),
                "height_mm": float(to_mm(one.height)),
                "worth_keeping": one.is_kept,
            }
            for one in paper.leftovers
        ],
        "unplaced": [each.sentence(plan.ruler) for each in found.unplaced],
        "layouts": [
            {
                "times": layout.times,
                "by_hand": number < paper.by_hand,
                "stock": layout.stock.name,
                "parts": [placement_as_data(placed) for placed in placements(layout)],
            }
            for number, layout in enumerate(found.layouts)
        ],
        "not_by_through_cuts": [
            {"times": free.times, "parts": [placement_as_data(placed) for placed in free.lying]} for free in paper.free
        ],
    }


def placement_as_data(placed: Placement) -> dict[str, Any]:
    """Where a blank lies on its sheet."""
    return {
        "blank": placed.piece,
        "turn": placed.turn,
        "x_mm": float(to_mm(placed.x)),
        "y_mm": float(to_mm(placed.y)),
        "width_mm": float(to_mm(placed.width)),
        "height_mm": float(to_mm(placed.height)),
    }
