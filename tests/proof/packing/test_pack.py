from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.proof.packing import (
    DoesNotFit,
    Packed,
    PackedThing,
    Proof,
    Space,
    Turns,
    Unknown,
    pack,
    verify_packing,
)
from kitwright.proof.packing.build import Laid, push_together


def thing(*size, name="thing", quantity=1, turns=Turns.ANY):
    return PackedThing(name, size, quantity, turns)


def fits(item, space, **more):
    return isinstance(pack([item], space, **more), Packed)


# Turns


@pytest.mark.parametrize(
    ("turns", "space", "does_fit"),
    [
        (Turns.ANY, Space(2, 3, 5), True),
        (Turns.ANY, Space(5, 2, 3), True),
        (Turns.UPRIGHT, Space(5, 3, 2), True),
        (Turns.UPRIGHT, Space(3, 5, 2), True),
        (Turns.UPRIGHT, Space(5, 2, 3), False),
        (Turns.FLAT, Space(5, 3, 2), True),
        (Turns.FLAT, Space(3, 5, 2), True),
        (Turns.FLAT, Space(5, 2, 3), False),
    ],
)
def test_a_thing_is_turned_only_as_it_may_be(turns, space, does_fit):
    assert fits(thing(5, 3, 2, turns=turns), space) is does_fit


def test_a_thing_that_stands_on_its_short_side_stays_so_when_upright():
    tall = thing(30, 20, 90, turns=Turns.UPRIGHT)
    assert fits(tall, Space(20, 30, 90))
    assert not fits(tall, Space(90, 90, 30))


def test_a_cube_may_lie_flat_on_any_side():
    assert len(thing(2, 2, 2, turns=Turns.FLAT).ways) == 1
    assert len(thing(2, 2, 3, turns=Turns.FLAT).ways) == 2


# Sizes and clearances


@pytest.mark.parametrize(("clearance", "does_fit"), [(0, True), (0.5, True), (0.500002, False), ((0.5, 1, 2), True)])
def test_the_clearance_is_free_play_in_all_each_way(clearance, does_fit):
    assert fits(thing(10, 9, 8), Space(10.5, 10, 10), clearance=clearance) is does_fit


def test_a_clearance_larger_than_the_space_leaves_none():
    answer = pack([thing(1, 1, 1)], Space(5, 5, 5), clearance=5)
    assert isinstance(answer, DoesNotFit)
    assert answer.reason == "The clearance leaves no space at all."


def test_a_row_of_things_fits_exactly_without_decimal_dust():
    # 0.1 + 0.1 + 0.1 is not 0.3 in binary
    assert fits(thing(0.1, 1, 1, quantity=3), Space(0.3, 1, 1))
    assert fits(thing(25.4 / 64, 1, 1, quantity=10), Space(3.96875, 1, 1))


def test_a_row_of_things_a_hair_too_long_does_not_fit():
    answer = pack([thing(0.1, 1, 1, quantity=3)], Space(0.299999, 1, 1))
    assert isinstance(answer, DoesNotFit)


def test_sizes_are_rounded_up_and_the_space_down_to_nanometres():
    assert not fits(thing(Fraction(1, 3), 1, 1, quantity=3), Space(1, 1, 1))
    assert fits(thing(Fraction(1, 3), 1, 1, quantity=3), Space(1.00001, 1, 1))


def test_placements_are_exact_millimetres_and_number_the_copies():
    answer = pack([thing(Fraction(127, 5), 10, 10, quantity=2)], Space(Fraction(254, 5), 10, 10))
    assert isinstance(answer, Packed)
    nought = Fraction(0)
    assert [(each.name, each.copy, each.corner) for each in answer.placements] == [
        ("thing", 1, (nought, nought, nought)),
        ("thing", 2, (Fraction(127, 5), nought, nought)),
    ]


def test_nothing_hangs_in_the_air():
    parts = [thing(60, 40, 20, name="a"), thing(30, 30, 30, name="b", quantity=2), thing(10, 70, 5, name="c")]
    answer = pack(parts, Space(90, 80, 70))
    assert isinstance(answer, Packed)
    for each in answer.placements:
        below = [
            other
            for other in answer.placements
            if other.corner[2] + other.size[2] == each.corner[2]
            and all(
                other.corner[a] < each.corner[a] + each.size[a] and each.corner[a] < other.corner[a] + other.size[a]
                for a in (0, 1)
            )
        ]
        assert each.corner[2] == 0 or below


def test_a_hanging_thing_is_pushed_down_to_the_front_and_to_the_left():
    hanging = (Laid(0, (4, 5, 6), (2, 2, 2)), Laid(1, (0, 0, 0), (3, 9, 1)), Laid(2, (7, 0, 0), (1, 9, 5)))
    pushed = push_together(hanging)
    assert [each.corner for each in pushed] == [(3, 0, 0), (0, 0, 0), (5, 0, 0)]


# The three answers


def test_a_thing_that_is_too_long_is_named():
    answer = pack([thing(1, 1, 1, name="dot"), thing(7, 0.3, 0.3, name="pencil")], Space(5, 5, 1))
    assert answer == DoesNotFit(Proof.TOO_LONG, "pencil alone is too large for it, whichever way it may be turned.")


def test_a_pencil_across_the_diagonal_does_not_count_sides_stay_parallel():
    assert not fits(thing(7, 0.3, 0.3), Space(5.5, 5.5, 1))


def test_things_that_can_only_be_ruled_out_by_searching_are_ruled_out_by_searching():
    # checked by trying every place below: neither volume nor scales nor colours tell
    sizes = [(4, 2, 1)] * 2 + [(3, 1, 2)] * 2 + [(2, 2, 4)]
    assert not goes_in(sizes, (3, 3, 5))
    parts = [thing(4, 2, 1, name="a", quantity=2), thing(3, 1, 2, name="b", quantity=2), thing(2, 2, 4, name="c")]
    assert isinstance(pack(parts, Space(3, 3, 5), effort=0), Unknown)
    answer = pack(parts, Space(3, 3, 5))
    assert isinstance(answer, DoesNotFit)
    assert answer.proof is Proof.SEARCH


def test_without_effort_a_hard_question_stays_unknown_and_says_what_holds():
    hard = [thing(1, 2, 4, name="a", quantity=13), thing(2, 2, 2, name="b"), thing(1, 2, 2, name="c")]
    hard.append(thing(1, 1, 3, name="d", quantity=3))
    answer = pack(hard, Space(5, 5, 5), effort=0)
    assert answer == Unknown(
        (
            "Each thing alone goes in.",
            "Together the things take up 100.0 % of the space, so that their volume does not rule it out.",
            "No packing was found, and no proof that there is none.",
        )
    )


def test_the_same_question_has_the_same_answer():
    parts = [thing(31, 22, 13, name="a", quantity=3), thing(40, 17, 9, name="b", quantity=4)]
    space = Space(65, 45, 40)
    assert pack(parts, space) == pack(parts, space)


def test_two_hundred_different_extras_are_packed():
    extras = [thing(5 + i % 17, 6 + i % 11, 7 + i % 7, name=f"extra {i}") for i in range(200)]
    space = Space(100, 90, 60)
    answer = pack(extras, space)
    assert isinstance(answer, Packed)
    assert verify_packing(extras, space, answer.placements) == ()


# Mistakes


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda: pack([], Space(1, 1, 1)), "nothing to pack"),
        (lambda: pack([thing(1, 1, 1), thing(2, 1, 1)], Space(9, 9, 9)), "Two things are called 'thing'"),
        (lambda: pack([thing(1, 1, 1)], Space(9, 9, 9), clearance=-0.1), "below zero"),
        (lambda: thing(0, 1, 1), "no size that can be packed"),
        (lambda: thing(float("nan"), 1, 1), "no size that can be packed"),
        (lambda: thing(1, 1, 20_000), "no size that can be packed"),
        (lambda: thing(1, 1, 1, quantity=0), "packed 0 times"),
        (lambda: Space(1, 0, 1), "larger than zero"),
    ],
)
def test_a_question_that_makes_no_sense_is_refused(ask, words):
    with pytest.raises(Mistake, match=words):
        ask()


# Against two independent truths: spaces that were cut up, and every placement tried one by one


@settings(deadline=None, max_examples=40)
@given(st.tuples(*[st.integers(2, 9)] * 3), st.data())
def test_the_pieces_of_a_space_that_was_cut_up_are_never_said_not_to_fit(box, data):
    pieces = [box]
    for _ in range(data.draw(st.integers(1, 7))):
        piece = pieces.pop(data.draw(st.integers(0, len(pieces) - 1)))
        axis = data.draw(st.sampled_from([a for a in (0, 1, 2) if piece[a] > 1] or [0]))
        if piece[axis] == 1:
            pieces.append(piece)
            continue
        at = data.draw(st.integers(1, piece[axis] - 1))
        pieces.extend(
            tuple(part if a == axis else edge for a, edge in enumerate(piece)) for part in (at, piece[axis] - at)
        )
    turned = [tuple(data.draw(st.permutations(piece))) for piece in pieces]
    parts = [thing(*size, name=str(number)) for number, size in enumerate(turned)]
    space = Space(*box)
    answer = pack(parts, space, effort=0.2)
    assert not isinstance(answer, DoesNotFit)
    if isinstance(answer, Packed):
        assert verify_packing(parts, space, answer.placements) == ()


def goes_in(sizes, space):
    """Whether boxes of whole sizes go into a small whole space: every place of every turn, one box after another."""
    free = set(product(*(range(edge) for edge in space)))

    def place(rest, free):
        if not rest:
            return True
        for way in set(product(*[rest[0]] * 3)):
            if sorted(way) != sorted(rest[0]):
                continue
            for corner in product(*(range(edge - own + 1) for edge, own in zip(space, way, strict=True))):
                cells = set(product(*(range(at, at + own) for at, own in zip(corner, way, strict=True))))
                if cells <= free and place(rest[1:], free - cells):
                    return True
        return False

    return place(sorted(sizes, key=lambda size: -size[0] * size[1] * size[2]), free)


small = st.tuples(*[st.integers(1, 3)] * 3)


@settings(deadline=None, max_examples=40)
@given(st.lists(small, min_size=1, max_size=4), st.tuples(*[st.integers(2, 4)] * 3))
def test_small_questions_are_answered_as_by_trying_everything(sizes, space):
    parts = [thing(*size, name=str(number)) for number, size in enumerate(sizes)]
    answer = pack(parts, Space(*space), effort=5)
    assert isinstance(answer, Packed if goes_in(sizes, space) else DoesNotFit)
