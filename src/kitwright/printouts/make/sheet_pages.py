"""Sheet layouts with the order of cuts, paper by paper."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.cutting import Layout
from kitwright.paper import Print
from kitwright.plan import PaperPlan, Plan
from kitwright.printouts.compose import fitted
from kitwright.printouts.drawing import Drawing
from kitwright.printouts.make.bench_words import step_words
from kitwright.printouts.make.layout_picture import layout_marks
from kitwright.printouts.make.signs import signs_of
from kitwright.printouts.write.house import caution, heading, new_page, paragraph, picture, table, together
from kitwright.printouts.write.typst import Markup

__all__ = ["bound_sentence", "layout_drawing", "sheet_blocks"]

SHEET_WIDTH, SHEET_HEIGHT = 150.0, 112.0


def sheet_blocks(plan: Plan) -> Iterator[Markup]:
    """Every paper: how many sheets, why no fewer, each layout with its cuts."""
    signs = signs_of(plan)
    for place, paper in enumerate(plan.papers):
        if place:
            yield new_page()
        yield heading(f"Sheets: {paper.paper.label}")
        yield paragraph(bound_sentence(paper))
        for unplaced in paper.cut_plan.unplaced:
            yield caution(unplaced.sentence(plan.ruler), word="Not on any sheet")
        if paper.faults:
            yield caution(*(fault.message for fault in paper.faults), word="The layout failed its check: do not cut")
        for number, layout in enumerate(paper.cut_plan.layouts):
            letter = chr(ord("A") + number % 26)
            times = "one sheet" if layout.times == 1 else f"{layout.times} sheets alike"
            yield together(
                heading(f"Layout {letter}, {times}", level=2),
                picture(
                    layout_drawing(plan, paper, layout, width=SHEET_WIDTH, height=SHEET_HEIGHT),
                    alt=f"Layout {letter} of {paper.paper.label}",
                ),
            )
            rows = [step_words(step, plan.ruler, signs) for step in paper.steps if step.layout == number]
            if rows:
                yield table(
                    ["Take", "Lay it print up,", f"Guide at, {plan.ruler.unit.value}", "Gives"],
                    rows,
                    align=["left", "left", "right", "left"],
                    widths=["auto", "auto", "auto", "1fr"],
                )


def bound_sentence(paper: PaperPlan) -> str:
    """How many sheets, and whether fewer would do, in words."""
    found = paper.cut_plan
    count = "1 sheet" if paper.sheets == 1 else f"{paper.sheets} sheets"
    if found.unplaced:
        return f"{count}; not everything could be placed."
    if found.is_proved:
        return f"{count}. No plan can do with fewer."
    return f"{count}. At least {found.bound.value} are needed; whether {paper.sheets - 1} would do is not settled."


def layout_drawing(plan: Plan, paper: PaperPlan, layout: Layout, *, width: float, height: float) -> Drawing:
    """A layout as large as fits."""
    marks = layout_marks(
        layout,
        plan.ruler,
        one_way=paper.paper.print_ is Print.ONE_WAY,
        turns={line.label: line.part.part.turn for line in paper.lines},
        letters=signs_of(plan),
    )
    return fitted(marks, width=width, height=height).drawing
