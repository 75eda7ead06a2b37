"""The bench pack: everything a maker takes to the bench, as one PDF. Every number in it is read off one plan."""

from __future__ import annotations

from collections.abc import Iterator

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

__all__ = ["bench_pack", "bench_pack_source"]


def bench_pack(plan: Plan, page: Page) -> bytes:
    """The bench pack as PDF bytes."""
    return to_pdf(bench_pack_source(plan, page))


def bench_pack_source(plan: Plan, page: Page) -> str:
    """The bench pack as Typst source."""
    many = f"for {plan.batch} kits" if plan.batch > 1 else "for one kit"
    return document(
        blocks(plan, page), title="Bench pack", subtitle=many, kit=plan.kit.name, page=page, true_scale=True
    )


def blocks(plan: Plan, page: Page) -> Iterator[Markup]:
    """All sections in the order of the bench."""
    yield from cover_blocks(plan)
    yield from cut_list_blocks(plan)
    for section in (score_blocks, sheet_blocks, assembly_blocks):
        yield new_page()
        yield from section(plan)
    yield new_page()
    yield heading("Proof")
    yield from proof_blocks(plan.built, plan.proof)
    yield from caution_blocks(plan)
    yield from template_blocks(plan, page)
