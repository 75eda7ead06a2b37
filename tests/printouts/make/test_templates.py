"""Templates at true size: on one page wherever a page can hold them."""

import pytest
from tests.printouts.make.test_whole_pack import pages_of, planned
from tests.printouts.write.pdf_reader import read_pdf

from kitwright.printouts.drawing import Drawing, Line, Role
from kitwright.printouts.make.bench_pack import bench_pack
from kitwright.printouts.make.templates import template_pages
from kitwright.printouts.page import A4, US_LETTER, Page
from kitwright.printouts.write.house import document
from kitwright.printouts.write.pdf import to_pdf


def pages_for(width: float, height: float, page: Page) -> list[str]:
    """The words of the template pages of a rectangle."""
    lines = (Line((0, 0), (width, 0), Role.CUT), Line((0, height), (width, height), Role.CUT))
    title = "Template 1  " + "Schachtel mit langem Namen, und noch längerem: half " * 2
    blocks = template_pages(Drawing(width, height, lines), title, "thing", page, hint="Measure the bar.")
    return [each.words for each in read_pdf(to_pdf(document(blocks, title="Pack", kit="", page=page)))][1:]


@pytest.mark.parametrize(
    ("width", "height", "page"),
    [
        (195.0, 257.5, A4),  # an envelope of 162 × 114 mm with its tabs and flaps
        (257.5, 195.0, A4),
        (178.8, 250.2, US_LETTER),  # an A2 envelope; the ruler bar then stands beside it
        (250.2, 178.8, US_LETTER),
        (200.0, 236.0, US_LETTER),
    ],
)
def test_what_fits_a_page_either_way_takes_one_page(width: float, height: float, page: Page) -> None:
    (words,) = pages_for(width, height, page)
    assert "Measure the bar" in words
    assert "page 1 of" not in words


def test_what_is_larger_takes_as_many_pages_as_it_says() -> None:
    pages = pages_for(252.0, 190.0, US_LETTER)
    assert len(pages) == 2
    assert all(f"page {number} of 2" in words for number, words in enumerate(pages, 1))


@pytest.mark.parametrize("page", [US_LETTER, A4], ids=lambda page: page.key)
def test_the_envelope_of_the_cards_is_on_one_page(page: Page) -> None:
    found = [words for *_, words in pages_of(bench_pack(planned("thank-you-cards"), page)) if "Template 4" in words]
    assert len(found) == 1
