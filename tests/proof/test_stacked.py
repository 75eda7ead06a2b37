"""Contents in a box as one stack: free room, finger room, and what is only unknown."""

from __future__ import annotations

from fractions import Fraction

import pytest

from kitwright.findings import Severity
from kitwright.kit.model import FitRules
from kitwright.measure import MM_PER_INCH, Ruler, Unit
from kitwright.proof import check_stack

INCHES = Ruler(Unit.INCH, MM_PER_INCH / 16)
NEEDED = {"width": 100.0, "depth": 50.0, "height": 20.0}
INCH = float(MM_PER_INCH)


def judge(free: float, *, is_only_way: bool = True) -> tuple[Severity, float | None, float | None]:
    """The contents with so many mm free in depth and much elsewhere."""
    room = {"width": 120.0, "depth": 50.0 + free, "height": 40.0}
    found = check_stack("contents of box", NEEDED, room, INCHES, is_only_way=is_only_way)
    assert found.code == "contents-fit"
    return found.severity, found.measured, found.required


@pytest.mark.parametrize(
    ("free", "severity", "limit"),
    [
        (-0.1, Severity.FAIL, 0.0),
        (-0.0012, Severity.FAIL, 0.0),
        (-0.0008, Severity.WARNING, INCH / 16),  # sizes are rounded to marks with a thousandth of slack
        (0.0, Severity.WARNING, INCH / 16),
        (INCH / 16 - 0.1, Severity.WARNING, INCH / 16),
        (INCH / 16, Severity.NOTE, INCH / 4),
        # finger room of 1/4 in all round in a box for a book: Dartmouth Library preservation blog, 2015
        (INCH / 4 - 0.1, Severity.NOTE, INCH / 4),
        (INCH / 4, Severity.OK, INCH / 4),
    ],
)
def test_a_stack_is_judged_by_its_tightest_side(free: float, severity: Severity, limit: float) -> None:
    judged, measured, required = judge(free)
    assert judged is severity
    assert measured == pytest.approx(free)
    assert required == pytest.approx(limit)


def test_a_stack_that_could_lie_otherwise_and_does_not_go_in_is_unknown_not_a_fail() -> None:
    assert judge(-0.1, is_only_way=False)[0] is Severity.UNKNOWN
    assert judge(1.0, is_only_way=False)[0] is Severity.WARNING


def test_what_is_missing_is_told_with_the_side_where() -> None:
    found = check_stack(
        "contents of box", NEEDED, {"width": 100, "depth": 50, "height": 20 - INCH / 8}, INCHES, is_only_way=True
    )
    assert found.message == (
        "The contents do not go in: 1/8 in is missing in height, springback of the stack reckoned in."
    )
    assert found.margin == pytest.approx(-INCH / 8)


def test_free_room_is_told_for_every_side_in_the_makers_unit() -> None:
    ruler = Ruler(Unit.MILLIMETRE, Fraction(1))
    found = check_stack(
        "contents of box", NEEDED, {"width": 110, "depth": 57.25, "height": 27}, ruler, is_only_way=True
    )
    assert found.message == "The contents go in, free: 10 mm in width, 7.2 mm in depth, 7 mm in height."


@pytest.mark.parametrize("unit", list(Unit))
def test_the_free_room_that_is_usual_in_a_unit_is_room_for_fingers_in_it(unit: Unit) -> None:
    # finger room of 1/4 in: Dartmouth Library preservation blog, 2015; 6 mm on a metric ruler
    ruler = Ruler(unit, MM_PER_INCH / 16 if unit is Unit.INCH else Fraction(1))
    usual = float(FitRules.usual(unit).contents)
    for free, severity in ((usual, Severity.OK), (usual - 0.01, Severity.NOTE)):
        inside = {axis: length + free for axis, length in NEEDED.items()}
        found = check_stack("contents of box", NEEDED, inside, ruler, is_only_way=True)
        assert found.severity is severity
    assert found.message.endswith(
        "Fingers need about 1/4 in." if unit is Unit.INCH else f"about {6 / float(unit.mm):g} {unit}."
    )
