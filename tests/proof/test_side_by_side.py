"""Pockets on one face: they have room side by side, or do not, and then how many do is told."""

from fractions import Fraction
from random import Random

import pytest

from kitwright.findings import Severity
from kitwright.measure import Ruler, Unit
from kitwright.proof import check_side_by_side, most_in_rows
from kitwright.proof.side_by_side import Piece

MM = Ruler(Unit.MILLIMETRE, Fraction(1))


def severity(*pieces: Piece, face: tuple[float, float] = (200, 100), leaves: int = 1, slip: float = 0.4) -> Severity:
    return check_side_by_side("on card", pieces, face, MM, where="card", leaves=leaves, slip=slip).severity


@pytest.mark.parametrize(
    ("count", "size", "leaves", "expected"),
    [
        (4, (90, 40), 1, Severity.OK),
        (5, (90, 40), 1, Severity.FAIL),
        (5, (90, 40), 2, Severity.OK),
        (4, (100, 50), 1, Severity.WARNING),  # glued a little off they lie on each other
        (4, (99.2, 49.2), 1, Severity.OK),
        (4, (99.4, 49.4), 1, Severity.WARNING),  # 0.4 off on either side is too much
        (4, (100.1, 50), 1, Severity.FAIL),
        (3, (60, 101), 1, Severity.FAIL),
        (2, (40, 120), 1, Severity.FAIL),  # lying they would go, but then they open to the side
    ],
)
def test_pockets_of_one_size(count: int, size: tuple[float, float], leaves: int, expected: Severity) -> None:
    assert severity(("pocket", count, size), leaves=leaves) is expected


def test_pockets_of_several_sizes() -> None:
    wide, high = ("wide", 1, (190.0, 30.0)), ("high", 3, (60.0, 60.0))
    assert severity(wide, high) is Severity.OK
    assert severity(wide, ("high", 4, (60.0, 60.0))) is Severity.FAIL


def test_how_many_have_room_is_told_with_the_sizes() -> None:
    found = check_side_by_side("on card", [("pocket", 20, (90, 40))], (200, 100), MM, where="card", leaves=1, slip=0.4)
    assert found.message == (
        "There is no room side by side for 20 × pocket, 90 × 40 mm each: card has 200 × 100 mm for them, room for 4 at most."
    )
    assert (found.measured, found.required, found.unit) == (20, 4, "pockets")
    folded = check_side_by_side("on card", [("pocket", 20, (90, 40))], (200, 100), MM, where="card", leaves=2, slip=0.4)
    assert folded.required == 8
    mixed = [("wide", 1, (190.0, 30.0)), ("high", 4, (60.0, 60.0))]
    several = check_side_by_side("on card", mixed, (200, 100), MM, where="card", leaves=1, slip=0.4)
    assert (several.measured, several.required) == (5, 4)


def test_as_many_as_rows_and_columns_hold_have_room_and_no_more() -> None:
    assert most_in_rows((60, 50), (180 - 1e-9, 100)) == 6  # a hair is no hindrance
    random = Random(4)
    for _ in range(30):
        piece, face = (
            (random.randint(30, 80), random.randint(30, 80)),
            (random.randint(80, 300), random.randint(80, 300)),
        )
        most = most_in_rows(piece, face)
        assert severity(("pocket", most, piece), face=face, slip=0) is Severity.OK
        assert severity(("pocket", most + 1, piece), face=face, slip=0) is Severity.FAIL
