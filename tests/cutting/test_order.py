"""The order of cuts: guide settings, how the sheet lies, what comes off."""

from kitwright.cutting import (
    ANY_TURN,
    Axis,
    Bound,
    Cut,
    CutPlan,
    Layout,
    Margins,
    Objective,
    Offcut,
    Part,
    PieceType,
    Stock,
    TopPoints,
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
        ("A11", 5, 7, "part", "card"),
        ("A12", 5, 3, "offcut", ""),
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
