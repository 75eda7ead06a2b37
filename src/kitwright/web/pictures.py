"""Drawings of a plan as they stand inside the page. The page's own style sheet gives them their colours."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from kitwright.cutting import BenchStep, FreeSheet, Layout, to_mm
from kitwright.findings import Finding
from kitwright.kit import BuiltKit, BuiltPart
from kitwright.measure import Ruler
from kitwright.pattern import Blank, ScorePass
from kitwright.plan import CutLine, PaperPlan, Plan, cut_lines
from kitwright.printouts.compose import fitted
from kitwright.printouts.drawing import Drawing
from kitwright.printouts.make.cut_picture import cut_drawing
from kitwright.printouts.make.fit_picture import fit_picture
from kitwright.printouts.make.pattern_picture import bench_marks
from kitwright.printouts.make.rule_picture import rule_drawing
from kitwright.printouts.make.sheet_pages import free_fitted, layout_fitted
from kitwright.printouts.make.view_picture import kit_drawing, part_drawing, stage_picture
from kitwright.printouts.write.svg import to_svg
from kitwright.web.prints_under import has_print, sheet_print
from kitwright.workshop import Scans

__all__ = [
    "fit",
    "flat",
    "folded",
    "inline",
    "kit_svg",
    "laid_freely",
    "layout",
    "layouts",
    "lines_of",
    "rule",
    "stage",
    "whole",
]


def inline(drawing: Drawing, *, title: str, description: str, under: Markup | None = None) -> Markup:
    """A drawing for the page, over something else if asked; what would need a style of its own gets a class."""
    svg = to_svg(drawing, title=title, description=description)
    whole = svg.replace('style="font-variant-numeric:diagonal-fractions"', 'class="fraction"')
    return Markup(whole.replace("</desc>", f"</desc>{under}", 1) if under else whole)


def kit_svg(built: BuiltKit) -> str:
    """The kit folded, for the shelf."""
    drawing = kit_drawing(built, width=80, height=64)
    return to_svg(drawing, title=built.kit.name, description=f"{built.kit.name}, folded", theme="auto")


def whole(built: BuiltKit) -> Markup:
    """The kit with its lid lifted."""
    drawing = kit_drawing(built, width=90, height=70)
    return inline(drawing, title=built.kit.name, description=f"{built.kit.name}, folded and open")


def folded(part: BuiltPart, *, width: float = 90, height: float = 70) -> Markup:
    """A finished part."""
    drawing = part_drawing(part, width=width, height=height)
    return inline(drawing, title=part.name, description=f"{part.name}, folded")


def stage(part: BuiltPart, number: int) -> Markup:
    """A part after a step."""
    shown = stage_picture(part, number, width=120, height=100)
    description = f"{part.name} after step {number + 1}. {shown.seen}".strip()
    return inline(shown.drawing, title=part.name, description=description)


def lines_of(built: BuiltKit) -> tuple[CutLine, ...]:
    """The blanks of one kit."""
    return tuple(line for part in built.parts for line in cut_lines(part, 1))


def flat(ruler: Ruler, part: BuiltPart, blank: Blank, label: str, *, width: float = 110, height: float = 90) -> Markup:
    """A blank with its scores and numbers, as large as fits."""
    drawing = fitted(bench_marks(part, blank, ruler), width=width, height=height).drawing
    return inline(drawing, title=label, description=f"Flat pattern of {label} with its scores")


def rule(ruler: Ruler, one: ScorePass, about: str) -> Markup:
    """The rule of the scoring board with the stops of a pass."""
    drawing = rule_drawing(one, ruler, width=110)
    places = ", ".join(ruler.format(mark.at) for mark in one.marks)
    unit = ruler.unit.value
    return inline(drawing, title=f"{about}: the rule", description=f"A rule with stops at {places} {unit}")


def cut(step: BenchStep, ruler: Ruler) -> Markup:
    """One cut as it is made."""
    drawing = cut_drawing(step, ruler, width=110, height=80)
    said = f"The paper at the guide, top {step.top}; the blade at {ruler.near(float(to_mm(step.guide)))}"
    return inline(drawing, title="This cut", description=said)


def layout(plan: Plan, paper: PaperPlan, one: Layout, number: int, scans: Scans | None = None) -> Markup:
    """Parts on one sheet, over the paper's print where the pictures are given."""
    found = layout_fitted(plan, paper, one, width=100, height=110)
    description = f"Parts laid out on {paper.paper.label}"
    if scans is None or not has_print(paper.paper):
        return inline(found.drawing, title=f"Layout {number}", description=description)
    is_whole = not paper.is_offcut(one)
    print_ = sheet_print(sheet_name(plan, paper, number), paper.paper, one.stock, found, scans, is_whole=is_whole)
    return inline(found.drawing, title=f"Layout {number}", description=description, under=print_)


def laid_freely(plan: Plan, paper: PaperPlan, one: FreeSheet, number: int, scans: Scans | None = None) -> Markup:
    """Parts on a sheet that no through cuts take apart."""
    found = free_fitted(plan, paper, one, width=100, height=110)
    description = f"Parts laid by hand on {paper.paper.label}"
    if scans is None or not has_print(paper.paper):
        return inline(found.drawing, title=f"Layout {number}", description=description)
    print_ = sheet_print(sheet_name(plan, paper, number), paper.paper, one.stock, found, scans, is_whole=True)
    return inline(found.drawing, title=f"Layout {number}", description=description, under=print_)


def sheet_name(plan: Plan, paper: PaperPlan, number: int) -> str:
    """A name for a sheet that nothing else in a page has."""
    return f"print-on-{tuple(plan.kit.papers).index(paper.paper.key)}-{number}"


def layouts(plan: Plan, paper: PaperPlan, scans: Scans | None = None) -> Iterator[Markup]:
    """Every layout of a paper, those by through cuts first, then the sheets that are cut otherwise."""
    for number, one in enumerate(paper.cut_plan.layouts, 1):
        yield layout(plan, paper, one, number, scans)
    for number, free in enumerate(paper.free, len(paper.cut_plan.layouts) + 1):
        yield laid_freely(plan, paper, free, number, scans)


def fit(built: BuiltKit, finding: Finding) -> tuple[Markup, str] | None:
    """The picture of a finding about a fit and how to read it, None for a finding about something else."""
    drawn = fit_picture(built, finding, width=70, height=38)
    if drawn is None:
        return None
    return inline(drawn.drawing, title=finding.about, description=drawn.alt), drawn.caption
