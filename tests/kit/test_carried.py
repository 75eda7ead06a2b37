"""What lies in, or is glued on, a flat part goes with it into its box, its envelope and its band; and glued parts stay on their hosts."""

import pytest

from kitwright.findings import Finding, Severity
from kitwright.kit import BuiltKit, build, prove, read_kit
from kitwright.pattern import Axis

HEAD = """
[kit]
name = "Seeds"
units = "mm"
ruler = "0.5"
[paper.white]
sheet = "305 x 305"
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
quantity = 6
"""
PACKET = '[[part]]\nname = "packet"\nform = "side-seam envelope"\nholds = {holds}\npaper = "white"\nquantity = 6\n'
BOX = '[[part]]\nname = "box"\nform = "tray"\nholds = {holds}\n{more}\npaper = "white"\n'
MAT = '[[part]]\nname = "mat"\nform = "mat"\non = "card"\npaper = "white"\nquantity = 6\n'


def made(text: str) -> BuiltKit:
    """The kit of a document that begins with HEAD."""
    return build(read_kit(HEAD + text))


def found(built: BuiltKit, code: str, about: str) -> Finding:
    """The one finding with this code about this."""
    (finding,) = [each for each in prove(built, with_fixes=False).findings if (each.code, each.about) == (code, about)]
    return finding


def thickness_in(built: BuiltKit, holder: str, name: str) -> float:
    """How thick one piece of a thing is where it lies in a holder."""
    return next(thing.thickness for thing in built.things_in(built.part(holder)) if thing.name == name)


def test_a_filled_packet_is_as_thick_in_its_box_as_its_layers_and_all_that_lies_in_it() -> None:
    built = made(PACKET.format(holds='["card", "seeds"]') + BOX.format(holds='["packet"]', more=""))
    # worked by hand: four layers of 0.25 where tabs, back and flap lie on the front; a card of 0.25; a bag of 3
    assert built.part("packet").layers == 4
    assert thickness_in(built, "box", "packet") == pytest.approx(4 * 0.25 + 0.25 + 3)
    assert built.part("box").inside[Axis.HEIGHT].net >= 6 * 4.25


def test_a_box_that_is_only_high_enough_for_empty_packets_fails() -> None:
    low = PACKET.format(holds='["card", "seeds"]') + BOX.format(holds='["packet"]', more='height = "15"')
    high = PACKET.format(holds='["card", "seeds"]') + BOX.format(holds='["packet"]', more='height = "36"')
    assert found(made(low), "contents-fit", "contents of box").severity is Severity.FAIL
    assert found(made(high), "contents-fit", "contents of box").severity is not Severity.FAIL


def test_what_lies_in_the_box_on_its_own_is_not_counted_in_its_envelope_again() -> None:
    built = made(PACKET.format(holds='"card"') + BOX.format(holds='["card", "packet"]', more=""))
    assert thickness_in(built, "box", "packet") == pytest.approx(4 * 0.25)


def test_a_mat_goes_with_its_card_into_the_box_unless_it_lies_there_loose() -> None:
    glued = made(MAT + BOX.format(holds='["card"]', more=""))
    loose = made(MAT + BOX.format(holds='["card", "mat"]', more=""))
    assert thickness_in(glued, "box", "card") == pytest.approx(0.5)
    assert thickness_in(loose, "box", "card") == pytest.approx(0.25)


def test_a_band_goes_round_the_cards_with_what_is_glued_on_them() -> None:
    band = '[[part]]\nname = "band"\nform = "belly band"\nwraps = "card"\nheight = "30"\npaper = "white"\n'
    plain, matted = made(band), made(band + MAT)
    # six mats of 0.25 more
    more = matted.part("band").inside[Axis.DEPTH].net - plain.part("band").inside[Axis.DEPTH].net
    assert 1.0 <= more <= 2.0
    assert found(matted, "band-fit-depth", "band round card").severity is Severity.OK
    tight = made(MAT + band.replace('height = "30"', 'size = "103 x 2.5 x 30"'))
    assert found(tight, "band-fit-depth", "band round card").severity is Severity.FAIL


LID = (
    BOX.format(holds='["card"]', more="")
    + '[[part]]\nname = "lid"\nform = "lift-off lid"\ncovers = "box"\npaper = "white"\n'
)
POCKET = '[[part]]\nname = "pocket"\nform = "pocket"\nholds = "seeds"\non = "lid"\n{more}\npaper = "white"\n'


def test_a_pocket_that_holds_something_must_still_stay_on_what_it_is_glued_on() -> None:
    one = HEAD.replace('packed = "flat"\nquantity = 6', 'packed = "flat"')
    inside, outside = (
        found(build(read_kit(one + LID + POCKET.format(more=more))), "mat-on-card", "pocket on lid")
        for more in ("", 'size = "70 x 90"')
    )
    assert inside.severity is Severity.OK
    assert outside.severity is Severity.FAIL


def test_a_part_on_a_lid_is_measured_against_its_top_not_its_rim() -> None:
    # the rim is at most 25 mm high, the top some 77 mm deep
    finding = found(made(LID + POCKET.format(more='size = "70 x 70"')), "mat-on-card", "pocket on lid")
    assert finding.severity is Severity.OK
    assert "walls" not in finding.message  # those of the box are inside the lid
