from dataclasses import replace

import pytest
from tests.printouts.write.pdf_reader import Read, read_pdf

from kitwright.printouts.compose import ruler_bar
from kitwright.printouts.drawing import Drawing, Label, Line, Polygon, Role
from kitwright.printouts.page import PAGES, Page
from kitwright.printouts.tiling import tile
from kitwright.printouts.write.house import document, heading, new_page, paragraph, picture
from kitwright.printouts.write.pdf import to_page_pngs, to_pdf
from kitwright.printouts.write.typst import drawing_to_typst

LONG = Drawing(190, 252, (Line((5, 1), (5, 251), Role.CUT), Line((5, 1), (185, 1), Role.MOUNTAIN)))


def printed(page: Page, *drawings: Drawing) -> list[Read]:
    blocks = [block for drawing in drawings for block in (picture(drawing, alt="test"), new_page())]
    return read_pdf(to_pdf(document(blocks, title="True scale", kit="Test", page=page, true_scale=True)))


@pytest.mark.parametrize("page", PAGES, ids=[page.key for page in PAGES])
def test_250_mm_are_250_mm_on_paper(page: Page) -> None:
    # Read back by PDFium; a page unit is 1/72 in (ISO 32000-1).
    pages = printed(replace(page, margin=6.0, footer=8.0), LONG)
    assert any(each.has_line(up=250, within=0.01) for each in pages)
    assert any(each.has_line(across=180, within=0.01) for each in pages)
    assert not any(each.has_line(up=250.2) for each in pages)


@pytest.mark.parametrize(("key", "width", "height"), [("us-letter", 215.9, 279.4), ("a4", 210.0, 297.0)])
def test_pages_have_their_standard_size(key: str, width: float, height: float) -> None:
    # Letter 8 1/2 × 11 in (ANSI/ASME Y14.1, size A); A4 210 × 297 mm (ISO 216).
    (page,) = [page for page in PAGES if page.key == key]
    (read,) = printed(page, ruler_bar())
    assert (read.width, read.height) == pytest.approx((width, height), abs=0.02)


@pytest.mark.parametrize("page", PAGES, ids=[page.key for page in PAGES])
def test_the_printed_ruler_measures_100_mm_and_4_inches(page: Page) -> None:
    (read,) = printed(page, ruler_bar())
    uprights = [path for path in read.paths if len(path) == 2 and abs(path[0][0] - path[1][0]) < 1e-3]
    base = max(a[1] for a, _ in uprights)
    tops = sorted(a[0] for a, b in uprights if b[1] > base + 0.5 or (a[1] > base - 0.01 and b[1] > a[1]))
    drops = sorted(a[0] for a, b in uprights if b[1] < a[1])
    assert tops[-1] - tops[0] == pytest.approx(100, abs=0.01)
    assert drops[-1] - drops[0] == pytest.approx(4 * 25.4, abs=0.01)


def test_shapes_stand_on_the_page_as_they_stand_in_the_drawing() -> None:
    corners = ((10.0, 20.0), (60.0, 20.0), (60.0, 50.0), (35.0, 70.0), (10.0, 50.0))
    drawing = Drawing(100, 80, (Polygon(corners, Role.CUT),))
    (read,) = read_pdf(to_pdf("#set page(width: 100mm, height: 80mm, margin: 0mm)\n" + drawing_to_typst(drawing)))
    (path,) = read.paths
    assert path[:5] == tuple(pytest.approx(corner, abs=0.001) for corner in corners)


def test_the_same_source_gives_the_same_bytes() -> None:
    source = document([heading("Cut list"), paragraph("4 1/4")], title="Bench sheet", kit="Test", page=PAGES[0])
    assert to_pdf(source) == to_pdf(source)


def test_two_fields_of_a_large_template_carry_the_same_line_in_one_line() -> None:
    wide = Drawing(300, 60, (Line((1, 30), (299, 30), Role.CUT),))
    pages = printed(PAGES[1], *[each.drawing for each in tile(wide, width=170, height=100, may_turn=False)])
    assert len(pages) == 2
    assert all(each.has_line(across=298, within=0.01) for each in pages)


def test_the_words_of_a_drawing_can_be_read_and_searched() -> None:
    (read,) = printed(PAGES[0], Drawing(80, 30, (Label("front 4 1/4 in", (40, 20)), Label("5/8", (40, 10), angle=90))))
    assert "front 4 1/4 in" in read.words
    assert "5/8" in read.words


def test_a_drawing_can_be_had_as_a_png() -> None:
    (data,) = to_page_pngs(
        "#set page(width: 25.4mm, height: 50.8mm, margin: 0mm)\n" + drawing_to_typst(ruler_bar()), dots_per_inch=100
    )
    assert data[:8] == b"\x89PNG\r\n\x1a\n"  # PNG signature (ISO/IEC 15948, 5.2)
    assert (int.from_bytes(data[16:20]), int.from_bytes(data[20:24])) == (100, 200)
