"""The least box of every form: checked against every smaller size on the ruler, one by one, and against the tray's blank by hand."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from tests.kit.documents import built, head, part

from kitwright.catalogue import CATALOGUE
from kitwright.kit import BoxChoice, BuiltKit, NoBox, box_choices, boxes_of
from kitwright.kit.boxes import least_box, paper_of
from kitwright.pattern import Axis
from kitwright.proof.packing import DoesNotFit, PackedThing, Space, Turns, pack

BLOCKS = (
    head(units="mm", ruler="1", sheet="600 x 600", caliper="0.3", fit="{ contents = 0 }")
    + part("tray", "tray", holds=["brick", "cube"])
    + part("lid", "lift-off lid", covers="tray")
    + '[[extra]]\nname = "brick"\nsize = "60 x 40 x 30"\nquantity = 2\npacked = "beside"\n'
    + '[[extra]]\nname = "cube"\nsize = "40 x 40 x 40"\nquantity = 1\npacked = "beside"\n'
)
THINGS = (PackedThing("brick", (60, 40, 30), 2, Turns.ANY), PackedThing("cube", (40, 40, 40), 1, Turns.ANY))


@pytest.fixture(scope="module")
def kit() -> BuiltKit:
    return built(BLOCKS)


@pytest.fixture(scope="module")
def choices(kit: BuiltKit) -> dict[str, BoxChoice | NoBox]:
    (box,) = boxes_of(kit)
    return {each.form: each for each in box_choices(kit, box)}


def test_every_form_that_can_be_a_box_is_answered(choices: dict[str, BoxChoice | NoBox]) -> None:
    assert {"tray", "two-half wrap box"} <= set(choices)
    assert {"lift-off lid", "belly band", "flat card"}.isdisjoint(choices)


def test_the_least_tray_is_built_with_its_lid_and_proved(choices: dict[str, BoxChoice | NoBox]) -> None:
    tray = choices["tray"]
    assert isinstance(tray, BoxChoice)
    assert (tray.proof.is_proved, tray.is_least) == (True, True)
    made = tray.kit.part("tray")
    assert all(made.inside[axis].net >= float(side) - 1e-3 for axis, side in zip(Axis, tray.inside, strict=True))
    (blank,) = made.pattern.blanks
    assert tray.paper_mm2 == pytest.approx(blank.size[0] * blank.size[1])


def test_no_smaller_tray_on_the_ruler_holds_the_things(choices: dict[str, BoxChoice | NoBox]) -> None:
    # A tray w × d × h is cut (w + 2 h) × (d + 2 h): geometry. Sides that matter are sums of the things' sides.
    tray = choices["tray"]
    assert isinstance(tray, BoxChoice)
    width, depth, height = tray.inside
    best = (width + 2 * height) * (depth + 2 * height)
    sums = sorted({a * 30 + b * 40 + c * 60 for a, b, c in product(range(3), range(4), range(3))} - {0})
    smaller = [
        Space(*map(Fraction, sides))
        for sides in product([each for each in sums if each <= 160], repeat=3)
        if (sides[0] + 2 * sides[2]) * (sides[1] + 2 * sides[2]) < best
    ]
    assert len(smaller) > 20
    tallest = [
        each
        for each in smaller
        if not any(
            other is not each
            and other.width >= each.width
            and other.depth >= each.depth
            and other.height >= each.height
            for other in smaller
        )
    ]
    assert all(isinstance(pack(THINGS, space), DoesNotFit) for space in tallest)


def test_the_form_with_the_least_paper_comes_first(choices: dict[str, BoxChoice | NoBox]) -> None:
    fitting = [each for each in choices.values() if isinstance(each, BoxChoice) and each.proof.is_proved]
    papers = [each.paper_mm2 + each.cover_mm2 for each in fitting]
    assert papers == sorted(papers)


def test_a_form_that_cannot_be_built_so_says_why() -> None:
    cards = built(
        head()
        + part("card", "flat card", size="6 x 4", quantity=4)
        + part("tray", "tray", holds="card")
        + part("lid", "lift-off lid", covers="tray")
    )
    (box,) = boxes_of(cards)
    found = {each.form: each for each in box_choices(cards, box)}
    wrap = found["two-half wrap box"]
    assert isinstance(wrap, NoBox)
    assert wrap.why == "Depth comes out at 11/16 in, but a lift-off lid can only have 13/16 to 15 11/16 in."


def test_a_one_way_print_is_turned_on_the_box_and_its_lid_so_that_it_stands_upright() -> None:
    text = (
        head(more='print = "one-way"')
        + part("card", "flat card", size="5 x 4", quantity=60)
        + part("box", "tray", holds="card")
        + part("lid", "lift-off lid", covers="box", turn=180)
    )
    kit = built(text)
    found = {each.form: each for each in box_choices(kit, kit.part("box"))}
    turns = {
        form: {name: each.kit.part(name).part.turn for name in ("box", "lid")}
        for form, each in found.items()
        if isinstance(each, BoxChoice) and each.proof.is_proved
    }
    assert turns == {"tray": {"box": 2, "lid": 0}, "two-half wrap box": {"box": 0, "lid": 0}}


@pytest.mark.parametrize(("form", "contents"), [("tray", "lying"), ("two-half wrap box", "standing")])
@pytest.mark.parametrize("beside", [0, 1])
def test_no_box_is_larger_than_the_one_that_follows_from_what_it_holds(form: str, contents: str, beside: int) -> None:
    pens = f'[[extra]]\nname = "pen"\nsize = "3 5/8 x 1/4 x 1/4"\nquantity = {beside}\n' if beside else ""
    kit = built(
        head()
        + part("card", "flat card", size="5 1/2 x 4 1/8", quantity=30)
        + part("box", form, holds=["card", "pen"] if beside else ["card"], contents=contents)
        + pens
    )
    (box,) = boxes_of(kit)
    choice = least_box(kit, box.part, CATALOGUE[form])
    assert isinstance(choice, BoxChoice)
    assert choice.proof.is_proved
    assert choice.paper_mm2 <= paper_of(box) + 1e-6
    assert choice.size == tuple(choice.kit.part("box").lengths[name] for name in box.form.size)
