"""Where contents lie in the folded part: in the proof's own places, like things together, and nothing where no place was found."""

from itertools import combinations

import pytest
from tests.kit.documents import built, head, part

from kitwright.findings import Placed, Severity
from kitwright.kit import BuiltKit, Filling, filling, prove
from kitwright.kit.filling import MOST_BLOCKS, gathered

T = 0.5


def kit(*parts: str) -> BuiltKit:
    return built(head(units="mm", ruler="1", sheet="900 x 900", caliper=str(T)) + "".join(parts))


def thing(name: str, size: str, quantity: int = 1) -> str:
    return f'[[extra]]\nname = "{name}"\nsize = "{size}"\nquantity = {quantity}\npacked = "beside"\n'


def found(kit: BuiltKit, name: str) -> Filling:
    return filling(kit, kit.part(name), prove(kit, with_fixes=False).findings)


def test_the_first_thing_touches_the_left_front_and_bottom_card_of_its_tray() -> None:
    boxed = kit(thing("soap", "60 x 40 x 20"), part("tray", "tray", holds="soap", inside="80 x 60 x 30"))
    (block,) = found(boxed, "tray").blocks
    low, _ = boxed.part("tray").folded.bounds()
    # The crease in the middle of the card's thickness: half of it lies inside. The tabs are glued inside the walls at left and right.
    assert block.corner == pytest.approx((low[0] + 1.5 * T, low[1] + 0.5 * T, low[2] + 0.5 * T))
    assert sorted(block.size) == pytest.approx([20, 40, 60])


def test_what_is_glued_on_the_bottom_raises_the_contents() -> None:
    tray = part("tray", "tray", holds="soap", inside="80 x 60 x 30")
    plain, lined = (
        found(kit(thing("soap", "60 x 40 x 20"), tray, *more), "tray").blocks[0].corner
        for more in ((), (part("liner", "mat", on="tray", face="inside"),))
    )
    assert lined == pytest.approx((plain[0], plain[1], plain[2] + T))


def test_two_hundred_like_bricks_are_a_few_blocks_that_lie_apart_and_take_their_room() -> None:
    boxed = kit(thing("brick", "16 x 8 x 10", 200), part("tray", "tray", holds="brick"))
    blocks = found(boxed, "tray").blocks
    assert len(blocks) <= 4
    assert sum(block.count for block in blocks) == 200
    assert sum(a * b * c for a, b, c in (block.size for block in blocks)) == pytest.approx(200 * 16 * 8 * 10)
    low, high = boxed.part("tray").folded.bounds()
    for block in blocks:
        for axis in range(3):
            assert low[axis] < block.corner[axis]
            assert block.corner[axis] + block.size[axis] < high[axis]
    for one, other in combinations(blocks, 2):
        assert any(
            a.corner[axis] + a.size[axis] <= b.corner[axis] + 1e-6
            for axis in range(3)
            for a, b in ((one, other), (other, one))
        )


def test_only_like_things_that_touch_and_go_on_from_each_other_are_one_block() -> None:
    side = (10.0, 10.0, 10.0)
    touching = Placed("a", 2, (0, 0, 0), side), Placed("a", 1, (10, 0, 0), side)
    assert gathered(touching) == (Placed("a", 3, (0, 0, 0), (20.0, 10.0, 10.0)),)
    for corner in ((10.5, 0, 0), (10, 1, 0)):
        assert len(gathered((touching[0], Placed("a", 1, corner, side)))) == 2
    assert len(gathered((touching[0], Placed("b", 1, (10, 0, 0), side)))) == 2


def test_more_kinds_than_can_be_told_apart_are_counted_as_left_out() -> None:
    sizes = [f"{20 + n} x {12 + n % 5} x {7 + n % 3}" for n in range(MOST_BLOCKS + 3)]
    names = [f"thing {n}" for n in range(len(sizes))]
    boxed = kit(*map(thing, names, sizes), part("tray", "tray", holds=names))
    filled = found(boxed, "tray")
    assert (len(filled.blocks), filled.left_out) == (MOST_BLOCKS, 3)


def test_where_things_do_not_go_in_nothing_is_placed_and_the_proof_says_why() -> None:
    boxed = kit(thing("soap", "60 x 40 x 20"), part("tray", "tray", holds="soap", inside="50 x 30 x 30"))
    (grave,) = [each for each in prove(boxed, with_fixes=False).of(Severity.FAIL) if each.code == "contents-fit"]
    assert found(boxed, "tray") == Filling((), grave.message)


def test_a_card_lies_in_the_middle_of_its_envelope_between_its_leaves() -> None:
    sent = kit(part("card", "flat card", size="150 x 100"), part("envelope", "side-seam envelope", holds="card"))
    envelope = sent.part("envelope")
    (block,) = found(sent, "envelope").blocks
    assert (block.name, block.count) == ("card", 1)
    assert block.size == pytest.approx((150, T / 2, 100))
    for axis, inside in zip((0, 2), envelope.inside.values(), strict=True):
        assert block.corner[axis] + block.size[axis] / 2 == pytest.approx(inside.start + inside.nominal / 2)


def test_a_tag_stands_on_the_bottom_of_its_pocket() -> None:
    kept = kit(part("tag", "tag", size="50 x 90"), part("pocket", "pocket", holds="tag", width="60", height="60"))
    (block,) = found(kept, "pocket").blocks
    assert block.size[2] == pytest.approx(90)
    assert block.corner[2] == pytest.approx(
        min(kept.part("pocket").folded.points(ref)[:, 2].min() for ref in kept.part("pocket").folded.refs)
    )


def test_a_part_that_holds_nothing_is_not_said_to_be_empty_for_a_reason() -> None:
    alone = kit(part("tray", "tray", size="80 x 60 x 30"), part("lid", "flap lid", covers="tray"))
    assert found(alone, "tray") == found(alone, "lid") == Filling(())


@pytest.mark.parametrize(
    ("form", "numbers"),
    [("side-seam envelope", {"inside": "160 x 115"}), ("pocket", {"width": "160", "height": "115"})],
)
def test_a_card_that_goes_in_lying_the_other_way_is_drawn_so(form: str, numbers: dict[str, str]) -> None:
    holder = part("holder", form, holds="card", **numbers)
    (lying,), (turned,) = (
        found(kit(part("card", "flat card", size=size), holder), "holder").blocks for size in ("150 x 100", "100 x 150")
    )
    assert turned == lying
    assert lying.size[::2] == pytest.approx((150, 100))
