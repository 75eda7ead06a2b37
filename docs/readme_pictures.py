"""The three pictures of the README: a flat pattern, a folded kit, a sheet layout. Light and dark readers see them alike."""

from __future__ import annotations

from importlib import resources

from kitwright.kit import read_kit
from kitwright.plan import plan
from kitwright.printouts.compose import fitted
from kitwright.printouts.drawing import Drawing
from kitwright.printouts.make.pattern_picture import bench_marks
from kitwright.printouts.make.sheet_pages import layout_drawing
from kitwright.printouts.make.view_picture import kit_drawing
from kitwright.printouts.write.svg import to_svg

__all__ = ["readme_pictures"]


def readme_pictures() -> dict[str, str]:
    """SVG text by file name, made from the part of the recipe box that holds the others."""
    text = resources.files("kitwright").joinpath("examples", "recipe-box.toml").read_text(encoding="utf-8")
    made = plan(read_kit(text), batch=6)
    line = next(line for line in made.lines if line.part.part.holds)
    marks = list(bench_marks(line.part, line.blank, made.ruler))
    paper = next(paper for paper in made.papers if paper.paper is line.part.paper)
    drawings: dict[str, tuple[Drawing, str]] = {
        "pattern.svg": (fitted(marks, width=120, height=95).drawing, f"Flat pattern of {line.label}, with its scores"),
        "folded.svg": (kit_drawing(made.built, width=120, height=95), f"{made.kit.name}, folded, the lid lifted"),
        "sheet.svg": (
            layout_drawing(made, paper, paper.cut_plan.layouts[0], width=100, height=95),
            f"One sheet of {paper.paper.label}, laid out",
        ),
    }
    return {
        name: to_svg(drawing, title=words, description=words, theme="auto")
        for name, (drawing, words) in drawings.items()
    }
