"""All files of a pack, in memory: bench pack, a drawing of every blank and layout, the proof as text and as data."""

from __future__ import annotations

import json

from kitwright.measure import Unit
from kitwright.plan import CutLine, Plan
from kitwright.printouts.compose import canvas
from kitwright.printouts.make.as_data import plan_as_data
from kitwright.printouts.make.bench_pack import bench_pack
from kitwright.printouts.make.pattern_picture import bench_numbers, blank_marks, glued_panels
from kitwright.printouts.make.proof_pages import SEVERITY_WORDS
from kitwright.printouts.make.sheet_pages import layout_drawing
from kitwright.printouts.make.view_picture import part_drawing
from kitwright.printouts.page import A4, US_LETTER, page_named
from kitwright.printouts.write.svg import to_svg

__all__ = ["file_name", "proof_text", "whole_pack"]


def whole_pack(plan: Plan, *, page: str | None = None) -> dict[str, bytes]:
    """Every file by its name in the pack's folder. `page` is `us-letter` or `a4`; by default as the kit's units suggest."""
    paper = page_named(page) if page else (US_LETTER if plan.kit.unit is Unit.INCH else A4)
    files = {"bench-pack.pdf": bench_pack(plan, paper)}
    for line in plan.lines:
        files[f"patterns/{file_name(line.label)}.svg"] = blank_svg(plan, line).encode()
    for part in plan.built.parts:
        drawing = part_drawing(part, width=140, height=110)
        svg = to_svg(drawing, title=part.name, description=f"{part.name}, folded")
        files[f"folded/{file_name(part.name)}.svg"] = svg.encode()
    for each in plan.papers:
        for number, layout in enumerate(each.cut_plan.layouts, 1):
            drawing = layout_drawing(plan, each, layout, width=180, height=180)
            svg = to_svg(
                drawing, title=f"{each.paper.label}, layout {number}", description="Layout of parts on one sheet"
            )
            files[f"sheets/{file_name(each.paper.key)}-{number}.svg"] = svg.encode()
    files["proof.txt"] = proof_text(plan).encode()
    files["plan.json"] = (json.dumps(plan_as_data(plan), indent=2, ensure_ascii=False) + "\n").encode()
    return files


def blank_svg(plan: Plan, line: CutLine) -> str:
    """A blank at true scale, with its numbers."""
    glued = glued_panels(line.part.pattern.joints, line.blank)
    drawing = canvas([*blank_marks(line.blank, glued=glued), *bench_numbers(line.blank, plan.ruler)])
    return to_svg(
        drawing,
        title=line.label,
        description=f"Flat pattern of {line.label} at true scale",
        true_scale=True,
        layers=True,
    )


def proof_text(plan: Plan) -> str:
    """The proof as plain text, every finding on a line."""
    lines = [f"{plan.kit.name}: proof", "", plan.proof.sentence(), ""]
    for finding in sorted(plan.proof.findings, key=lambda each: -each.severity.rank):
        lines.append(f"{SEVERITY_WORDS[finding.severity]:>14}  {finding.about}: {finding.message}")
        if finding.fix:
            lines.append(f"{'do this':>14}  {finding.fix.sentence}")
        if finding.because:
            lines.append(f"{'limit':>14}  {finding.because}")
    return "\n".join(lines) + "\n"


def file_name(words: str) -> str:
    """Words as a file name: small letters, digits and hyphens."""
    kept = "".join(sign if sign.isascii() and sign.isalnum() else " " for sign in words.lower())
    return "-".join(kept.split()) or "part"
