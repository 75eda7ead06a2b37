"""Bands over the top, lids and bands that want the same place, lids too loose or with nothing to hold, and what is glued inside."""

import re

import pytest

from kitwright.findings import Finding, Severity
from kitwright.kit import BuiltKit, build, prove, read_kit
from kitwright.pattern import Axis

HEAD = """
[kit]
name = "Soap"
units = "mm"
ruler = "0.5"
[paper.white]
sheet = "420 x 594"
weight = "200 gsm"
caliper = "0.25"
[[part]]
name = "card"
form = "flat card"
size = "100 x 70"
paper = "white"
quantity = 6
[[extra]]
name = "seeds"
size = "60 x 50 x 3"
packed = "flat"
[[part]]
name = "box"
form = "tray"
holds = ["card"]
height = "30"
paper = "white"
"""
EMPTY = HEAD.replace('holds = ["card"]', 'size = "120 x 90 x 30"').replace('height = "30"\n', "")
LID = '[[part]]\nname = "lid"\nform = "lift-off lid"\ncovers = "box"\npaper = "white"\n'
BAND = '[[part]]\nname = "band"\nform = "belly band"\nwraps = "{wraps}"\npaper = "white"\n'
POCKET = '[[part]]\nname = "pocket"\nform = "pocket"\nholds = "seeds"\non = "lid"\npaper = "white"\n'


def made(text: str) -> BuiltKit:
    """The kit of a document that begins with HEAD."""
    return build(read_kit(HEAD + text))


def found(built: BuiltKit, code: str, *, with_fixes: bool = False) -> Finding:
    """The one finding with this code."""
    (finding,) = [each for each in prove(built, with_fixes=with_fixes).findings if each.code == code]
    return finding


def net(built: BuiltKit, name: str, axis: Axis, *, inside: bool = False) -> float:
    """A measured size of a part."""
    part = built.part(name)
    return (part.inside if inside else part.outside)[axis].net


# --------------------------------------------------------------------------- bands


def test_a_band_over_the_top_goes_round_depth_and_height_of_the_closed_box() -> None:
    built = made(LID + BAND.format(wraps="lid") + 'goes = "over the top"\nheight = "40"\n')
    # the closed box is as high as the tray with the one layer of the lid's top on it
    closed = net(built, "box", Axis.HEIGHT) + 0.25
    assert 0.8 <= net(built, "band", Axis.WIDTH, inside=True) - net(built, "lid", Axis.DEPTH) < 1.3
    assert 0.8 <= net(built, "band", Axis.DEPTH, inside=True) - closed < 1.3
    assert {f.severity for f in prove(built, with_fixes=False).findings if f.code.startswith("band")} == {Severity.OK}


def test_a_band_end_to_end_goes_round_width_and_height() -> None:
    built = made(LID + BAND.format(wraps="lid") + 'goes = "end to end"\nheight = "40"\n')
    assert 0.8 <= net(built, "band", Axis.WIDTH, inside=True) - net(built, "lid", Axis.WIDTH) < 1.3
    assert found(built, "band-fit-depth").message.startswith("The band goes on")
    assert "height inside" in found(built, "band-fit-depth").message


def test_a_band_over_the_top_is_no_broader_than_the_side_it_lies_along() -> None:
    wide = made(LID + BAND.format(wraps="lid") + 'goes = "end to end"\nheight = "90"\n')
    finding = found(wide, "band-place", with_fixes=True)
    assert finding.severity is Severity.FAIL
    assert finding.fix is not None
    assert finding.fix.changes[0].key == "height"


@pytest.mark.parametrize(("rim", "breadth", "fits"), [(12, 17.5, True), (12, 19, False), (20, 17.5, False)])
def test_a_band_round_the_walls_has_the_room_that_the_lid_leaves(rim: float, breadth: float, fits: bool) -> None:
    # tray 30 high outside by its scores: between 29.5 and 30.5 with the card's thickness
    built = made(LID + f'height = "{rim}"\n' + BAND.format(wraps="box") + f'height = "{breadth}"\n')
    assert (found(built, "band-place").severity is Severity.OK) is fits


def test_a_band_that_goes_where_the_lid_goes_is_laid_round_the_lid() -> None:
    built = made(LID + BAND.format(wraps="box") + 'goes = "over the top"\nheight = "40"\n')
    finding = found(built, "band-place", with_fixes=True)
    assert finding.severity is Severity.FAIL
    assert finding.fix is not None
    assert [(change.key, change.value) for change in finding.fix.changes] == [("wraps", "lid")]


def test_a_label_on_the_front_makes_its_band_and_lid_that_much_larger() -> None:
    # a two-half wrap box stands, so that what is glued on it makes it deeper
    label = '[[part]]\nname = "label"\nform = "mat"\non = "box"\nsize = "40 x 20"\npaper = "white"\n'
    head = HEAD.replace('form = "tray"', 'form = "two-half wrap box"').replace('height = "30"\n', "")
    plain = build(read_kit(head + BAND.format(wraps="box")))
    labelled = build(read_kit(head + label + BAND.format(wraps="box")))
    more = net(labelled, "band", Axis.DEPTH, inside=True) - net(plain, "band", Axis.DEPTH, inside=True)
    assert 0 <= more <= 0.5
    free = [prove(each, with_fixes=False) for each in (plain, labelled)]
    play = [f.measured for proof in free for f in proof.findings if f.code == "band-fit-depth"]
    assert play[0] is not None
    assert play[1] is not None
    assert play[0] + more - play[1] == pytest.approx(0.25)


# --------------------------------------------------------------------------- lids


@pytest.mark.parametrize(("more", "severity"), [(1.0, Severity.OK), (4.0, Severity.WARNING), (12.0, Severity.FAIL)])
def test_a_lid_that_is_too_large_is_told_with_a_size_that_holds(more: float, severity: Severity) -> None:
    plain = made(LID)
    width, depth = (float(plain.part("lid").lengths[name]) for name in ("width", "depth"))
    built = made(LID + f'size = "{width + more} x {depth}"\n')
    finding = found(built, "lid-fit-width", with_fixes=True)
    assert finding.severity is severity
    if severity is not Severity.OK:
        assert finding.fix is not None
        assert str(width).removesuffix(".0") in finding.fix.sentence


def test_a_lid_over_nearly_the_whole_box_leaves_nothing_to_hold() -> None:
    deep, shallow = made(LID + 'height = "28"\n'), made(LID + 'height = "20"\n')
    assert found(deep, "lid-height").severity is Severity.NOTE
    assert "thumb notch" in found(deep, "lid-height").message
    assert found(shallow, "lid-height").severity is Severity.OK


def test_a_usual_rim_is_made_shorter_on_a_low_box_and_says_so() -> None:
    built = made(LID)
    lid = built.part("lid")
    assert float(lid.lengths["height"]) <= net(built, "box", Axis.HEIGHT) - 6.35
    assert any("25.5 mm is usual" in words for words in lid.how)
    assert found(built, "lid-height").severity is Severity.OK


# --------------------------------------------------------------------------- glued inside


def test_what_is_glued_inside_the_lid_takes_room_from_the_contents() -> None:
    inside, outside = made(LID + POCKET + 'face = "inside"\n'), made(LID + POCKET)
    free = [
        float(re.findall(r"([\d.]+) mm in height", found(each, "contents-fit").message)[0])
        for each in (outside, inside)
    ]
    # the layers of the pocket and the seeds in it; the message tells tenths
    assert free[0] - free[1] == pytest.approx(3 + 0.25 * inside.part("pocket").layers, abs=0.1)


def test_a_box_grows_by_what_is_glued_inside_its_lid() -> None:
    free = HEAD.replace('height = "30"\n', "")
    plain = build(read_kit(free + LID))
    lined = build(read_kit(free + LID + POCKET + 'face = "inside"\n'))
    more = net(lined, "box", Axis.HEIGHT, inside=True) - net(plain, "box", Axis.HEIGHT, inside=True)
    assert more >= 3.0
    assert found(lined, "contents-fit").severity is not Severity.FAIL


def test_what_is_glued_inside_a_lid_goes_between_the_walls_of_the_box() -> None:
    head = HEAD.replace('size = "60 x 50 x 3"', 'size = "{} x 50 x 3"')
    fits, too_wide = (build(read_kit(head.format(w) + LID + POCKET + 'face = "inside"\n')) for w in (60, 110))
    assert found(fits, "mat-on-card").severity is Severity.OK
    assert found(too_wide, "mat-on-card").severity is Severity.FAIL


def test_a_lining_inside_its_own_box_follows_the_free_bottom() -> None:
    built = made(
        '[[part]]\nname = "lining"\nform = "mat"\non = "box"\nface = "inside"\nborder = "1"\npaper = "white"\n'
    )
    assert net(built, "lining", Axis.WIDTH) <= net(built, "box", Axis.WIDTH, inside=True) - 2


# --------------------------------------------------------------------------- envelopes


def test_an_envelope_is_judged_with_all_that_lies_in_it() -> None:
    packet = '[[part]]\nname = "packet"\nform = "side-seam envelope"\nsize = "103 x 75"\nholds = {}\npaper = "white"\n'
    head = EMPTY.replace("quantity = 6\n", "")
    one = build(read_kit(head + packet.format('["card"]')))
    both = build(read_kit(head + packet.format('["card", "seeds"]')))
    assert found(one, "envelope-fit").severity is not Severity.FAIL
    (card,) = [f for f in prove(both, with_fixes=False).findings if f.about == "card in packet"]
    assert card.severity is Severity.FAIL  # 3 free, but a card and a bag of 3 mm lie in it together


def test_cards_without_a_place_of_their_own_share_the_envelopes() -> None:
    packet = '[[part]]\nname = "packet"\nform = "side-seam envelope"\nholds = "card"\nquantity = 2\npaper = "white"\n'
    alone = build(read_kit(EMPTY + packet))
    beside = made(packet)
    assert [thing.count for thing in alone.things_in(alone.part("packet"))] == [3]  # six cards, two envelopes
    assert [thing.count for thing in beside.things_in(beside.part("packet"))] == [1]  # they lie in the box
