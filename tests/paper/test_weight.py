"""Basis weight against the published tables of printers, encyclopedias and the US government's paper standards."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.paper import Grade, find_grade, grams_per_square_metre, parse_weight, pounds, weight_g

# Basic sizes: sizes.com, "Printing paper sizes in the United States"; PrintWiki, "Basic Size".
BASIC_SIZES = {
    "bond": (Fraction(17), Fraction(22)),
    "text": (Fraction(25), Fraction(38)),
    "cover": (Fraction(20), Fraction(26)),
    "bristol": (Fraction("22.5"), Fraction("28.5")),
    "index": (Fraction("25.5"), Fraction("30.5")),
    "tag": (Fraction(24), Fraction(36)),
}

# Equal weights: table 1-23 of an office printer's manual, read across; the last two columns are g/m² and the slack that comes from
# the table's whole pounds.
EQUAL_WEIGHTS = [
    ({"bond": 47, "text": 119, "cover": 65, "bristol": 80, "index": 97, "tag": 108}, 176, 1),
    ({"bond": 53, "text": 134, "cover": 74, "bristol": 90, "index": 110, "tag": 122}, 199, 2),
    ({"bond": 58, "text": 146, "cover": 80, "bristol": 98, "index": 120, "tag": 133}, 216, 2.2),
    ({"bond": 72, "text": 183, "cover": 100, "bristol": 123, "index": 150, "tag": 166}, 271, 1.5),
    ({"bond": 43, "text": 110, "cover": 60, "bristol": 74, "index": 90, "tag": 100}, 163, 1.5),
    ({"bond": 36, "text": 90, "cover": 50}, 135, 2),
    ({"bond": 24, "text": 60}, 90, 2),
    ({"bond": 28, "text": 70}, 105, 2),
    ({"bond": 32, "text": 80}, 120, 2),
]

# US Government Paper Specification Standards no. 11 (1999) and 12 (2008): JCP L20 cover, K10 index, P20 tag, A91 text, D10 bond,
# Q60 postal card. Printed to the nearest 5 g/m².
FEDERAL_WEIGHTS = {
    "cover": {50: 135, 65: 175, 80: 215},
    "index": {90: 165, 110: 200, 140: 255, 170: 305},
    "tag": {105: 170, 150: 245, 165: 270, 250: 405},
    "text": {70: 105, 80: 120, 100: 150},
    "bond": {12: 45, 16: 60, 18: 68, 20: 75},
    "bristol": {89: 195},
}


@pytest.mark.parametrize("grade", Grade)
def test_every_grade_has_its_published_basic_size(grade: Grade) -> None:
    assert grade.basic_size_in == BASIC_SIZES[grade.value]


def test_the_constant_of_basis_weight_is_derived_from_the_pound_and_the_inch() -> None:
    # 1 lb = 453.59237 g and 1 in = 25.4 mm exactly (24 FR 5348, 30 Jun 1959); 500 sheets to the ream.
    for grade in Grade:
        first, second = grade.basic_size_in
        constant = grade.gsm_per_pound * first * second
        assert constant == Fraction("453.59237") / 500 / Fraction("0.0254") ** 2
        assert round(float(constant), 3) == 1406.139  # some texts print 1406.5, which is 0.03 % high


@pytest.mark.parametrize(
    ("grade", "factor", "places"),
    [
        ("bond", 3.760, 3),
        ("text", 1.480, 3),
        ("cover", 2.704, 3),
        ("tag", 1.6275, 4),
        ("index", 1.8080, 4),
        ("bristol", 2.1928, 4),
    ],
)
def test_a_pound_of_each_grade_has_its_published_grams(grade: str, factor: float, places: int) -> None:
    # bond, text, cover: sizes.com and PrintWiki "Grammage"; the rest follow from the exact pound and inch.
    assert round(grams_per_square_metre(1, Grade(grade)), places) == factor


@pytest.mark.parametrize(("grade", "factor"), [("bond", 0.266), ("text", 0.675), ("cover", 0.370), ("tag", 0.614)])
def test_a_gram_per_square_metre_has_its_published_pounds(grade: str, factor: float) -> None:
    # PrintWiki, "Grammage" and sizes.com: the inverse factors, rounded to three places. Text is printed 0.675, exactly 0.6756.
    assert pounds(1, Grade(grade)) == pytest.approx(factor, abs=0.0007)


@pytest.mark.parametrize(("row", "gsm", "slack"), EQUAL_WEIGHTS)
def test_equal_weights_of_all_grades_come_to_one_gsm(row: dict[str, int], gsm: float, slack: float) -> None:
    for grade, weight in row.items():
        assert grams_per_square_metre(weight, Grade(grade)) == pytest.approx(gsm, abs=slack)


@pytest.mark.parametrize(
    ("grade", "weight", "gsm"),
    [(grade, weight, gsm) for grade, rows in FEDERAL_WEIGHTS.items() for weight, gsm in rows.items()],
)
def test_federal_nominal_weights_are_met_within_their_rounding(grade: str, weight: float, gsm: float) -> None:
    assert grams_per_square_metre(weight, Grade(grade)) == pytest.approx(gsm, abs=3)


@pytest.mark.parametrize(
    ("text", "gsm"),
    [
        ("65 lb cover", 175.8),
        ("80 lb cover", 216.3),
        ("100 lb cover", 270.4),
        ("110 lb cover", 297.5),
        ("120 lb cover", 324.5),
        ("130 lb cover", 351.5),
        ("67 lb bristol", 146.9),  # 147 is in print
        ("110 lb index", 198.9),
        ("20 lb bond", 75.2),  # PrintWiki, "Basic Size", worked example
    ],
)
def test_the_usual_card_weights_come_to_their_grams(text: str, gsm: float) -> None:
    # From the exact pound and inch, to the digit shown.
    assert round(parse_weight(text), 1) == gsm


def test_a_worked_example_of_grams_as_text_pounds_comes_out() -> None:
    # Encyclopedia, "Grammage": 103.6 g/m² is 69.93 lb, sold as 70 lb text. Worked there with the factor rounded to 1.48.
    assert pounds(103.6, Grade.TEXT) == pytest.approx(69.99, abs=0.005)
    assert round(pounds(103.6, Grade.TEXT)) == 70


def test_an_a4_sheet_of_80_gsm_weighs_4_9896_grams() -> None:
    # Encyclopedia, "Grammage", worked example.
    assert weight_g(210 * 297, 80) == pytest.approx(4.9896, abs=1e-12)


@settings(deadline=None, max_examples=60)
@given(st.sampled_from(Grade), st.floats(1, 500))
def test_pounds_and_grams_undo_each_other(grade: Grade, weight: float) -> None:
    assert pounds(grams_per_square_metre(weight, grade), grade) == pytest.approx(weight, rel=1e-12)


@pytest.mark.parametrize(
    "text",
    ["216 gsm", "216gsm", " 216 GSM ", "216 g/m2", "216 g/m²", "216 g/m^2", "216 gsm cover", "216.0 g/m²", "216,0 gsm"],
)
def test_grams_per_square_metre_are_read_in_every_common_spelling(text: str) -> None:
    assert parse_weight(text) == 216


@pytest.mark.parametrize(
    "text", ["80 lb cover", "80lb cover", "80 LB Cover", "80 lbs cover", "80# cover", "80 # cover", "80 pounds cover"]
)
def test_pounds_are_read_in_every_common_spelling(text: str) -> None:
    assert parse_weight(text) == pytest.approx(216.329, abs=0.001)


@pytest.mark.parametrize(
    ("text", "what", "do"),
    [
        ("80 lb", "does not say of which grade", "Add one of bond, text, cover, bristol, index, tag"),
        ("80 lb covr", "'covr' in '80 lb covr' is not a grade", "Did you mean 'cover'?"),
        ("80 lb vellum bristol", "'vellum bristol'", "Did you mean 'bristol'?"),
        ("110 lb cardstock", "'cardstock'", "Known are: bond, bristol, cover, index, tag, text."),
        ("216 gms", "'gms' in '216 gms' is not a unit", "Did you mean 'gsm'?"),
        ("80 bl cover", "'bl' in '80 bl cover' is not a unit", "Write it like 80 lb cover"),
        ("216 gms", "'gms' in '216 gms' is not a unit", "Did you mean 'gsm'?"),
        ("10000 lb cover", "'10000 lb cover' comes to 27040 g/m²", "Check the number"),
        ("216 gsm covre", "'covre'", "Did you mean 'cover'?"),
        ("80 cover", "has no unit", "Write 80 lb cover"),
        ("80", "has no unit", "Write it like 80 lb cover, 110 lb index or 216 gsm."),
        ("heavy", "is not a weight that can be read", "Write it like"),
        ("", "is not a weight that can be read", "Write it like"),
        ("-80 gsm", "is not a weight that can be read", "Write it like"),
        ("0 gsm", "no paper weighs that", "from 15 to 2000 g/m²"),
        ("14.9 gsm", "no paper weighs that", "from 15 to 2000 g/m²"),
        ("2001 gsm", "no paper weighs that", "from 15 to 2000 g/m²"),
        ("800 lb cover", "'800 lb cover' comes to 2163 g/m², and no paper weighs that", "Check the number"),
    ],
)
def test_a_weight_that_cannot_be_is_refused_with_what_was_read_and_what_to_do(text: str, what: str, do: str) -> None:
    with pytest.raises(Mistake) as refused:
        parse_weight(text)
    assert what in refused.value.what
    assert do in refused.value.do


@pytest.mark.parametrize("text", ["15 gsm", "2000 gsm"])
def test_the_lightest_and_heaviest_weights_are_still_read(text: str) -> None:
    assert parse_weight(text) == float(text.split(maxsplit=1)[0])


@pytest.mark.parametrize(
    ("text", "grade"),
    [
        ("80 lb cover", Grade.COVER),
        ("110# Index", Grade.INDEX),
        ("216 gsm", None),
        ("216 gsm tag", Grade.TAG),
        ("", None),
    ],
)
def test_the_grade_named_in_a_weight_is_found(text: str, grade: Grade | None) -> None:
    assert find_grade(text) is grade
