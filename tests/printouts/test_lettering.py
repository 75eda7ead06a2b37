import json

import font_source_sans_pro
import pytest
import typst

from kitwright.printouts.lettering import text_runs, text_width

WORDS = [
    "front panel",
    "5 15/16 × 3 15/16",
    "Müller & Söhne",
    "ILLICIT wwmm @ 100 %",
    "north wall left tab",
    "8 1/4 in",
]


@pytest.mark.parametrize("weight", ["regular", "semibold"])
def test_words_are_reckoned_wider_than_the_typesetter_sets_them_but_not_much(weight: str) -> None:
    # The typesetting library with the font itself is the reference.
    texts = ", ".join(json.dumps(word, ensure_ascii=False) for word in WORDS)
    source = (
        '#set text(font: "Source Sans Pro", size: 100pt)\n'
        f'#context [#metadata(({texts}).map(each => measure(text(weight: "{weight}", each)).width.pt()))<widths>]'
    )
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[font_source_sans_pro.font_directory])
    (measured,) = json.loads(typst.query(source.encode(), "<widths>", field="value", font_paths=fonts))
    for word, width in zip(WORDS, measured, strict=True):
        reckoned = text_width(word, 100, "bold" if weight == "semibold" else "regular")
        assert 1.0 < reckoned / width < 1.25, word


def test_the_longest_line_counts() -> None:
    assert text_width("ab\nabc\na", 3) == text_width("abc", 3)


@pytest.mark.parametrize(
    ("text", "fractions"),
    [
        ("4 1/4 × 5 15/16 in", ["1/4", "15/16"]),
        ("1/2", ["1/2"]),
        ("3/12/2026", []),
        ("A1/2", []),
        ("24/7", []),
        ("1/4.", ["1/4"]),
        ("either/or", []),
        ("0.5/8", []),
    ],
)
def test_fractions_of_a_ruler_are_found_and_dates_and_codes_are_not(text: str, fractions: list[str]) -> None:
    runs = text_runs(text)
    assert "".join(run for run, _ in runs) == text
    assert [run for run, small in runs if small] == fractions
