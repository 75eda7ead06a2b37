"""How thick a flat envelope or pocket can be, on both sides of each limit."""

from __future__ import annotations

from fractions import Fraction

import pytest

from kitwright.findings import Severity
from kitwright.measure import Ruler, Unit
from kitwright.proof import check_thickness

MILLIMETRES = Ruler(Unit.MILLIMETRE, Fraction(1))
FAIL, WARNING = Severity.FAIL, Severity.WARNING


@pytest.mark.parametrize(
    ("thickness", "inside", "severity", "limit"),
    [
        # an envelope of 146 x 111 mm (A2): 1/4 in is a letter, 3/4 in a large envelope (DMM 101 1.1 and 2.1), a quarter of 111 mm is more
        (0.6, (146.0, 111.0), None, None),
        (3.0, (146.0, 111.0), None, None),
        (6.34, (146.0, 111.0), None, None),
        (6.36, (146.0, 111.0), WARNING, 6.35),
        (19.04, (146.0, 111.0), WARNING, 6.35),
        (19.06, (146.0, 111.0), FAIL, 19.05),
        (40.0, (193.0, 150.0), FAIL, 19.05),
        # a quarter of the shorter side (common practice, no source)
        (14.9, (90.0, 60.0), WARNING, 6.35),
        (15.1, (90.0, 60.0), FAIL, 15.0),
        (15.1, (60.0, 90.0), FAIL, 15.0),
        (5.1, (120.0, 20.0), FAIL, 5.0),
        (4.9, (120.0, 20.0), None, None),
    ],
)
def test_what_lies_in_an_envelope_is_judged_by_its_thickness(
    thickness: float, inside: tuple[float, float], severity: Severity | None, limit: float | None
) -> None:
    found = check_thickness("envelope", thickness, inside, MILLIMETRES, what="envelope")
    assert (found and found.severity) is severity
    if found and limit:
        assert found.required == pytest.approx(limit)
        assert found.margin == pytest.approx(limit - thickness)


def test_it_is_told_how_thick_it_is_how_thick_it_can_be_and_what_to_do() -> None:
    found = check_thickness("e", 40.0, (80.0, 60.0), MILLIMETRES, what="envelope", filling="100 × card")
    assert found is not None
    assert found.message == (
        "In each lie 100 × card, 40 mm thick together, and a flat envelope of this size holds 15 mm at most. Make more of it, so that "
        "less lies in each, or take a box."
    )


def test_of_one_thing_that_is_too_thick_nobody_can_put_less_into_it() -> None:
    found = check_thickness("e", 30.0, (80.0, 60.0), MILLIMETRES, what="pocket")
    assert found is not None
    assert (
        found.message
        == "What lies in it is 30 mm thick, and a flat pocket of this size holds 15 mm at most. Take a box."
    )
