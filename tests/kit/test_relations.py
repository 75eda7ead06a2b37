"""Whatever parts are said to be to each other, they are built, or one sentence says why no hands could make them so."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.kit.documents import built, findings_of, head, part
from tests.kit.random_kits import wild

import kitwright.forms  # noqa: F401  # fills the catalogue
from kitwright.catalogue import CATALOGUE
from kitwright.errors import Mistakes
from kitwright.kit import BuiltKit, Face, build, faces_of, post_findings, read_kit
from kitwright.kit.sums import is_box

CARD = part("card", "flat card", size="6 x 4")
MAT = part("mat", "mat", on="card")


def mistakes(text: str) -> list[str]:
    """The mistakes of a document, each after the line where it is told."""
    lines = (head() + text).splitlines()
    with pytest.raises(Mistakes) as caught:
        built(head() + text)
    return [
        f"{each.place.spot}, {lines[(each.place.line or 0) - 1]}: {each.what} {each.do}"
        for each in caught.value.mistakes
    ]


@pytest.mark.parametrize(
    ("text", "at", "says"),
    [
        # what is glued on a thing cannot hold it
        (
            CARD + part("pocket", "pocket", on="card", holds="card"),
            'part "pocket", holds = "card"',
            "'pocket' holds 'card', and 'pocket' lies on 'card'",
        ),
        (
            CARD + part("box", "tray", on="card", holds="card", size="7 x 5 x 1"),
            'part "box", holds = "card"',
            "'box' holds 'card', and 'box' lies on 'card'",
        ),
        (
            CARD + MAT + part("pocket", "pocket", on="mat", holds="card", size="7 x 5"),
            'part "pocket", holds = "card"',
            "'pocket' holds 'card', and 'pocket' lies on 'mat', and 'mat' lies on 'card'",
        ),
        (
            CARD
            + part("inner", "pocket", on="card", holds="tag", size="4 x 3")
            + part("tag", "tag", size="2 x 2")
            + part("outer", "pocket", on="tag", holds="card", size="7 x 5"),
            'part "inner", holds = "tag"',
            "'inner' holds 'tag', and 'inner' lies on 'card', and 'outer' holds 'card', and 'outer' lies on 'tag'",
        ),
        # nor can it hold what it covers or goes round
        (
            CARD + part("box", "tray", holds="card", covers="card", height=1),
            'part "box", holds = "card"',
            "'box' holds 'card', and 'box' covers 'card'",
        ),
        (
            CARD + part("box", "tray", holds="card", wraps="card", height=1),
            'part "box", holds = "card"',
            "'box' holds 'card', and 'box' goes round 'card'",
        ),
        (
            part("box", "tray", size="6 x 4 x 2")
            + part("lid", "lift-off lid", covers="box")
            + part("pocket", "pocket", on="lid", holds="box", size="11 x 11"),
            'part "pocket", holds = "box"',
            "'pocket' holds 'box', and 'pocket' lies on 'lid', and 'lid' covers 'box'",
        ),
    ],
)
def test_a_thing_cannot_lie_in_what_goes_where_it_goes(text: str, at: str, says: str) -> None:
    assert mistakes(text) == [f"{at}: This cannot be put together: {says}. Take one of these relations out."]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            part("lid", "lift-off lid", covers="card", wraps="card"),
            "wraps: it covers 'card' already. Keep covers for a lid, or wraps for a band.",
        ),
        (
            part("lid", "lift-off lid", covers="card", on="card"),
            "on: it covers 'card' already. Take on out: what covers something is not laid on it.",
        ),
        (
            part("band", "belly band", wraps="card", on="card"),
            "on: it wraps 'card' already. Take on out: what wraps something is not laid on it.",
        ),
        (part("mat", "mat", on="mat"), "on: 'mat' is the part itself. Name another part."),
        (part("mat", "mat", on="pen"), "on: 'pen' is an extra, and only parts are drawn. Name a part, or give a size."),
    ],
)
def test_one_part_is_one_thing_to_another(text: str, says: str) -> None:
    (told,) = mistakes(CARD + text + '[[extra]]\nname = "pen"\nsize = "5 x 1 x 1"\n')
    assert told.endswith(says)


def test_things_that_belong_together_in_several_ways_are_built() -> None:
    kit = built(
        head()
        + CARD
        + MAT
        + part("packet", "side-seam envelope", holds="card")
        + part("box", "tray", holds=["card", "mat", "packet"])
        + part("band", "belly band", wraps="box", height=1)
        + part("lid", "lift-off lid", covers="box")
        + part("seal", "mat", size="1 x 1", on="band")
        + part("flap", "flap lid", size="7 x 5", on="band")
    )
    assert len(kit.parts) == 8


# --------------------------------------------------------------------------- faces


@pytest.mark.parametrize("host", ["flat card", "mat", "half-fold card", "side-seam envelope", "pocket", "tag"])
def test_what_is_flat_has_no_inside_to_glue_on(host: str) -> None:
    text = part("host", host, size="4 x 3") + part("mat", "mat", on="host", face="inside")
    (told,) = mistakes(text)
    assert told == (
        'part "mat", face = "inside": face: \'host\' has no inside to glue on, as a box or its lid has. '
        "Take face out: what is glued on it lies outside."
    )


def test_a_mat_on_a_mat_says_so_too() -> None:
    (told,) = mistakes(CARD + MAT + part("second", "mat", on="mat", face="inside"))
    assert "face: 'mat' has no inside to glue on" in told


@pytest.mark.parametrize("form", sorted(CATALOGUE))
def test_every_face_that_a_form_offers_can_be_glued_on_and_proved(form: str) -> None:
    host = part("host", form, size=" x ".join("5" for _ in CATALOGUE[form].size))
    offered = faces_of(read_kit(head() + host).part("host"))
    for face in Face:
        text = head() + host + part("mat", "mat", on="host", face=face)
        if face in offered:
            assert findings_of(built(text))
        else:
            assert "no inside to glue on" in mistakes(text.removeprefix(head()))[0]


@pytest.mark.parametrize("form", sorted(CATALOGUE))
def test_what_has_a_depth_by_its_form_has_one_when_it_is_made(form: str) -> None:
    made = built(head() + part("it", form, size=" x ".join("5" for _ in CATALOGUE[form].size))).part("it")
    assert is_box(made.part) is not made.is_flat


# --------------------------------------------------------------------------- kits that nobody read


def test_a_kit_that_was_not_read_is_told_its_mistakes_as_well() -> None:
    kit = read_kit(head() + CARD + MAT + part("box", "tray", holds=["card"]))
    card, mat, box = kit.parts
    for wrong, says in (
        (replace(mat, on="crad"), "on: there is nothing called 'crad' in this kit"),
        (replace(mat, on="mat"), "on: 'mat' is the part itself"),
        (replace(mat, face=Face.INSIDE), "face: 'card' has no inside to glue on"),
        (replace(mat, on="box", face=Face.INSIDE, holds=("box",)), "'mat' holds 'box', and 'mat' lies on 'box'"),
        (replace(mat, on=None, wraps="box", covers="card"), "wraps: it covers 'card' already"),
    ):
        with pytest.raises(Mistakes, match=says) as caught:
            build(replace(kit, parts=(card, wrong, box)))
        assert caught.value.mistakes[0].place == mat.place


def test_sizes_that_wait_for_each_other_are_told_once() -> None:
    # the tray waits for the pocket in its lid, that for the mat in it, that for the lid on which it is glued, and that for the tray
    lines = mistakes(
        CARD
        + part("box", "tray", holds="card")
        + part("lid", "lift-off lid", covers="box")
        + part("pocket", "pocket", on="lid", face="inside", holds="label")
        + part("label", "mat", on="lid")
        + part("band", "belly band", wraps="box")
    )
    assert lines == [
        "part \"box\", [[part]]: These sizes go in a circle: 'box', which needs 'pocket', which needs 'label', which needs 'lid', "
        "which needs 'box'. Give one of them a size of its own."
    ]


def test_of_parts_that_cannot_be_built_each_is_told_and_not_those_that_wait_for_them() -> None:
    lines = mistakes(
        part("mat", "mat", on="lid")
        + part("lid", "lift-off lid", covers="box")
        + part("box", "tray", size="3 x 1 x 1", tab="15/16")
        + part("card", "flat card", size="6 x 4")
        + part("other", "mat", on="card", border="12")
    )
    assert [line.split(",")[0] for line in lines] == ['part "box"', 'part "other"']


# --------------------------------------------------------------------------- anything


def looked_at(kit: BuiltKit) -> None:
    """Prove a kit in every way that asks for relations."""
    findings_of(kit)
    list(post_findings(kit))


@settings(deadline=None, max_examples=60)
@given(st.integers(0, 2**32))
def test_any_parts_in_any_relations_are_built_and_proved_or_told(seed: int) -> None:
    try:
        kit = built(wild(Random(seed)).text)
    except Mistakes as found:
        assert all(each.what.strip() and each.do.strip() and each.place.line for each in found.mistakes)
    else:
        looked_at(kit)
