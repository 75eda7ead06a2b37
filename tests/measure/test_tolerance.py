"""The tolerances of geometry."""

from fractions import Fraction

from kitwright.measure import CRAFT_TOLERANCE, NEAR_MARK, NUMERIC_TOLERANCE, Unit, exact_length, parse_ruler


def test_the_tolerances_are_the_ones_that_were_agreed() -> None:
    # Common practice, no source.
    assert NUMERIC_TOLERANCE == 1e-6
    assert CRAFT_TOLERANCE == 0.1


def test_the_numeric_tolerance_is_above_the_rounding_of_a_float_over_a_metre() -> None:
    # IEEE 754 double: half a unit in the last place of 1000 mm is 5.7e-14 mm; a million such errors still stay below.
    assert (1000.0).hex() == "0x1.f400000000000p+9"
    assert NUMERIC_TOLERANCE > 1_000_000 * 2**-44


def test_a_computer_sees_less_than_a_marks_edge_and_that_is_less_than_a_hand_can_tell() -> None:
    assert NUMERIC_TOLERANCE < NEAR_MARK < CRAFT_TOLERANCE


def test_no_ruler_has_finer_marks_than_a_hand_can_tell() -> None:
    assert parse_ruler("0.1", Unit.MILLIMETRE).step == Fraction(str(CRAFT_TOLERANCE))


def test_a_computed_length_becomes_the_fraction_that_was_meant() -> None:
    assert exact_length(0.1 + 0.2) == Fraction(3, 10)
    assert exact_length(25.4 / 16) == Fraction(127, 80)
