"""What a plan does not cut needs a reason that holds: each wrong one is found, and no right one is."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.cutting import (
    ANY_TURN,
    UPRIGHT,
    Axis,
    Bound,
    Cut,
    CutPlan,
    FaultCode,
    Layout,
    Margins,
    Objective,
    Offcut,
    Part,
    PieceType,
    Reason,
    Stock,
    TrimmerLimits,
    Unplaced,
    lay_out,
    verify_plan,
)
from kitwright.cutting.plan import Effort
from kitwright.cutting.unplaced_check import can_come_from

CARD = PieceType("card", 10, 10, 3, UPRIGHT)
NOTHING_PROVED = Bound(0, 1, ())
NO_SEARCH = Effort(rounds=0, patterns=0, nodes=0, steps=0, work=10**6, work_a_piece=10**6)


def found(
    entry: Unplaced,
    *stocks: Stock,
    piece: PieceType = CARD,
    layouts: tuple[Layout, ...] = (),
    trimmer: TrimmerLimits | None = None,
) -> set[FaultCode]:
    """What is wrong with a plan that says this, besides its bound."""
    plan = CutPlan(layouts, (entry,), Objective.SHEETS, sum(each.times for each in layouts), NOTHING_PROVED)
    faults = {fault.code for fault in verify_plan((piece,), stocks, plan, trimmer)}
    return faults - {FaultCode.WRONG_BOUND}


@pytest.mark.parametrize("reason", [Reason.TOO_LARGE, Reason.NO_STOCK, Reason.USED_UP, Reason.OUT_OF_REACH])
def test_a_plan_that_cuts_nothing_although_there_is_paper_is_found(reason: Reason) -> None:
    assert found(Unplaced("card", 3, reason, "sheet"), Stock("sheet", 300, 300)) == {FaultCode.CAN_BE_PLACED}


def test_a_search_that_was_stopped_claims_nothing() -> None:
    assert found(Unplaced("card", 3, Reason.STOPPED), Stock("sheet", 300, 300)) == set()


def test_a_piece_that_is_too_large_is_so_by_just_the_lengths_that_are_told() -> None:
    sheet = Stock("sheet", 12, 9, margins=Margins(left=1, bottom=2))
    right = Unplaced("card", 3, Reason.TOO_LARGE, "sheet", 0, 0, 3)
    assert found(right, sheet) == set()
    for wrong in ({"over_width": 1}, {"over_height": 2}, {"stock": "other"}, {"turn": 1}):
        assert found(replace(right, **wrong), sheet) == {FaultCode.CAN_BE_PLACED}


def test_paper_is_used_up_only_when_no_sheet_and_no_offcut_is_left_that_gives_the_piece() -> None:
    sheet = Stock("sheet", 25, 10, count=1)
    two = Cut(Axis.VERTICAL, 10, Part("card", 0), Cut(Axis.VERTICAL, 10, Part("card", 0), Offcut()))
    one = Cut(Axis.VERTICAL, 10, Part("card", 0), Offcut())
    short = Unplaced("card", 1, Reason.USED_UP)
    assert found(short, sheet, layouts=(Layout(sheet, two, 1),)) == set()
    assert found(replace(short, count=2), sheet, layouts=(Layout(sheet, one, 1),)) == {FaultCode.CAN_BE_PLACED}
    strips = Cut(Axis.VERTICAL, 10, Offcut(), Cut(Axis.VERTICAL, 5, Offcut(), Part("card", 0)))
    assert found(replace(short, count=2), sheet, layouts=(Layout(sheet, strips, 1),)) == {FaultCode.CAN_BE_PLACED}
    more = replace(sheet, count=2)
    assert found(short, more, layouts=(Layout(more, two, 1),)) == {FaultCode.CAN_BE_PLACED}
    other = Stock("other", 9, 30)
    assert found(short, sheet, other, layouts=(Layout(sheet, two, 1),)) == set()


def test_paper_is_out_of_reach_only_when_there_is_some_that_is_large_enough() -> None:
    sheet, small = Stock("sheet", 30, 30, count=1), Stock("small", 5, 30)
    reach = TrimmerLimits(longest_cut=20)
    told = Unplaced("card", 3, Reason.OUT_OF_REACH, "sheet")
    assert found(told, sheet, small, trimmer=reach) == set()
    assert found(replace(told, stock="small"), sheet, small, trimmer=reach) == {FaultCode.CAN_BE_PLACED}
    assert found(replace(told, reason=Reason.USED_UP), sheet, small, trimmer=reach) == {FaultCode.CAN_BE_PLACED}


@pytest.mark.parametrize("turn", [0, 1, 2, 3])
def test_what_is_told_of_a_piece_holds_as_it_lies_and_within_the_margins(turn: int) -> None:
    """A piece of 10 × 7 on a sheet of which 9 × 8 can be used: too wide by 1, or turned, too high by 2."""
    sheet = Stock("sheet", 12, 12, margins=Margins(left=1, right=2, bottom=1, top=3))
    piece = PieceType("card", 10, 7, 3, (turn,))
    over = (0, 2) if turn % 2 else (1, 0)
    assert found(Unplaced("card", 3, Reason.TOO_LARGE, "sheet", turn, *over), sheet, piece=piece) == set()
    wrong = Unplaced("card", 3, Reason.TOO_LARGE, "sheet", turn, over[1], over[0])
    assert found(wrong, sheet, piece=piece) == {FaultCode.CAN_BE_PLACED}


def test_what_is_left_over_of_a_sheet_lies_within_its_margins() -> None:
    """Two strips of 10 × 9 are left over of the usable 10 × 18, too low for a card of 10 × 10; without margins there would be room."""
    sheet = Stock("sheet", 12, 28, count=1, margins=Margins(left=1, right=1, bottom=5, top=5))
    tree = Cut(Axis.HORIZONTAL, 9, Offcut(), Offcut())
    assert found(Unplaced("card", 3, Reason.USED_UP), sheet, layouts=(Layout(sheet, tree, 1),)) == set()
    wide = replace(sheet, width=28, height=12, margins=Margins(left=5, right=5, bottom=1, top=1))
    tree = Cut(Axis.VERTICAL, 9, Offcut(), Offcut())
    assert found(Unplaced("card", 3, Reason.USED_UP), wide, layouts=(Layout(wide, tree, 1),)) == set()


def test_paper_is_large_enough_if_one_way_to_lie_is_enough() -> None:
    sheet = Stock("sheet", 40, 9)
    piece = PieceType("card", 9, 30, 3, (0, 1))
    told = Unplaced("card", 3, Reason.OUT_OF_REACH, "sheet")
    assert found(told, sheet, piece=piece, trimmer=TrimmerLimits(longest_cut=8)) == set()


def test_a_piece_nobody_asked_for_or_none_of_one_is_found() -> None:
    sheet = Stock("sheet", 5, 5)
    too_large = Unplaced("card", 3, Reason.TOO_LARGE, "sheet", 0, 5, 5)
    assert FaultCode.UNKNOWN_PIECE in found(replace(too_large, piece="star"), sheet)
    assert FaultCode.WRONG_TIMES in found(replace(too_large, count=0), sheet)


def test_sheets_of_which_the_margins_cannot_be_cut_off_are_no_part_of_the_reason_or_the_bound() -> None:
    """A sheet of 12 × 18 in begins with a cut of 12 in, the trimmer makes 11: two of five cards come from the offcut."""
    inch = 25_400_000
    card = PieceType("card", 6 * inch, 4 * inch, 5, ANY_TURN)
    quarter = inch // 4
    sheet = Stock("kraft", 12 * inch, 18 * inch, margins=Margins(quarter, quarter, quarter, quarter))
    offcut = Stock("offcut", 12 * inch, 5 * inch, 1, 0)
    trimmer = TrimmerLimits(longest_cut=11 * inch)
    plan = lay_out([card], [sheet, offcut], trimmer=trimmer)
    assert plan.unplaced == (Unplaced("card", 3, Reason.OUT_OF_REACH, "kraft"),)
    assert verify_plan([card], [sheet, offcut], plan, trimmer) == ()


sides = st.integers(1, 9)


@st.composite
def questions(draw: st.DrawFn) -> tuple[list[PieceType], list[Stock], TrimmerLimits]:
    """Small questions of all kinds, with little paper."""
    turns = st.sampled_from([UPRIGHT, (0, 1), (1,), ANY_TURN])
    names = ["sheet", "other", "offcut"]
    pieces = [
        PieceType(
            str(n),
            draw(sides),
            draw(sides),
            draw(st.integers(1, 4)),
            draw(turns),
            draw(st.sampled_from([None, None, ("other",)])),
        )
        for n in range(draw(st.integers(1, 4)))
    ]
    edges = st.sampled_from([0, 0, 1])
    stocks = [
        Stock(name, draw(st.integers(3, 12)), draw(st.integers(3, 12)), draw(st.sampled_from([None, 0, 1, 2])), None,
              Margins(draw(edges), draw(edges), draw(edges), draw(edges)))
        for name in names
    ]  # fmt: skip
    limits = TrimmerLimits(draw(st.sampled_from([None, None, 6, 8])), draw(st.sampled_from([0, 0, 2, 4])))
    return pieces, stocks, limits


@given(asked=questions())
@settings(deadline=None, max_examples=80)
def test_whatever_is_asked_the_reasons_that_the_search_gives_hold(
    asked: tuple[list[PieceType], list[Stock], TrimmerLimits],
) -> None:
    pieces, stocks, limits = asked
    plan = lay_out(pieces, stocks, trimmer=limits, effort=NO_SEARCH)
    assert verify_plan(pieces, stocks, plan, limits) == ()


@given(stock=st.builds(Stock, st.just("sheet"), sides, sides), width=sides, height=sides, reach=st.sampled_from([None, 3, 5]),
       strip=st.integers(0, 4))  # fmt: skip
@settings(deadline=None, max_examples=150)
def test_a_piece_can_come_from_a_sheet_just_if_cutting_at_every_place_frees_it(
    stock: Stock, width: int, height: int, reach: int | None, strip: int
) -> None:
    """Against all cuts at whole lengths, one after the other, on the part that holds the piece."""

    def frees(wide: int, high: int) -> bool:
        if (wide, high) == (width, height):
            return True
        upright = [(at, high) for at in range(width, wide) if max(at, wide - at) >= strip]
        level = [(wide, at) for at in range(height, high) if max(at, high - at) >= strip]
        sides = (upright if reach is None or high <= reach else []) + (level if reach is None or wide <= reach else [])
        return any(frees(*side) for side in sides)

    piece = PieceType("card", width, height, 1, UPRIGHT)
    expected = width <= stock.width and height <= stock.height and frees(stock.width, stock.height)
    assert can_come_from(stock, piece, TrimmerLimits(reach, strip)) is expected
