"""The cautions of a kit: derived from what is in it and the tools on the bench; shown in general words, with whom to ask."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.kit import kit_cautions
from kitwright.plan import Plan
from kitwright.printouts.write.house import caution, heading, paragraph
from kitwright.printouts.write.typst import Markup

__all__ = ["caution_blocks"]


def caution_blocks(plan: Plan) -> Iterator[Markup]:
    """Every caution in a box of its own; none is left out."""
    yield heading("Cautions")
    yield paragraph(
        "These are the usual cautions in general words. They do not replace local rules or professional advice."
    )
    for each in kit_cautions(plan.kit):
        about = f" ({', '.join(each.about)})" if each.about else ""
        yield caution(f"{each.text}{about}", each.ask)
