"""What is too long for a box lying straight may go in askew, which is not tried: then nothing is said to be impossible."""

from fractions import Fraction

import pytest

from kitwright.findings import Finding, Severity
from kitwright.measure import Ruler, Unit
from kitwright.proof import check_packing
from kitwright.proof.packing import PackedThing, Space, Turns

MM = Ruler(Unit.MILLIMETRE, Fraction(1))
BOX = Space(60, 40, 20)  # 74.8 from corner to corner


def packed(*sizes: tuple[float, float, float], turns: Turns = Turns.ANY) -> Finding:
    names = ("pencil", "pen", "brush")
    return check_packing("box", [PackedThing(names[i], size, 1, turns) for i, size in enumerate(sizes)], BOX, MM)


@pytest.mark.parametrize(
    ("size", "severity"),
    [
        ((59, 5, 5), Severity.NOTE),
        ((70, 5, 5), Severity.UNKNOWN),
        ((5, 74, 5), Severity.UNKNOWN),
        ((75, 5, 5), Severity.FAIL),
        ((61, 41, 20), Severity.FAIL),  # larger than the box
        ((42, 42, 21), Severity.FAIL),  # nowhere as thin as the box is high
    ],
)
def test_only_what_is_longer_than_from_corner_to_corner_or_thicker_than_the_box_is_ruled_out(
    size: tuple[float, float, float], severity: Severity
) -> None:
    assert packed(size).severity is severity


def test_what_may_go_in_askew_is_told_so() -> None:
    assert packed((70, 5, 5)).message == (
        "pencil does not go into 60 × 40 × 20 mm lying straight. It may go in askew, which is not tried."
    )
    assert packed((70, 5, 5), (10, 10, 10), (65, 3, 3)).message.startswith("pencil and brush do not go into")


def test_one_thing_that_cannot_go_in_is_named_where_another_might_askew() -> None:
    found = packed((70, 5, 5), (80, 5, 5))
    assert found.severity is Severity.FAIL
    assert "pen alone is too large" in found.message


def test_a_stack_that_stays_upright_does_not_lie_askew() -> None:
    assert packed((70, 5, 5), turns=Turns.UPRIGHT).severity is Severity.FAIL
