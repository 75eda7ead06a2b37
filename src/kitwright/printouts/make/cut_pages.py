"""Cut list and score charts: what to cut, where to score, with a picture of every blank."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from kitwright.plan import CutLine, Plan
from kitwright.printouts.compose import ROLE_WORDS, beside, canvas, fitted, key_to, roles_on
from kitwright.printouts.drawing import Role
from kitwright.printouts.make.bench_words import score_sentences
from kitwright.printouts.make.cut_away_words import group_name, shape_groups
from kitwright.printouts.make.pattern_picture import bench_marks
from kitwright.printouts.make.shape_picture import shapes_drawing
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

PICTURE_HEIGHT = 76.0
SHAPES_WIDTH = 178.0

KEY = (Role.CUT, Role.MOUNTAIN, Role.VALLEY, Role.GLUE, Role.GLUE_BEHIND, Role.PRINT)
"""What the key explains, in this order, where it is in a picture."""


def cut_list_blocks(plan: Plan) -> Iterator[Markup]:
    """The cut list as one table, a line a blank."""
    ruler, signs = plan.ruler, signs_of(plan)
    many = f"for {plan.batch} kits" if plan.batch > 1 else "for one kit"
    told = paragraph(f"All cuts {many}, in {ruler.unit.in_words}; width first, as the score chart draws the blank.")
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
    cuts = table(
        ["", "Blank", "Paper", "Count", f"Size, {ruler.unit.value}"],
        rows,
        align=["left", "left", "left", "right", "left"],
        widths=["auto", "1fr", "1fr", "auto", "auto"],
    )
    yield together(heading("Cut list"), told, cuts)


def score_blocks(plan: Plan) -> Iterator[Markup]:
    """A score chart with a picture for every blank that is more than a rectangle, each kept on one page."""
    signs = signs_of(plan)
    yield heading("Score charts")
    yield paragraph(
        "Each number is the place of a score, measured from the left edge as the blank lies in that pass. Score on the side that is "
        "up, then fold away from you unless the chart says otherwise. The pictures show the print side."
    )
    plain = [line for line in plan.lines if line.blank.is_rectangle and not line.blank.scores]
    yield from key_to_pictures(plan, [line for line in plan.lines if line not in plain])
    for line in plan.lines:
        if line not in plain:
            yield score_block(plan, line, signs[line.label])
    if plain:
        names = ", ".join(f"{signs[line.label]} {line.label}" for line in plain)
        yield paragraph(bold("Nothing to score: "), names + ".")


def key_to_pictures(plan: Plan, lines: Sequence[CutLine]) -> Iterator[Markup]:
    """What the lines and hatchings in the pictures of these blanks mean, in two columns; nothing for none."""
    used = {role for line in lines for role in roles_on(canvas(bench_marks(line.part, line.blank, plan.ruler)))}
    roles = [role for role in KEY if role in used]
    half = (len(roles) + 1) // 2
    keys = [key_to(some) for some in (roles[:half], roles[half:]) if some]
    if keys:
        words = ", ".join(ROLE_WORDS[role] for role in roles)
        yield picture(beside(keys, gap=14.0, align="high"), alt=f"Key: {words}")


def score_block(plan: Plan, line: CutLine, sign: str) -> Markup:
    """One blank: its name and numbers at the left, its picture at the right."""
    sentences = list(score_sentences(line, plan.ruler, fibres=plan.straining(line)))
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
        *shape_pictures(plan, line),
    )


def shape_pictures(plan: Plan, line: CutLine) -> Iterator[Markup]:
    """The tabs, hems and flaps of a blank that are cut to shape, side by side with their numbers; nothing if it has none."""
    groups = shape_groups(line.blank, plan.ruler)
    if groups:
        names = ", ".join(group_name(group) for group in groups)
        drawing = shapes_drawing(groups, plan.ruler, width=SHAPES_WIDTH)
        yield picture(drawing, alt=f"{names}: the numbers to cut them by")


def blank_picture(plan: Plan, line: CutLine, *, width: float, height: float) -> Markup:
    """The blank with its numbers, as large as fits."""
    drawing = fitted(bench_marks(line.part, line.blank, plan.ruler), width=width, height=height).drawing
    return picture(drawing, alt=f"Flat pattern of {line.label} with its scores")
