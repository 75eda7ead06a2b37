from dataclasses import replace
from fractions import Fraction

import pytest

from kitwright.proof.packing import Fault, FaultKind, PackedThing, Placement, Space, Turns, verify_packing

SPACE = Space(10, 10, 5)
THINGS = (PackedThing("slab", (6, 4, 2), 2, Turns.FLAT), PackedThing("cup", (3, 2, 5), 1, Turns.UPRIGHT))


def at(name, copy, corner, size):
    (x, y, z), (a, b, c) = corner, size
    return Placement(name, copy, (Fraction(x), Fraction(y), Fraction(z)), (Fraction(a), Fraction(b), Fraction(c)))


FIRST = at("slab", 1, (0, 0, 0), (6, 4, 2))
SECOND = at("slab", 2, (0, 4, 0), (4, 6, 2))
CUP = at("cup", 1, (6, 0, 0), (2, 3, 5))
RIGHT = (FIRST, SECOND, CUP)


def faults(*placements, **more):
    return verify_packing(THINGS, SPACE, placements, **more)


def test_a_right_packing_has_no_fault():
    assert faults(*RIGHT) == ()


def test_touching_is_not_overlapping():
    assert faults(FIRST, replace(SECOND, corner=(Fraction(0), Fraction(0), Fraction(2))), CUP) == ()


def test_an_overlap_is_found():
    moved = replace(SECOND, corner=(Fraction(0), Fraction(3999999, 1000000), Fraction(0)))
    assert faults(FIRST, moved, CUP) == (Fault(FaultKind.OVERLAP, ("slab 1", "slab 2")),)


@pytest.mark.parametrize("corner", [(8, 0, 0), (6, 8, 0), (6, 0, 1), (-1, 4, 0), (7, -1, 0), (7, 0, -1)])
def test_sticking_out_through_any_wall_is_found(corner):
    x, y, z = (Fraction(value) for value in corner)
    placed = replace(CUP, corner=(x + Fraction(1, 1000), y, z) if x == 8 else (x, y, z))
    found = verify_packing(THINGS[1:], SPACE, [placed])
    assert found == (Fault(FaultKind.STICKS_OUT, ("cup 1",)),)


def test_the_clearance_counts_as_wall():
    assert faults(*RIGHT, clearance=(2, 0, 0)) == ()
    assert faults(*RIGHT, clearance=(2.001, 0, 0)) == (Fault(FaultKind.STICKS_OUT, ("cup 1",)),)


def test_a_missing_thing_is_found():
    assert faults(FIRST, CUP) == (Fault(FaultKind.MISSING, ("slab 2",)),)
    assert faults() == tuple(Fault(FaultKind.MISSING, (name,)) for name in ("slab 1", "slab 2", "cup 1"))


@pytest.mark.parametrize(
    "wrong",
    [
        replace(FIRST, size=(Fraction(6), Fraction(2), Fraction(4))),  # not lying flat
        replace(FIRST, size=(Fraction(6), Fraction(4), Fraction(1))),  # thinner than it is
        replace(FIRST, size=(Fraction(6), Fraction(4), Fraction(201, 100))),  # thicker than it is
    ],
)
def test_a_wrong_turn_or_size_is_found(wrong):
    assert Fault(FaultKind.WRONG_TURN, ("slab 1",)) in faults(wrong, SECOND, CUP)


def test_an_upright_thing_laid_down_is_found():
    lying = at("cup", 1, (0, 0, 2), (5, 3, 2))
    assert faults(FIRST, SECOND, lying) == (Fault(FaultKind.WRONG_TURN, ("cup 1",)),)


def test_a_thing_placed_once_too_often_is_found():
    third = at("slab", 3, (0, 0, 2), (6, 4, 2))
    assert faults(*RIGHT, third) == (Fault(FaultKind.SURPLUS, ("slab 3",)),)


def test_a_copy_placed_twice_is_found():
    again = at("cup", 1, (8, 0, 0), (2, 3, 5))
    assert faults(*RIGHT, again) == (Fault(FaultKind.SURPLUS, ("cup 1",)),)


def test_a_thing_nobody_asked_for_is_found():
    assert faults(*RIGHT, at("mug", 1, (8, 0, 0), (1, 1, 1))) == (Fault(FaultKind.SURPLUS, ("mug 1",)),)
