"""Sizes and free play of small kits, reckoned by hand: how things add up that are glued on, lie in, go over and go round each other.

Card of 0.5 mm, ruler of 1 mm. Paper counts its caliper for each layer; what is glued on something adds its own thickness.
"""

from __future__ import annotations

import pytest
from tests.kit.documents import built, finding, head, outside, part, quick_findings
from tests.kit.documents import lengths as sides

from kitwright.errors import Mistakes
from kitwright.findings import Finding, Severity
from kitwright.kit import BuiltKit, clear_inside, length_over
from kitwright.kit.fits import KitFits
from kitwright.kit.sums import carried, lined, room_for_band
from kitwright.paper import layers_thickness
from kitwright.pattern import Axis
from kitwright.proof.tolerance import Makes

FIT = '{ lid = "1", envelope = "4", contents = "2", band = "3", border = "5" }'
HEAD = head(units="mm", ruler="1", caliper="0.5 mm", sheet="600 x 900", fit=FIT)
CARD = part("card", "flat card", size="100 x 70", quantity=4)


def kit(*parts: str) -> BuiltKit:
    """A kit of a card of which there are four, and more."""
    return built(HEAD + CARD + "".join(parts))


def extra(name: str, size: str, *, packed: str = "beside", quantity: int = 1) -> str:
    """A thing that is bought."""
    return f'[[extra]]\nname = "{name}"\nsize = "{size}"\npacked = "{packed}"\nquantity = {quantity}\n'


def counted(made: BuiltKit, name: str, apart: tuple[str, ...] = ()) -> list[tuple[str, int]]:
    """What a part carries, and how many of each."""
    return [(term.name, term.times) for term in carried(made.kit, name, apart=apart)]


# --------------------------------------------------------------------------- what a thing carries


def test_what_is_glued_on_is_counted_for_each_piece_with_what_it_carries() -> None:
    made = kit(
        part("mat", "mat", on="card", quantity=4),
        part("dots", "mat", on="mat", size="20 x 20", quantity=10),  # two or three on each mat: three at the most
        part("pocket", "pocket", on="card", holds="seeds", quantity=4),
        extra("seeds", "60 x 40 x 2", quantity=5),  # two in one of the pockets
    )
    assert counted(made, "card") == [("mat", 1), ("dots", 3), ("pocket", 1), ("seeds", 2)]
    assert counted(made, "card", apart=("mat",)) == [("pocket", 1), ("seeds", 2)]
    assert counted(made, "mat") == [("dots", 3)]


def test_pieces_of_pieces_are_multiplied() -> None:
    made = kit(
        part("mat", "mat", on="card", size="40 x 60", quantity=8),
        part("dots", "mat", on="mat", size="20 x 20", quantity=24),
    )
    assert counted(made, "card") == [("mat", 2), ("dots", 6)]


def test_what_lies_in_a_box_on_its_own_lies_in_its_envelope_once() -> None:
    both = (part("envelope", "side-seam envelope", holds="card"),)
    assert counted(kit(*both), "envelope") == [("card", 4)]
    assert counted(kit(*both, part("box", "tray", holds=["card", "envelope"])), "envelope") == [("card", 1)]


@pytest.mark.parametrize(("size", "packed", "thick"), [("3 x 60 x 40", "beside", 3), ("5 x 40 x 60", "flat", 5)])
def test_a_thing_makes_what_it_lies_in_thicker_by_its_least_side(size: str, packed: str, thick: int) -> None:
    made = kit(
        part("pocket", "pocket", on="card", size="80 x 60", holds="stick", quantity=4),
        part("e", "side-seam envelope", size="120 x 90", holds="card", quantity=4),
        extra("stick", size, packed=packed, quantity=4),
    )
    (card,) = made.things_in(made.part("e"))
    # the card, the pocket with its tabs folded behind it, and the stick
    assert card.thickness == pytest.approx(0.5 + 0.5 * made.part("pocket").layers + thick)
    assert made.part("pocket").layers == 2
    fits = fits_of(made)
    assert fits.sum(fits.filling(made.part("e"))).nominal == pytest.approx(card.thickness)


def test_a_box_carries_nothing_itself() -> None:
    assert counted(kit(part("box", "tray", holds="card"), part("label", "mat", on="box", size="20 x 20")), "box") == []


# --------------------------------------------------------------------------- sizes


def test_an_envelope_has_its_free_play_across_and_half_of_it_upwards() -> None:
    # one card of 100 x 70: 104 wide and 72 high inside; the card may be said standing as well
    for card in ("100 x 70", "70 x 100"):
        made = built(HEAD + part("card", "flat card", size=card) + part("e", "side-seam envelope", holds="card"))
        assert {axis.value: round(found.net) for axis, found in made.part("e").inside.items()} == {
            "width": 104,
            "height": 72,
        }


def test_an_envelope_for_much_has_its_thickness_to_spare() -> None:
    # six cards of 0.5 and one of 4 mm free play: the bulge of 3 with a quarter of the play is 4 upwards too, more than 2
    text = HEAD + part("card", "flat card", size="100 x 70", quantity=6) + part("e", "side-seam envelope", holds="card")
    inside = built(text).part("e").inside
    assert 4 <= inside[Axis.WIDTH].net - 100 < 5
    assert 4 <= inside[Axis.HEIGHT].net - 70 < 5


def test_a_pocket_is_as_large_as_what_it_holds_and_not_as_what_it_lies_on() -> None:
    made = kit(part("pocket", "pocket", on="card", holds="seeds"), extra("seeds", "40 x 30 x 1", packed="flat"))
    assert 44 <= made.part("pocket").inside[Axis.WIDTH].net < 46


def test_a_box_has_room_for_the_stack_its_play_and_what_is_glued_inside_it_and_its_lid() -> None:
    text = (
        part("box", "tray", holds="card"),
        part("lid", "lift-off lid", covers="box"),
        part("liner", "mat", on="lid", face="inside"),
        part("photo", "mat", on="liner"),
        part("base", "mat", on="box", face="inside", size="20 x 20"),
    )
    plain, glued = kit(*text[:2]), kit(*text)
    needed = glued.things_in(glued.part("box"))[0]
    assert needed.thickness * needed.count == pytest.approx(2)
    # three layers of half a millimetre: the liner, the photo on it and the base
    names = {term.name: term.is_one_layer for term in lined(glued.kit, "box", ahead=True)[Axis.HEIGHT]}
    assert names == {"base": False, "liner": True, "photo": True}
    assert not any(term.is_one_layer for term in lined(glued.kit, "box")[Axis.HEIGHT])
    clear, free = (clear_inside(each.kit, each.by_name, each.part("box"))[Axis.HEIGHT] for each in (glued, plain))
    assert glued.part("box").inside[Axis.HEIGHT].net - clear == pytest.approx(1.5)
    assert clear >= 4
    assert free >= 4
    assert all(each.severity is not Severity.FAIL for each in quick_findings(glued))


@pytest.mark.parametrize(("slip", "width"), [("60 x 40 x 1", 100), ("150 x 90 x 1", 152)])
def test_what_holds_one_thing_and_covers_another_is_large_enough_for_both(slip: str, width: int) -> None:
    made = kit(part("box", "tray", holds="slip", covers="card", height="20"), extra("slip", slip, packed="flat"))
    assert width <= made.part("box").lengths["width"] <= width + 2


def test_what_stands_in_a_box_takes_room_from_front_to_back() -> None:
    made = kit(
        part("box", "two-half wrap box", holds="card"), part("label", "mat", on="box", face="inside", size="20 x 20")
    )
    glued = lined(made.kit, "box")
    assert list(glued) == [Axis.DEPTH]
    lying = kit(part("box", "tray", holds="card"))
    standing = kit(part("box", "tray", holds="card", contents="standing"))
    assert lying.part("box").inside[Axis.HEIGHT].net < 20 < standing.part("box").inside[Axis.HEIGHT].net


def test_a_liner_keeps_its_border_from_the_lid_and_goes_between_the_walls_of_the_box() -> None:
    box = (part("box", "tray", size="100 x 70 x 20"), part("lid", "lift-off lid", covers="box"))
    for border, width in (("5", 92), ("1", 99)):
        made = kit(*box, part("liner", "mat", on="lid", face="inside", border=border))
        room, walls = made.part("lid").inside[Axis.WIDTH].net, made.part("box").inside[Axis.WIDTH].net
        assert float(made.part("liner").lengths["width"]) == int(min(room - 2 * int(border), walls))
        assert finding_of(made, "mat-on-card").severity is not Severity.FAIL
        assert abs(float(made.part("liner").lengths["width"]) - width) <= 1


def finding_of(made: BuiltKit, code: str) -> Finding:
    """The one finding with this code."""
    (found,) = (each for each in quick_findings(made) if each.code == code)
    return found


def test_a_size_that_follows_and_is_too_small_for_the_form_is_told() -> None:
    # a mat can be 10 mm wide and no less
    card = HEAD.replace('ruler = "1"', 'ruler = "0.5"') + part("card", "flat card", size="20 x 70")
    assert built(card + part("mat", "mat", on="card", border="5")).part("mat").lengths["width"] == 10
    with pytest.raises(Mistakes, match=r"Width comes out at 9\.5 mm, but a mat can only have 10 to 600 mm"):
        built(card + part("mat", "mat", on="card", border="5.2"))


# --------------------------------------------------------------------------- over and round


def test_a_band_goes_round_the_whole_pile_with_all_that_its_cards_carry() -> None:
    made = kit(part("mat", "mat", on="card", quantity=4), part("band", "belly band", wraps="card", height="20"))
    # four cards of 0.5 with a mat of 0.5 each
    assert length_over(made.kit, made.by_name, made.part("card"), Axis.DEPTH) == pytest.approx(4)
    assert length_over(made.kit, made.by_name, made.part("card"), Axis.WIDTH) == pytest.approx(100)
    assert 7 <= made.part("band").inside[Axis.DEPTH].net < 8
    assert 103 <= made.part("band").inside[Axis.WIDTH].net < 104


def test_what_is_glued_on_a_closed_box_and_its_lid_counts_where_a_band_goes_over_it() -> None:
    box = (part("box", "tray", size="100 x 70 x 30"), part("lid", "lift-off lid", covers="box"))
    label = (part("label", "mat", on="lid", size="40 x 40"), part("dot", "mat", on="label", size="20 x 20"))
    plain, dressed = kit(*box), kit(*box, *label)
    high = outside(plain, "box")["height"]
    for made, more in ((plain, 0.0), (dressed, 1.0)):
        lid = made.part("lid")
        # the box with one layer of the lid's card on it, and what is glued on that
        assert length_over(made.kit, made.by_name, lid, Axis.HEIGHT) == pytest.approx(high + 0.5 + more)
        assert length_over(made.kit, made.by_name, lid, Axis.WIDTH) == pytest.approx(outside(made, "lid")["width"])


def test_a_band_has_the_room_that_a_lid_leaves_and_over_the_top_none_below_a_lid() -> None:
    box = part("box", "tray", size="100 x 70 x 60")
    lid = part("lid", "lift-off lid", covers="box", height="20")
    for parts, goes, room in (
        ((box,), "round the walls", 60.25),
        ((box, lid), "round the walls", 40.25),
        ((box,), "over the top", 100.5),
        ((box, lid), "over the top", 0.0),
        ((box,), "end to end", 70.5),
    ):
        made = kit(*parts, part("band", "belly band", wraps="box", goes=goes, height="10"))
        assert room_for_band(made.kit, made.by_name, made.kit.part("band")) == pytest.approx(room, abs=0.51)
        found = finding_of(made, "band-place")
        assert found.required == pytest.approx(max(room, 0), abs=0.51)
        assert (found.severity is Severity.FAIL) is (room == 0)


def test_a_lid_that_hangs_below_its_box_leaves_a_band_no_room_and_not_less_than_none() -> None:
    made = kit(
        part("box", "tray", size="100 x 70 x 20"),
        part("lid", "lift-off lid", covers="box", height="30"),
        part("band", "belly band", wraps="box", height="10"),
    )
    assert finding_of(made, "band-place").required == 0


def test_a_rim_of_the_usual_length_is_not_called_shorter() -> None:
    # usual is 25.4, here 25; a box of 40 leaves 34 below a grip
    usual, low = (
        kit(part("box", "tray", size=f"100 x 70 x {high}"), part("lid", "lift-off lid", covers="box"))
        for high in (40, 25)
    )
    assert sides(usual, "lid").endswith("× 25")
    assert not any("is usual" in words for words in usual.part("lid").how)
    assert any("25 mm is usual; shorter here" in words for words in low.part("lid").how)


def test_a_lid_is_never_lower_than_a_lid_can_be() -> None:
    made = kit(part("box", "tray", size="100 x 70 x 8"), part("lid", "lift-off lid", covers="box"))
    assert made.part("lid").lengths["height"] == 8


# --------------------------------------------------------------------------- fits


def fits_of(made: BuiltKit) -> KitFits:
    """The fits of a kit, by the maker's accuracy."""
    return KitFits(made, made.kit.accuracy, Makes(0))


def test_the_free_play_of_an_envelope_is_less_by_all_that_lies_in_it() -> None:
    made = kit(
        part("mat", "mat", on="card", quantity=4), part("e", "side-seam envelope", holds="card", size="110 x 80")
    )
    fits, envelope = fits_of(made), made.part("e")
    (card,) = made.things_in(envelope)
    fit = fits.envelope(envelope, card)
    inside = [envelope.inside[axis].net for axis in (Axis.WIDTH, Axis.HEIGHT)]
    # four cards with their mats are 4 mm thick
    assert [stack.nominal for stack in fit.free] == pytest.approx([inside[0] - 100 - 4, inside[1] - 70 - 4])
    pack = {each.what: by for each, by in fits.sum(fits.filling(envelope)).moves.items()}
    assert pack == {"thickness of card": pytest.approx(8)}


def test_a_card_that_goes_in_turned_is_judged_turned() -> None:
    made = built(
        HEAD
        + part("card", "flat card", size="70 x 100")
        + part("e", "side-seam envelope", holds="card", size="110 x 80")
    )
    envelope = made.part("e")
    fit = fits_of(made).envelope(envelope, made.things_in(envelope)[0])
    assert min(stack.nominal for stack in fit.free) > 5


def test_what_lies_in_its_box_on_its_own_is_not_in_the_filling_twice() -> None:
    made = kit(
        part("mat", "mat", on="card", quantity=4),
        part("e", "side-seam envelope", holds=["card", "mat"]),
    )
    assert [(term.name, term.times) for term in fits_of(made).filling(made.part("e"))] == [("card", 4), ("mat", 4)]


def test_a_pocket_is_judged_by_the_side_that_goes_in() -> None:
    # 30 wide upright, 60 wide turned; in a pocket 66 wide and 40 high it lies turned
    for size, wide in (("66 x 40", 60), ("40 x 66", 30)):
        text = HEAD + part("pocket", "pocket", holds="slip", size=size) + extra("slip", "30 x 60 x 1", packed="flat")
        made = built(text)
        found = finding_of(made, "pocket-fit")
        inside = made.part("pocket").inside[Axis.WIDTH].net
        with_makes = finding(text, "pocket-fit")
        assert with_makes.makings is not None
        assert with_makes.makings.nominal == pytest.approx(inside - wide - 1)
        assert found.about == "slip in pocket"


def test_a_mat_that_is_glued_out_of_the_middle_has_one_border_less() -> None:
    made = kit(part("mat", "mat", on="card", quantity=4))
    fit = fits_of(made).mat(made.part("mat"), made.part("card"))
    assert len(fit.free) == 4
    assert [stack.nominal for stack in fit.free] == pytest.approx([5, 5, 5, 5])
    slips = [by for stack in fit.free for each, by in stack.moves.items() if "gluing" in each.what]
    assert slips == [1, -1, 1, -1]


def test_a_stack_varies_with_its_packs_and_lies_in_what_room_the_linings_leave() -> None:
    made = kit(part("box", "tray", holds="card"), part("base", "mat", on="box", face="inside", size="20 x 20"))
    fits, box = fits_of(made), made.part("box")
    things = made.things_in(box)
    free = fits.contents(box, things, standing=False, is_turned=False).free
    width, depth, height = (box.inside[axis].net for axis in (Axis.WIDTH, Axis.DEPTH, Axis.HEIGHT))
    cut = made.kit.accuracy.cut
    # as broad as the widest of the cards can be cut; the stack is 2 mm high and springs back by a tenth, the base is half a one
    assert [stack.nominal for stack in free] == pytest.approx([width - 100 - cut, depth - 70 - cut, height - 2.2 - 0.5])
    pack = next(by for each, by in free[2].moves.items() if each.what == "thickness of card")
    assert pack < -4
    standing = fits.contents(box, things, standing=True, is_turned=False).free
    assert standing[2].nominal == pytest.approx(height - 70 - cut - 0.5)


def test_what_is_longer_than_the_cards_is_no_broader_for_how_they_are_cut() -> None:
    made = kit(part("box", "tray", holds=["card", "stick"]), extra("stick", "130 x 20 x 5"))
    box = made.part("box")
    free = fits_of(made).contents(box, made.things_in(box), standing=False, is_turned=False).free
    assert free[0].nominal == pytest.approx(box.inside[Axis.WIDTH].net - 130)


def test_layers_of_one_pack_vary_together() -> None:
    made = kit(part("e", "side-seam envelope", holds="card"))
    envelope = made.part("e")
    stack = fits_of(made).layers(envelope.paper, 3)
    assert stack.nominal == pytest.approx(layers_thickness(3, envelope.paper))
    assert list(stack.moves.values()) == [3]
    band = kit(part("band", "belly band", wraps="card", height="20"))
    over = fits_of(band).over(band.part("band"), band.part("card"), Axis.DEPTH, most=1.0)
    assert sum(by for each, by in over.free[0].moves.items() if each.what.startswith("thickness")) != 0


# --------------------------------------------------------------------------- findings


def test_a_pocket_that_holds_something_has_no_border_to_be_even() -> None:
    text = (
        HEAD + CARD + part("pocket", "pocket", on="card", size="96 x 60", holds="slip") + extra("slip", "30 x 60 x 1")
    )
    assert finding(text, "mat-on-card").severity is Severity.OK
    mat = HEAD + CARD + part("mat", "mat", on="card", size="96 x 60")
    assert finding(mat, "mat-on-card").severity is not Severity.OK


def test_the_block_of_flat_things_keeps_standing_on_its_side_and_may_be_turned_a_quarter() -> None:
    # a stack of 100 x 70 in a box that is only wide enough the other way round, beside a stick; it springs back by a tenth
    text = (
        HEAD
        + part("card", "flat card", size="100 x 70", quantity=20)
        + part("box", "tray", inside="74 x 130 x 14", holds=["card", "stick"])
        + extra("stick", "70 x 20 x 10")
    )
    found = finding(text, "contents-fit")
    assert found.severity is Severity.NOTE
    (stack,) = (each for each in found.placed if each.name == "card")
    assert stack.size == pytest.approx((70, 100, 20 * 0.5 * 1.1))


def test_a_stack_that_lies_is_not_stood_on_edge_to_go_in() -> None:
    text = HEAD + part("card", "flat card", size="100 x 70", quantity=20) + extra("stick", "70 x 20 x 10")
    box = part("box", "tray", inside="104 x 40 x 74", holds=["card", "stick"])
    assert finding(text + box, "contents-fit").severity is Severity.FAIL


def test_a_stack_alone_that_does_not_go_in_is_told_by_how_much_and_how_often() -> None:
    text = HEAD + part("card", "flat card", size="100 x 70", quantity=20)
    found = finding(text + part("box", "tray", inside="90 x 60 x 30", holds="card"), "contents-fit")
    assert found.severity is Severity.FAIL
    assert "9.5 mm is missing in width" in found.message  # the box comes out at 90.5 inside
    assert found.makings is not None
    assert found.makings.too_tight == 1


def test_a_lid_that_fits_by_the_numbers_with_too_little_room_is_looked_at_in_place() -> None:
    # it has 1, 0, -0.5 and -1 mm free play: with that much too little both layers of card are in the way for certain
    lids = {
        size: {each.code: each.severity for each in quick_findings(
            kit(part("box", "tray", size="100 x 70 x 30"), part("lid", "lift-off lid", covers="box", size=size))
        )}
        for size in ("103 x 73 x 20", "102 x 73 x 20", "101.5 x 73 x 20", "101 x 73 x 20")
    }  # fmt: skip
    assert {size: "layers-in-the-way" in codes for size, codes in lids.items()} == {
        "103 x 73 x 20": False,
        "102 x 73 x 20": True,
        "101.5 x 73 x 20": True,
        "101 x 73 x 20": False,
    }


def test_only_round_the_walls_two_prints_must_agree() -> None:
    head_ = HEAD.replace('weight = "80 lb cover"', 'weight = "80 lb cover"\nprint = "one-way"')
    box = part("box", "tray", size="100 x 70 x 30")
    codes = {
        goes: [
            each.code
            for each in quick_findings(
                built(head_ + box + part("band", "belly band", wraps="box", goes=goes, height="20"))
            )
        ]
        for goes in ("round the walls", "over the top")
    }
    assert "prints-agree" in codes["round the walls"]
    assert "prints-agree" not in codes["over the top"]


# --------------------------------------------------------------------------- how far a lid hangs down


THICK = head(units="mm", ruler="1", caliper="1", sheet="900 x 900")


def lidded(high: int, rim: int) -> str:
    """A tray of 1 mm card, so high from score to rim, with a lid."""
    tray = part("box", "tray", size=f"110 x 66 x {high}")
    return THICK + tray + part("lid", "lift-off lid", covers="box", height=str(rim))


def test_a_rim_hangs_down_from_the_inner_face_of_the_lid_along_the_box_with_its_bottom() -> None:
    # the box is 19 + 0.5 high, of the rim's 16 its own top takes 0.5: 19.5 - 15.5 = 4
    found = finding(lidded(19, 16), "lid-height")
    assert found.severity is Severity.NOTE
    assert found.measured == pytest.approx(15.5)
    assert found.margin == pytest.approx(4 - 6.35)
    assert "ends 4 mm above the foot" in found.message


def test_a_band_below_a_lid_has_all_the_room_that_its_rim_leaves() -> None:
    made = built(lidded(40, 16) + part("band", "belly band", wraps="box", paper="thin"))
    assert room_for_band(made.kit, made.by_name, made.kit.part("band")) == pytest.approx(40.5 - 15.5)


def test_a_rim_that_may_stand_on_the_table_by_its_score_does_not_where_its_top_takes_that_much() -> None:
    # 20.5 high; 21 from the score hang down 20.5
    assert finding(lidded(20, 21), "lid-height").severity is Severity.NOTE
    assert finding(lidded(20, 22), "lid-height").severity is Severity.FAIL


def test_a_rim_as_short_as_can_be_is_not_to_be_made_shorter() -> None:
    # a rim is 8 mm at least and hangs down 7.5; with 6.35 to hold, the box must be 13.85 high
    assert finding(lidded(13, 8), "lid-height").message.endswith("cut a thumb notch into it, or make the box higher.")
    assert finding(lidded(13, 9), "lid-height").message.endswith("cut a thumb notch into it, or make the box higher.")
    assert finding(lidded(14, 9), "lid-height").message.endswith("cut a thumb notch into it, or make it shorter.")


# --------------------------------------------------------------------------- what is glued inside a lid


def lined_lid(width: str) -> str:
    """A lid of 0.5 mm card, 104 x 74 from score to score, over a tray of 102 x 72, with a lining of its own size inside."""
    tray = part("box", "tray", size="102 x 72 x 40")
    lid = part("lid", "lift-off lid", covers="box", size="104 x 74 x 20")
    return HEAD + tray + lid + part("lining", "mat", on="lid", face="inside", size=f"{width} x 67.5")


def test_a_border_inside_a_lid_is_told_to_its_walls_and_the_room_between_the_walls_of_the_box_apart() -> None:
    # at the sides two walls and the tabs inside them, 0.25 + 0.5 each: the lid is 102.5 wide inside and the box 100.5; from front to
    # back there are no tabs: 73.5 and 71.5
    found = finding(lined_lid("96.5"), "mat-on-card")
    assert found.about == "lining inside lid"
    assert found.message.startswith(
        "The border is 3 mm at the sides, 3 mm above and below. With the lid on, the walls of box leave it 2 mm at the sides, "
        "2 mm above and below."
    )
    assert found.measured == pytest.approx(3)


def test_a_lining_that_does_not_go_between_the_walls_of_the_box_keeps_the_lid_up() -> None:
    # 101.5 goes into the lid, 102.5 wide inside, and not between walls 100.5 apart: 1 mm in all, half of it on each side
    found = finding(lined_lid("101.5"), "mat-on-card")
    assert found.severity is Severity.FAIL
    assert found.measured == pytest.approx(-0.5)
    assert (
        found.message == "It is 1 mm too large to go between the walls of box: they stand on it, and the lid stays up."
    )
