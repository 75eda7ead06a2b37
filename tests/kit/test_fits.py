"""Fits of a kit made many times: what is told, what is warned of, and the size that is offered."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from importlib import resources

import pytest
from tests.kit.documents import built, finding, head, part

from kitwright.findings import Severity
from kitwright.kit import build, filling, prove, read_kit
from kitwright.kit.change import changed
from kitwright.kit.fits import KitFits
from kitwright.pattern import Axis
from kitwright.proof.tolerance import USUAL_ACCURACY, Makes

EXAMPLES = ("postcard-set", "recipe-box", "thank-you-cards")


def example(name: str) -> str:
    return resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_fit_of_an_example_carries_its_makes(name: str) -> None:
    fits = [
        each
        for each in prove(build(read_kit(example(name)))).findings
        if "-fit" in each.code or each.code == "mat-on-card"
    ]
    assert fits
    for each in fits:
        assert each.makings is not None, each.code
        assert each.makings.least <= each.makings.nominal <= each.makings.greatest
        assert each.makings.low <= each.makings.share <= each.makings.high


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_is_too_tight_too_often_has_a_fix_and_after_it_is_not(name: str) -> None:
    kit = read_kit(example(name))
    kit = replace(kit, fit=replace(kit.fit, lid=Fraction(0), band=Fraction(0)))
    warned = [
        each
        for each in prove(build(kit)).findings
        if each.severity is Severity.WARNING and each.makings and each.makings.too_tight > 0.01
    ]
    assert warned
    for each in warned:
        assert each.fix is not None, each
        after = prove(build(changed(kit, each.fix.changes)), with_fixes=False)
        same = next(other for other in after.findings if (other.code, other.about) == (each.code, each.about))
        assert same.severity in (Severity.OK, Severity.NOTE)
        assert same.makings is not None
        assert same.makings.too_tight <= 0.01


LID = head(units="mm", ruler="0.5", sheet="600 x 600", caliper="0.3") + part("tray", "tray", size="150 x 100 x 40")


@pytest.mark.parametrize(
    ("lid", "severity"),
    [("150.5 x 105 x 20", Severity.FAIL), ("151.5 x 105 x 20", Severity.WARNING), ("152.5 x 105 x 20", Severity.OK)],
)
def test_a_lid_that_goes_on_by_the_numbers_may_still_be_too_tight_too_often(lid: str, severity: Severity) -> None:
    # tray 150 + 0.3 outside; lid 0.3 + two tabs of 0.3 less inside: -0.7, 0.3 and 1.3 free (geometry)
    found = finding(LID + part("lid", "lift-off lid", covers="tray", size=lid), "lid-fit-width")
    assert found.severity is severity


def test_the_fix_says_in_how_many_makes_it_fits() -> None:
    text = LID + part("lid", "lift-off lid", covers="tray", size="151.5 x 101.5 x 20")
    found = finding(text, "lid-fit-width", with_fixes=True)
    assert found.fix is not None
    assert found.fix.sentence.startswith("Make lid 152")
    assert "of all makes." in found.fix.sentence or "every make." in found.fix.sentence


def test_the_pack_of_lid_and_box_is_one_thickness() -> None:
    # lid and tray of one paper: half a thickness at both ends of each, and two tabs in the lid: 4 t in all, one variable
    text = LID + part("lid", "lift-off lid", covers="tray", size="152 x 102 x 20")
    kit = built(text)
    fits = KitFits(kit, USUAL_ACCURACY, Makes(1000))
    (free,) = fits.over(kit.part("lid"), kit.part("tray"), Axis.WIDTH, most=2.5).free
    packs = {variation.what: by for variation, by in free.moves.items() if "thickness" in variation.what}
    assert packs == {"thickness of card": pytest.approx(-4.0)}


def test_a_stack_of_cards_varies_with_its_pack() -> None:
    # 40 cards of one pack with a tenth of springback: 44 thicknesses, and the box's own bottom and walls
    text = head() + part("card", "flat card", size="6 x 4", quantity=40)
    text += part("tray", "tray", paper="thin", holds="card")
    kit = built(text)
    fit = KitFits(kit, USUAL_ACCURACY, Makes(1000)).contents(
        kit.part("tray"), kit.things_in(kit.part("tray")), standing=False, is_turned=False
    )
    height = fit.free[2]
    assert [round(by, 6) for each, by in height.moves.items() if each.what == "thickness of card"] == [-44.0]


def test_a_mat_may_be_glued_out_of_the_middle() -> None:
    text = head() + part("card", "flat card", size="6 x 4") + part("mat", "mat", on="card")
    kit = built(text)
    fit = KitFits(kit, USUAL_ACCURACY, Makes(1000)).mat(kit.part("mat"), kit.part("card"))
    # a border of 1/8 in, half of two cuts off, and the hand
    assert fit.least == pytest.approx(25.4 / 8 - USUAL_ACCURACY.cut - USUAL_ACCURACY.glue)


@pytest.mark.parametrize("card", ["145 x 80", "80 x 145"])
def test_a_card_has_free_play_along_both_sides_of_its_envelope_upright_or_turned(card: str) -> None:
    text = head(units="mm", ruler="0.5", sheet="600 x 600", caliper="0.3") + part("card", "flat card", size=card)
    kit = built(text + part("e", "side-seam envelope", holds="card", size="150 x 100"))
    (thing,) = kit.things_in(kit.part("e"))
    fit = KitFits(kit, USUAL_ACCURACY, Makes(1000)).envelope(kit.part("e"), thing)
    # folded flat, it is as large inside as it is drawn; the card bulges by its thickness
    assert [stack.nominal for stack in fit.free] == pytest.approx([150 - 145 - 0.3, 100 - 80 - 0.3])
    packs = [{each.what: by for each, by in stack.moves.items() if "thickness" in each.what} for stack in fit.free]
    assert packs == [{"thickness of card": -1.0}] * 2


def test_a_card_has_free_play_between_the_sides_of_its_pocket() -> None:
    text = head(units="mm", ruler="0.5", sheet="600 x 600", caliper="0.3") + part("card", "flat card", size="80 x 95")
    kit = built(text + part("p", "pocket", holds="card", size="100 x 90"))
    (thing,) = kit.things_in(kit.part("p"))
    fits = KitFits(kit, USUAL_ACCURACY, Makes(1000))
    for is_turned, wide in ((False, 80), (True, 95)):
        (free,) = fits.pocket(kit.part("p"), thing, is_turned=is_turned).free
        assert free.nominal == pytest.approx(100 - wide - 0.3)


MANY = head(units="mm", ruler="1", sheet="600 x 600", caliper="0.4") + part(
    "card", "flat card", size="147 x 104", quantity=100
)


def test_a_hundred_cards_in_one_flat_envelope_are_not_proved_and_an_envelope_for_each_is_offered() -> None:
    proof = prove(built(MANY + part("envelope", "side-seam envelope", holds="card")))
    assert not proof.is_proved
    (fails,) = proof.of(Severity.FAIL)
    assert (fails.code, fails.about, fails.parts) == ("thickness", "envelope", ("envelope",))
    assert fails.measured == pytest.approx(40.0)  # 100 cards of 0.4 mm
    assert fails.fix is not None
    assert fails.fix.sentence == "Make 100 of envelope, one for each card."
    assert not any("slide about" in each.message for each in proof.findings)  # 40 mm of card take up the free room


def test_a_few_too_many_cards_are_a_warning_and_are_shared_out() -> None:
    text = MANY.replace("quantity = 100", "quantity = 20") + part("envelope", "side-seam envelope", holds="card")
    found = finding(text, "thickness", with_fixes=True)  # 8 mm; two envelopes with 4 mm each
    assert found.severity is Severity.WARNING
    assert found.fix is not None
    assert found.fix.sentence == "Make 2 of envelope, so that less lies in each."


def test_loose_things_in_an_envelope_may_lie_side_by_side_and_count_with_what_lies_flat() -> None:
    pencils = '[[extra]]\nname = "pencil"\nsize = "140 x 7 x 7"\nquantity = 4\n'
    text = MANY.replace("quantity = 100", "quantity = 1") + pencils
    found = finding(text + part("envelope", "side-seam envelope", holds=["card", "pencil"]), "thickness")
    assert found.severity is Severity.WARNING
    assert found.measured == pytest.approx(7.0)
    tin = pencils.replace("140 x 7 x 7", "100 x 80 x 25").replace("quantity = 4", "quantity = 1")
    text = text.replace(pencils, tin)
    found = finding(text + part("envelope", "side-seam envelope", holds=["card", "pencil"]), "thickness")
    assert found.severity is Severity.FAIL
    assert found.measured == pytest.approx(25.0)


def test_many_loose_things_are_as_thick_as_they_are_when_they_fill_the_envelope() -> None:
    sticks = '[[extra]]\nname = "stick"\nsize = "140 x 7 x 7"\nquantity = 60\n'
    text = MANY.replace("quantity = 100", "quantity = 1") + sticks
    text += part("envelope", "side-seam envelope", holds=["card", "stick"], size="160 x 120")
    kit = built(text)
    wide, high = (each.net for each in kit.part("envelope").inside.values())
    found = finding(text, "thickness")
    assert found.measured == pytest.approx((60 * 140 * 7 * 7 + 147 * 104 * 0.4) / (wide * high))


EXACT = head(units="mm", ruler="0.1", sheet="600 x 600", caliper="0.4", fit='{ lid = "0", contents = "0" }') + part(
    "card", "flat card", size="120 x 80", quantity=10
)


def test_a_box_without_any_free_play_is_not_proved_and_a_larger_one_is_offered() -> None:
    text = EXACT + part("box", "tray", holds="card", height="20") + part("lid", "lift-off lid", covers="box")
    proof = prove(built(text))
    assert not proof.is_proved
    fails = {each.code: each for each in proof.of(Severity.FAIL)}
    assert set(fails) == {"contents-fit", "lid-fit-width", "lid-fit-depth"}
    for each in fails.values():
        assert each.measured == pytest.approx(0.0, abs=0.1)  # the ruler's mark
        assert "too few" in each.message
        assert each.fix is not None
        after = prove(build(changed(read_kit(text), each.fix.changes)), with_fixes=False)
        assert (each.code, each.about) not in {(other.code, other.about) for other in after.of(Severity.FAIL)}


def test_what_goes_in_by_the_numbers_is_drawn_in_its_place_however_few_makes_fit() -> None:
    kit = built(EXACT + part("box", "tray", holds="card", height="20"))
    shown = filling(kit, kit.part("box"), prove(kit, with_fixes=False).findings)
    assert (shown.why_not, [(block.name, block.count) for block in shown.blocks]) == ("", [("card", 10)])


def test_a_mat_as_large_as_its_card_is_a_warning() -> None:
    text = EXACT + part("mat", "mat", on="card", size="120 x 80")
    found = finding(text, "mat-on-card")
    assert found.severity is Severity.WARNING
    assert found.makings is not None
    assert found.makings.too_tight > 0.9
