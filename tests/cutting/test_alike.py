"""Every kit by the same layouts."""

from kitwright.cutting import UPRIGHT, PieceType, Stock, lay_out, same_for_every, verify_plan


def test_every_kit_by_the_same_layouts_is_a_valid_plan_with_its_price_in_sheets() -> None:
    # Two 5 × 12 fit on 12 × 12. A kit of three takes two sheets; four kits alone take eight, together only six.
    stocks = [Stock("sheet", 12, 12)]
    one = lay_out([PieceType("card", 5, 12, 3, UPRIGHT)], stocks)
    demand = [PieceType("card", 5, 12, 12, UPRIGHT)]
    shared = lay_out(demand, stocks)
    alike = same_for_every(one, shared, 4)
    assert (shared.value, alike.value, alike.bound.value) == (6, 8, 6)
    assert verify_plan(demand, stocks, alike) == ()
    assert {layout.times for layout in alike.layouts} == {4}


def test_what_one_kit_lacks_every_kit_lacks() -> None:
    stocks = [Stock("sheet", 12, 12)]
    one = lay_out([PieceType("lid", 13, 5, 2, UPRIGHT)], stocks)
    shared = lay_out([PieceType("lid", 13, 5, 6, UPRIGHT)], stocks)
    assert same_for_every(one, shared, 3).unplaced == shared.unplaced
