from fractions import Fraction

import pytest

from kitwright.proof.mailing import Feature, Kind, MailPiece, Shape, Status, judge, load_services

SERVICES = {service.code: service for service in load_services()}
LETTER, ODD, LARGE, PARCEL = Kind.LETTER, Kind.NON_MACHINABLE, Kind.LARGE_LETTER, Kind.PARCEL


def verdict(code, sizes, weight, shape=Shape.ENVELOPE, **more):
    long, high, thick = map(Fraction, sizes)
    return judge(MailPiece(long, high, thick, weight, shape, **more), SERVICES[code])


# Sizes: Ofcom, "How do I know whether my letter is a large letter?"; weights: Royal Mail as reprinted (second-hand)
@pytest.mark.parametrize(
    ("sizes", "weight", "expected"),
    [
        (("240", "165", "5"), 100, LETTER),
        (("239.9", "164.9", "4.9"), 99.9, LETTER),
        (("240.1", "165", "5"), 100, LARGE),
        (("240", "165.1", "5"), 100, LARGE),
        (("240", "165", "5.1"), 100, LARGE),
        (("240", "165", "5"), 100.1, LARGE),
        (("353", "250", "25"), 750, LARGE),
        (("353.1", "250", "25"), 750, PARCEL),
        (("353", "250.1", "25"), 750, PARCEL),
        (("353", "250", "25.1"), 750, PARCEL),
        (("353", "250", "25"), 750.1, PARCEL),
        (("150", "150", "3"), 50, LETTER),  # squares are letters here
    ],
)
def test_royal_mail_letters_end_at_their_sizes_and_weights(sizes, weight, expected):
    assert verdict("uk", sizes, weight).kind is expected


# Royal Mail as reprinted by paper merchants (second-hand)
@pytest.mark.parametrize(
    ("sizes", "weight", "name"),
    [
        (("450", "350", "160"), 2000, "Small Parcel"),
        (("450.1", "350", "160"), 2000, "Medium Parcel"),
        (("450", "350.1", "160"), 2000, "Medium Parcel"),
        (("450", "350", "160.1"), 2000, "Medium Parcel"),
        (("450", "350", "160"), 2000.1, "Medium Parcel"),
        (("610", "460", "460"), 20000, "Medium Parcel"),
        (("610.1", "460", "460"), 20000, ""),
        (("610", "460", "460"), 20000.1, ""),
    ],
)
def test_royal_mail_parcels_end_at_their_sizes_and_weights(sizes, weight, name):
    found = verdict("uk", sizes, weight, Shape.BOX)
    assert found.class_name == name
    assert found.kind is (PARCEL if name else Kind.TOO_BIG)


# Royal Mail as reprinted: length + 2 x diameter to 1040 mm, longest to 900 mm (second-hand)
@pytest.mark.parametrize(
    ("length", "diameter", "expected"),
    [("900", "70", PARCEL), ("900.1", "69", Kind.TOO_BIG), ("900", "70.1", Kind.TOO_BIG)],
)
def test_a_royal_mail_tube_ends_at_its_length_and_diameters(length, diameter, expected):
    assert verdict("uk", (length, diameter, diameter), 500, Shape.TUBE).kind is expected


# Canada Post, "Letter weight and size" (the thickness of 5 mm from a reprint, Jan 2022)
@pytest.mark.parametrize(
    ("sizes", "weight", "expected"),
    [
        (("140", "90", "0.18"), 50, LETTER),
        (("139.9", "90", "0.18"), 50, Kind.TOO_SMALL),
        (("140", "89.9", "0.18"), 50, Kind.TOO_SMALL),
        (("140", "90", "0.179"), 50, Kind.TOO_SMALL),
        (("245", "156", "5"), 50, LETTER),
        (("245.1", "156", "5"), 50, LARGE),
        (("245", "156.1", "5"), 50, LARGE),
        (("245", "156", "5.1"), 50, LARGE),
        (("245", "156", "5"), 50.1, LARGE),
        (("380", "270", "20"), 500, LARGE),
        (("380.1", "270", "20"), 500, PARCEL),
        (("380", "270.1", "20"), 500, PARCEL),
        (("380", "270", "20.1"), 500, PARCEL),
        (("380", "270", "20"), 500.1, PARCEL),
    ],
)
def test_canada_post_letters_end_at_their_sizes_and_weights(sizes, weight, expected):
    assert verdict("ca", sizes, weight).kind is expected


def test_a_clasped_letter_is_non_standard_in_canada_by_a_recalled_rule():
    found = verdict("ca", ("180", "120", "3"), 30, features=frozenset({Feature.CLASP}))
    assert found.kind is ODD
    assert found.clause.status is Status.MEMORY


# Deutsche Post formats as reprinted in newspapers, 2021 to 2025 (second-hand)
@pytest.mark.parametrize(
    ("sizes", "weight", "name"),
    [
        (("140", "90", "5"), 20, "Standardbrief"),
        (("235", "125", "5"), 20, "Standardbrief"),
        (("235.1", "125", "5"), 20, "Großbrief"),
        (("235", "125.1", "5"), 20, "Großbrief"),
        (("235", "125", "5.1"), 20, "Kompaktbrief"),
        (("235", "125", "5"), 20.1, "Kompaktbrief"),
        (("139.9", "90", "5"), 20, "Kompaktbrief"),
        (("140", "89.9", "5"), 20, "Kompaktbrief"),
        (("235", "125", "10"), 50, "Kompaktbrief"),
        (("235", "125", "10.1"), 50, "Großbrief"),
        (("235", "125", "10"), 50.1, "Großbrief"),
        (("100", "70", "1"), 10, "Kompaktbrief"),
        (("99.9", "70", "1"), 10, ""),
        (("100", "69.9", "1"), 10, ""),
        (("168", "120", "2"), 15, "Standardbrief"),  # exactly 1.4
        (("167.9", "120", "2"), 15, "Großbrief"),
        (("125", "125", "2"), 15, "Großbrief"),  # no squares among the letters
        (("353", "250", "20"), 500, "Großbrief"),
        (("353", "250", "20.1"), 500, "Maxibrief"),
        (("353", "250", "20"), 500.1, "Maxibrief"),
        (("353", "250", "50"), 1000, "Maxibrief"),  # 50 mm from memory
        (("353.1", "250", "20"), 500, "Paket"),
        (("353", "250.1", "20"), 500, "Paket"),
        (("353", "250", "20"), 1000.1, "Paket"),
    ],
)
def test_deutsche_post_letters_end_at_their_sizes_and_weights(sizes, weight, name):
    found = verdict("de", sizes, weight)
    assert found.class_name == name
    assert (found.kind in (Kind.TOO_SMALL, Kind.TOO_BIG)) is not bool(name)


# UPU limits as enacted in India's postal regulations 2024, sections 108 to 110 (second-hand)
@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        (("140", "90", "5"), LETTER),
        (("139.9", "90", "5"), Kind.TOO_SMALL),
        (("140", "89.9", "5"), Kind.TOO_SMALL),
        (("600", "200", "100"), LARGE),  # 600 long, sum 900
        (("600.1", "200", "99"), PARCEL),
        (("600", "200", "100.1"), PARCEL),
    ],
)
def test_letters_between_countries_end_at_their_sizes(sizes, expected):
    assert verdict("upu", sizes, 20).kind is expected


# The same: postcards 90 x 140 to 120 x 235 mm, length at least sqrt 2 x width
@pytest.mark.parametrize(
    ("sizes", "name"),
    [
        (("235", "120", "1"), "postcard"),
        (("235.1", "120", "1"), "small letter (format P)"),
        (("235", "120.1", "1"), "small letter (format P)"),
        (("141.4214", "100", "1"), "postcard"),
        (("141.4213", "100", "1"), "small letter (format P)"),
        (
            ("148", "105", "1"),
            "small letter (format P)",
        ),  # A6: 1.4095 is below sqrt 2 = 1.4142 without the 2 mm tolerance
    ],
)
def test_a_postcard_between_countries_is_long_enough_for_its_width(sizes, name):
    assert verdict("upu", sizes, 5, Shape.CARD).class_name == name


# The same: rolls, length + 2 diameters 170 to 1040 mm, length 100 to 900 mm
@pytest.mark.parametrize(
    ("length", "diameter", "name"),
    [
        ("900", "70", "roll"),
        ("900.1", "69", "parcel, where the strictest limits hold"),
        ("900", "70.1", "parcel, where the strictest limits hold"),
        ("100", "35", "roll"),
        ("100", "34.9", "parcel, where the strictest limits hold"),
        ("99.9", "36", "parcel, where the strictest limits hold"),
    ],
)
def test_a_roll_between_countries_ends_at_its_sizes(length, diameter, name):
    assert verdict("upu", (length, diameter, diameter), 100, Shape.TUBE).class_name == name


@pytest.mark.parametrize("code", ["us", "uk", "ca", "de", "upu"])
def test_something_huge_is_too_big_everywhere(code):
    found = verdict(code, ("4000", "2000", "2000"), 1000, Shape.BOX)
    assert found.kind is Kind.TOO_BIG
    assert found.class_name == ""
    assert found.reasons


def test_a_box_of_the_same_size_is_a_parcel_in_one_country_and_a_large_letter_in_another():
    sizes = ("200", "150", "20")
    kinds = {code: verdict(code, sizes, 200, Shape.BOX).kind for code in SERVICES}
    assert kinds == {"us": PARCEL, "uk": LARGE, "ca": LARGE, "de": LARGE, "upu": LARGE}
