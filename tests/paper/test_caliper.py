"""Calipers as read, and calipers estimated from weight against published pairs of weight and caliper."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.measure import Unit
from kitwright.paper import LEAST_CALIPER, MOST_CALIPER, Caliper, Grade, estimate_caliper, parse_caliper


def test_a_point_is_a_thousandth_of_an_inch() -> None:
    # sizes.com, "Printing paper sizes in the United States": 1 point = 1 mil = 0.001 in = 0.0254 mm.
    assert parse_caliper("10 pt").mm == 0.254
    assert parse_caliper("10 mil").mm == 0.254
    assert parse_caliper("0.010 in").mm == 0.254


@pytest.mark.parametrize(
    ("points", "mm"),
    # Coated-one-side cover is sold by caliper: US Government Paper Specification Standards no. 12 (2008), JCP L70.
    [(8, 0.2032), (10, 0.254), (12, 0.3048), (15, 0.381), (24, 0.6096)],
)
def test_cover_sold_by_caliper_is_read_in_points(points: int, mm: float) -> None:
    assert parse_caliper(f"{points} pt").mm == mm


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("0.011", Unit.INCH, 0.2794),
        (".011", Unit.INCH, 0.2794),
        ("0.3", Unit.MILLIMETRE, 0.3),
        ("0,3 mm", Unit.INCH, 0.3),
        ("0.03 cm", None, 0.3),
        ("280 µm", None, 0.28),
        ("280 \N{GREEK SMALL LETTER MU}m", None, 0.28),
        ("280 microns", None, 0.28),
        ("12.5 mils", None, 0.3175),
        ("12 PT", None, 0.3048),
        ("11 thou", None, 0.2794),
        ("1/64 in", None, 0.396875),
        ("1/64", Unit.INCH, 0.396875),
        ("0.03 mm", None, 0.03),
        ("3 mm", None, 3.0),
    ],
)
def test_a_caliper_is_read_in_the_units_of_the_trade_and_in_the_unit_of_the_kit(
    text: str, unit: Unit | None, mm: float
) -> None:
    caliper = parse_caliper(text, unit)
    assert caliper.mm == mm
    assert not caliper.is_estimate


def test_a_caliper_says_how_it_was_given() -> None:
    assert parse_caliper(" 12 pt").sentence == "Given as 12 pt: 0.305 mm."


@pytest.mark.parametrize(
    ("text", "unit", "what", "do"),
    [
        ("11", Unit.INCH, "'11' is 279.4 mm, and no paper", "Did you mean 11 pt (thousandths of an inch)?"),
        ("0.011", Unit.MILLIMETRE, "'0.011' is 0.011 mm", "Did you mean 0.011 in?"),
        ("280", Unit.MILLIMETRE, "'280' is 280 mm", "Did you mean 280 µm?"),
        ("30", Unit.MILLIMETRE, "'30' is 30 mm", "Did you mean 30 µm?"),
        ("3000", Unit.MILLIMETRE, "'3000' is 3000 mm", "Did you mean 3000 µm?"),
        ("9", Unit.CENTIMETRE, "'9' is 90 mm", "such as 0.011 in, 11 pt or 0.28 mm"),
        ("0.0001 in", None, "'0.0001 in' is 0.00254 mm", "such as 0.011 in"),
        ("0 pt", None, "'0 pt' is 0 mm", "such as 0.011 in"),
        ("1 pt", None, "'1 pt' is 0.0254 mm", "such as 0.011 in"),
        ("119 pt", None, "'119 pt' is 3.023 mm", "such as 0.011 in"),
        ("0", Unit.INCH, "is zero", "larger than zero"),
        ("12", None, "has no unit", "Add in, mm or cm."),
        ("12 px", None, "'px' in '12 px' is not a unit", "Use in, mm or cm."),
        ("thick", Unit.INCH, "not a length that can be read", "Write it like"),
    ],
)
def test_a_caliper_that_cannot_be_is_refused_with_what_was_probably_meant(
    text: str, unit: Unit | None, what: str, do: str
) -> None:
    with pytest.raises(Mistake) as refused:
        parse_caliper(text, unit)
    assert what in refused.value.what
    assert do in refused.value.do


@pytest.mark.parametrize("mm", [LEAST_CALIPER, MOST_CALIPER])
def test_the_thinnest_and_thickest_papers_are_still_papers(mm: float) -> None:
    assert Caliper(mm).mm == mm


@pytest.mark.parametrize("mm", [0, -0.3, 0.0299, 3.001, float("nan"), float("inf")])
def test_no_paper_can_be_made_with_an_absurd_caliper(mm: float) -> None:
    with pytest.raises(Mistake, match="mm thick cannot be worked here"):
        Caliper(mm)


# US Government Paper Specification Standards no. 11 (1999): JCP K10 index, P20 tag, A91 smooth text (g/m² and mm as printed there);
# no. 12 (2007), JCP O-63 copier paper: 24 and 28 lb bond, 4.1 and 4.7 mils. Common practice, no source: 65, 80, 100 lb cover.
PUBLISHED = [
    (Grade.INDEX, 165, 0.190, 0.02),
    (Grade.INDEX, 200, 0.230, 0.02),
    (Grade.INDEX, 255, 0.290, 0.02),
    (Grade.INDEX, 305, 0.350, 0.02),
    (Grade.TAG, 170, 0.20, 0.11),
    (Grade.TAG, 245, 0.28, 0.11),
    (Grade.TAG, 270, 0.35, 0.11),
    (Grade.TAG, 405, 0.45, 0.11),
    (Grade.TEXT, 105, 0.140, 0.01),
    (Grade.TEXT, 120, 0.160, 0.01),
    (Grade.TEXT, 150, 0.200, 0.01),
    (Grade.BOND, 90.2, 0.104, 0.02),
    (Grade.BOND, 105.3, 0.119, 0.02),
    (Grade.COVER, 175.8, 0.2413, 0.05),
    (Grade.COVER, 216.3, 0.2794, 0.05),
    (Grade.COVER, 270.4, 0.3556, 0.05),
    # Folding carton: grooving study in Tiskarstvo 04, tables 2-3.
    (None, 280, 0.35, 0.02),
    (None, 320, 0.41, 0.02),
    (None, 350, 0.44, 0.02),
    (None, 450, 0.57, 0.02),
]


@pytest.mark.parametrize(("grade", "gsm", "mm", "share"), PUBLISHED)
def test_an_estimate_comes_near_the_published_caliper(grade: Grade | None, gsm: float, mm: float, share: float) -> None:
    estimate = estimate_caliper(gsm, grade)
    assert estimate.mm == pytest.approx(mm, rel=share)


@pytest.mark.parametrize("grade", [*Grade, None])
def test_an_estimate_says_that_it_is_one_and_where_it_comes_from(grade: Grade | None) -> None:
    estimate = estimate_caliper(216, grade)
    assert estimate.is_estimate
    assert estimate.sentence.startswith("Estimated from 216 g/m² at 1.")
    assert "measure a sheet to be sure" in estimate.sentence
    assert any(
        source in estimate.sentence for source in ("US Government Paper Specification", "Tiskarstvo", "no source")
    )


@settings(deadline=None, max_examples=60)
@given(st.floats(30, 2000), st.sampled_from([*Grade, None]))
def test_an_estimate_grows_in_proportion_to_the_weight(gsm: float, grade: Grade | None) -> None:
    assert estimate_caliper(gsm, grade).mm == pytest.approx(gsm * estimate_caliper(100, grade).mm / 100)


@pytest.mark.parametrize("gsm", [0, -1, 10, 5000])
def test_no_caliper_is_estimated_from_an_absurd_weight(gsm: float) -> None:
    with pytest.raises(Mistake, match="cannot be worked here"):
        estimate_caliper(gsm, Grade.COVER)


def test_110_lb_index_clears_the_thickness_of_a_larger_card_in_the_post_and_90_lb_only_the_least() -> None:
    # JCP K10: 110 lb 0.0091 in, 90 lb 0.0075 in; USPS DMM 101 1.1-1.2, 9 Jul 2023: 0.009 in over 6 × 4-1/4 in, else 0.007 in.
    assert estimate_caliper(200, Grade.INDEX).mm >= 0.009 * 25.4
    assert 0.007 * 25.4 <= estimate_caliper(165, Grade.INDEX).mm < 0.009 * 25.4
