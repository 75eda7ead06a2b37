"""Waste gathered into one large offcut: against trying everything, and never at the expense of what counts more."""

from dataclasses import replace
from fractions import Fraction
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.cutting.trying import fits_one_sheet, largest_offcut

from kitwright.cutting import (
    ANY_TURN,
    UPRIGHT,
    USUAL_KEEPING,
    Axis,
    Bound,
    Cut,
    CutPlan,
    KeepRule,
    Layout,
    Objective,
    Offcut,
    Part,
    PieceType,
    Progress,
    Stock,
    TrimmerLimits,
    count_guide_settings,
    cut_order,
    gather_offcut,
    largest_kept,
    lay_out,
    leftovers,
    to_nm,
    verify_plan,
)
from kitwright.cutting.arrange import arrangements
from kitwright.cutting.beside import offcuts_allowed
from kitwright.cutting.job import make_job

ANY_SIZE = KeepRule(side=1, area=1)


def inches(value: int | str) -> int:
    return to_nm(Fraction(value) * Fraction(127, 5))


def plan_of(*layouts: Layout) -> CutPlan:
    return CutPlan(tuple(layouts), (), Objective.SHEETS, len(layouts), Bound(0, 1, ()), 1)


def test_every_offcut_is_named_with_its_size_and_whether_it_is_worth_keeping() -> None:
    # A 12 × 12 in sheet, a 5 × 7 in card at the lower left: 7 × 12 in at the right are kept, 5 × 1/2 in above it are not.
    tree = Cut(
        Axis.VERTICAL,
        inches(5),
        Cut(Axis.HORIZONTAL, inches("23/2"), Cut(Axis.HORIZONTAL, inches(7), Part("card", 0), Offcut()), Offcut()),
        Offcut(),
    )
    found = leftovers(plan_of(Layout(Stock("sheet", inches(12), inches(12)), tree, 3)))
    assert [(one.width, one.height, one.times, one.is_kept) for one in found] == [
        (inches(7), inches(12), 3, True),
        (inches(5), inches("9/2"), 3, True),
        (inches(5), inches("1/2"), 3, False),
    ]


def test_the_usual_rule_keeps_from_two_inches_wide_and_as_much_paper_as_3_by_4() -> None:
    # common practice, no source
    assert USUAL_KEEPING.keeps(inches(2), inches(6))
    assert USUAL_KEEPING.keeps(inches(4), inches(3))
    assert not USUAL_KEEPING.keeps(inches("31/16"), inches(12))
    assert not USUAL_KEEPING.keeps(inches(3), inches("63/16"))


def test_waste_on_two_sides_of_a_card_is_gathered_on_one() -> None:
    # Two 4 × 6 in one above the other on 12 × 12 leave 8 × 12; laid out with gaps they leave less at first.
    sheet = Stock("sheet", inches(12), inches(12))
    low = Cut(Axis.VERTICAL, inches(4), Part("card", 0), Offcut())
    tree = Cut(Axis.HORIZONTAL, inches(6), low, low)
    demand = [PieceType("card", inches(4), inches(6), 2, UPRIGHT)]
    plan = replace(lay_out(demand, [sheet]), layouts=(Layout(sheet, tree, 1),))
    gathered = gather_offcut(demand, [sheet], plan)
    assert gathered.largest is not None
    assert (gathered.largest.width, gathered.largest.height) == (inches(8), inches(12))
    assert gathered.is_proved


@st.composite
def small_pieces(draw: st.DrawFn, most: int) -> list[PieceType]:
    sizes = draw(st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=1, max_size=most))
    turns = draw(st.sampled_from([UPRIGHT, (0, 2), (0, 1), ANY_TURN]))
    return [PieceType(str(i), *size, 1, turns) for i, size in enumerate(sizes)]


@given(pieces=small_pieces(4), width=st.integers(3, 6), height=st.integers(3, 6))
@settings(deadline=None, max_examples=40)
def test_the_largest_offcut_beside_given_pieces_is_what_trying_everything_finds(
    pieces: list[PieceType], width: int, height: int
) -> None:
    found, _ = arrangements({piece.name: 1 for piece in pieces}, pieces, width, height)
    can_fit = fits_one_sheet(pieces, width, height, TrimmerLimits())
    best = largest_offcut(pieces, width, height) if can_fit else 0
    assert max((wide * high for wide, high, _ in found), default=0) == best
    stock = Stock("sheet", width, height)
    for wide, high, tree in found:
        plan = plan_of(Layout(stock, tree, 1))
        assert (wide, high) in {(one.width, one.height) for one in leftovers(plan, ANY_SIZE)}
        faults = verify_plan(pieces, [stock], plan)
        assert {fault.code.value for fault in faults} <= {"wrong-bound"}  # this plan came without a bound


@given(pieces=small_pieces(6), width=st.integers(4, 6), height=st.integers(4, 6), reach=st.sampled_from([None, 5]))
@settings(deadline=None, max_examples=40)
def test_gathering_never_spoils_an_aim_that_comes_before_and_its_bound_holds(
    pieces: list[PieceType], width: int, height: int, reach: int | None
) -> None:
    stocks, trimmer = [Stock("sheet", width, height)], TrimmerLimits(longest_cut=reach)
    plan = lay_out(pieces, stocks, trimmer=trimmer)
    gathered = gather_offcut(pieces, stocks, plan, rule=ANY_SIZE, trimmer=trimmer)
    new = gathered.plan
    assert verify_plan(pieces, stocks, new, trimmer) == ()

    def aims(one: CutPlan) -> tuple[int, int, int, int]:
        steps = cut_order(one)
        return (
            one.value,
            len(one.layouts),
            count_guide_settings(steps),
            sum(step.sheets * step.repeats for step in steps),
        )

    assert aims(new) <= aims(plan)
    before, after = largest_kept(plan, ANY_SIZE), largest_kept(new, ANY_SIZE)
    if aims(new) == aims(plan) and before is not None:
        assert after is not None
        assert after.area >= before.area
    assert gathered.largest == after
    if gathered.most_area is not None and plan.is_complete and plan.value == 1 and reach is None:
        assert gathered.most_area >= largest_offcut(pieces, width, height) >= (after.area if after else 0)


def test_sizes_that_the_bound_rules_out_are_proved_not_to_exist() -> None:
    # A 7 × 12 and a 6 × 12 each take a sheet of 12 × 12 and leave a strip of 5 and one of 6: no plan can join them.
    demand = [PieceType("a", 7, 12, 1, UPRIGHT), PieceType("b", 6, 12, 1, UPRIGHT)]
    stocks = [Stock("sheet", 12, 12)]
    gathered = gather_offcut(demand, stocks, lay_out(demand, stocks), rule=ANY_SIZE)
    assert gathered.largest is not None
    assert (gathered.largest.width, gathered.largest.height) == (6, 12)
    assert gathered.is_proved


def test_a_plan_that_is_not_complete_is_left_as_it_is() -> None:
    demand = [PieceType("card", 5, 7, 10, UPRIGHT)]
    stocks = [Stock("sheet", 12, 12, 2)]
    plan = lay_out(demand, stocks)
    assert gather_offcut(demand, stocks, plan).plan == plan


def test_a_stop_is_heard_before_the_first_layout_is_arranged_anew() -> None:
    demand, stocks = [PieceType("card", 40, 60, 1, UPRIGHT)], [Stock("sheet", 100, 100)]
    scattered = Cut(
        Axis.VERTICAL,
        30,
        Offcut(),
        Cut(Axis.VERTICAL, 40, Cut(Axis.HORIZONTAL, 60, Part("card", 0), Offcut()), Offcut()),
    )
    plan = lay_out(demand, stocks)
    plan = replace(plan, layouts=(Layout(stocks[0], scattered, 1),))
    asked: list[Progress] = []

    def stop(far: Progress) -> bool:
        asked.append(far)
        return False

    rule = KeepRule(1, 1)
    assert gather_offcut(demand, stocks, plan, rule=rule, progress=stop).plan == plan
    assert [far.stage for far in asked] == ["offcuts"]
    assert gather_offcut(demand, stocks, plan, rule=rule).plan != plan


def test_too_many_pieces_to_try_all_arrangements_are_given_up() -> None:
    pieces = [PieceType(str(i), 3 + i, 5 + 2 * i, 2, ANY_TURN) for i in range(9)]
    assert arrangements({piece.name: 2 for piece in pieces}, pieces, 100, 100)[0] == []


@given(pieces=small_pieces(5), count=st.integers(1, 2), price=st.sampled_from([3, 5, 7]))
@settings(deadline=None, max_examples=40)
def test_no_plan_from_two_stocks_has_a_larger_offcut_than_the_bound_allows(
    pieces: list[PieceType], count: int, price: int
) -> None:
    # Every piece on one large sheet, or some on it and the others on a small one: what trying everything finds is never ruled out.
    large, small = Stock("large", 6, 5, count, price), Stock("small", 4, 4, None, 3)
    plan = lay_out(pieces, [large, small])
    gathered = gather_offcut(pieces, [large, small], plan, rule=ANY_SIZE)
    if not plan.is_complete or gathered.most_area is None:
        return
    for some in (set(chosen) for size in range(len(pieces) + 1) for chosen in combinations(range(len(pieces)), size)):
        on_large = [piece for place, piece in enumerate(pieces) if place in some]
        on_small = [piece for place, piece in enumerate(pieces) if place not in some]
        value = price * bool(on_large) + 3 * bool(on_small)
        fit = all(
            not group or fits_one_sheet(group, *size, TrimmerLimits())
            for group, size in ((on_large, (6, 5)), (on_small, (4, 4)))
        )
        if fit and value <= plan.value:
            left = [largest_offcut(group, *size) for group, size in ((on_large, (6, 5)), (on_small, (4, 4))) if group]
            assert max(left) <= gathered.most_area


def test_a_stop_is_heard_while_the_largest_offcut_there_can_be_is_worked_out() -> None:
    demand = [PieceType(str(n), to_nm(30 + 7 * n), to_nm(45 + 11 * n), 20, ANY_TURN) for n in range(4)]
    stocks = [Stock("sheet", to_nm(300), to_nm(300))]
    plan, job = lay_out(demand, stocks), make_job(demand, stocks, TrimmerLimits())
    looks = 0

    def goes_on() -> bool:
        nonlocal looks
        looks += 1
        return looks < 3

    assert offcuts_allowed(job, plan.bound, plan.value, work=10**9, goes_on=goes_on)[0] is None
    assert looks == 3
    assert offcuts_allowed(job, plan.bound, plan.value, work=10**9)[0]
