from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.proof.packing import (
    DoesNotFit,
    PackedThing,
    Proof,
    Smallest,
    Space,
    Turns,
    board_area,
    pack,
    smallest_inside,
    verify_packing,
)

SIXTEENTH = Fraction(127, 80)
INCH = Fraction(127, 5)


def thing(*size, name="thing", quantity=1, turns=Turns.ANY):
    return PackedThing(name, size, quantity, turns)


def test_one_thing_needs_its_own_size_rounded_up_to_the_ruler():
    found = smallest_inside([thing(100, 50, 20, turns=Turns.UPRIGHT)], step=SIXTEENTH, most=Space(200, 200, 200))
    assert isinstance(found, Smallest)
    # 100 mm = 3.937 in -> 3 15/16 is 100.0125; 50 mm = 1.9685 in -> 2 in; 20 mm = 0.787 in -> 13/16
    assert sorted(side / INCH for side in found.size) == [Fraction(13, 16), 2, Fraction(63, 16)]
    assert found.is_proved


def test_the_clearance_is_added_before_rounding():
    found = smallest_inside(
        [thing(10, 10, 10)], step=Fraction(1), most=Space(50, 50, 50), clearance=(0.5, 1, Fraction(11, 10))
    )
    assert isinstance(found, Smallest)
    assert [*map(int, found.size)] == [11, 11, 12]


def test_a_size_that_is_on_a_mark_stays_on_it():
    found = smallest_inside([thing(INCH, 2 * INCH, 25.4)], step=SIXTEENTH, most=Space(99, 99, 99))
    assert isinstance(found, Smallest)
    assert sorted(found.size) == [INCH, INCH, 2 * INCH]


def test_fixed_sides_stay_even_between_marks():
    found = smallest_inside(
        [thing(10, 10, 3, quantity=4, turns=Turns.FLAT)],
        step=Fraction(1),
        most=Space(99, 99, 99),
        fixed=(20.5, 10.25, None),
    )
    assert isinstance(found, Smallest)
    assert found.size == (Fraction(41, 2), Fraction(41, 4), Fraction(6))
    assert found.is_proved


def test_nine_cubes_are_put_two_by_six_by_six_rather_than_into_a_row():
    # of 2x2x18, 2x6x6 the surface decides: 152 against 120
    found = smallest_inside([thing(2, 2, 2, quantity=9)], step=Fraction(1), most=Space(20, 20, 20))
    assert isinstance(found, Smallest)
    assert sorted(map(int, found.size)) == [2, 6, 6]
    assert board_area(found.size) == 120
    assert found.is_proved


def test_another_measure_gives_another_size():
    least_floor = smallest_inside(
        [thing(2, 2, 2, quantity=9)],
        step=Fraction(1),
        most=Space(20, 20, 20),
        measure=lambda size: 100 * size[0] * size[1] + size[2],
    )
    assert isinstance(least_floor, Smallest)
    assert [*map(int, least_floor.size)] == [2, 2, 18]


def test_things_too_large_for_the_largest_size_do_not_fit():
    found = smallest_inside([thing(10, 10, 10)], step=Fraction(1), most=Space(9.9, 50, 50))
    assert isinstance(found, DoesNotFit)
    assert found.proof is Proof.TOO_LONG


def test_a_kit_of_odd_sizes_is_packed_tightly_and_checked():
    kit = [
        thing(152.4, 101.6, 22.3, name="stack", turns=Turns.FLAT),
        thing(177.8, 8, 8, name="pencil", quantity=2),
        thing(76, 76, 6, name="pad"),
        thing(30, 30, 95, name="glue"),
        thing(50, 30, 5, name="dots", quantity=3),
    ]
    found = smallest_inside(
        kit, step=SIXTEENTH, most=Space(254, 254, 101.6), fixed=(8 * INCH, 5 * INCH, None), clearance=3.2
    )
    assert isinstance(found, Smallest)
    assert found.size[2] == 21 * SIXTEENTH  # 30 mm glue and 3.2 mm of play: 33.2 -> 1 5/16 in = 33.34 mm
    assert found.is_proved
    assert verify_packing(kit, Space(*found.size), found.packing.placements, clearance=(3.2, 3.2, 3.2)) == ()


def test_where_there_are_too_many_sides_to_look_at_all_nothing_is_claimed_to_be_least():
    # 40 marks each way are more than are looked at, though volume alone rules out all that are smaller
    found = smallest_inside([thing(1, 1, 1, quantity=64)], step=Fraction(1), most=Space(40, 40, 40))
    assert isinstance(found, Smallest)
    assert board_area(found.size) == 96
    assert not found.is_proved


def test_where_a_smaller_size_stays_undecided_nothing_is_claimed_to_be_least():
    # J. H. Conway's pieces go into 5x5x5, but not without a search
    pieces = [thing(1, 2, 4, name="a", quantity=13), thing(2, 2, 2, name="b"), thing(1, 2, 2, name="c")]
    pieces.append(thing(1, 1, 3, name="d", quantity=3))
    most = Space(5, 5, 8)
    hasty = smallest_inside(pieces, step=Fraction(1), most=most, fixed=(5, 5, None), effort=0)
    assert isinstance(hasty, Smallest)
    assert (hasty.size[2] > 5, hasty.is_proved) == (True, False)
    patient = smallest_inside(pieces, step=Fraction(1), most=most, fixed=(5, 5, None))
    assert isinstance(patient, Smallest)
    assert (int(patient.size[2]), patient.is_proved) == (5, True)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"step": Fraction(0)}, "step"),
        ({"fixed": (0, None, None)}, "fixed side"),
        ({"step": Fraction(100)}, "one mark"),
        ({"clearance": -1}, "below zero"),
    ],
)
def test_a_question_that_makes_no_sense_is_refused(change, words):
    with pytest.raises(Mistake, match=words):
        smallest_inside([thing(1, 1, 1)], **{"step": Fraction(1), "most": Space(9, 9, 9), **change})


sizes = st.tuples(*[st.integers(1, 3)] * 3)


@settings(deadline=None, max_examples=12)
@given(st.lists(sizes, min_size=1, max_size=3))
def test_a_size_proved_smallest_is_smallest_of_all(each):
    parts = [thing(*size, name=str(number)) for number, size in enumerate(each)]
    found = smallest_inside(parts, step=Fraction(1), most=Space(6, 6, 6))
    assert isinstance(found, Smallest)
    if found.is_proved:
        area = board_area(found.size)
        smaller = [
            size
            for size in product(range(1, 7), repeat=3)
            if board_area((Fraction(size[0]), Fraction(size[1]), Fraction(size[2]))) < area
            and list(size) == sorted(size)
        ]
        assert all(isinstance(pack(parts, Space(*size)), DoesNotFit) for size in smaller)
