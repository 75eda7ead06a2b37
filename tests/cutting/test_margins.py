"""Margins belong to the sides of a sheet: they come off first or last, and what can be cut is what some order of all cuts gives."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from tests.cutting.trying import WithMargins, fewest_of

from kitwright.cutting import (
    ANY_TURN,
    NM_PER_MM,
    UPRIGHT,
    Bound,
    CutPlan,
    FaultCode,
    Holds,
    Layout,
    Margins,
    Objective,
    Offcut,
    Part,
    PieceType,
    Reason,
    Stock,
    TopPoints,
    TrimmerLimits,
    Unplaced,
    cut_order,
    lay_out,
    verify_plan,
)
from kitwright.cutting.check import can_hold
from kitwright.cutting.tree import Axis, Cut
from kitwright.cutting.unplaced_check import can_come_from, left_over
from kitwright.cutting.verify import verify_layout

A3 = Stock("A3", 297 * NM_PER_MM, 420 * NM_PER_MM, margins=Margins(*[5 * NM_PER_MM] * 4))
CARDS = PieceType("card", 105 * NM_PER_MM, 148 * NM_PER_MM, 4, ANY_TURN)
EDGE = st.sampled_from([0, 0, 1, 2])
MARGINS = st.builds(Margins, EDGE, EDGE, EDGE, EDGE)
SIDE = st.integers(1, 6)


def stock_of(usable: tuple[int, int], margins: Margins) -> Stock:
    """A sheet of which so much can be used."""
    size = usable[0] + margins.left + margins.right, usable[1] + margins.bottom + margins.top
    return Stock("sheet", *size, margins=margins)


@given(usable=st.tuples(SIDE, SIDE), margins=MARGINS, size=st.tuples(SIDE, SIDE), reach=st.sampled_from([None, 2, 3, 4, 5, 6, 7]),
       strip=st.integers(0, 4))  # fmt: skip
@example(usable=(2, 5), margins=Margins(1, 1, 1, 1), size=(1, 2), reach=4, strip=0)
@example(usable=(2, 5), margins=Margins(left=1), size=(2, 4), reach=3, strip=0)
@example(usable=(3, 4), margins=Margins(right=1), size=(3, 4), reach=None, strip=4)
@settings(deadline=None, max_examples=120)
def test_a_piece_is_called_impossible_just_where_no_order_of_cuts_frees_it(
    usable: tuple[int, int], margins: Margins, size: tuple[int, int], reach: int | None, strip: int
) -> None:
    stock, piece, limits = stock_of(usable, margins), PieceType("card", *size, 1, UPRIGHT), TrimmerLimits(reach, strip)
    expected = WithMargins([piece], stock, limits).fit((0,))
    assert can_hold(stock, piece, 0, limits) is expected
    assert can_come_from(stock, piece, limits) is expected


def can_be_followed(plan: CutPlan, limits: TrimmerLimits, pieces: list[PieceType]) -> bool:
    """Whether every step takes what is there, in its size, can be cut and held, and all pieces come off in theirs."""
    there: Counter[tuple[str, int, int]] = Counter()
    made: Counter[str] = Counter()
    for place, layout in enumerate(plan.layouts):
        there["ABCDEFGH"[place], layout.stock.width, layout.stock.height] = layout.times
        if isinstance(layout.tree, Part) and layout.stock.margins == Margins():
            made[layout.tree.piece] += layout.times
    sizes = {piece.name: {piece.size(turn) for turn in piece.turns} for piece in pieces}
    for step in cut_order(plan, trimmer=limits):
        upright = step.top.value.endswith("you")
        size = step.take.width, step.take.height
        extent, length = size if upright else size[::-1]
        there[step.take.mark, *size] -= step.sheets
        if there[step.take.mark, *size] < 0 or length != step.length or length > (limits.longest_cut or length):
            return False
        extents = [piece.width if upright else piece.height for piece in step.gives]
        if len(step.gives) > step.repeats:  # no margin goes
            rests = (extent - step.guide * times for times in range(1, step.repeats + 1))
            if sum(extents) != extent or any(max(step.guide, rest) < limits.smallest_strip for rest in rests):
                return False
        for piece in step.gives:
            if (piece.height if upright else piece.width) != length:
                return False
            if piece.holds is Holds.PART and (piece.width, piece.height) not in sizes[piece.piece]:
                return False
            if piece.piece:
                made[piece.piece] += step.sheets
            elif piece.mark:
                there[piece.mark, piece.width, piece.height] += step.sheets
    return made == {piece.name: piece.count for piece in pieces}


@st.composite
def trees(draw: st.DrawFn, wide: int, high: int, names: list[PieceType]) -> Cut | Part | Offcut:
    """Any cuts of an area; every piece in it has a name of its own and is added to the names."""
    axis = draw(
        st.sampled_from([None, *[axis for axis in Axis for _ in range((wide if axis is Axis.VERTICAL else high) - 1)]])
    )
    if axis is None:
        if draw(st.integers(0, 3)) == 0:
            return Offcut()
        names.append(PieceType(f"{len(names)}", wide, high, 1, UPRIGHT))
        return Part(names[-1].name, 0)
    at = draw(st.integers(1, (wide if axis is Axis.VERTICAL else high) - 1))
    low, high_side = ((at, high), (wide - at, high)) if axis is Axis.VERTICAL else ((wide, at), (wide, high - at))
    return Cut(axis, at, draw(trees(*low, names)), draw(trees(*high_side, names)))


SHORT, LONGER = st.integers(1, 4), st.integers(5, 10)


@given(data=st.data(), usable=st.tuples(SHORT, LONGER) | st.tuples(LONGER, SHORT), margins=MARGINS, beyond=st.integers(-1, 3),
       strip=st.sampled_from([0, 0, 2]))  # fmt: skip
@settings(deadline=None, max_examples=150)
def test_the_check_passes_just_the_trees_whose_order_of_cuts_can_be_followed(
    data: st.DataObject, usable: tuple[int, int], margins: Margins, beyond: int, strip: int
) -> None:
    stock, pieces = stock_of(usable, margins), list[PieceType]()
    limits = TrimmerLimits(max(1, min(stock.width, stock.height) + beyond), strip)
    layout = Layout(stock, data.draw(trees(*usable, pieces)), 1)
    found = {fault.code for fault in verify_layout(layout, pieces, [stock], limits)}
    if FaultCode.STRIP_TOO_NARROW not in found:
        plan = CutPlan((layout,), (), Objective.SHEETS, 1, Bound(0, 1, ()))
        assert can_be_followed(plan, limits, pieces) is (not found)


@given(usable=st.tuples(st.integers(2, 4), st.integers(2, 5)), margins=MARGINS, reach=st.sampled_from([None, 3, 4, 5, 6]),
       sizes=st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4), st.sampled_from([UPRIGHT, ANY_TURN])), min_size=1, max_size=4),
       strip=st.sampled_from([0, 0, 2]))  # fmt: skip
@settings(deadline=None, max_examples=30)
def test_small_sheets_with_margins_are_laid_out_as_well_as_any_order_of_cuts_can(
    usable: tuple[int, int],
    margins: Margins,
    reach: int | None,
    sizes: list[tuple[int, int, tuple[int, ...]]],
    strip: int,
) -> None:
    stock, limits = stock_of(usable, margins), TrimmerLimits(reach, strip)
    pieces = [PieceType(str(place), wide, high, 1, turns) for place, (wide, high, turns) in enumerate(sizes)]
    plan = lay_out(pieces, [stock], trimmer=limits)
    assert verify_plan(pieces, [stock], plan, limits) == ()
    optimum = fewest_of(len(pieces), WithMargins(pieces, stock, limits).fit)
    assert plan.is_complete == (optimum is not None)
    if optimum is not None:
        assert plan.bound.value <= optimum <= plan.value
        assert plan.value == optimum or strip  # strips that must be held may cost a sheet that was not needed
        assert can_be_followed(plan, limits, pieces)


def test_a_sheet_longer_than_the_trimmer_is_cut_across_and_the_margins_come_off_the_strips() -> None:
    limits = TrimmerLimits(310 * NM_PER_MM)
    plan = lay_out([CARDS], [A3], trimmer=limits)
    assert (plan.value, plan.is_proved, verify_plan([CARDS], [A3], plan, limits)) == (1, True, ())
    steps = cut_order(plan, trimmer=limits)
    assert can_be_followed(plan, limits, [CARDS])
    assert [(step.take.mark, step.guide // NM_PER_MM, step.length // NM_PER_MM) for step in steps[:7]] == [
        ("A", 415, 297), ("A", 410, 297), ("A", 148, 297),
        ("A1", 292, 148), ("A2", 292, 262), ("A1", 287, 148), ("A2", 287, 262),
    ]  # fmt: skip


def test_a_sheet_that_cannot_be_cut_across_either_gives_nothing_and_saying_so_of_another_is_found() -> None:
    never = Unplaced("card", 4, Reason.TOO_LARGE, "A3")
    plan = lay_out([CARDS], [A3], trimmer=TrimmerLimits(290 * NM_PER_MM))
    assert (plan.layouts, plan.unplaced) == ((), (never,))
    assert verify_plan([CARDS], [A3], plan, TrimmerLimits(290 * NM_PER_MM)) == ()
    assert [fault.code for fault in verify_plan([CARDS], [A3], plan, TrimmerLimits(297 * NM_PER_MM))] == [
        FaultCode.CAN_BE_PLACED
    ]


def codes(stock: Stock, piece: PieceType, tree: Cut | Part, limits: TrimmerLimits) -> set[FaultCode]:
    """What is wrong with cutting one piece so."""
    plan = CutPlan((Layout(stock, tree, 1),), (), Objective.SHEETS, 1, Bound(0, 1, ()))
    return {fault.code for fault in verify_plan([piece], [stock], plan, limits)}


LONG = Stock("long", 6, 12, margins=Margins(left=1, right=1, top=1))
STRIP = PieceType("strip", 4, 8, 1, UPRIGHT)
TREE = Cut(Axis.HORIZONTAL, 8, Part("strip", 0), Offcut())
LYING = (
    Stock("long", 12, 6, margins=Margins(bottom=1, right=1, top=1)),
    PieceType("strip", 8, 4, 1, UPRIGHT),
    Cut(Axis.VERTICAL, 8, Part("strip", 0), Offcut()),
)


@pytest.mark.parametrize(("stock", "piece", "tree"), [(LONG, STRIP, TREE), LYING])
def test_margins_that_no_order_of_cuts_takes_off_a_piece_are_found(stock: Stock, piece: PieceType, tree: Cut) -> None:
    assert codes(stock, piece, tree, TrimmerLimits(8)) == set()
    assert codes(stock, piece, tree, TrimmerLimits(7)) == {FaultCode.CUT_TOO_LONG}  # they run along 8 at least
    assert codes(stock, piece, tree, TrimmerLimits(5)) == {FaultCode.CUT_TOO_LONG}  # no first cut at all
    short = Cut(tree.axis, 4, Offcut(), Cut(tree.axis, 4, Part("strip", 0), Offcut()))
    half = replace(piece, width=min(piece.width, 4), height=4)
    assert codes(stock, half, short, TrimmerLimits(6)) == set()
    assert codes(stock, half, short, TrimmerLimits(5)) == {FaultCode.CUT_TOO_LONG}  # 6 across with the margins
    bare = Stock("bare", 4, 12, margins=Margins(top=1))
    assert codes(bare, STRIP, TREE, TrimmerLimits(smallest_strip=5)) == set()  # no margin at the narrow sides
    assert codes(bare, STRIP, TREE, TrimmerLimits(4)) == set()


def test_a_side_too_narrow_to_be_held_without_its_margins_is_found() -> None:
    assert codes(LONG, STRIP, TREE, TrimmerLimits(smallest_strip=4)) == set()
    assert codes(LONG, STRIP, TREE, TrimmerLimits(smallest_strip=5)) == {FaultCode.STRIP_TOO_NARROW}


@pytest.mark.parametrize(("reach", "value"), [(8, 3), (7, 18), (5, 18)])
def test_a_bound_leaves_out_of_account_what_the_trimmer_cannot_free(reach: int, value: int) -> None:
    """From the cheap sheet it takes a cut of 8 to free a strip, and of 6 to free anything; the dear one is two of them end to end."""
    strips, cheap, dear = replace(STRIP, count=3), replace(LONG, price=1), Stock("dear", 4, 16, price=9)
    plan = lay_out([strips], [cheap, dear], trimmer=TrimmerLimits(reach))
    assert (plan.value, plan.is_proved) == (value, True)
    assert verify_plan([strips], [cheap, dear], plan, TrimmerLimits(reach)) == ()


def test_what_is_left_over_has_the_margins_on_the_edges_that_it_touches() -> None:
    def sizes(stock: Stock, axis: Axis) -> set[tuple[int, int, Margins]]:
        tree = Cut(axis, 4, Offcut(), Cut(axis, 2, Offcut(), Offcut()))
        return {(each.width, each.height, each.margins) for each in left_over(tree, stock, TrimmerLimits(7))}

    ends, middle = replace(LONG.margins, bottom=2), Margins(left=1, right=1)
    upright = replace(LONG, height=14, margins=ends)
    assert sizes(upright, Axis.HORIZONTAL) == {
        (6, 6, replace(middle, bottom=2)), (6, 2, middle), (6, 6, replace(middle, top=1))
    }  # fmt: skip
    lying = Stock("lying", 14, 6, margins=Margins(left=2, bottom=1, right=1, top=1))
    middle = Margins(bottom=1, top=1)
    assert sizes(lying, Axis.VERTICAL) == {
        (6, 6, replace(middle, left=2)),
        (2, 6, middle),
        (6, 6, replace(middle, right=1)),
    }


@pytest.mark.parametrize("turn", [0, 1])
def test_what_is_left_over_with_margins_gives_only_what_they_can_be_cut_off(turn: int) -> None:
    """The strip that is short could be cut across from what is left over of the long sheet, but its margins would stay on."""
    low, strips = PieceType("low", 4, 1, 1, ANY_TURN), replace(STRIP, count=2, turns=ANY_TURN)
    stocks = [replace(LYING[0] if turn else LONG, count=1), Stock("other", 4, 8, 1)]
    plan = lay_out([low, strips], stocks, trimmer=TrimmerLimits(7))
    assert plan.unplaced == (Unplaced("strip", 1, Reason.USED_UP),)
    assert verify_plan([low, strips], stocks, plan, TrimmerLimits(7)) == ()


@pytest.mark.parametrize(("reach", "order"), [(None, "left bottom"), (11, "bottom left"), (10, "bottom left")])
def test_margins_come_off_the_whole_sheet_in_the_order_that_the_trimmer_can_cut(reach: int | None, order: str) -> None:
    stock = Stock("sheet", 9, 12, margins=Margins(left=1, bottom=2))
    plan = CutPlan((Layout(stock, Part("card", 0), 3),), (), Objective.SHEETS, 3, Bound(0, 1, ()))
    steps = cut_order(plan, trimmer=TrimmerLimits(reach))
    first = {"left bottom": (8, 12), "bottom left": (10, 9)}[order]
    assert (steps[0].guide, steps[0].length, len(steps)) == (*first, 2)
    assert [(piece.holds, piece.piece, piece.mark) for piece in steps[-1].gives] == [(Holds.PART, "card", "")]
    lying = Stock("sheet", 12, 9, margins=Margins(left=2, bottom=1))
    turned = replace(plan, layouts=(Layout(lying, Part("card", 0), 3),))
    steps = cut_order(turned, trimmer=TrimmerLimits(reach))
    assert [(step.guide, step.length) for step in steps] == [(10, 9), (8, 10)]


def test_what_is_left_over_of_a_sheet_cut_across_keeps_its_margins() -> None:
    plan = CutPlan((Layout(LONG, TREE, 1),), (), Objective.SHEETS, 1, Bound(0, 1, ()))
    steps = cut_order(plan, trimmer=TrimmerLimits(8))
    left = [piece for step in steps for piece in step.gives if piece.holds in (Holds.UNTRIMMED, Holds.OFFCUT)]
    assert [(piece.holds, piece.width, piece.height) for piece in left] == [(Holds.UNTRIMMED, 6, 3)]


def across(*strips: int) -> CutPlan:
    """A sheet of 6 × 12 with margins at its sides, cut across into strips as high as this, the last of them whatever is left."""
    stock = Stock("sheet", 6, 12, margins=Margins(left=1, right=1))
    *parts, tree = [Cut(Axis.VERTICAL, 2, Part("card", 0), Part("card", 0)) for _ in range(len(strips) + 1)]
    for high, part in zip(reversed(strips), parts, strict=True):
        tree = Cut(Axis.HORIZONTAL, high, part, tree)
    return CutPlan((Layout(stock, tree, 1),), (), Objective.SHEETS, 1, Bound(0, 1, ()))


@pytest.mark.parametrize("reach", [6, 7])
def test_margins_come_off_parts_as_large_as_the_trimmer_cuts_along_and_not_off_each_strip(reach: int) -> None:
    steps = cut_order(across(2, 2, 2, 2, 2), trimmer=TrimmerLimits(reach))
    assert [(step.take.mark, step.guide, step.length, step.sheets, step.repeats) for step in steps] == [
        ("A", 6, 6, 1, 1),
        ("A1", 5, 6, 2, 1),
        ("A1", 4, 6, 2, 1),
        ("A1", 2, 4, 2, 2),
        ("A2", 2, 2, 6, 1),
    ]


def test_a_part_is_only_as_large_as_its_strips_can_be_cut_off_it_with_something_to_hold() -> None:
    free, held = (cut_order(across(2, 2, 2, 2), trimmer=TrimmerLimits(7, strip)) for strip in (2, 3))
    assert [(each[0].guide, each[0].repeats) for each in (free, held)] == [(6, 1), (2, 3)]
    growing = cut_order(across(1, 1, 2, 2), trimmer=TrimmerLimits(7, 2))
    assert growing[0].guide == 6  # 1 comes off 6, then 1 off 5, then 2 off 4: 2 can always be held


def test_the_strips_of_a_large_part_stay_where_they_are() -> None:
    steps = cut_order(across(1, 2, 3, 2), trimmer=TrimmerLimits(7))
    level = {(step.take.height, step.guide) for step in steps if step.top is TopPoints.RIGHT}
    assert level == {(12, 6), (6, 1), (5, 2), (6, 2)}  # 1, 2 and 3 of the one part, 2 and 4 of the other
