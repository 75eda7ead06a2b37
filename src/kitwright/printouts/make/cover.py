"""The cover of the bench pack: the kit in one picture, what is in it, which papers it takes, and whether it is proved."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.findings import Severity
from kitwright.kit import SizingKind
from kitwright.plan import Plan
from kitwright.printouts.make.proof_words import SEVERITY_WORDS
from kitwright.printouts.make.sheet_pages import bound_sentence
from kitwright.printouts.make.view_picture import kit_drawing
from kitwright.printouts.write.house import (
    bold,
    caution,
    checklist,
    columns,
    heading,
    name_width,
    note,
    picture,
    table,
    together,
)
from kitwright.printouts.write.typst import Markup

__all__ = ["cover_blocks"]

HOW_SAID = {
    SizingKind.SIZE: "score to score",
    SizingKind.INSIDE: "from inside",
    SizingKind.OUTSIDE: "from outside",
    SizingKind.DERIVED: "follows",
}
"""How a part's size was said, in a word or two."""


def cover_blocks(plan: Plan) -> Iterator[Markup]:
    """Picture and contents side by side, papers, verdict."""
    proof = plan.proof
    counts = {SEVERITY_WORDS[severity]: count for severity, count in proof.counts().items()}
    verdict = [
        proof.sentence(),
        "All checks: " + ", ".join(f"{count} × {word}" for word, count in counts.items()) + ".",
    ]
    if proof.is_proved:
        yield note(*verdict, word="Proof")
    else:
        names = sorted({finding.about for finding in proof.of(Severity.FAIL, Severity.UNKNOWN)})
        yield caution(*verdict, f"See: {', '.join(names)}.", word="Do not cut yet")
    yield columns(
        [picture(kit_drawing(plan.built, width=92, height=92), alt=f"{plan.kit.name}, folded and open")],
        [heading("In every kit", level=2), checklist(contents_lines(plan))],
        widths=["94mm", "1fr"],
    )
    yield heading("Papers")
    yield table(
        ["Paper", "Sheet", "Sheets", "To buy", "What that means"],
        [
            [
                paper.paper.label,
                f"{plan.ruler.size(paper.paper.sheet_width_mm, paper.paper.sheet_height_mm)} {plan.ruler.unit.value}",
                bold(str(paper.sheets)),
                str(paper.to_buy),
                bound_sentence(paper),
            ]
            for paper in plan.papers
        ],
        align=["left", "left", "right", "right", "left"],
        widths=[name_width((paper.paper.label for paper in plan.papers), most=62), "auto", "auto", "auto", "1fr"],
    )
    yield together(heading("Sizes"), sizes_table(plan))


def sizes_table(plan: Plan) -> Markup:
    """The size of every part, and where it comes from."""
    return table(
        ["Part", f"Size, {plan.ruler.unit.value}", "How it was said", "Where it comes from"],
        [
            [
                part.name,
                plan.ruler.size(*(part.lengths[name] for name in part.form.size)),
                HOW_SAID[part.part.sizing.kind],
                "; ".join(part.how),
            ]
            for part in plan.built.parts
        ],
        widths=[name_width((part.name for part in plan.built.parts), most=50), "auto", "auto", "1fr"],
    )


def contents_lines(plan: Plan) -> list[str]:
    """What is in one kit, to be ticked off while packing it."""
    lines = [f"{part.part.quantity} × {part.name}" for part in plan.built.parts]
    return lines + [f"{extra.quantity} × {extra.name}" for extra in plan.kit.extras]
