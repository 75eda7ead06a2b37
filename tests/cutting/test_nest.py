"""Blanks of any outline on the mats of a cutting machine: what is found is checked, and the check finds every kind of fault."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from shapely import Polygon

from kitwright.cutting import (
    FaultCode,
    Mat,
    MatLayout,
    NestedPlan,
    Nestling,
    Outlined,
    fewest_by_area,
    nest,
    verify_nested,
)
from kitwright.cutting.nest_fill import settled
from kitwright.cutting.nest_lattice import Kind, Lattice, Shadows
from kitwright.errors import Mistake

MAT = Mat(100.0, 100.0, 2.0)
L = Outlined("corner", ((0, 0), (40, 0), (40, 10), (10, 10), (10, 40), (0, 40)), 2, (0, 1, 2, 3))
STRIP = Outlined("strip", ((0, 0), (60, 0), (60, 20), (0, 20)), 1, (0,))
HARD = (
    L,
    replace(STRIP, count=5, turns=(0, 1)),
    Outlined("flag", ((0, 0), (50, 0), (30, 24), (0, 31)), 7, (0, 1, 2, 3)),
)
GOOD = NestedPlan(
    MAT,
    (
        MatLayout(
            (Nestling("corner", 0, 0.0, 0.0), Nestling("corner", 2, 60.0, 60.0), Nestling("strip", 0, 0.0, 70.0)), 1
        ),
    ),
    {},
)


def codes(plan: NestedPlan, *pieces: Outlined) -> set[FaultCode]:
    return {fault.code for fault in verify_nested(pieces or (L, STRIP), plan)}


def with_pieces(*pieces: Nestling, times: int = 1) -> NestedPlan:
    return NestedPlan(MAT, (MatLayout(pieces, times),), {})


def test_a_good_layout_has_no_fault_and_the_corners_lie_in_each_other() -> None:
    assert codes(GOOD) == set()
    assert Polygon(L.outline).envelope.intersects(GOOD.layouts[0].pieces[1].shape(L.outline).envelope)


@pytest.mark.parametrize(
    ("changed", "code"),
    [
        (Nestling("strip", 0, 40.1, 70.0), FaultCode.OVERHANG),
        (Nestling("strip", 0, -0.1, 70.0), FaultCode.OVERHANG),
        (Nestling("strip", 0, 0.0, 80.1), FaultCode.OVERHANG),
        (Nestling("strip", 0, 0.0, 61.9), FaultCode.OVERLAP),  # 1.9 mm above the turned corner
        (Nestling("strip", 0, 5.0, 5.0), FaultCode.OVERLAP),
        (Nestling("strip", 1, 99.0, 0.0), FaultCode.WRONG_TURN),
        (Nestling("flag", 0, 0.0, 70.0), FaultCode.UNKNOWN_PIECE),
    ],
)
def test_every_fault_of_a_piece_is_found(changed: Nestling, code: FaultCode) -> None:
    assert code in codes(with_pieces(*GOOD.layouts[0].pieces[:2], changed))


def test_a_gap_of_exactly_what_is_asked_is_enough() -> None:
    assert codes(with_pieces(*GOOD.layouts[0].pieces[:2], Nestling("strip", 0, 0.0, 62.0))) == set()


def test_too_few_too_many_and_a_layout_cut_no_times_are_found() -> None:
    assert codes(with_pieces(*GOOD.layouts[0].pieces[:2])) == {FaultCode.MISSING_PIECE}
    assert codes(with_pieces(*GOOD.layouts[0].pieces, times=2)) == {FaultCode.SURPLUS_PIECE}
    assert FaultCode.WRONG_TIMES in codes(with_pieces(*GOOD.layouts[0].pieces, times=0))
    assert FaultCode.SURPLUS_PIECE in codes(replace(GOOD, unplaced={"strip": 1}))
    assert codes(replace(GOOD, unreached={"strip": 1})) == {FaultCode.SURPLUS_PIECE}


def test_what_fits_on_a_mat_in_one_of_its_turns_must_not_be_said_to_fit_on_none() -> None:
    bar = Outlined("bar", ((0, 0), (120, 0), (120, 20), (0, 20)), 1, (0, 1))
    nothing = NestedPlan(MAT, (), {"bar": 1})
    assert codes(nothing, bar) == set()
    assert codes(replace(nothing, mat=Mat(20.0, 120.0, 2.0)), bar) == {FaultCode.NOT_TOO_LARGE}
    assert codes(replace(nothing, mat=Mat(20.0, 120.0, 2.0)), replace(bar, turns=(0, 2))) == set()


def test_pieces_with_their_corners_cut_away_lie_closer_than_their_rectangles() -> None:
    # Two corners of 40 × 40 in a room of 62 × 44: side by side their rectangles need 82 × 40
    found = nest((replace(L, count=2),), Mat(62.0, 44.0, 1.0))
    assert verify_nested((replace(L, count=2),), found) == ()
    assert found.mats == fewest_by_area((replace(L, count=2),), Mat(62.0, 44.0, 1.0)) == 1


def test_a_mat_is_cut_as_often_as_it_is_of_use_and_the_rest_lies_on_another() -> None:
    card = Outlined("card", ((0, 0), (90, 0), (90, 90), (0, 90)), 3)
    found = nest((card,), MAT)
    assert [(dict(each.counts), each.times) for each in found.layouts] == [({"card": 1}, 3)]
    assert verify_nested((card,), found) == ()


def test_what_is_larger_than_the_mat_is_told_and_a_stop_claims_nothing() -> None:
    large = Outlined("board", ((0, 0), (120, 0), (120, 20), (0, 20)), 4, (0, 1))
    assert nest((large,), MAT).unplaced == {"board": 4}
    stopped = nest((STRIP, large), MAT, tell=lambda _, __: False)
    assert (stopped.mats, stopped.unplaced, stopped.unreached) == (0, {"board": 4}, {"strip": 1})
    assert verify_nested((STRIP, large), stopped) == ()


def test_a_stop_is_heard_again_and_again_and_leaves_the_best_mats_so_far() -> None:
    told: list[tuple[int, float]] = []

    def tell(mats: int, share: float) -> bool:
        told.append((mats, share))
        return not mats

    stopped = nest(HARD, MAT, tell=tell)
    assert (stopped.unreached, verify_nested(HARD, stopped)) == ({}, ())
    assert told[-1][0] == stopped.mats > fewest_by_area(HARD, MAT)
    assert max(later - sooner for (_, sooner), (_, later) in pairwise(told)) < 0.01


def test_the_same_pieces_come_to_the_same_mats_however_busy_the_computer_is() -> None:
    def slow(_: int, __: float) -> bool:
        return sum(range(20_000)) > 0

    assert nest(HARD, MAT, work=100_000_000) == nest(HARD, MAT, tell=slow, work=100_000_000)


@pytest.mark.parametrize(
    ("side", "gap", "room"), [(149.0, 2.0, 300.0), (148.7, 2.6, 300.0), (50.8 / 3, 1.5875, 2 * 50.8 / 3 + 1.5875)]
)
def test_rectangles_that_fill_a_mat_exactly_go_onto_it(side: float, gap: float, room: float) -> None:
    square = Outlined("square", ((0, 0), (side, 0), (side, side), (0, side)), 4, (0, 1, 2, 3))
    found = nest((square,), Mat(room, room, gap))
    assert (found.mats, verify_nested((square,), found)) == (1, ())


@pytest.mark.parametrize("height", [98.1, 99.0, 100.0])
def test_pieces_nearly_as_high_as_the_mat_lie_beside_each_other(height: float) -> None:
    cards = (Outlined("card", ((0, 0), (48, 0), (48, height), (0, height)), 4),)
    found = nest(cards, MAT)
    assert (found.mats, verify_nested(cards, found)) == (2, ())


def test_what_only_just_fits_between_the_points_of_the_lattice_lies_on_a_mat_of_its_own() -> None:
    board = Outlined("board", ((0.003, 0), (100.008, 0), (100.008, 100.0), (0.003, 100.0)), 2)
    found = nest((board, STRIP), MAT)
    assert (found.mats, verify_nested((board, STRIP), found)) == (3, ())


def test_a_piece_that_fits_only_lying_down_is_turned_if_it_may_be() -> None:
    tall = Outlined("bar", ((0, 0), (20, 0), (20, 90), (0, 90)), 1, (0, 1))
    low = Mat(95.0, 25.0, 1.0)
    assert [each.turn for each in nest((tall,), low).layouts[0].pieces] == [1]
    assert nest((replace(tall, turns=(0,)),), low).unplaced == {"bar": 1}


@pytest.mark.parametrize(("width", "height", "gap"), [(0.0, 10.0, 1.0), (10.0, -1.0, 1.0), (10.0, 10.0, -0.1)])
def test_a_mat_without_room_is_refused(width: float, height: float, gap: float) -> None:
    with pytest.raises(Mistake):
        Mat(width, height, gap)


def test_pieces_are_moved_together_into_the_corner_of_the_mat() -> None:
    shadows = Shadows([Kind.of(STRIP)], MAT.gap, 1_000_000, lambda _: None)
    lattice = Lattice(shadows, MAT, is_turned=False)
    ((way,),) = lattice.ways
    assert settled(lattice, [(way, 30, 70), (way, 10, 40)]) == ((way, 0, 0), (way, 0, 22))


def test_small_pieces_on_a_very_large_mat_are_laid() -> None:
    dot = Outlined("dot", ((0, 0), (3.3, 0), (3.3, 3.17), (0, 3.17)), 3, (0, 1))
    found = nest((dot,), Mat(2000.0, 3000.0, 0.7))
    assert (found.mats, verify_nested((dot,), found)) == (1, ())
