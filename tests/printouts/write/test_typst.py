import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from tests.printouts.write.pdf_reader import box_of_words, read_pdf

from kitwright.printouts.drawing import Circle, Drawing, Label, Line, Role
from kitwright.printouts.write.pdf import to_pdf
from kitwright.printouts.write.typst import Markup, drawing_to_typst, typst_string, words

PAGE = '#set page(width: 400mm, height: 60mm, margin: 5mm)\n#set text(font: "Source Sans Pro", hyphenate: false)\n'

SIGNS = "abcXYZ019 #$\\\"'`*_-=+~@<>[](){}/:;.,&%!?|^éüß×–½"
"""Letters, figures, and every sign that means something to the typesetter."""


def read_words(markup: str) -> str:
    (page,) = read_pdf(to_pdf(PAGE + markup))
    return page.words


def plain(text: str) -> str:
    """Without spaces, which a reader of PDF files guesses from distances."""
    return "".join(text.split())


@settings(max_examples=60, deadline=None)
@given(text=st.text(SIGNS, min_size=1, max_size=40))
@example('#panic("x") $x$ \\#box *bold* _it_ `raw` @ref <label> // no comment /* here */')
@example('"; #import "other.typ" //')
@example("https://example.org/a~b--c...d")
@example("- item\n+ item\n= heading\n/ term: x")
@example("\\u{41} \\n \\\\")
def test_words_of_a_person_come_back_unchanged(text: str) -> None:
    assert plain(read_words("start" + words(text) + "end")) == plain(f"start{text}end")


@settings(max_examples=30, deadline=None)
@given(text=st.text(SIGNS, min_size=1, max_size=30))
def test_labels_come_back_unchanged(text: str) -> None:
    drawing = Drawing(390, 50, (Label(text, (195, 25)),))
    assert plain(read_words(drawing_to_typst(drawing))) == plain(text)


@settings(max_examples=60, deadline=None)
@given(text=st.text(max_size=30))
def test_no_text_at_all_breaks_a_page(text: str) -> None:
    assert to_pdf(PAGE + words(text))[:5] == b"%PDF-"


@pytest.mark.parametrize(
    ("text", "literal"),
    [
        ('5" #1', '"5\\" #1"'),
        ("a\\b", '"a\\\\b"'),
        ("two\r\nlines", '"two\\nlines"'),
        ("tab\there", '"tab here"'),
        ("bell\x07", '"bell\N{REPLACEMENT CHARACTER}"'),
        ("half\ud800pair", '"half\N{REPLACEMENT CHARACTER}pair"'),
    ],
)
def test_a_string_is_written_as_the_typesetter_reads_it(text: str, literal: str) -> None:
    assert typst_string(text) == literal


def test_new_lines_are_kept() -> None:
    assert read_words(words("one\ntwo")).split("\n") == ["one", "two"]


def test_markup_is_not_escaped_twice() -> None:
    made = words("5 #1")
    assert words(made) is made
    assert isinstance(made, Markup)


def test_a_drawing_is_a_box_of_its_own_size() -> None:
    made = drawing_to_typst(Drawing(80.25, 40, (Line((0, 0), (80, 40), Role.CUT),)))
    assert made.startswith("#box(width: 80.25mm, height: 40mm, {")
    assert "line(start: (0mm, 40mm), end: (80mm, 0mm)" in made
    assert "clip" not in made
    assert "clip: true" in drawing_to_typst(Drawing(80, 40, clipped=True))


def test_words_stand_where_the_drawing_has_them() -> None:
    # Capitals of the font are 0.66 em high (its own table, as read by PDFium): 3.3 mm at 5 mm.
    labels = (
        Label("HH", (50, 60), size=5),
        Label("NN", (50, 40), size=5, angle=90, anchor="start"),
        Label("EE", (50, 20), size=5, anchor="end", level="base"),
    )
    page = '#set page(width: 100mm, height: 80mm, margin: 0mm)\n#set text(font: "Source Sans Pro")\n'
    data = to_pdf(page + drawing_to_typst(Drawing(100, 80, labels)))
    left, low, right, high = box_of_words(data, "HH")
    assert ((left + right) / 2, (low + high) / 2) == pytest.approx((50, 60), abs=0.05)
    assert high - low == pytest.approx(3.3, abs=0.05)
    left, low, right, high = box_of_words(data, "NN")
    assert (left + right) / 2 == pytest.approx(50, abs=0.05)
    assert 40 < low < 40.6
    assert high - low > 1.5 * (right - left)
    left, low, right, high = box_of_words(data, "EE")
    assert 49.5 < right < 50
    assert low == pytest.approx(20, abs=0.02)


def test_lines_are_as_wide_as_their_roles_ask() -> None:
    drawing = Drawing(80, 40, (Circle((20, 20), 5, Role.CUT), Line((0, 0), (9, 0), Role.CREASE)))
    assert "thickness: 0.5mm" in drawing_to_typst(drawing)
    assert "thickness: 0.25mm" in drawing_to_typst(drawing)
