"""A box goes into another, into an envelope and into the post with its lid on, its band round it and what is glued on it; so does a
banded pile."""

from __future__ import annotations

from random import Random

import pytest
from tests.kit.documents import DEPTH, HEIGHT, WIDTH, built, finding, head, inside, outside, part

from kitwright.findings import Severity
from kitwright.kit import BuiltKit, clear_inside, posted_pieces
from kitwright.kit.things import Thing
from kitwright.pattern import Axis

HEAD = head(units="mm", ruler="0.5", sheet="900 x 900", caliper="0.5")
TRAY = part("tray", "tray", size="100 x 70 x 30")
LID = part("lid", "lift-off lid", covers="tray", height="20")
CARDS = part("card", "flat card", size="100 x 70", quantity=20)
BAND = part("band", "belly band", wraps="card", height="30")


def outer(holds: str | list[str], form: str = "tray", **more: str) -> str:
    return part("outer", form, holds=holds, **more)


def held(kit: BuiltKit, name: str = "tray", holder: str = "outer") -> Thing:
    return next(each for each in kit.things_in(kit.part(holder)) if each.name == name)


def test_a_box_takes_the_room_of_its_lid_in_a_larger_one() -> None:
    kit = built(HEAD + TRAY + LID + outer("tray"))
    lid, tray = outside(kit, "lid"), outside(kit, "tray")
    thing = held(kit)
    assert (thing.width, thing.thickness) == pytest.approx((lid[WIDTH], lid[DEPTH]))
    assert thing.height == pytest.approx(tray[HEIGHT] + 0.5)  # the lid's top lies on the rim
    room = inside(kit, "outer")
    assert (room[WIDTH], room[DEPTH], room[HEIGHT]) > (thing.width, thing.thickness, thing.height)
    assert room[WIDTH] >= lid[WIDTH] + 6


def test_a_box_that_would_hold_the_tray_but_not_the_lid_on_it_fails() -> None:
    said = outer("tray", inside="101.5 x 71.5 x 40")
    assert finding(HEAD + TRAY + said, "contents-fit").severity is not Severity.FAIL
    with_lid = finding(HEAD + TRAY + LID + said, "contents-fit", with_fixes=True)
    assert with_lid.severity in (Severity.FAIL, Severity.UNKNOWN)
    assert with_lid.fix is not None


def test_a_lid_that_lies_in_the_box_by_its_own_name_is_not_on() -> None:
    kit = built(HEAD + TRAY + LID + outer(["tray", "lid"]))
    assert held(kit).width == pytest.approx(outside(kit, "tray")[WIDTH])
    assert held(kit, "lid").height == pytest.approx(outside(kit, "lid")[HEIGHT])


def test_a_box_is_held_closed_by_the_name_of_its_lid_as_well() -> None:
    by_lid, by_box = (held(built(HEAD + TRAY + LID + outer(name)), name) for name in ("lid", "tray"))
    assert (by_lid.width, by_lid.height, by_lid.thickness) == (by_box.width, by_box.height, by_box.thickness)


@pytest.mark.parametrize(
    ("goes", "grown"), [("round the walls", (1, 1, 0)), ("over the top", (0, 1, 1)), ("end to end", (1, 0, 1))]
)
def test_a_band_round_the_closed_box_goes_in_with_it_along_the_sides_it_goes_round(
    goes: str, grown: tuple[int, ...]
) -> None:
    band = part("band", "belly band", wraps="lid", goes=goes, height="15")
    plain, banded = (held(built(HEAD + TRAY + LID + more + outer("tray"))) for more in ("", band))
    sides = zip(
        (banded.width, banded.thickness, banded.height), (plain.width, plain.thickness, plain.height), strict=True
    )
    assert tuple(int(one > other + 0.5) for one, other in sides) == grown


def test_what_is_glued_on_a_lid_or_below_its_box_goes_in_as_well() -> None:
    labels = "".join(part(name, "mat", on=host, size="40 x 30") for name, host in (("seal", "lid"), ("foot", "tray")))
    plain, labelled = (held(built(HEAD + TRAY + LID + more + outer("tray"))) for more in ("", labels))
    assert labelled.height - plain.height == pytest.approx(2 * 0.5)


def test_a_closed_box_in_an_envelope_lies_on_its_largest_side() -> None:
    low = part("tray", "tray", size="100 x 70 x 11") + part("lid", "lift-off lid", covers="tray", height="9")
    kit = built(HEAD + low + outer("tray", "side-seam envelope"))
    thing, lid = held(kit), outside(kit, "lid")
    assert (thing.width, thing.height) == pytest.approx((lid[WIDTH], lid[DEPTH]))
    assert thing.thickness == pytest.approx(outside(kit, "tray")[HEIGHT] + 0.5)
    assert finding(HEAD + low + outer("tray", "side-seam envelope"), "envelope-fit").severity is Severity.OK
    tight = outer("tray", "side-seam envelope", size=f"{100 + 12.5} x {70 + 12.5}")
    assert (
        finding(HEAD + low.partition('[[part]]\nname = "lid"')[0] + tight, "envelope-fit").severity is not Severity.FAIL
    )
    assert finding(HEAD + low + tight, "envelope-fit").severity is Severity.FAIL


def test_a_pile_takes_the_room_of_its_band() -> None:
    kit = built(HEAD + CARDS + BAND + outer("card"))
    band, pile = outside(kit, "band"), held(kit, "card")
    assert (pile.width, pile.count * pile.thickness) == pytest.approx((band[WIDTH], band[DEPTH]))
    assert pile.height == pytest.approx(70)
    said = outer("card", inside="101.3 x 80 x 20")
    assert finding(HEAD + CARDS + said, "contents-fit").severity is not Severity.FAIL
    assert finding(HEAD + CARDS + BAND + said, "contents-fit").severity is Severity.FAIL


def test_no_band_is_round_cards_that_lie_in_several_envelopes() -> None:
    one, several = (
        held(built(HEAD + CARDS + BAND + part("outer", "side-seam envelope", holds="card", quantity=count)), "card")
        for count in (1, 4)
    )
    assert one.width > 100
    assert (several.width, several.thickness) == pytest.approx((100, 0.5))


def test_a_box_goes_into_the_post_with_its_band() -> None:
    text = HEAD + CARDS + part("box", "tray", holds="card") + part("lid", "lift-off lid", covers="box")
    band = part("band", "belly band", wraps="lid", goes="over the top", height="30")
    (plain,), (banded,) = (posted_pieces(built(text + more)) for more in ("", band))
    kit = built(text + band)
    assert banded.piece.thickness > plain.piece.thickness
    assert banded.piece.thickness == pytest.approx(outside(kit, "band")[DEPTH])


def test_whatever_box_lies_in_another_has_room_there_with_all_that_is_on_it() -> None:
    random = Random(7)
    for _ in range(8):
        size = " x ".join(str(random.randint(60, 150)) for _ in range(2)) + f" x {random.randint(45, 90)}"
        text = HEAD + part("tray", "tray", size=size)
        if random.random() < 0.8:
            text += part("lid", "lift-off lid", covers="tray", height="20")
        goes = random.choice(("round the walls", "over the top", "end to end"))
        text += part("band", "belly band", wraps="lid" if "lid" in text else "tray", goes=goes, height="12")
        kit = built(text + outer("tray"))
        room = sorted(inside(kit, "outer").values())
        for name in ("tray", "lid", "band"):
            if name in kit.by_name:
                sides = sorted(each for each in outside(kit, name).values())
                assert all(side < free for side, free in zip(sides, room, strict=True)), (size, goes, name)


def test_several_linings_lie_on_each_other_and_take_as_much_room() -> None:
    def height_left(number: int) -> float:
        lining = part("lining", "mat", on="tray", face="inside", quantity=number)
        kit = built(HEAD + TRAY + lining)
        return clear_inside(kit.kit, kit.by_name, kit.part("tray"))[Axis.HEIGHT]

    assert height_left(1) - height_left(5) == pytest.approx(4 * 0.5)


def test_several_mats_on_a_lid_make_the_closed_box_higher_by_all_of_them() -> None:
    def height(number: int) -> float:
        mat = part("mat", "mat", on="lid", quantity=number)
        return held(built(HEAD + TRAY + LID + mat + outer("tray"))).height

    assert height(6) - height(1) == pytest.approx(5 * 0.5)
