import re

import pytest
from tests.printouts.write.pdf_reader import Read, box_of_words, read_pdf

from kitwright.errors import Mistake
from kitwright.printouts.compose import ruler_bar
from kitwright.printouts.page import A4, PAGES, US_LETTER, Page, page_named
from kitwright.printouts.write.house import (
    bold,
    caution,
    checklist,
    columns,
    document,
    gap,
    heading,
    joined,
    muted,
    new_page,
    note,
    paragraph,
    picture,
    pictures,
    steps,
    table,
    together,
)
from kitwright.printouts.write.pdf import to_pdf
from kitwright.printouts.write.typst import Markup


def printed(*blocks: Markup, page: Page = US_LETTER, true_scale: bool = False, kit: str = "Recipe box") -> list[Read]:
    return read_pdf(to_pdf(document(blocks, title="Bench sheet", kit=kit, page=page, true_scale=true_scale)))


def spaced(text: str) -> str:
    """With every white space as one ordinary space."""
    return re.sub(r"\s+", " ", text)


@pytest.mark.parametrize("page", PAGES, ids=[page.key for page in PAGES])
def test_every_block_can_be_read_on_every_page(page: Page) -> None:
    bar = ruler_bar()
    blocks = [
        paragraph("plain ", bold("strong"), muted(" quiet"), joined(" a", "b")),
        heading("Cut #list", level=2),
        table(["Part", "Count"], [["lid", "24"], ["box $5", "12"]], align=["left", "right"], widths=["auto", "20mm"]),
        steps(["Score.", "Fold."]),
        checklist(["ruler", "glue"]),
        caution("A blade cuts.", "Keep fingers away."),
        note("Burnish."),
        gap(3),
        columns([paragraph("left side")], [paragraph("right side")], widths=["1fr", "60mm"]),
        together(paragraph("kept"), paragraph("as one")),
        pictures([picture(bar, alt="bar", caption="first"), picture(bar, alt="bar", caption="second")], across=1),
    ]
    (read,) = printed(*blocks, page=page)
    words = spaced(read.words)
    for expected in (
        "plain strong quiet ab", "Cut #list", "Part", "box $5", "Score.", "ruler", "Caution",
        "A blade cuts.", "Note", "Burnish.", "left side", "right side", "as one", "first", "second",
    ):  # fmt: skip
        assert expected in words, expected


def test_the_footer_tells_the_kit_the_sheet_and_the_page() -> None:
    one, two = printed(paragraph("a"), new_page(), paragraph("b"))
    assert "Recipe box · Bench sheet" in spaced(one.words)
    assert "Page 1 of 2" in spaced(one.words)
    assert "Page 2 of 2" in spaced(two.words)
    assert "100 %" not in one.words


def test_pages_at_true_scale_say_how_to_print_them() -> None:
    (read,) = printed(paragraph("a"), true_scale=True)
    assert "Print at 100 %" in spaced(read.words)


@pytest.mark.parametrize("text", ["4 1/4", "15/16", "4 1/4 × 5 1/2 × 2", "3/12/2026", "1/2 and 3/4"])
def test_fractions_are_set_small_but_copied_as_they_are_written(text: str) -> None:
    (read,) = printed(paragraph("size ", text, " in"))
    assert f"size {text} in" in spaced(read.words)


def test_a_fraction_takes_less_room_than_its_figures_in_full() -> None:
    # In letters of 11 pt (3.88 mm) a figure of the font is 0.497 em wide and the slash 0.35 em: in full 9.1 mm.
    data = to_pdf(document([paragraph("a 15/16 b")], title="Bench sheet", kit="", page=US_LETTER))
    left, low, right, high = box_of_words(data, "15/16")
    assert 5.5 < right - left < 6.9
    assert 2.7 < high - low < 3.3


def test_a_long_table_goes_on_with_its_head() -> None:
    pages = printed(table(["Part", "How many"], [[f"part {i}", "1"] for i in range(80)]))
    assert len(pages) > 1
    assert all("How many" in page.words for page in pages)
    every = " ".join(page.words for page in pages)
    assert all(re.search(rf"part {i}\b", every) for i in range(80))


def test_the_document_names_itself() -> None:
    data = to_pdf(document([paragraph("a")], title="Bench sheet", kit="Recipe box", page=A4))
    assert b"Recipe box: Bench sheet" in data
    assert b"CreationDate" not in data


def test_a_page_is_found_by_its_key() -> None:
    assert page_named("a4") is A4
    assert page_named(" US-Letter ") is US_LETTER
    with pytest.raises(Mistake, match=r"'a5' is not a page known here. Use us-letter or a4."):
        page_named("a5")
