"""Sheets laid by hand: used as often as they can be, cut through where that is possible, and checked by the verifier."""

from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.cutting import (
    Layout,
    Margins,
    PieceType,
    Placement,
    Stock,
    TrimmerLimits,
    can_be_cut_through,
    faults_of,
    find_tree,
    joined,
    lay_by_hand,
    lay_out,
    placements,
    verify_placements,
    verify_plan,
)

SHEET = Stock("sheet", 12, 12)


def lie(piece: str, *place: int, turn: int = 0) -> Placement:
    return Placement(piece, turn, *place)


def test_a_piece_in_the_middle_of_a_sheet_is_freed_by_four_cuts() -> None:
    tree = find_tree(SHEET, [lie("bird", 3, 4, 6, 5)])
    assert tree is not None
    assert placements(Layout(SHEET, tree, 1)) == (lie("bird", 3, 4, 6, 5),)


def test_a_piece_on_an_edge_that_is_no_use_is_told_so_and_not_to_hang_over() -> None:
    sheet, demand = Stock("sheet", 12, 12, margins=Margins(2, 0, 0, 1)), [PieceType("bird", 3, 3, 2, (0, 1, 2, 3))]
    told = [
        faults_of([lie("bird", *place, 3, 3)], sheet, demand) for place in ((2, 8), (1, 0), (2, 9), (-1, 0), (10, 0))
    ]
    no_use, over = "“bird” lies on an edge of the sheet that is no use.", "“bird” hangs over the edge of the sheet."
    assert [[each.message for each in faults] for faults in told] == [[], [no_use], [no_use], [over], [over]]


# The pinwheel: four rectangles round a fifth is the well-known smallest layout that no cut from edge to edge takes apart.
PINWHEEL = [lie("a", 0, 0, 8, 4), lie("a", 4, 8, 8, 4), lie("b", 8, 0, 4, 8), lie("b", 0, 4, 4, 8)]


def test_a_pinwheel_has_no_cut_tree_and_becomes_a_sheet_for_scissors() -> None:
    assert find_tree(SHEET, PINWHEEL) is None
    demand = [PieceType("a", 8, 4, 5, (0, 1)), PieceType("b", 4, 8, 4, (0, 1))]
    hand = lay_by_hand(demand, SHEET, [PINWHEEL], any_way_up=True)
    assert hand.trimmed == ()
    assert [(each.times, each.lying) for each in hand.free] == [(2, tuple(PINWHEEL))]
    assert [(piece.name, piece.count) for piece in hand.trimmable] == [("a", 1)]
    assert [(piece.name, piece.count) for piece in hand.rest] == [("a", 1)]


@settings(deadline=None, max_examples=60)
@given(st.lists(st.tuples(*[st.integers(0, 9)] * 2, *[st.integers(1, 5)] * 2), min_size=1, max_size=6))
def test_a_tree_is_found_just_where_the_verifier_says_that_through_cuts_free_the_pieces(
    rectangles: list[tuple[int, int, int, int]],
) -> None:
    lying = [lie(str(number), *rectangle) for number, rectangle in enumerate(rectangles)]
    if any(fault.about for fault in verify_placements(12, 12, lying)):
        return
    tree = find_tree(SHEET, lying)
    assert (tree is not None) == can_be_cut_through(lying)
    if tree is not None:
        assert sorted(placements(Layout(SHEET, tree, 1)), key=str) == sorted(lying, key=str)


def test_sheets_by_hand_and_the_searched_rest_make_one_plan_that_the_verifier_passes() -> None:
    demand = (PieceType("card", 6, 4, 7, (0, 1)),)
    stocks = (Stock("sheet", 12, 12, price=110),)
    hand = lay_by_hand(demand, stocks[0], [[lie("card", 3, 4, 6, 4), lie("card", 3, 0, 6, 4, turn=2)]], any_way_up=True)
    assert [layout.times for layout in hand.trimmed] == [3]
    assert [(piece.name, piece.count) for piece in hand.rest] == [("card", 1)]
    plan = joined(lay_out(hand.trimmable, stocks), hand.trimmed, lay_out(hand.rest, stocks), stocks[0])
    assert plan.sheets == 4
    assert plan.value == 440
    assert plan.bound.value == 220  # six cards of 6 × 4 fill a sheet of 12 × 12, so seven need two
    assert verify_plan(hand.trimmable, stocks, plan) == ()


def test_a_sheet_that_no_longer_goes_is_left_to_the_search_and_named() -> None:
    demand = (PieceType("card", 6, 4, 2, (0,)),)
    stock = Stock("sheet", 12, 12, margins=Margins(left=1))
    wrong = [
        [lie("card", 0, 0, 6, 4)],  # in the margin
        [lie("card", 7, 0, 6, 4)],  # over the edge
        [lie("card", 1, 0, 6, 4), lie("card", 3, 2, 6, 4)],  # on each other
        [lie("card", 1, 0, 5, 4)],  # another size
        [lie("card", 1, 0, 4, 6, turn=1)],  # its print on its side
        [lie("card", 1, 0, 6, 4, turn=2)],  # its print upside down
        [lie("lid", 1, 0, 6, 4)],  # not in this kit
        [lie("card", 1, 0, 6, 4), lie("card", 1, 4, 6, 4), lie("card", 1, 8, 6, 4)],  # more than are wanted
    ]
    hand = lay_by_hand(demand, stock, wrong, any_way_up=False)
    assert hand.unused == tuple(range(len(wrong)))
    assert hand.trimmable == hand.rest == demand
    assert (hand.trimmed, hand.free) == ((), ())
    assert lay_by_hand(demand, stock, wrong, any_way_up=True).unused == (0, 1, 2, 3, 4, 6, 7)


def test_a_sheet_that_the_trimmer_cannot_cut_as_it_is_laid_is_cut_otherwise() -> None:
    """The cut that frees the piece first is 18 long; a trimmer of 18 makes it, one of 12 does not."""
    sheet = Stock("sheet", 12, 18)
    demand, laid = [PieceType("card", 4, 3, 1, (0,))], [[lie("card", 0, 0, 4, 3)]]
    hand = lay_by_hand(demand, sheet, laid, any_way_up=False, trimmer=TrimmerLimits(longest_cut=18))
    assert (len(hand.trimmed), len(hand.free)) == (1, 0)
    hand = lay_by_hand(demand, sheet, laid, any_way_up=False, trimmer=TrimmerLimits(longest_cut=12))
    assert (len(hand.trimmed), [free.times for free in hand.free], hand.trimmable) == (0, [1], ())
