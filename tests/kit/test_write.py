"""A kit written as a document reads as the same kit."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from importlib import resources

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.kit.documents import head, part

from kitwright.errors import Mistake, Place
from kitwright.kit import Kit, new_kit_document, read_kit, write_kit
from kitwright.kit.write import length_text, size_text
from kitwright.measure import MM_PER_INCH, Unit, parse_length, parse_size

NAMES = ("postcard-set", "recipe-box", "thank-you-cards")
DOCUMENTS = {
    **{
        name: resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8")
        for name in NAMES
    },
    "new in": new_kit_document("New", Unit.INCH),
    "new mm": new_kit_document("Grüße “neu”", Unit.MILLIMETRE),
    "odd": head(more='hinge = 0.4\nmargins = "1/8"', fit='{ lid = 0, border = "3 mm" }')
    + part("a card", "flat card", size="6 x 4", turn=90)
    + part("tray", "tray", inside="150 mm x 110 mm x 2 in", tab="15 mm", holds=["a card"], contents="standing")
    + part("mat", "mat", on="a card", border="5/32")
    + '[[extra]]\nname = "a \\"pen\\""\nsize = "7 x 1/3 x 8 mm"\n'.replace("7 x 1/3", "7 in x 1/3 in")
    + "quantity = 3\nkind = 'ribbon'\nweight = '0.05 oz'\n",
}


def bare(kit: Kit) -> Kit:
    """The kit without the places of its document, and without the wording of where a thickness is from."""
    papers = {key: replace(paper, caliper=replace(paper.caliper, sentence="")) for key, paper in kit.papers.items()}
    return replace(
        kit,
        papers=papers,
        parts=tuple(replace(each, place=Place(), settings=dict(each.settings)) for each in kit.parts),
        extras=tuple(
            replace(each, weight_g=None if each.weight_g is None else round(each.weight_g, 4)) for each in kit.extras
        ),
    )


@pytest.mark.parametrize("name", DOCUMENTS)
def test_what_is_written_reads_as_the_same_kit(name: str) -> None:
    kit = read_kit(DOCUMENTS[name])
    again = read_kit(write_kit(kit))
    assert bare(again) == bare(kit)
    assert write_kit(again) == write_kit(kit)


def test_an_accuracy_of_ones_own_is_written_too() -> None:
    text = DOCUMENTS["recipe-box"].replace("[paper.kraft]", '[kit.accuracy]\ncut = "1/32"\n[paper.kraft]', 1)
    kit = read_kit(text)
    again = read_kit(write_kit(kit)).accuracy
    assert (again.cut, again.score, again.fold, again.glue) == (
        kit.accuracy.cut,
        kit.accuracy.score,
        kit.accuracy.fold,
        kit.accuracy.glue,
    )
    assert again.cut == pytest.approx(0.79375)


@pytest.mark.parametrize(
    ("mm", "unit", "said"),
    [
        (MM_PER_INCH * 17 / 4, Unit.INCH, "4 1/4"),
        (Fraction(108), Unit.MILLIMETRE, "108"),
        (Fraction(108), Unit.CENTIMETRE, "10.8"),
        (Fraction(8), Unit.INCH, "8 mm"),
        (MM_PER_INCH / 16, Unit.MILLIMETRE, "1.5875"),
        (MM_PER_INCH * Fraction("0.011"), Unit.INCH, "0.011"),
        (MM_PER_INCH / 3, Unit.INCH, "1/3"),
        (Fraction(0), Unit.INCH, "0"),
    ],
)
def test_a_length_is_written_exactly_and_shortly(mm: Fraction, unit: Unit, said: str) -> None:
    assert length_text(mm, unit) == said
    if mm:
        assert parse_length(said, unit).mm == mm


def test_a_length_that_no_short_number_says_is_refused() -> None:
    with pytest.raises(Mistake, match="cannot be written exactly"):
        length_text(Fraction(10**9, 10**9 - 1), Unit.MILLIMETRE)


SIXTEENTHS = st.integers(1, 800).map(lambda n: n * MM_PER_INCH / 64)
TENTHS = st.integers(1, 6000).map(lambda n: Fraction(n, 10))


@given(st.lists(st.one_of(SIXTEENTHS, TENTHS), min_size=2, max_size=3), st.sampled_from(list(Unit)))
@settings(deadline=None, max_examples=200)
def test_every_size_on_a_ruler_is_read_back_exactly(lengths: list[Fraction], unit: Unit) -> None:
    assert [each.mm for each in parse_size(size_text(lengths, unit), unit)] == lengths
