"""The order of cuts: guide settings, how the sheet lies, what comes off."""

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.cutting import (
    ANY_TURN,
    Axis,
    Bound,
    Cut,
    CutPlan,
    CutTree,
    Layout,
    Margins,
    Objective,
    Offcut,
    Part,
    PieceType,
    Stock,
    TopPoints,
    TrimmerLimits,
    count_guide_settings,
    cut_order,
    lay_out,
)


def plan_of(*layouts: Layout) -> CutPlan:
    return CutPlan(tuple(layouts), (), Objective.SHEETS, 1, Bound(0, 1, ()), 1)


def test_a_vertical_cut_keeps_the_top_away_and_a_horizontal_cut_turns_it_to_the_right() -> None:
    tree = Cut(Axis.VERTICAL, 5, Cut(Axis.HORIZONTAL, 7, Part("card", 0), Offcut()), Offcut())
    first, second = cut_order(plan_of(Layout(Stock("sheet", 12, 10), tree, 3)))
    assert (first.guide, first.length, first.top, first.sheets) == (5, 10, TopPoints.AWAY, 3)
    assert (second.guide, second.length, second.top) == (7, 5, TopPoints.RIGHT)
    assert [(one.mark, one.width, one.height, one.holds.value, one.piece) for one in second.gives] == [
        ("", 5, 7, "part", "card"),
        ("", 5, 3, "offcut", ""),
    ]


def test_margins_are_trimmed_first_with_the_kept_side_against_the_guide() -> None:
    stock = Stock("sheet", 12, 10, margins=Margins(left=1, top=2))
    steps = cut_order(plan_of(Layout(stock, Cut(Axis.VERTICAL, 5, Part("card", 0), Offcut()), 1)))
    assert [(step.guide, step.length, step.top) for step in steps] == [
        (11, 10, TopPoints.TOWARDS),
        (8, 11, TopPoints.RIGHT),
        (5, 8, TopPoints.AWAY),
    ]


def test_every_piece_wanted_comes_off_in_the_order_of_cuts() -> None:
    plan = lay_out([PieceType("card", 5, 7, 7, ANY_TURN)], [Stock("sheet", 12, 12)])
    made = sum(step.sheets * sum(one.piece == "card" for one in step.gives) for step in cut_order(plan))
    assert made == 7


def strips(width: int, count: int, low: CutTree, rest: CutTree) -> CutTree:
    tree = rest
    for _ in range(count):
        tree = Cut(Axis.VERTICAL, width, low, tree)
    return tree


CARDS = Cut(Axis.HORIZONTAL, 7, Part("card", 0), Offcut())


def test_equal_strips_are_cut_at_one_guide_and_then_together() -> None:
    layout = Layout(Stock("sheet", 16, 10), strips(5, 3, CARDS, Offcut()), 4)
    first, second = cut_order(plan_of(layout))
    assert (first.take.mark, first.guide, first.sheets, first.repeats) == ("A", 5, 4, 3)
    assert [one.mark for one in first.gives] == ["A1", "A1", "A1", ""]
    assert (second.take.mark, second.guide, second.sheets, second.repeats) == ("A1", 7, 12, 1)


def test_a_last_strip_that_is_like_the_others_has_their_mark() -> None:
    layout = Layout(Stock("sheet", 15, 10), strips(5, 2, CARDS, CARDS), 1)
    first, second = cut_order(plan_of(layout))
    assert (first.repeats, [one.mark for one in first.gives]) == (2, ["A1", "A1", "A1"])
    assert second.sheets == 3


def test_a_part_of_nothing_but_equal_strips_is_not_cut_off_first() -> None:
    """9 of 10 are three strips of 3: three cuts at one setting, instead of one at 9 and two at 3, if the 3 that are left can be held."""
    layout = Layout(Stock("sheet", 10, 9), Cut(Axis.VERTICAL, 9, strips(3, 2, CARDS, CARDS), Offcut()), 2)
    for narrowest, guides in ((3, [(3, 3), (7, 1)]), (4, [(9, 1), (3, 2), (7, 1)])):
        steps = cut_order(plan_of(layout), trimmer=TrimmerLimits(smallest_strip=narrowest))
        assert [(step.guide, step.repeats) for step in steps] == guides
        assert (steps[-1].sheets, sum(step.sheets * step.repeats for step in steps)) == (6, 12)


def test_a_margin_comes_off_before_the_equal_strips_beside_it() -> None:
    layout = Layout(Stock("sheet", 10, 9, margins=Margins(right=1)), strips(3, 2, CARDS, CARDS), 2)
    assert [(step.guide, step.repeats) for step in cut_order(plan_of(layout))] == [(9, 1), (3, 2), (7, 1)]


def test_parts_of_different_strips_are_cut_off_whole() -> None:
    pair = Cut(Axis.VERTICAL, 2, Part("a", 0), Part("b", 0))
    for width in (4, 5):  # the second as wide as the first, or wider
        steps = cut_order(plan_of(Layout(Stock("sheet", 2 * width, 9), strips(width, 1, pair, pair), 1)))
        assert [(step.guide, step.sheets, step.repeats) for step in steps] == [(width, 1, 1), (2, 2, 1)]
        assert [piece.piece for piece in steps[-1].gives] == ["a", "b"]


def test_the_guide_stays_where_it_is_as_long_as_something_can_be_cut_there() -> None:
    low = Cut(Axis.HORIZONTAL, 4, Part("a", 0), Offcut())
    high = Cut(Axis.HORIZONTAL, 6, Cut(Axis.VERTICAL, 4, Part("b", 0), Offcut()), Offcut())
    steps = cut_order(plan_of(Layout(Stock("sheet", 12, 10), Cut(Axis.VERTICAL, 3, low, high), 1)))
    assert [step.guide for step in steps] == [3, 4, 6, 4]
    tree = Cut(Axis.VERTICAL, 4, Cut(Axis.HORIZONTAL, 6, Part("b", 0), Offcut()), low)
    steps = cut_order(plan_of(Layout(Stock("sheet", 12, 10), tree, 1)))
    assert [step.guide for step in steps] == [4, 4, 6]
    assert count_guide_settings(steps) == 2
    rest = Cut(Axis.VERTICAL, 4, Part("b", 0), Offcut())
    steps = cut_order(plan_of(Layout(Stock("sheet", 12, 10), Cut(Axis.VERTICAL, 4, low, rest), 1)))
    assert [step.top for step in steps] == [
        TopPoints.AWAY,
        TopPoints.AWAY,
        TopPoints.RIGHT,
    ]  # and the paper is not turned


@given(counts=st.lists(st.integers(1, 30), min_size=1, max_size=5), data=st.data())
@settings(deadline=None, max_examples=15)
def test_every_step_takes_what_is_there_and_every_piece_wanted_comes_off(
    counts: list[int], data: st.DataObject
) -> None:
    demand = [
        PieceType(str(i), data.draw(st.integers(2, 9)), data.draw(st.integers(2, 9)), count, ANY_TURN)
        for i, count in enumerate(counts)
    ]
    plan = lay_out(demand, [Stock("sheet", 20, 15, margins=Margins(left=1, top=2))])
    there: Counter[str] = Counter()
    made: Counter[str] = Counter()
    for index, layout in enumerate(plan.layouts):
        there["ABCDEFGHIJKLMNOPQRSTUVWXYZ"[index]] = layout.times
    for step in cut_order(plan):
        assert there[step.take.mark] >= step.sheets
        there[step.take.mark] -= step.sheets
        for piece in step.gives:
            if piece.piece:
                made[piece.piece] += step.sheets
            elif piece.mark:
                there[piece.mark] += step.sheets
    assert made == {piece.name: piece.count for piece in demand}
    assert not any(there.values())
