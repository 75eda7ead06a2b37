"""The cautions of a kit: derived from what is in it and the tools on the bench; shown in general words, with whom to ask."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.kit import kit_cautions
from kitwright.plan import Plan
from kitwright.printouts.write.house import BODY_POINTS, caution, heading, paragraph, together
from kitwright.printouts.write.typst import Markup

__all__ = ["caution_blocks"]


def caution_blocks(plan: Plan) -> Iterator[Markup]:
    """Every caution in a box of its own, its own words no smaller than its source asks for; none is left out."""
    head = (
        heading("Cautions"),
        paragraph(
            "These are the usual cautions in general words. They do not replace local rules or professional advice."
        ),
    )
    boxes = [
        caution(f"{each.text}{about_words(each.about)}", each.ask, points=each.least_points or BODY_POINTS)
        for each in kit_cautions(plan.kit)
    ]
    yield together(*head, *boxes[:1])
    yield from boxes[1:]


def about_words(about: tuple[str, ...]) -> str:
    """` (scissors, trimmer)`; nothing where a caution is about no one thing."""
    return f" ({', '.join(about)})" if about else ""
