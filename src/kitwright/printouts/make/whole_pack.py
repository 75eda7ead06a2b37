"""All files of a pack, in memory: bench pack, a drawing of every blank and layout, the proof as text and as data."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from enum import StrEnum
from typing import Final

from kitwright.measure import Unit, plain_word
from kitwright.plan import CutLine, Plan
from kitwright.printouts.compose import canvas
from kitwright.printouts.make.as_data import plan_as_data
from kitwright.printouts.make.bench_pack import Section, bench_pack
from kitwright.printouts.make.cut_picture import order_drawing
from kitwright.printouts.make.file_list import file_list
from kitwright.printouts.make.pattern_picture import bench_marks, blank_marks, print_turn_of
from kitwright.printouts.make.proof_words import NO_FIX, SEVERITY_WORDS
from kitwright.printouts.make.sheet_pages import free_drawing, layout_drawing
from kitwright.printouts.make.view_picture import part_drawing
from kitwright.printouts.page import A4, US_LETTER, page_named
from kitwright.printouts.write.dxf import to_dxf
from kitwright.printouts.write.svg import to_svg

__all__ = ["LIST", "Kind", "file_name", "file_names", "proof_text", "whole_pack"]

LIST: Final = "plan.json"
"""The file of a pack that has every number of its plan, and the digests of all files."""

LONGEST_NAME: Final = 60
"""Signs of a file name made of words; some disks take no more than 255 bytes."""


class Kind(StrEnum):
    """A kind of file in a pack."""

    PAGES = "pages"
    PATTERNS = "patterns"
    LINES = "lines"
    FOLDED = "folded"
    LAYOUTS = "layouts"
    PROOF = "proof"
    DATA = "data"

    @property
    def words(self) -> str:
        """What they are, for people."""
        return KIND_WORDS[self]


KIND_WORDS = {
    Kind.PAGES: "Pages to print (PDF)",
    Kind.PATTERNS: "Flat patterns at true size, with numbers and names (SVG)",
    Kind.LINES: "Only their lines, for cutting machines and drawing programs (DXF)",
    Kind.FOLDED: "Folded parts as pictures (SVG)",
    Kind.LAYOUTS: "Sheet layouts and their order of cuts as pictures (SVG)",
    Kind.PROOF: "The proof as text",
    Kind.DATA: "Every number, for other programs (JSON)",
}


def whole_pack(
    plan: Plan,
    *,
    page: str | None = None,
    kinds: Collection[Kind] = tuple(Kind),
    sections: Collection[Section] = tuple(Section),
) -> dict[str, bytes]:
    """Every file by its name in the pack's folder, of the kinds that are wanted; of the bench pack the sections that are wanted.

    `page` is `us-letter` or `a4`; by default as the kit's units suggest.
    """
    paper = page_named(page) if page else (US_LETTER if plan.kit.unit is Unit.INCH else A4)
    files: dict[str, bytes] = {}
    if Kind.PAGES in kinds:
        files["bench-pack.pdf"] = bench_pack(plan, paper, sections)
    blanks = file_names(line.label for line in plan.lines)
    for line in plan.lines:
        if Kind.PATTERNS in kinds:
            files[f"patterns/{blanks[line.label]}.svg"] = blank_svg(plan, line).encode()
        if Kind.LINES in kinds:
            files[f"patterns/{blanks[line.label]}.dxf"] = blank_dxf(line)
    if Kind.FOLDED in kinds:
        files |= folded_files(plan)
    if Kind.LAYOUTS in kinds:
        files |= layout_files(plan)
    if Kind.PROOF in kinds:
        files["proof.txt"] = proof_text(plan).encode()
    if Kind.DATA in kinds:
        files[LIST] = file_list(LIST, files, plan_as_data(plan))
    return files


def folded_files(plan: Plan) -> dict[str, bytes]:
    """Every part folded, as SVG."""
    names = file_names(part.name for part in plan.built.parts)
    return {
        f"folded/{names[part.name]}.svg": to_svg(
            part_drawing(part, width=140, height=110), title=part.name, description=f"{part.name}, folded"
        ).encode()
        for part in plan.built.parts
    }


def layout_files(plan: Plan) -> dict[str, bytes]:
    """Every layout of every paper with its order of cuts, as SVG."""
    names = file_names(each.paper.key for each in plan.papers)
    files = {}
    for each in plan.papers:
        drawings = [
            *(layout_drawing(plan, each, layout, width=180, height=180) for layout in each.cut_plan.layouts),
            *(free_drawing(plan, each, free, width=180, height=180) for free in each.free),
        ]
        for number, drawing in enumerate(drawings, 1):
            svg = to_svg(
                drawing, title=f"{each.paper.label}, layout {number}", description="Layout of parts on one sheet"
            )
            files[f"sheets/{names[each.paper.key]}-{number}.svg"] = svg.encode()
        for number in range(len(each.cut_plan.layouts)):
            steps = [step for step in each.steps if step.layout == number]
            if steps:
                title = f"{each.paper.label}, layout {number + 1}: the order of cuts"
                svg = to_svg(order_drawing(steps, plan.ruler), title=title, description="One picture for every cut")
                files[f"sheets/{names[each.paper.key]}-{number + 1}-cuts.svg"] = svg.encode()
    return files


def blank_svg(plan: Plan, line: CutLine) -> str:
    """A blank at true scale, with its numbers."""
    drawing = canvas(bench_marks(line.part, line.blank, plan.ruler))
    return to_svg(
        drawing,
        title=line.label,
        description=f"Flat pattern of {line.label} at true scale",
        true_scale=True,
        layers=True,
    )


def blank_dxf(line: CutLine) -> bytes:
    """The lines of a blank at true scale, its lower left corner at (0, 0), print side up."""
    return to_dxf(blank_marks(line.blank, glue={}, print_turn=print_turn_of(line.part)))


def proof_text(plan: Plan) -> str:
    """The proof as plain text, every finding on a line."""
    lines = [f"{plan.kit.name}: proof", "", plan.proof.sentence(), ""]
    for finding in sorted(plan.proof.findings, key=lambda each: -each.severity.rank):
        lines.append(f"{SEVERITY_WORDS[finding.severity]:>14}  {finding.about}: {finding.message}")
        if finding.fix:
            lines.append(f"{'do this':>14}  {finding.fix.sentence}")
        if finding.advice:
            lines.append(f"{NO_FIX:>14}  {finding.advice}")
        if finding.because:
            lines.append(f"{'limit':>14}  {finding.because}")
    return "\n".join(lines) + "\n"


def file_name(words: str, *, otherwise: str = "part") -> str:
    """Words as a file name: small letters without accents, digits and hyphens; letters of other scripts stay.

    Words without any letter or digit become `otherwise`.
    """
    return plain_word(words)[:LONGEST_NAME].strip("-") or otherwise


def file_names(words: Iterable[str]) -> dict[str, str]:
    """A file name for each of several different words; where two would have the same, the later one bears a number."""
    names: dict[str, str] = {}
    for each in words:
        name, number = file_name(each), 2
        while name in names.values():
            name, number = f"{file_name(each)}-{number}", number + 1
        names[each] = name
    return names
