"""Cut list and score charts: what to cut, where to score, with a picture of every blank."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.measure import Unit
from kitwright.paper import Print
from kitwright.plan import CutLine, Plan
from kitwright.printouts.compose import fitted
from kitwright.printouts.make.bench_words import score_sentences
from kitwright.printouts.make.pattern_picture import bench_numbers, blank_marks, glued_panels
from kitwright.printouts.make.signs import signs_of
from kitwright.printouts.make.templates import needs_template
from kitwright.printouts.write.house import (
    bold,
    columns,
    heading,
    joined,
    paragraph,
    picture,
    steps,
    table,
    together,
)
from kitwright.printouts.write.typst import Markup

__all__ = ["blank_picture", "cut_list_blocks", "score_blocks"]

PICTURE_HEIGHT = 84.0

UNIT_WORDS = {Unit.INCH: "inches", Unit.MILLIMETRE: "millimetres", Unit.CENTIMETRE: "centimetres"}


def cut_list_blocks(plan: Plan) -> Iterator[Markup]:
    """The cut list as one table, a line a blank."""
    ruler, signs = plan.ruler, signs_of(plan)
    yield heading("Cut list")
    many = f"for {plan.batch} kits" if plan.batch > 1 else "for one kit"
    yield paragraph(
        f"All cuts {many}, in {UNIT_WORDS[ruler.unit]}; width first, as the blank lies with its print upright."
    )
    rows = [
        [
            bold(signs[line.label]),
            line.label,
            line.part.paper.label,
            str(line.in_batch),
            bold(ruler.size(*line.blank.size)),
        ]
        for line in plan.lines
    ]
    yield table(
        ["", "Blank", "Paper", "Count", f"Size, {ruler.unit.value}"],
        rows,
        align=["left", "left", "left", "right", "left"],
        widths=["auto", "1fr", "1fr", "auto", "auto"],
    )


def score_blocks(plan: Plan) -> Iterator[Markup]:
    """A score chart with a picture for every blank that is more than a rectangle, each kept on one page."""
    signs = signs_of(plan)
    yield heading("Score charts")
    yield paragraph(
        "Each number is the place of a score, measured from the left edge as the blank lies in that pass. Score on the side that is "
        "up, then fold away from you unless the chart says otherwise. In the pictures the print side is up: dash-dot lines fold away "
        "from you, dashed lines fold towards you, hatched tabs bear glue on the side you see."
    )
    plain = [line for line in plan.lines if line.blank.is_rectangle and not line.blank.scores]
    for line in plan.lines:
        if line not in plain:
            yield score_block(plan, line, signs[line.label])
    if plain:
        names = ", ".join(f"{signs[line.label]} {line.label}" for line in plain)
        yield paragraph(bold("Nothing to score: "), names + ".")


def score_block(plan: Plan, line: CutLine, sign: str) -> Markup:
    """One blank: its name and numbers at the left, its picture at the right."""
    sentences = list(score_sentences(line.chart, plan.ruler, fibres=plan.straining(line)))
    if needs_template(line):
        sentences.append("The template page shows it at true size.")
    size = bold(plan.ruler.size(*line.blank.size))
    words = [
        paragraph(joined(f"{line.in_batch} of ", size, f" {plan.ruler.unit.value}, {line.part.paper.label}")),
        steps(sentences),
    ]
    return together(
        heading(f"{sign}  {line.label}", level=2),
        columns(
            words, [blank_picture(plan, line, width=98, height=PICTURE_HEIGHT)], widths=["1fr", "100mm"], between=4
        ),
    )


def blank_picture(plan: Plan, line: CutLine, *, width: float, height: float) -> Markup:
    """The blank with its numbers, as large as fits."""
    one_way = line.part.paper.print_ is Print.ONE_WAY
    marks = [
        *blank_marks(
            line.blank,
            glued=glued_panels(line.part.pattern.joints, line.blank),
            print_turn=line.part.part.turn if one_way else None,
        ),
        *bench_numbers(line.blank, plan.ruler),
    ]
    drawing = fitted(marks, width=width, height=height).drawing
    return picture(drawing, alt=f"Flat pattern of {line.label} with its scores")
