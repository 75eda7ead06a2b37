"""The bench pack: everything a maker takes to the bench, as one PDF. Every number in it is read off one plan."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from enum import StrEnum

from kitwright.plan import Plan
from kitwright.printouts.make.assembly import assembly_blocks
from kitwright.printouts.make.caution_pages import caution_blocks
from kitwright.printouts.make.cover import cover_blocks
from kitwright.printouts.make.cut_pages import cut_list_blocks, score_blocks
from kitwright.printouts.make.proof_pages import proof_blocks
from kitwright.printouts.make.sheet_pages import sheet_blocks
from kitwright.printouts.make.templates import template_blocks
from kitwright.printouts.page import Page
from kitwright.printouts.write.house import document, heading, new_page
from kitwright.printouts.write.pdf import to_pdf
from kitwright.printouts.write.typst import Markup

__all__ = ["Section", "bench_pack", "bench_pack_source"]


class Section(StrEnum):
    """A part of the bench pack that can be printed by itself. The cautions are none: they go with whatever is printed."""

    CONTENTS = "contents"
    SCORES = "scores"
    SHEETS = "sheets"
    ASSEMBLY = "assembly"
    PROOF = "proof"
    TEMPLATES = "templates"

    @property
    def words(self) -> str:
        """What is in it, for people."""
        return SECTION_WORDS[self]


SECTION_WORDS = {
    Section.CONTENTS: "What is in the kit, and the cut list",
    Section.SCORES: "Score charts",
    Section.SHEETS: "Sheet layouts with the order of cuts",
    Section.ASSEMBLY: "Making it, step by step",
    Section.PROOF: "The proof",
    Section.TEMPLATES: "Templates at true size",
}


def bench_pack(plan: Plan, page: Page, sections: Collection[Section] = tuple(Section)) -> bytes:
    """The bench pack as PDF bytes."""
    return to_pdf(bench_pack_source(plan, page, sections))


def bench_pack_source(plan: Plan, page: Page, sections: Collection[Section] = tuple(Section)) -> str:
    """The bench pack, or some sections of it in their order, as Typst source."""
    many = f"for {plan.batch} kits" if plan.batch > 1 else "for one kit"
    return document(
        blocks(plan, page, sections), title="Bench pack", subtitle=many, kit=plan.kit.name, page=page, true_scale=True
    )


def blocks(plan: Plan, page: Page, sections: Collection[Section]) -> Iterator[Markup]:
    """The sections in the order of the bench, each on a new page; cautions before the templates, which have pages of their own."""
    in_order = [each for each in Section if each in sections and each is not Section.TEMPLATES]
    for section in in_order:
        if section is not in_order[0]:
            yield new_page()
        yield from section_blocks(plan, section)
    yield from caution_blocks(plan)
    if Section.TEMPLATES in sections:
        yield from template_blocks(plan, page)


def section_blocks(plan: Plan, section: Section) -> Iterator[Markup]:
    """One section."""
    match section:
        case Section.CONTENTS:
            yield from cover_blocks(plan)
            yield from cut_list_blocks(plan)
        case Section.SCORES:
            yield from score_blocks(plan)
        case Section.SHEETS:
            yield from sheet_blocks(plan)
        case Section.ASSEMBLY:
            yield from assembly_blocks(plan)
        case Section.PROOF:
            yield heading("Proof")
            yield from proof_blocks(plan.built, plan.proof)
