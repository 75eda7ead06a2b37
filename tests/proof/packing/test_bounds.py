import pytest

from kitwright.proof.packing import DoesNotFit, PackedThing, Proof, Space, Turns, pack


def refused(kinds, space):
    wanted = [PackedThing(str(number), size, quantity, Turns.ANY) for number, (quantity, size) in enumerate(kinds)]
    return pack(wanted, Space(*space), effort=0)


@pytest.mark.parametrize(
    ("kinds", "space", "proof"),
    [
        (((1, (5, 5, 5)),), (4, 9, 9), Proof.TOO_LONG),
        (((28, (1, 1, 1)),), (3, 3, 3), Proof.VOLUME),
        # 2 wide in 5 wide: only 4 of the 5 can be used, by sums of sizes; 9 cubes of 8 do not go into 64
        (((9, (2, 2, 2)),), (5, 5, 5), Proof.VOLUME),
        # two slabs, each over half of every side whichever way it lies: never beside, behind or above one another; 291 of 343
        (((2, (6, 6, 4)), (3, (1, 1, 1))), (7, 7, 7), Proof.SCALES),
        # 1x2x4 bricks in 6x6x6: de Bruijn 1969
        (((27, (1, 2, 4)),), (6, 6, 6), Proof.COLOURING),
        # 1x1x4 bars in 10x10x1 (the plane case): 25 of them have the volume, but the colours do not agree
        (((25, (1, 1, 4)),), (10, 10, 1), Proof.COLOURING),
    ],
)
def test_an_impossible_packing_is_refused_without_a_search_by_the_first_proof_that_holds(kinds, space, proof):
    answer = refused(kinds, space)
    assert isinstance(answer, DoesNotFit)
    assert answer.proof is proof
    assert answer.reason.endswith(".")


@pytest.mark.parametrize(
    ("kinds", "space"),
    [
        (((27, (1, 1, 1)),), (3, 3, 3)),
        (((8, (2, 2, 2)),), (5, 5, 5)),
        (((1, (6, 6, 4)), (1, (6, 6, 3)), (3, (1, 1, 1))), (7, 7, 7)),
        (((26, (1, 2, 4)),), (6, 6, 6)),
        (((24, (1, 1, 4)),), (10, 10, 1)),
        (((16, (1, 1, 4)),), (8, 8, 1)),
    ],
)
def test_its_feasible_neighbour_is_not_refused(kinds, space):
    assert not isinstance(refused(kinds, space), DoesNotFit)
