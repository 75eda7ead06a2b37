"""What a batch takes: paper by paper sheets, what is left over and what it costs; things to buy; weight, and what that is to the post."""

from __future__ import annotations

import math
from collections import Counter
from itertools import islice
from typing import Any, Final

from kitwright.kit import kit_weight, post_findings, posted_pieces
from kitwright.measure import Money, Unit
from kitwright.paper import sheet_weight_g
from kitwright.plan import PaperPlan, Plan
from kitwright.printouts.make.left_over import kept_over

__all__ = ["grams_words", "materials_values"]

MOST_LEFT: Final = 3
POST_WORDS: Final = " General information, not postal advice."
"""What stands once below all verdicts, instead of in each."""


def materials_values(plan: Plan) -> dict[str, Any]:
    """What the page says of a batch whose layouts are known."""
    costs = [paper_cost(paper) for paper in plan.papers]
    total = sum((cost for cost in costs if cost is not None), Money(plan.kit.currency, 0))
    keys = tuple(plan.kit.papers)
    weight, unweighed = kit_weight(plan.built)
    verdicts = post_findings(plan.built)
    has_prices = any(cost is not None for cost in costs)
    return {
        "papers": [
            paper_values(plan, paper, cost, total, keys.index(paper.paper.key))
            for paper, cost in zip(plan.papers, costs, strict=True)
        ],
        "total": total if has_prices else None,
        "each_kit": Money(total.currency, -(-total.minor // plan.batch)),
        "unpriced": [
            paper.paper.label for paper, cost in zip(plan.papers, costs, strict=True) if has_prices and cost is None
        ],
        "extras": [
            (extra.quantity * plan.batch, extra.name, f"{plan.ruler.size(*extra.size)} {plan.ruler.unit.value}")
            for extra in plan.kit.extras
        ],
        "weight": grams_words(weight, plan.kit.unit),
        "unweighed": unweighed,
        "post": [
            (
                posted.name,
                " × ".join(
                    plan.ruler.near(side)
                    for side in (posted.piece.along_address, posted.piece.across_address, posted.piece.thickness)
                ),
                None if posted.piece.weight is None else grams_words(float(posted.piece.weight), plan.kit.unit),
                [
                    (each.message.partition(POST_WORDS)[0], each.because)
                    for each in verdicts
                    if each.about == posted.name
                ],
            )
            for posted in posted_pieces(plan.built)
        ],
    }


def paper_cost(paper: PaperPlan) -> Money | None:
    """What the sheets of a paper cost; None where no price was said."""
    return None if paper.paper.price is None else paper.paper.price * paper.sheets


def paper_values(plan: Plan, paper: PaperPlan, cost: Money | None, total: Money, number: int) -> dict[str, Any]:
    """One paper."""
    sheets_mm2 = paper.cut_area_mm2
    lacking = Counter[str]()
    for each in paper.cut_plan.unplaced:
        lacking[each.piece] += each.count
    blanks_mm2 = math.fsum(
        line.blank.size[0] * line.blank.size[1] * (line.in_batch - lacking[line.label]) for line in paper.lines
    )
    return {
        "label": paper.paper.label,
        "form": f"paper-{number}",
        "sheets": paper.sheets,
        "on_hand": paper.paper.on_hand,
        "to_buy": paper.to_buy,
        "used": round(100 * blanks_mm2 / sheets_mm2) if sheets_mm2 else 0,
        "price": paper.paper.price,
        "cost": cost,
        "cost_share": 0.0 if cost is None or not total.minor else 100 * cost.minor / total.minor,
        "weight": grams_words(sheet_weight_g(paper.paper) * paper.sheets, plan.kit.unit),
        "left": left_over(plan, paper),
    }


def left_over(plan: Plan, paper: PaperPlan) -> list[str]:
    """The largest offcuts that the maker keeps, and how many of each."""
    kept = kept_over(paper, plan.ruler)
    said = [f"{count} of {size}" for size, count in islice(kept.items(), MOST_LEFT)]
    more = sum(islice(kept.values(), MOST_LEFT, None))
    return [*said, f"{more} smaller"] if more else said


def grams_words(grams: float, unit: Unit) -> str:
    """A weight for people: grams, and ounces too for makers who measure in inches; kilograms from one on."""
    said = f"{grams:.0f} g" if grams < 1000 else f"{grams / 1000:.2f} kg"
    return f"{said} ({grams / 28.349523125:.1f} oz)" if unit is Unit.INCH else said
