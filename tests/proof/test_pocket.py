"""A thing in a pocket: held at the sides, free at the top."""

from fractions import Fraction

import pytest

from kitwright.findings import Severity
from kitwright.measure import Ruler, Unit
from kitwright.proof import check_pocket

MM = Ruler(Unit.MILLIMETRE, Fraction(1))


@pytest.mark.parametrize(
    ("thing", "inside", "severity", "says"),
    [
        ((60, 45, 0.2), (66, 50), Severity.OK, "It goes in with 6 mm free from side to side and 5 mm upwards."),
        ((60, 45.5, 0.2), (66, 45), Severity.NOTE, "It goes in and sticks out 0.5 mm at the top."),
        ((60, 45.0005, 0.2), (66, 45), Severity.OK, "It goes in with 6 mm free from side to side and 0 mm upwards."),
        ((45, 60, 0.2), (66, 70), Severity.OK, "It goes in with 21 mm free from side to side and 10 mm upwards."),
        ((60, 45, 0.2), (66, 35), Severity.NOTE, "It goes in and sticks out 10 mm at the top."),
        (
            (60, 45, 0.2),
            (66, 20),
            Severity.WARNING,
            "More than half of it sticks out at the top, so that it may fall out.",
        ),
        ((60, 45, 0.2), (62, 50), Severity.WARNING, "It goes in tightly, with 2 mm free from side to side."),
        ((60, 45, 4.0), (62, 50), Severity.NOTE, "It goes in, turned a quarter, and sticks out 10 mm at the top."),
        ((60, 58, 4.0), (61, 50), Severity.FAIL, "The pocket is 1 mm too narrow, thickness reckoned in."),
        (
            (45, 60, 0.2),
            (66, 50),
            Severity.OK,
            "It goes in, turned a quarter, with 6 mm free from side to side and 5 mm upwards.",
        ),
    ],
)
def test_a_thing_in_a_pocket(
    thing: tuple[float, float, float], inside: tuple[float, float], severity: Severity, says: str
) -> None:
    found = check_pocket("note in pocket", thing, inside, MM)
    assert (found.severity, found.message) == (severity, says)


def test_all_that_lies_in_a_pocket_makes_it_narrower() -> None:
    found = check_pocket("note in pocket", (60, 45, 7.0), (66, 50), MM, filling="3 × note")
    assert found.severity is Severity.NOTE  # turned a quarter: 45 and 7 of 66
    assert "In it lie 3 × note, 7 mm thick together." in found.message


@pytest.mark.parametrize(
    ("thing", "notch", "severity", "says"),
    [
        (
            (60, 45, 0.2),
            8,
            Severity.OK,
            "It goes in with 6 mm free from side to side and 15 mm upwards.".replace("15", "5"),
        ),
        ((60, 45, 0.2), 29, Severity.OK, "5 mm upwards"),  # the thing is held beside the notch
        ((60, 41, 0.2), 8, Severity.NOTE, "the thumb notch is only 8 mm deep"),
        ((60, 41, 0.2), 10, Severity.OK, "9 mm upwards"),
        ((20, 30, 0.2), 21, Severity.OK, "20 mm upwards"),
        ((42, 30, 0.2), 36, Severity.WARNING, "More than half of it lies bare above the thumb notch"),
        ((42, 30, 0.2), 20, Severity.NOTE, "It goes in and lies 20 mm below the edge"),
    ],
)
def test_a_thing_is_reached_through_the_notch_and_still_held_below_it(
    thing: tuple[float, float, float], notch: float, severity: Severity, says: str
) -> None:
    found = check_pocket("note in pocket", thing, (66, 50), MM, notch=notch)
    assert found.severity is severity, found.message
    assert says in found.message
