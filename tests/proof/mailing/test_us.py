from fractions import Fraction

import pytest

from kitwright.proof.mailing import Feature, Kind, MailPiece, Shape, judge, load_services

# All limits: USPS Domestic Mail Manual 101, Physical Standards, 9 Jul 2023, unless another source stands beside them.

INCH = Fraction(127, 5)
OUNCE = Fraction(28_349_523_125, 10**9)
STEP = Fraction(1, 1000)
US = next(service for service in load_services() if service.code == "us")


def piece(length, height, thickness, *, ounces=Fraction(1), shape=Shape.ENVELOPE, **more):
    long, high, thick = (Fraction(size) * INCH for size in (length, height, thickness))
    return MailPiece(long, high, thick, None if ounces is None else ounces * OUNCE, shape, **more)


def kind(*sizes, **more):
    return judge(piece(*sizes, **more), US).kind


def clauses(verdict):
    return [reason.clause.name for reason in verdict.reasons]


LETTER, ODD, FLAT, PARCEL = Kind.LETTER, Kind.NON_MACHINABLE, Kind.LARGE_LETTER, Kind.PARCEL
THICK = "0.02"


# 101 1.1a and 3.2; DMM 601 1.2 (5 May 2014): least 5 x 3-1/2 x 0.007 in
@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        (("5", "3.5", "0.007"), LETTER),
        (("4.999", "3.5", "0.007"), Kind.TOO_SMALL),
        (("5", "3.499", "0.007"), Kind.TOO_SMALL),
        (("5", "3.5", "0.0069"), Kind.TOO_SMALL),
        (("5.001", "3.501", "0.0071"), LETTER),
        (("5.5", "3.25", THICK), Kind.TOO_SMALL),  # near miss: 3-1/4 x 5-1/2
    ],
)
def test_a_piece_below_the_least_sizes_may_not_be_mailed(sizes, expected):
    assert kind(*sizes) is expected


def test_the_least_sizes_hold_only_up_to_a_quarter_of_an_inch_of_thickness():
    # 101 3.2
    assert kind("3", "3", "0.25", shape=Shape.BOX) is Kind.TOO_SMALL
    assert kind("3", "3", "0.251", shape=Shape.BOX) is PARCEL


# 101 1.1b: greatest 11-1/2 x 6-1/8 x 1/4 in, equal passes
@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        (("11.5", "6.125", "0.25"), LETTER),
        (("11.499", "6.124", "0.249"), LETTER),
        (("11.501", "6.125", "0.25"), FLAT),
        (("11.5", "6.126", "0.25"), FLAT),
        (("11.5", "6.125", "0.251"), FLAT),
        (("9.25", "6.25", THICK), FLAT),  # near misses: 6-1/4 x 9-1/4 is a flat,
        (("9.5", "6", THICK), LETTER),  # 6 x 9-1/2 is a letter
    ],
)
def test_a_letter_ends_at_its_greatest_sizes(sizes, expected):
    assert kind(*sizes) is expected


# 101 1.1c: 3.5 oz; 101 6.1.1: flats to 13 oz; 101 3.2: 70 lb
@pytest.mark.parametrize(
    ("ounces", "expected"),
    [
        ("3.499", LETTER),
        ("3.5", LETTER),
        ("3.501", FLAT),
        ("13", FLAT),
        ("13.001", PARCEL),
        ("1120", PARCEL),
        ("1120.001", Kind.TOO_BIG),
    ],
)
def test_weight_moves_a_piece_up(ounces, expected):
    assert kind("7.25", "5.25", "0.1", ounces=Fraction(ounces)) is expected


def test_what_is_too_big_for_every_class_is_told_by_the_clause_of_the_largest():
    # length and girth are at most 130 in for the largest parcel (DMM 101 3.2): 60 + 2 (20 + 20) = 140
    verdict = judge(piece("60", "20", "20", shape=Shape.BOX), US)
    assert verdict.kind is Kind.TOO_BIG
    assert verdict.clause.name.startswith("DMM 101 3.2")
    assert judge(piece("140", "20", "0.1"), US).clause.name.startswith("DMM 101 3.2")


def test_three_and_a_half_ounces_in_grams_are_still_a_letter():
    # 3.5 oz = 99.2233 g
    assert judge(MailPiece(180, 130, 2, 99.2233, Shape.ENVELOPE), US).kind is LETTER
    assert judge(MailPiece(180, 130, 2, 99.2234, Shape.ENVELOPE), US).kind is FLAT


def test_without_a_weight_the_sizes_decide_and_the_verdict_says_so():
    verdict = judge(piece("7.25", "5.25", "0.1", ounces=None), US)
    assert verdict.kind is LETTER
    assert verdict.doubts == ("The weight is not known, so that the piece was judged by its sizes alone.",)


# 101 1.2a: length / height 1.3 to 2.5, ends pass
@pytest.mark.parametrize(
    ("length", "height", "expected"),
    [
        ("6.5", "5", LETTER),  # exactly 1.3
        ("6.501", "5", LETTER),
        ("6.499", "5", ODD),
        ("10", "4", LETTER),  # exactly 2.5
        ("9.999", "4", LETTER),
        ("10.001", "4", ODD),
        ("5", "5", ODD),  # smallest square taken as a letter
        ("6", "6", ODD),
    ],
)
def test_a_letter_too_square_or_too_long_is_non_machinable(length, height, expected):
    verdict = judge(piece(length, height, THICK), US)
    assert verdict.kind is expected
    assert clauses(verdict) == ([] if expected is LETTER else ["DMM 101 1.2a"])


# Envelope sizes: PWG 5101.1 (A2, No. 10, C6, DL) and printers' tables (A1, A6-A10, slimline); aspects reckoned from them
@pytest.mark.parametrize(
    ("name", "length", "height", "aspect"),
    [
        ("A1", "5.125", "3.625", 1.414),
        ("A2", "5.75", "4.375", 1.314),
        ("A6", "6.5", "4.75", 1.368),
        ("A7", "7.25", "5.25", 1.381),
        ("A8", "8.125", "5.5", 1.477),
        ("A9", "8.75", "5.75", 1.522),
        ("A10", "9.5", "6", 1.583),
        ("slimline", "8.875", "3.875", 2.290),
        ("No. 10", "9.5", "4.125", 2.303),
    ],
)
def test_the_usual_envelopes_are_letters(name, length, height, aspect):
    envelope = piece(length, height, THICK)
    assert round(float(envelope.along_address) / float(envelope.across_address), 3) == aspect
    assert judge(envelope, US).kind is LETTER


def test_an_envelope_a_sixteenth_too_square_is_told_how_long_it_must_be():
    # 101 1.2a: 1.3 x 4-7/16 = 5.769, the next sixteenth up is 5-13/16
    verdict = judge(piece("5.75", "4.4375", THICK), US)
    assert verdict.kind is ODD
    (reason,) = verdict.reasons
    assert reason.measured is not None
    assert reason.says.endswith("At a height of 4 7/16 in the length must be at least 5 13/16 in.")
    assert (round(reason.measured, 4), reason.limit) == (1.2958, 1.3)
    assert judge(piece("5.8125", "4.4375", THICK), US).kind is LETTER


def test_an_envelope_addressed_the_short_way_is_non_machinable_twice():
    # 101 2.2, 3.2 and USPS postage calculator: the length of a letter is the side parallel to the address; A2: 0.761
    envelope = piece("4.375", "5.75", THICK)
    assert round(float(envelope.along_address) / float(envelope.across_address), 3) == 0.761
    verdict = judge(envelope, US)
    assert verdict.kind is ODD
    assert clauses(verdict) == ["DMM 101 1.2a", "DMM 101 1.2g"]


def test_a_tall_letter_addressed_the_short_way_is_a_flat():
    assert kind("6", "9", THICK) is FLAT
    assert kind("9", "6", THICK) is LETTER


# 101 1.1a, 1.2f: over 6 x 4-1/4 in it must be 0.009 in thick
@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        (("6", "4.25", "0.007"), LETTER),
        (("6.001", "4.25", "0.007"), ODD),
        (("6", "4.251", "0.007"), ODD),
        (("6.25", "4.5", "0.007"), ODD),
        (("6.25", "4.5", "0.0089"), ODD),
        (("6.25", "4.5", "0.009"), LETTER),
    ],
)
def test_a_larger_letter_must_be_thicker(sizes, expected):
    assert kind(*sizes) is expected


# 101 1.2b-e
@pytest.mark.parametrize(
    ("feature", "clause"),
    [
        (Feature.NON_PAPER_OUTSIDE, "DMM 101 1.2b"),
        (Feature.CLASP, "DMM 101 1.2c"),
        (Feature.UNEVEN, "DMM 101 1.2d"),
        (Feature.LOOSE_ITEM, "DMM 101 1.2d"),
        (Feature.RIGID, "DMM 101 1.2e"),
    ],
)
def test_an_odd_letter_is_non_machinable_by_its_clause(feature, clause):
    verdict = judge(piece("7.25", "5.25", "0.1", features=frozenset({feature})), US)
    assert verdict.kind is ODD
    assert clauses(verdict) == [clause]


def test_a_card_inside_an_envelope_may_be_folded():
    assert kind("7.25", "5.25", "0.1", features=frozenset({Feature.FOLDED})) is LETTER


# 101 1.1d: square corners; card stock radius to 0.125 in. 101 2.1: flats to 1/8 in
@pytest.mark.parametrize(
    ("shape", "sizes", "radius", "expected"),
    [
        (Shape.CARD, ("7", "5", THICK), "0.125", LETTER),
        (Shape.CARD, ("7", "5", THICK), "0.126", PARCEL),
        (Shape.ENVELOPE, ("7", "5", THICK), "0", LETTER),
        (Shape.ENVELOPE, ("7", "5", THICK), "0.01", FLAT),
        (Shape.ENVELOPE, ("12", "9", THICK), "0.125", FLAT),
        (Shape.ENVELOPE, ("12", "9", THICK), "0.126", PARCEL),
    ],
)
def test_round_corners_move_a_piece_up(shape, sizes, radius, expected):
    assert kind(*sizes, shape=shape, corner_radius=Fraction(radius) * INCH) is expected


# 101 6.2.2: card price 3-1/2 to 4-1/4 x 5 to 6 x 0.007 to 0.016 in
@pytest.mark.parametrize(
    ("sizes", "name"),
    [
        (("5", "3.5", "0.007"), "card"),
        (("6", "4.25", "0.016"), "card"),
        (("5.001", "3.501", "0.0071"), "card"),
        (("6.001", "4.25", "0.016"), "letter"),
        (("6", "4.251", "0.016"), "letter"),
        (("6", "4.25", "0.0161"), "letter"),
    ],
)
def test_a_card_has_the_card_price_within_its_sizes(sizes, name):
    verdict = judge(piece(*sizes, shape=Shape.CARD), US)
    assert verdict.class_name == name
    assert verdict.kind is LETTER or name == "letter"


def test_a_square_card_of_card_size_costs_no_more():
    # 101 6.3.1: the surcharge does not touch card-size pieces; 5 x 4-1/4 has an aspect of 1.176
    assert judge(piece("5", "4.25", "0.01", shape=Shape.CARD), US).class_name == "card"
    assert judge(piece("5", "4.25", "0.01"), US).kind is ODD


# 101 6.2.4-6.2.6
@pytest.mark.parametrize(
    ("feature", "clause"),
    [
        (Feature.FOLDED, "DMM 101 6.2.4"),
        (Feature.ATTACHMENT, "DMM 101 6.2.6"),
        (Feature.CLASP, "DMM 101 6.2.6"),
    ],
)
def test_a_folded_or_embellished_card_loses_the_card_price(feature, clause):
    verdict = judge(piece("6", "4", "0.012", shape=Shape.CARD, features=frozenset({feature})), US)
    assert verdict.class_name == "letter"
    assert [reason.clause.name for reason in verdict.missed[0][1]] == [clause]


# 101 2.1: flats to 15 x 12 x 3/4 in
@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        (("15", "12", "0.75"), FLAT),
        (("12", "15", "0.75"), FLAT),  # 101 2.2: the length of a flat is its longest side
        (("14.999", "11.999", "0.749"), FLAT),
        (("15.001", "12", "0.75"), PARCEL),
        (("15", "12.001", "0.75"), PARCEL),
        (("15", "12", "0.751"), PARCEL),
    ],
)
def test_a_flat_ends_at_its_greatest_sizes(sizes, expected):
    assert kind(*sizes) is expected


# 101 2.3, 2.5, 6.4b-c
@pytest.mark.parametrize("feature", [Feature.RIGID, Feature.NOT_RECTANGULAR])
def test_a_stiff_or_odd_shaped_flat_is_a_parcel(feature):
    assert kind("9", "6.5", "0.2", features=frozenset({feature})) is PARCEL


def test_a_letter_that_is_not_rectangular_is_a_parcel():
    assert kind("7.25", "5.25", "0.1", features=frozenset({Feature.NOT_RECTANGULAR})) is PARCEL


def test_a_box_is_never_a_flat():
    # 101 2.5
    assert kind("9", "6.5", "0.7", shape=Shape.BOX) is PARCEL


# 101 2.4: greatest change of thickness 1/4 in
@pytest.mark.parametrize(("change", "expected"), [("0.25", FLAT), ("0.249", FLAT), ("0.251", PARCEL)])
def test_a_flat_may_change_its_thickness_by_a_quarter_of_an_inch(change, expected):
    assert kind("9", "6.5", "0.5", unevenness=Fraction(change) * INCH) is expected


@pytest.mark.parametrize(("thickness", "expected"), [("0.25", FLAT), ("0.251", PARCEL)])
def test_an_uneven_flat_without_a_measure_is_taken_at_its_whole_thickness(thickness, expected):
    assert kind("9", "6.5", thickness, features=frozenset({Feature.UNEVEN})) is expected


# 101 3.2, 6.4d: length plus girth 108 in (130 in Ground Advantage Retail)
@pytest.mark.parametrize(
    ("length", "name", "expected"),
    [
        ("36", "parcel", PARCEL),  # 36 + 2 (18 + 18) = 108
        ("36.001", "parcel, Ground Advantage Retail only", PARCEL),
        ("58", "parcel, Ground Advantage Retail only", PARCEL),  # 58 + 72 = 130
        ("58.001", "", Kind.TOO_BIG),
    ],
)
def test_a_parcel_ends_at_its_length_plus_girth(length, name, expected):
    verdict = judge(piece(length, "18", "18", shape=Shape.BOX, ounces=Fraction(160)), US)
    assert (verdict.kind, verdict.class_name) == (expected, name)


def test_a_verdict_names_clause_source_date_and_status():
    assert str(judge(piece("7.25", "5.25", THICK), US).clause) == (
        "DMM 101 1.1, USPS Domestic Mail Manual, Physical Standards, 9 Jul 2023"
    )


def test_the_limit_that_a_piece_comes_nearest_to_is_named_with_its_margin():
    tightest = judge(piece("7.25", "5.25", "0.24"), US).tightest
    assert tightest is not None
    assert tightest.margin is not None
    assert tightest.says == "The thickness is 0.240 in of at most 1/4 in."
    assert round(tightest.margin, 6) == 0.254


def test_a_letter_that_is_too_thin_for_its_size_is_not_told_of_a_length():
    # 101 1.2: more than 4-1/4 in high or 6 in long, at least 0.009 in thick
    verdict = judge(piece("7", "5", "0.008"), US)
    assert verdict.reasons
    assert not any("the length must be" in reason.says for reason in verdict.reasons)
