"""Packings and impossibilities that others published, each with its source."""

from fractions import Fraction

import pytest

from kitwright.proof.packing import (
    DoesNotFit,
    Packed,
    PackedThing,
    Proof,
    Smallest,
    Space,
    Turns,
    Unknown,
    pack,
    smallest_inside,
    verify_packing,
)


def things(*kinds):
    return [PackedThing(str(size), size, number, Turns.ANY) for number, size in kinds]


def cube(edge):
    return Space(edge, edge, edge)


@pytest.mark.parametrize(
    ("kinds", "space"),
    [
        # Slothouber-Graatsma puzzle: six 1x2x2 and three unit cubes in 3x3x3
        (((6, (1, 2, 2)), (3, (1, 1, 1))), cube(3)),
        # eight 2x2x2 in 5x5x5, by the parity of cells
        (((8, (2, 2, 2)),), cube(5)),
        # five 1x2x3 in 1x5x6 (N. G. de Bruijn's figure; they are not all parallel)
        (((5, (1, 2, 3)),), Space(1, 5, 6)),
        # J. H. Conway's puzzle in 5x5x5
        (((13, (1, 2, 4)), (1, (2, 2, 2)), (1, (1, 2, 2)), (3, (1, 1, 3))), cube(5)),
        # 26 bricks 1x2x4 in 6x6x6: one fewer than de Bruijn's impossible 27
        (((26, (1, 2, 4)),), cube(6)),
    ],
)
def test_a_published_packing_is_found_and_holds(kinds, space):
    wanted = things(*kinds)
    answer = pack(wanted, space)
    assert isinstance(answer, Packed)
    assert verify_packing(wanted, space, answer.placements) == ()
    assert len(answer.placements) == sum(number for number, _ in kinds)


@pytest.mark.parametrize(
    ("kinds", "space", "proof"),
    [
        # two and nine 2x2x2, by the parity of cells (volumes 16 of 27 and 72 of 125 would do)
        (((2, (2, 2, 2)),), cube(3), Proof.VOLUME),
        (((9, (2, 2, 2)),), cube(5), Proof.VOLUME),
        # N. G. de Bruijn, Filling boxes with bricks, Amer. Math. Monthly 76 (1969) 37-40: 27 bricks 1x2x4 do not fill 6x6x6
        (((27, (1, 2, 4)),), cube(6), Proof.COLOURING),
    ],
)
def test_a_published_impossibility_is_proved(kinds, space, proof):
    answer = pack(things(*kinds), space)
    assert isinstance(answer, DoesNotFit)
    assert answer.proof is proof


def test_41_bricks_in_a_cube_of_7_are_not_said_to_be_impossible():
    # 41 bricks 1x2x4 in 7x7x7 are published as feasible
    assert not isinstance(pack(things((41, (1, 2, 4))), cube(7), effort=0.1), DoesNotFit)


def test_42_bricks_in_a_cube_of_7_are_not_said_to_fit():
    # published as infeasible; not decided here
    assert isinstance(pack(things((42, (1, 2, 4))), cube(7), effort=0.1), Unknown)


# OR-Library thpack1, problem 1 (people.brunel.ac.uk/~mastjjb/jeb/orlib/thpackinfo.html): 587 x 233 x 220, volumes 29736390
# of 30089620; a published heuristic packs 104 of the 112 boxes
CONTAINER = Space(587, 233, 220)


def test_the_boxes_of_a_container_benchmark_have_their_published_volume_and_are_not_refused():
    boxes = things((40, (108, 76, 30)), (33, (110, 43, 25)), (39, (92, 81, 55)))
    assert sum(box.quantity * box.size[0] * box.size[1] * box.size[2] for box in boxes) == 29736390
    assert not isinstance(pack(boxes, CONTAINER, effort=0), DoesNotFit)


def test_four_fifths_of_a_container_benchmark_are_packed():
    boxes = things((32, (108, 76, 30)), (26, (110, 43, 25)), (31, (92, 81, 55)))
    answer = pack(boxes, CONTAINER, effort=0)
    assert isinstance(answer, Packed)
    assert len(answer.placements) == 89


def test_the_smallest_height_over_a_3x3_floor_for_the_slothouber_graatsma_pieces_is_3():
    found = smallest_inside(things((6, (1, 2, 2)), (3, (1, 1, 1))), step=Fraction(1), most=cube(9), fixed=(3, 3, None))
    assert isinstance(found, Smallest)
    assert [*map(int, found.size)] == [3, 3, 3]
    assert found.is_proved
