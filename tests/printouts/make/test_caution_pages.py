"""The page of cautions: no caution is printed smaller than its source asks for."""

import pypdfium2 as pdfium
import pytest
from pypdfium2 import raw
from tests.kit.documents import head, part

from kitwright.kit import kit_cautions, read_kit
from kitwright.plan import plan
from kitwright.printouts.make.caution_pages import caution_blocks
from kitwright.printouts.page import A4
from kitwright.printouts.write.house import document
from kitwright.printouts.write.pdf import to_pdf

BAG = '[[extra]]\nname = "bag"\nkind = "bag"\nsize = "{size}"\nfilm = "0.02 mm"\n'


def points_of(pdf: bytes, words: str) -> float:
    """The size of the letters of words, in points, where they first stand on the first page."""
    page = pdfium.PdfDocument(pdf)[0]
    text = page.get_textpage()
    place = text.get_text_range().replace("\r\n", "  ").index(words)
    return float(raw.FPDFText_GetFontSize(text.raw, place))


@pytest.mark.parametrize(("size", "least"), [("305 x 457 x 1 mm", 14), ("153 x 229 x 1 mm", 10)])
def test_the_warning_on_a_bag_is_as_large_as_its_source_asks_for(size: str, least: int) -> None:
    made = plan(read_kit(head() + part("card", "flat card", size="5 x 4") + BAG.format(size=size)), batch=1)
    (warning,) = [each for each in kit_cautions(made.kit) if each.least_points]
    assert warning.least_points == least
    pdf = to_pdf(document(caution_blocks(made), title="Cautions", kit="", page=A4))
    assert points_of(pdf, warning.text[:20]) >= least
