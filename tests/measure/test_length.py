"""Lengths read as people write them, and sizes made of them."""

import unicodedata
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.measure import MM_PER_INCH, Length, Unit, parse_length, parse_size

INCH, MM, CM = Unit.INCH, Unit.MILLIMETRE, Unit.CENTIMETRE
FORMS = settings(deadline=None, max_examples=100)


def test_an_inch_is_25_4_millimetres_exactly() -> None:
    # 24 FR 5348 (30 Jun 1959), quoted by NIST, "SI units: length".
    assert Fraction("25.4") == MM_PER_INCH
    assert parse_length("1 in").mm == Fraction("25.4")


@pytest.mark.parametrize("sixteenths", range(1, 17))
def test_n_sixteenths_of_an_inch_are_n_times_1_5875_mm(sixteenths: int) -> None:
    # Machinists' charts print 1/16 in as 1.5875 mm.
    assert parse_length(f"{sixteenths}/16", INCH).mm == sixteenths * Fraction("1.5875")


@pytest.mark.parametrize(
    ("text", "mm"), [("1/32", "0.79375"), ("1/64", "0.396875"), ("1/8", "3.175"), ("5/16", "7.9375")]
)
def test_finer_fractions_of_an_inch_are_those_of_machinists_charts(text: str, mm: str) -> None:
    assert parse_length(text, INCH).mm == Fraction(mm)


@pytest.mark.parametrize(
    ("inches", "centimetres"),
    [("3.5", "8.890"), ("5", "12.700"), ("11.5", "29.210"), ("0.25", "0.635"), ("6 1/8", "15.5575")],
)
def test_the_letter_sizes_of_the_post_are_their_centimetres(inches: str, centimetres: str) -> None:
    # USPS postage calculator, letter sizes; it prints 6-1/8 in as 15.557, cut and not rounded.
    assert parse_length(f"{inches} in").mm == parse_length(f"{centimetres} cm").mm


@pytest.mark.parametrize(
    "text",
    [
        "4 1/4",
        "4-1/4",
        "4 - 1/4",
        "4–1/4",
        "4 17/68",
        "4¼",
        "4 ¼",
        "4-¼",
        "4 1\N{FRACTION SLASH}4",
        "4\N{NO-BREAK SPACE}1/4",
        "17/4",
        "4.25",
        "4,25",
        "4.250",
        " 4 1/4 ",
        '4 1/4"',
        '4¼"',
        "4¼″",
        "4.25”",
        "4 1/4''",
        "4.25in",
        "4.25 in.",
        "4.25 IN",
        "4 1/4 inches",
        "4.25 inch",
    ],
)
def test_four_and_a_quarter_inches_are_read_in_every_written_form(text: str) -> None:
    assert parse_length(text, INCH) == Length(Fraction("107.95"), INCH)


@pytest.mark.parametrize(
    "text",
    [
        "108",
        "108 mm",
        "108mm",
        "108.0 mm",
        "10.8 cm",
        "10,8cm",
        "108 millimetres",
        "108 millimeters",
        "10.8 centimetres",
        "10.8 centimeters",
    ],
)
def test_a_hundred_and_eight_millimetres_are_read_in_every_written_form(text: str) -> None:
    assert parse_length(text, MM).mm == 108


def test_one_of_a_unit_may_be_written_in_the_singular() -> None:
    assert parse_length("1 millimetre").mm == 1
    assert parse_length("1 millimeter").mm == 1
    assert parse_length("1 centimetre").mm == 10
    assert parse_length("1 centimeter").mm == 10


@pytest.mark.parametrize(("text", "unit"), [("4 in", INCH), ("4 mm", MM), ("4 cm", CM), ("4", CM)])
def test_a_length_remembers_the_unit_it_was_written_in(text: str, unit: Unit) -> None:
    length = parse_length(text, CM)
    assert length.unit is unit
    assert length.value == 4


def test_a_written_unit_wins_over_the_unit_of_the_kit() -> None:
    assert parse_length("4 mm", INCH).mm == 4


@pytest.mark.parametrize("sign", "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞")
def test_every_fraction_that_is_one_character_is_read_exactly(sign: str) -> None:
    value = Fraction(unicodedata.normalize("NFKC", sign).replace("\N{FRACTION SLASH}", "/"))
    assert parse_length(sign, MM).mm == value
    assert parse_length(f"3{sign}", MM).mm == 3 + value
    assert parse_length(f"{sign} in").mm == value * MM_PER_INCH


@FORMS
@given(st.integers(1, 40 * 64), st.sampled_from([" ", "-", " - "]), st.sampled_from(["", " in", '"', " inches"]))
def test_every_sixty_fourth_written_out_is_read_exactly(marks: int, joint: str, unit: str) -> None:
    whole, rest = divmod(marks, 64)
    text = joint.join(part for part in (str(whole) if whole else "", f"{rest}/64" if rest else "") if part) + unit
    assert parse_length(text, INCH).mm == Fraction(marks, 64) * Fraction("25.4")


@FORMS
@given(st.integers(1, 99_999), st.sampled_from([".", ","]), st.sampled_from(["", " mm", "mm"]))
def test_every_tenth_of_a_millimetre_is_read_exactly(tenths: int, point: str, unit: str) -> None:
    assert parse_length(f"{tenths // 10}{point}{tenths % 10}{unit}", MM).mm == Fraction(tenths, 10)


@FORMS
@given(st.decimals(min_value="0.001", max_value=300, places=3), st.sampled_from(Unit))
def test_a_decimal_is_read_exactly_in_every_unit(number: object, unit: Unit) -> None:
    assert parse_length(f"{number:f} {unit.value}").mm == Fraction(str(number)) * unit.mm


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("", "'' is not a length that can be read."),
        ("wide", "'wide' is not a length that can be read."),
        ("4.5 1/4", "'4.5 1/4' is not a length that can be read."),
        ("4½4", "'4½4' is not a length that can be read."),
        ("½½", "is not a length that can be read."),
        ("1/2/3", "is not a length that can be read."),
        ("² in", "'² in' is not a length that can be read."),
        ("+4", "is not a length that can be read."),
        ("-4", "'-4' is below zero."),
        ("−4 in", "'−4 in' is below zero."),
        ("0", "'0' is zero."),
        ("0.0 in", "'0.0 in' is zero."),
        ("0/4", "'0/4' is zero."),
        ("1/0", "'1/0' divides by zero."),
        ("4 1/0", "'4 1/0' divides by zero."),
        ("4 5/4", "'4 5/4' can be read in two ways"),
        ("4 4/4", "'4 4/4' can be read in two ways"),
        ("1,250", "'1,250' can be read in two ways"),
        ("12,500 mm", "'12,500 mm' can be read in two ways"),
        ("4 ft", "'ft' in '4 ft' is not a unit known here."),
        ("4'", "is not a unit known here."),
        ("4 in 1/4", "'in 1/4' in '4 in 1/4' is not a unit known here."),
        ("4--1/4", "'4--1/4' is not a length that can be read."),
        ("1e3", "'e3' in '1e3' is not a unit known here."),
        ("4.", "'4.' is not a length that can be read."),
        ("394 in", "'394 in' is longer than ten metres."),
        ("10001 mm", "'10001 mm' is longer than ten metres."),
    ],
)
def test_a_length_that_cannot_be_read_is_refused_with_what_was_read_and_what_to_do(text: str, what: str) -> None:
    with pytest.raises(Mistake) as refused:
        parse_length(text, INCH)
    assert what in refused.value.what
    assert refused.value.do.endswith(".")


@pytest.mark.parametrize("text", ["9" * 5000, "1/" + "9" * 5000, "0." + "1" * 5000, "9" * 5000 + " in"])
def test_a_number_of_thousands_of_digits_is_refused_like_any_other_slip(text: str) -> None:
    with pytest.raises(Mistake):
        parse_length(text, MM)


def test_a_bare_number_without_a_unit_is_never_guessed() -> None:
    with pytest.raises(Mistake) as refused:
        parse_length("4 1/4")
    assert str(refused.value) == "'4 1/4' has no unit. Add in, mm or cm."


def test_ten_metres_are_still_a_length() -> None:
    assert parse_length("10000 mm").mm == 10_000


def test_a_comma_after_nothing_or_zero_is_a_decimal_comma() -> None:
    assert parse_length("0,125 in").mm == Fraction("3.175")
    assert parse_length(",125 in").mm == Fraction("3.175")
    assert parse_length("1,25 mm").mm == Fraction("1.25")
    assert parse_length("1,2500 mm").mm == Fraction("1.25")


@FORMS
@given(st.text(alphabet="0123456789 ./-,¼½x×inm\"'”", max_size=12), st.sampled_from([None, *Unit]))
def test_whatever_is_typed_gives_a_length_above_zero_or_one_mistake(text: str, unit: Unit | None) -> None:
    try:
        length = parse_length(text, unit)
    except Mistake as mistake:
        assert mistake.what.endswith(".")
    else:
        assert 0 < length.mm <= 10_000


@pytest.mark.parametrize(
    "text",
    [
        "6 x 4",
        "6x4",
        "6 X 4",
        "6×4",
        "6 × 4",
        "6 by 4",
        "6by4",
        "6 BY 4",
        "6 x 4 in",
        "6x4in",
        '6" x 4"',
        '6"x4"',
        "6 in x 4 in",
        "6inx4in",
        "6 IN X 4 IN",
        "6 inches x 4 inches",
        "6 inchesx4 inches",
        "6inch x4 inch",
        "6'' x 4''",
        "152.4mmx101.6mm",
        "15.24 x 10.16 cm",
        "152.4 mm x 4 in",
    ],
)
def test_six_by_four_inches_is_read_in_every_written_form(text: str) -> None:
    assert [length.mm for length in parse_size(text, INCH)] == [Fraction("152.4"), Fraction("101.6")]


@pytest.mark.parametrize(
    "text", ["4¼x5½", "4¼×5½", "4¼ x 5½", "4 1/4x5 1/2", "4.25x5.5", "4-1/4 x 5-1/2", "4¼ by 5½ in"]
)
def test_fractions_may_stand_right_beside_the_x(text: str) -> None:
    assert [length.value for length in parse_size(text, INCH)] == [Fraction(17, 4), Fraction(11, 2)]


def test_a_number_below_one_may_follow_the_x_at_once() -> None:
    assert [length.value for length in parse_size("7x.5", INCH)] == [7, Fraction(1, 2)]
    assert [length.value for length in parse_size("7x½", INCH)] == [7, Fraction(1, 2)]


def test_a_unit_after_the_last_number_holds_for_all_of_them() -> None:
    assert [length.mm for length in parse_size("20 x 13 x 2 cm", INCH)] == [200, 130, 20]


def test_a_single_length_is_a_size_of_one() -> None:
    assert parse_size("4 in") == (Length(Fraction("101.6"), INCH),)


@pytest.mark.parametrize("text", ["10 cm x 2", "10 cm x 2 x 3 cm", "10 x 2 cm x 3", "10 cm x 2 x 3", '4" x 5'])
def test_a_size_with_a_unit_on_some_numbers_only_is_refused_instead_of_guessed(text: str) -> None:
    with pytest.raises(Mistake) as refused:
        parse_size(text, INCH)
    assert refused.value.what == f"{text!r} has a unit after some of its numbers and none after others."
    assert refused.value.do == "Write the unit once after the last number, or after every number."


@pytest.mark.parametrize("text", ["6 x", "x 4", "6 x x 4"])
def test_a_size_that_lacks_a_number_is_refused(text: str) -> None:
    with pytest.raises(Mistake, match="lacks a number beside an x"):
        parse_size(text, INCH)


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("2 x 3 furlongs", "'furlongs' in '3 furlongs' is not a unit"),
        ("2 boxes x 3", "'boxes' in '2 boxes' is not a unit"),
        ("4 hex 5", "'hex 5' in '4 hex 5' is not a unit"),
        ("6 x four", "'four' is not a length"),
        ("6 xl", "'xl' in '6 xl' is not a unit"),
        ("6 x 0", "'0' is zero"),
    ],
)
def test_a_size_with_a_wrong_length_in_it_names_that_length(text: str, what: str) -> None:
    with pytest.raises(Mistake) as refused:
        parse_size(text, INCH)
    assert what in refused.value.what


@pytest.mark.parametrize(
    ("text", "count", "message"),
    [
        ("6 x 4", 3, "'6 x 4' should be three lengths. Write it like 6 x 4 x 2."),
        ("6 x 4 x 2", 2, "'6 x 4 x 2' should be two lengths. Write it like 6 x 4."),
        ("6 x 4", 1, "'6 x 4' should be one length. Write it like 6."),
    ],
)
def test_a_size_of_the_wrong_number_of_lengths_is_refused(text: str, count: int, message: str) -> None:
    with pytest.raises(Mistake) as refused:
        parse_size(text, INCH, count=count)
    assert str(refused.value) == message


def test_a_size_without_any_unit_is_never_guessed() -> None:
    with pytest.raises(Mistake, match="'6' has no unit"):
        parse_size("6 x 4")
