"""Signs that the font has not are shown as boxes and told, never silently left as empty shapes."""

import pytest
from tests.printouts.write.pdf_reader import read_pdf

from kitwright.printouts.page import A4
from kitwright.printouts.write.coverage import STAND_IN, font_signs, missing_signs, missing_words, printable
from kitwright.printouts.write.house import document, paragraph
from kitwright.printouts.write.house_style import PRELUDE
from kitwright.printouts.write.pdf import to_pdf


@pytest.mark.parametrize(
    "text", ["Grüße", "Ελληνικά", "Привет", "4 1/4 × 5 in, 100 %", "“fit to page”", STAND_IN, PRELUDE]
)
def test_what_the_font_has_is_kept(text: str) -> None:
    assert printable(text) == text
    assert missing_signs(text) == ()


def test_what_the_font_has_not_becomes_a_box() -> None:
    assert printable("手紙 box 🎁") == f"{STAND_IN}{STAND_IN} box {STAND_IN}"
    assert missing_signs("手紙 box 🎁 手") == ("手", "紙", "🎁")


def test_signs_that_only_change_their_neighbours_leave_nothing_behind() -> None:
    assert printable("❤\ufe0f") == STAND_IN
    assert missing_signs("a\u200db") == ()


def test_the_sentence_tells_the_signs_by_their_numbers() -> None:
    assert missing_words(("手", "🎁")).endswith("stand as ☐: U+624B, U+1F381.")
    assert missing_words(tuple(map(chr, range(0x4E00, 0x4E00 + 15)))).endswith("and 3 more.")


def test_a_document_says_on_its_first_page_which_signs_it_could_not_print() -> None:
    source = document([paragraph("A box for 手紙")], title="Bench pack", kit="礼 kit", page=A4)
    (page,) = read_pdf(to_pdf(source))
    assert "U+793C, U+624B, U+7D19" in " ".join(page.words.split())
    assert "Signs that cannot" in page.words
    plain = document([paragraph("A box")], title="Bench pack", kit="kit", page=A4)
    assert "cannot be printed" not in plain


def test_the_font_has_the_letters_of_ascii() -> None:
    assert all(code in font_signs() for code in range(0x20, 0x7F))
