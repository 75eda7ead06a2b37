"""The verifier finds every kind of fault, and none in a right plan."""

from dataclasses import replace

import pytest

from kitwright.cutting import (
    ANY_TURN,
    UPRIGHT,
    Axis,
    Bound,
    Cut,
    CutPlan,
    CutTree,
    FaultCode,
    Fork,
    Layout,
    Margins,
    Objective,
    Offcut,
    Part,
    PieceType,
    Placement,
    Reason,
    Stock,
    TrimmerLimits,
    Unplaced,
    can_be_cut_through,
    placements,
    verify_placements,
    verify_plan,
)

SHEET = Stock("sheet", 12, 12, count=2, price=80)
CARD = PieceType("card", 5, 7, count=3, turns=ANY_TURN, stocks=("sheet",))
BAND = PieceType("band", 7, 2, count=1, turns=UPRIGHT)
TREE = Cut(
    Axis.HORIZONTAL,
    5,
    Cut(Axis.VERTICAL, 7, Part("card", 1), Offcut()),
    Cut(
        Axis.VERTICAL,
        5,
        Part("card", 0),
        Cut(Axis.HORIZONTAL, 5, Part("card", 1), Part("band", 0)),
    ),
)
PLAN = CutPlan(
    layouts=(Layout(SHEET, TREE, 1),),
    unplaced=(),
    objective=Objective.COST,
    value=80,
    bound=Bound(80, 144, (("band", 14 * 80), ("card", 35 * 80)), ()),
)


def codes(
    plan: CutPlan,
    *,
    demand: tuple[PieceType, ...] = (CARD, BAND),
    stocks: tuple[Stock, ...] = (SHEET,),
    trimmer: TrimmerLimits | None = None,
) -> set[FaultCode]:
    return {fault.code for fault in verify_plan(demand, stocks, plan, trimmer)}


def with_tree(tree: CutTree, *, unplaced: tuple[Unplaced, ...] = ()) -> CutPlan:
    return replace(PLAN, layouts=(Layout(SHEET, tree, 1),), unplaced=unplaced)


def test_a_right_plan_has_no_fault() -> None:
    assert codes(PLAN) == set()


def test_a_one_way_print_that_was_turned_is_found() -> None:
    turned = Cut(Axis.HORIZONTAL, 2, Cut(Axis.VERTICAL, 7, Part("band", 2), Offcut()), Offcut())
    assert codes(with_tree(turned, unplaced=(Unplaced("card", 3, Reason.STOPPED),))) == {FaultCode.WRONG_TURN}


def test_a_piece_of_the_wrong_size_is_found() -> None:
    assert codes(with_tree(replace(TREE, at=6))) == {FaultCode.WRONG_SIZE}


@pytest.mark.parametrize("at", [0, -1, 12, 13])
def test_a_cut_outside_its_area_is_found(at: int) -> None:
    found = codes(with_tree(Cut(Axis.VERTICAL, at, Offcut(), Offcut())))
    assert FaultCode.CUT_OUTSIDE in found


def test_a_missing_piece_is_found() -> None:
    assert codes(with_tree(replace(TREE, low=Offcut()))) == {FaultCode.MISSING_PIECE}


def test_a_surplus_piece_is_found() -> None:
    assert codes(PLAN, demand=(replace(CARD, count=2), BAND)) == {FaultCode.SURPLUS_PIECE}


def test_a_piece_that_is_placed_and_called_unplaced_is_found() -> None:
    assert codes(replace(PLAN, unplaced=(Unplaced("band", 1, Reason.STOPPED),))) == {FaultCode.SURPLUS_PIECE}


def test_an_unknown_piece_is_found() -> None:
    strange = Cut(Axis.HORIZONTAL, 5, Cut(Axis.VERTICAL, 7, Part("card", 1), Part("star", 0)), TREE.high)
    assert codes(with_tree(strange)) == {FaultCode.UNKNOWN_PIECE}


def test_a_stock_that_a_piece_may_not_come_from_is_found() -> None:
    other = replace(SHEET, name="other")
    card = replace(CARD, stocks=("other",))
    assert codes(PLAN, demand=(card, BAND), stocks=(SHEET, other)) == {FaultCode.FORBIDDEN_STOCK}


def test_an_unknown_stock_is_found() -> None:
    assert FaultCode.UNKNOWN_STOCK in codes(PLAN, stocks=(replace(SHEET, width=13, height=13),))


def test_more_sheets_than_there_are_is_found() -> None:
    half = replace(CARD, count=9)
    plan = replace(
        PLAN,
        layouts=(Layout(SHEET, TREE, 3),),
        value=240,
        bound=Bound(160, 144, (("band", 14 * 80), ("card", 35 * 80)), ()),
    )
    found = codes(plan, demand=(half, replace(BAND, count=3)))
    assert FaultCode.TOO_MANY_SHEETS in found


def test_a_layout_that_is_never_cut_is_found() -> None:
    assert FaultCode.WRONG_TIMES in codes(replace(PLAN, layouts=(*PLAN.layouts, Layout(SHEET, Offcut(), 0))))


def test_a_cut_longer_than_the_trimmer_is_found() -> None:
    assert codes(PLAN, trimmer=TrimmerLimits(longest_cut=11)) == {FaultCode.CUT_TOO_LONG}
    assert codes(PLAN, trimmer=TrimmerLimits(longest_cut=12)) == set()


def test_margins_that_the_trimmer_cannot_cut_away_are_found() -> None:
    long = Stock("sheet", 20, 13, 2, 80, Margins(0, 1, 8, 0))
    plan = replace(PLAN, layouts=(Layout(long, TREE, 1),))
    assert FaultCode.CUT_TOO_LONG in codes(plan, stocks=(long,), trimmer=TrimmerLimits(longest_cut=12))
    assert codes(plan, stocks=(long,), trimmer=TrimmerLimits(longest_cut=13)) == set()


def test_a_cut_that_leaves_nothing_to_hold_is_found() -> None:
    assert codes(PLAN, trimmer=TrimmerLimits(smallest_strip=5)) == set()
    assert codes(PLAN, trimmer=TrimmerLimits(smallest_strip=6)) == {FaultCode.STRIP_TOO_NARROW}


def test_a_wrong_sum_is_found() -> None:
    assert codes(replace(PLAN, value=79)) == {FaultCode.WRONG_VALUE}


def test_a_wrong_objective_is_found() -> None:
    assert codes(replace(PLAN, objective=Objective.SHEETS)) == {FaultCode.WRONG_OBJECTIVE}


def test_a_bound_that_its_certificate_does_not_give_is_found() -> None:
    assert codes(replace(PLAN, bound=replace(PLAN.bound, value=160))) == {FaultCode.WRONG_BOUND}


def test_a_certificate_that_values_pieces_too_high_is_found() -> None:
    greedy = Bound(160, 144, (("card", 60 * 80),), ())
    assert codes(replace(PLAN, bound=greedy)) == {FaultCode.BOUND_NOT_PROVED}


def test_a_certificate_checked_piece_by_piece_is_accepted_although_area_alone_would_refuse_it() -> None:
    # Three 5 × 7 at most from 12 × 12 by through cuts (published crafters' tip; geometry), so each is worth a third of a sheet.
    sheet = Stock("sheet", 12, 12)
    card = PieceType("card", 5, 7, count=10, turns=ANY_TURN)
    third = Bound(4, 3, (("card", 1),), ())
    plan = CutPlan((), (Unplaced("card", 10, Reason.STOPPED),), Objective.SHEETS, 0, third)
    assert codes(plan, demand=(card,), stocks=(sheet,)) == set()
    half = Bound(5, 2, (("card", 1),), ())
    assert codes(replace(plan, bound=half), demand=(card,), stocks=(sheet,)) == {FaultCode.BOUND_NOT_PROVED}


def test_a_certificate_that_counts_pieces_is_checked_with_no_more_of_them_than_are_wanted() -> None:
    # One band of six and one of five do not go onto ten, but two of five would.
    sheet = Stock("sheet", 10, 10)
    six, five = PieceType("six", 10, 6, 1, UPRIGHT), PieceType("five", 10, 5, 1, UPRIGHT)
    bound = Bound(2, 1, (("five", 1), ("six", 1)), counted=("five",))
    plan = CutPlan(
        (), tuple(Unplaced(each.name, 1, Reason.STOPPED) for each in (six, five)), Objective.SHEETS, 0, bound
    )
    assert codes(plan, demand=(six, five), stocks=(sheet,)) == set()
    for counted in ((), ("six",)):
        changed = replace(plan, bound=replace(bound, counted=counted))
        assert codes(changed, demand=(six, five), stocks=(sheet,)) == {FaultCode.BOUND_NOT_PROVED}
    left = (*plan.unplaced[:1], replace(plan.unplaced[1], count=2))
    two = replace(plan, unplaced=left, bound=replace(bound, value=3))
    assert codes(two, demand=(six, replace(five, count=2)), stocks=(sheet,)) == {FaultCode.BOUND_NOT_PROVED}


def test_a_certificate_with_numbers_below_zero_is_refused() -> None:
    assert codes(replace(PLAN, bound=replace(PLAN.bound, worth=(("card", -1),)))) == {FaultCode.BOUND_NOT_PROVED}


def test_a_certificate_may_value_a_piece_at_nothing() -> None:
    # three cards of 35 on a sheet of 144, paid for by whole sheets
    bound = Bound(80, 144, (("band", 0), ("card", 35 * 80)), ())
    assert codes(replace(PLAN, bound=bound)) == set()


def test_rent_for_a_stock_without_a_count_is_refused() -> None:
    endless = replace(SHEET, count=None)
    plan = replace(PLAN, layouts=(Layout(endless, TREE, 1),), bound=replace(PLAN.bound, rent=(("sheet", 1),)))
    assert codes(plan, stocks=(endless,)) == {FaultCode.BOUND_NOT_PROVED}


def test_a_certificate_in_whole_steps_is_checked_however_little_the_pieces_are_worth() -> None:
    # four to a sheet, so each is worth a quarter of it, in steps of ten
    sheet, card = Stock("sheet", 104, 100), PieceType("card", 50, 50, count=8, turns=ANY_TURN)
    plan = CutPlan(
        (), (Unplaced("card", 8, Reason.STOPPED),), Objective.SHEETS, 0, Bound(2, 4, (("card", 1),), step=10)
    )
    assert codes(plan, demand=(card,), stocks=(sheet,)) == set()
    assert codes(replace(plan, bound=replace(plan.bound, step=60)), demand=(card,), stocks=(sheet,)) == {
        FaultCode.BOUND_NOT_PROVED
    }


def test_a_bound_of_sheets_that_cost_nothing_is_checked_to_the_last_whole_number() -> None:
    # three to a sheet: the fourth card cannot be cut, whatever one pays
    free, paid = Stock("offcut", 12, 12, count=1, price=0), Stock("sheet", 12, 12, count=0, price=80)
    card = PieceType("card", 5, 7, count=4, turns=ANY_TURN)
    bound = Bound(1, 1, (("card", 1),), (("offcut", 3),))
    plan = CutPlan((), (Unplaced("card", 4, Reason.STOPPED),), Objective.COST, 0, bound)
    assert codes(plan, demand=(card,), stocks=(paid, free)) == set()


def test_a_bound_by_cases_is_checked_in_every_case() -> None:
    # Ten cards, three to a sheet at most: with three sheets or fewer they cannot all be cut, with four or more four are paid for.
    sheet = Stock("sheet", 12, 12)
    card = PieceType("card", 5, 7, count=10, turns=ANY_TURN)
    few, many = Bound(4, 1, (("card", 1),), (("sheet", 2),)), Bound(4, 1, (), (("sheet", -1),))
    plan = CutPlan((), (Unplaced("card", 10, Reason.STOPPED),), Objective.SHEETS, 0, Bound(4, 1, ()), 1)

    def faults(fork: Fork, value: int = 4) -> set[FaultCode]:
        return codes(replace(plan, bound=Bound(value, 1, (), fork=fork)), demand=(card,), stocks=(sheet,))

    assert faults(Fork("sheet", 3, few, many)) == set()
    assert faults(Fork("sheet", 3, few, many), value=5) == {FaultCode.WRONG_BOUND}
    assert faults(Fork("plate", 3, few, many)) == {FaultCode.BOUND_NOT_PROVED}
    assert faults(Fork("sheet", 4, few, many)) == {FaultCode.WRONG_BOUND}  # the cases are not those that were proved
    assert faults(Fork("sheet", 3, replace(few, worth=(("card", 2),)), many)) == {
        FaultCode.WRONG_BOUND,
        FaultCode.BOUND_NOT_PROVED,
    }


def lying(*boxes: tuple[int, int, int, int]) -> tuple[Placement, ...]:
    return tuple(Placement("card", 0, *box) for box in boxes)


PINWHEEL = lying((0, 0, 5, 7), (5, 0, 7, 5), (7, 5, 5, 7), (0, 7, 7, 5))


def test_the_pinwheel_of_four_5_by_7_in_12_by_12_is_refused() -> None:
    # Published crafters' tip and geometry: 5 + 7 = 12, a 2 × 2 hole in the middle, no cut from edge to edge.
    assert not can_be_cut_through(PINWHEEL)
    assert [fault.code for fault in verify_placements(12, 12, PINWHEEL)] == [FaultCode.NO_THROUGH_CUT]


def test_three_of_the_pinwheel_can_be_cut() -> None:
    assert verify_placements(12, 12, PINWHEEL[:3]) == ()


def test_overlapping_pieces_are_found() -> None:
    faults = verify_placements(12, 12, lying((0, 0, 5, 7), (4, 6, 5, 5)))
    assert [fault.code for fault in faults] == [FaultCode.OVERLAP]


def test_a_piece_over_the_edge_is_found() -> None:
    assert [fault.code for fault in verify_placements(12, 12, lying((8, 0, 5, 7)))] == [FaultCode.OVERHANG]


def test_placements_are_read_off_the_tree_in_sheet_coordinates() -> None:
    sheet = Stock("sheet", 14, 15, 2, 80, Margins(left=1, bottom=2, right=1, top=1))
    assert placements(Layout(sheet, TREE, 1)) == (
        Placement("card", 1, 1, 2, 7, 5),
        Placement("card", 0, 1, 7, 5, 7),
        Placement("card", 1, 6, 7, 7, 5),
        Placement("band", 0, 6, 12, 7, 2),
    )
