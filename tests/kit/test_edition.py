"""The same kit for the other ruler: proved, on its marks, with other sheets and standard sizes, and everything that changed told."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from importlib import resources

import pytest
from tests.kit.documents import head, part

from kitwright.errors import Mistake
from kitwright.findings import Severity
from kitwright.kit import Edition, FitRules, Kit, build, edition, new_kit_document, prove, read_kit, write_kit
from kitwright.kit.neighbours import CARDS, ENVELOPES, SHEETS, Neighbours
from kitwright.measure import MM_PER_INCH, Ruler, Unit
from kitwright.paper import Grain

IN, MM = Unit.INCH, Unit.MILLIMETRE


def example(name: str) -> Kit:
    return read_kit(resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8"))


def mm(*lengths: int | str) -> tuple[Fraction, ...]:
    return tuple(Fraction(length) for length in lengths)


KITS = {
    "recipe-box": example("recipe-box"),
    "thank-you-cards": example("thank-you-cards"),
    "postcard-set": example("postcard-set"),
    "new in": read_kit(new_kit_document("New", IN)),
    "new mm": read_kit(new_kit_document("New", MM)),
}


def other(kit: Kit) -> Edition:
    return edition(kit, MM if kit.unit is IN else IN)


MADE = {name: other(kit) for name, kit in KITS.items()}


@pytest.mark.parametrize("name", KITS)
def test_the_other_edition_of_every_example_is_proved(name: str) -> None:
    assert MADE[name].proof.is_proved, MADE[name].proof.of(Severity.FAIL, Severity.UNKNOWN)
    tight = [each for each in MADE[name].proof.findings if each.makings is not None and each.makings.too_tight > 0.01]
    assert tight == []


@pytest.mark.parametrize("name", KITS)
def test_every_length_of_it_lies_on_the_new_ruler(name: str) -> None:
    made = MADE[name]
    lengths = [length for each in made.built.parts for length in each.lengths.values()]
    standard = {side for table in (CARDS, ENVELOPES) for pair in table.pairs for size in pair for side in size}
    assert lengths
    for length in lengths:
        assert made.kit.ruler.is_on_mark(length) or length in standard


@pytest.mark.parametrize("name", KITS)
def test_every_length_that_is_another_is_told_by_how_much_and_no_other(name: str) -> None:
    before, made = build(KITS[name]), MADE[name]
    differences = {
        (old.name, length): float(made.built.part(old.name).lengths[length] - was)
        for old in before.parts
        for length, was in old.lengths.items()
    }
    told = {
        (each.about, each.what.replace(" ", "_")): each.by[0]
        for each in made.changes
        if each.about in {part.name for part in before.parts}
    }
    assert told == pytest.approx({key: by for key, by in differences.items() if by})
    assert all(each.because and each.before != each.after for each in made.changes)


@pytest.mark.parametrize("name", KITS)
def test_it_is_written_as_a_document_that_builds_and_proves_alike(name: str) -> None:
    made = MADE[name]
    again = build(read_kit(write_kit(made.kit)))
    assert [dict(each.lengths) for each in again.parts] == [dict(each.lengths) for each in made.built.parts]
    assert prove(again, with_fixes=False).is_proved


def test_a_kit_in_that_system_already_is_refused() -> None:
    with pytest.raises(Mistake, match="in inches already"):
        edition(KITS["recipe-box"], IN)
    for unit in (MM, Unit.CENTIMETRE):
        with pytest.raises(Mistake, match="in millimetres already"):
            edition(KITS["postcard-set"], unit)


def test_sheets_are_those_of_the_shops_there() -> None:
    # ISO 216: A4; PWG 5101.1: Letter; pads: common practice, no source
    def sheets(kit: Kit) -> dict[str, tuple[float, float]]:
        return {
            key: (round(float(p.sheet_width_mm), 6), round(float(p.sheet_height_mm), 6))
            for key, p in kit.papers.items()
        }

    found = sheets(MADE["recipe-box"].kit)
    assert (found["kraft"], found["cream"]) == ((305.0, 305.0), (210.0, 297.0))
    assert sheets(MADE["postcard-set"].kit)["card"] == (215.9, 279.4)


def test_a_card_for_an_envelope_becomes_the_card_of_the_shops_there() -> None:
    # a quarter of a Letter sheet, 4 1/4 x 5 1/2 in, and A6, 105 x 148 mm (ISO 216), are what envelopes there are made for
    base = MADE["thank-you-cards"].kit.part("card base")
    assert base.sizing.lengths == mm(148, 105)
    told = {(each.about, each.what): each for each in MADE["thank-you-cards"].changes}
    assert told["card base", "width"].because == "A6 instead of quarter Letter"
    assert told["card base", "width"].by == pytest.approx((148 - 139.7,))
    assert (told["card base", "width"].before, told["card base", "width"].after) == ("5 1/2 in", "148 mm")
    assert told["lid", "width"].because in ("solved anew", "made to fit")


def test_a_standard_envelope_that_was_said_becomes_its_neighbour_and_all_cards_of_that_size_with_it() -> None:
    # ISO 269: C6, 114 x 162 mm; PWG 5101.1: A2 envelope, 4 3/8 x 5 3/4 in
    # without the filled pocket on the card: with it the neighbour is too tight, and the edition mends it
    said = KITS["postcard-set"]
    plain = replace(said, parts=tuple(replace(part, on=None) for part in said.parts))
    kit, inch = other(plain).kit, MM_PER_INCH
    assert kit.part("envelope").sizing.lengths == (inch * 23 / 4, inch * 35 / 8)
    assert (
        kit.part("folded card").sizing.lengths == kit.part("postcard").sizing.lengths == (inch * 11 / 2, inch * 17 / 4)
    )


def test_a_card_that_goes_into_no_envelope_keeps_its_size_to_the_mark() -> None:
    kit = MADE["recipe-box"].kit
    assert kit.part("recipe card").sizing.lengths == mm(152, 101)  # 152.4 x 101.6 rounded down: it goes into the box
    assert kit.part("divider").sizing.lengths == mm(152, 114)


def test_things_that_are_bought_are_never_measured_smaller() -> None:
    for name, kit in KITS.items():
        for was, now in zip(kit.extras, MADE[name].kit.extras, strict=True):
            assert all(
                0 <= after - before <= MM_PER_INCH / 64 for before, after in zip(was.size, now.size, strict=True)
            )
            assert (now.quantity, now.weight_g, now.kind) == (was.quantity, was.weight_g, was.kind)


def test_free_plays_that_were_usual_are_those_usual_there_and_others_never_smaller() -> None:
    assert MADE["recipe-box"].kit.fit == FitRules.usual(MM)
    assert MADE["thank-you-cards"].kit.fit.lid == Fraction("0.8")  # 1/32 in is 0.794 mm
    assert MADE["postcard-set"].kit.fit == FitRules.usual(IN)


@pytest.mark.parametrize(
    ("step", "unit", "usual"),
    [("1/16", MM, 1), ("1/8", MM, 1), ("1/32", MM, Fraction(1, 2)), ("1/64", MM, Fraction(1, 2))],
)
def test_a_ruler_becomes_one_about_as_fine(step: str, unit: Unit, usual: Fraction) -> None:
    text = head(ruler=step) + part("card", "flat card", size="6 x 4")
    assert edition(read_kit(text), unit).kit.ruler == Ruler(unit, Fraction(usual))


def test_another_ruler_may_be_asked_for() -> None:
    fine = Ruler(MM, Fraction(1, 2))
    made = edition(KITS["recipe-box"], MM, ruler=fine)
    assert made.kit.ruler == fine
    assert made.kit.part("recipe card").sizing.lengths == mm(152, "101.5")
    assert made.proof.is_proved


def test_a_paper_stays_the_paper_it_is() -> None:
    was, now = KITS["recipe-box"].papers["berries"], MADE["recipe-box"].kit.papers["berries"]
    assert (now.print_, now.grain, now.two_sided, now.price) == (was.print_, was.grain, was.two_sided, was.price)
    assert was.grain is Grain.LONG
    assert now.gsm == 216
    assert now.thickness == pytest.approx(0.279)  # 0.011 in to a micrometre


def test_a_box_whose_size_was_said_is_mended_where_its_swapped_cards_no_longer_go_in() -> None:
    # a tray that just holds cards of 5 1/2 in is too small for A6, 8.3 mm longer
    text = head(sheet="12 x 12", caliper="0.011") + part("card", "flat card", size="5 1/2 x 4 1/4", quantity=6)
    text += part("e", "side-seam envelope", paper="thin", holds="card")
    text += part("tray", "tray", inside="5 5/8 x 4 3/8 x 3/4", holds="card")
    made = edition(read_kit(text), MM)
    assert made.proof.is_proved
    assert made.built.part("tray").lengths["width"] > 148
    told = {(each.about, each.what): each.because for each in made.changes}
    assert told["tray", "width"] in ("made to fit", "solved anew", "put on the ruler")


@pytest.mark.parametrize("table", [SHEETS, CARDS, ENVELOPES], ids=["sheets", "cards", "envelopes"])
def test_neighbours_are_alike_to_an_eighth_and_named(table: Neighbours) -> None:
    for in_inches, in_mm in table.pairs:
        for one, two in zip(sorted(in_inches), sorted(in_mm), strict=True):
            assert abs(one / two - 1) < Fraction(1, 8)
        assert table.name(in_inches)
        assert table.name(in_mm[::-1])
        assert table.of(in_inches[::-1], to_inches=False) == in_mm[::-1]
        assert table.of(in_mm, to_inches=True) is not None
    assert table.of((Fraction(1), Fraction(2)), to_inches=True) is None


def test_what_a_thing_is_made_of_stays_also_where_something_fails_in_the_edition() -> None:
    # on the neighbouring sheet, 320 x 450 mm, the trimmer frees no card; the thin paper would do, but is none for cards
    text = """
[kit]
name = "a kit"
units = "in"
ruler = "1/16"
trimmer = { longest-cut = "12 1/2" }
[paper.card]
sheet = "12 x 18"
weight = "80 lb cover"
caliper = "0.012"
[paper.thin]
sheet = "letter"
weight = "70 lb text"
"""
    card = part("card", "half-fold card", paper="card", size="4 1/4 x 5 1/2")
    made = edition(read_kit(text + card), MM)
    assert [(each.part.paper, each.part.fibres) for each in made.built.parts] == [("card", None)]
    assert not made.proof.is_proved
