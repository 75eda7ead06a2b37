"""What is wrong with the pages of a bench pack: words that stand nowhere, letters over the edge or on each other. Read by PDFium."""

from collections.abc import Iterator

from tests.printouts.write.pdf_letters import Page as Read
from tests.printouts.write.pdf_letters import letters_of, lost

from kitwright.plan import Plan
from kitwright.printouts.make.templates import FOOTER, MARGIN
from kitwright.printouts.page import Page

__all__ = ["pack_faults"]

INK, ACCENT = 0.4, 1.6
"""Letters may reach so far (mm) beyond the field, the accents of the uppermost line so far above it."""


def pack_faults(plan: Plan, pdf: bytes, page: Page) -> list[str]:
    """Every fault, as a line that says the page and what it is."""
    read = letters_of(pdf)
    return [*(f"nowhere: {words}" for words in lost(read, told(plan))), *page_faults(read, page)]


def told(plan: Plan) -> Iterator[str]:
    """What must stand on some page: names with their counts, papers, sizes, every place of a score and setting of the guide."""
    ruler = plan.ruler
    yield plan.kit.name
    for part in plan.built.parts:
        yield f"{part.part.quantity} × {part.name}"
        yield f"{part.name} ({part.part.quantity} in every kit)"
    for extra in plan.kit.extras:
        yield f"{extra.quantity} × {extra.name}"
    for line in plan.lines:
        yield line.label
        yield line.part.paper.label
        yield ruler.size(*line.blank.size)
        for each in line.chart.passes:
            yield from (f"{ruler.format(mark.at)}" for mark in each.marks)
    for paper in plan.papers:
        yield ruler.size(paper.paper.sheet_width_mm, paper.paper.sheet_height_mm)


def page_faults(read: tuple[Read, ...], page: Page) -> Iterator[str]:
    """Letters outside the margins, in the footer's place, or on each other."""
    for number, each in enumerate(read, 1):
        is_template, is_field = "Measurethebar" in each.words, "trimonthemarkedline" in each.words
        side, foot = (MARGIN, MARGIN + FOOTER) if is_template else (page.margin, page.margin + page.footer)
        if not is_field:  # what reaches out of a field is cut off at its edge, and is on the next page
            over = each.beyond(side - INK, 0.5, side - INK, side - ACCENT)
            if over:
                yield f"page {number}, over the edge: {''.join(letter.sign for letter in over)}"
        low = "".join(letter.sign for letter in each.letters if letter.low < foot - INK)
        if not low.endswith(f"Page{number}of{len(read)}") or (
            not is_field and (low.count("Page") != 1 or len(low) > 120)
        ):
            yield f"page {number}, in the place of the footer: {low}"
        on_another = [] if is_field else each.on_another()
        if on_another:
            signs = " ".join(one.sign + other.sign for one, other in on_another)
            yield f"page {number}, on each other: {signs}"
