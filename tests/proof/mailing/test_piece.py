import pytest

from kitwright.errors import Mistake
from kitwright.proof.mailing import MailPiece, Shape
from kitwright.proof.mailing.weight import parse_weight

INCH = 25.4


# USPS Quick Service Guide 201e (6 Jun 2016): box 10 x 8 x 5: 10 + 26 = 36 in; triangular tube 20 long, sides 6: 20 + 18 = 38 in
@pytest.mark.parametrize("sizes", [(10, 8, 5), (5, 10, 8), (8, 5, 10)])
def test_length_plus_girth_of_a_box_does_not_depend_on_how_it_lies(sizes):
    long, high, thick = (size * INCH for size in sizes)
    box = MailPiece(long, high, thick, 500, Shape.BOX)
    assert float(box.length_plus_girth) == 36 * INCH


def test_a_given_girth_counts_instead_of_the_reckoned_one():
    tube = MailPiece(20 * INCH, 6 * INCH, 6 * INCH, 500, Shape.TUBE, girth=18 * INCH)
    assert float(tube.length_plus_girth) == pytest.approx(38 * INCH, abs=1e-9)


def test_a_round_tube_is_measured_round_its_circle_never_too_small():
    tube = MailPiece(500, 100, 100, 500, Shape.TUBE)
    assert 814.159265 < float(tube.length_plus_girth) < 814.1593


def test_the_girth_of_a_short_wide_tube_is_still_measured_round_it():
    tube = MailPiece(50, 100, 100, 500, Shape.TUBE)
    assert float(tube.length_plus_girth) == pytest.approx(50 + 314.159265, abs=1e-4)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"along_address": 0}, "larger than zero in all three"),
        ({"thickness": -1}, "larger than zero in all three"),
        ({"weight": 0}, "weight"),
        ({"corner_radius": 51}, "corner radius"),
        ({"corner_radius": -1}, "corner radius"),
        ({"unevenness": 4}, "change of thickness"),
        ({"girth": 0}, "way round"),
        ({"shape": Shape.TUBE}, "one diameter"),
    ],
)
def test_a_piece_that_cannot_be_is_refused(change, words):
    plain = {"along_address": 150, "across_address": 100, "thickness": 3, "weight": 20, "shape": Shape.ENVELOPE}
    with pytest.raises(Mistake, match=words):
        MailPiece(**{**plain, **change})


def test_a_card_may_be_thinner_than_a_millimetre_and_its_thickness_may_change_by_nothing_or_all_of_it():
    for unevenness in (0, 0.2, 0.4):
        assert MailPiece(150, 105, 0.4, 5, Shape.CARD, unevenness=unevenness).thickness == 0.4


# yard and pound agreement of 1959 (24 FR 5348): one pound is 453.59237 g, and sixteen ounces
def test_a_pound_is_sixteen_ounces():
    assert parse_weight("1000000", "lb") == 453592370
    assert parse_weight("16 oz", "lb") == parse_weight("1", "lb")
