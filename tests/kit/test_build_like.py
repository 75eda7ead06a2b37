"""A kit built, and proved, with the parts of another at hand is the kit built, and proved, from nothing."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from tests.kit.documents import built, head, part

from kitwright.kit import BuiltKit, build, prove, read_kit
from kitwright.kit.part_proof import PartProof, part_proofs

KIT = (
    head()
    + part("card", "half-fold card", size="5 1/2 x 4 1/4", fold="top", quantity=4)
    + part("mat", "mat", on="card", quantity=4)
    + part("envelope", "side-seam envelope", paper="thin", holds="card", quantity=4)
    + part("tray", "tray", holds=["card", "envelope", "pencil"])
    + part("lid", "lift-off lid", covers="tray")
    + part("band", "belly band", paper="thin", wraps="tray", height="1/2")
    + '[[extra]]\nname = "pencil"\nsize = "5 x 1/4 x 1/4"\n'
)

EDITS: tuple[tuple[str, str, set[str]], ...] = (
    # what is changed, and the parts that must be built anew
    ('height = "1/2"', 'height = "5/8"', {"band"}),
    ('size = "5 1/2 x 4 1/4"', 'size = "5 1/2 x 4 3/4"', {"card", "mat", "envelope", "tray", "lid", "band"}),
    ('fold = "top"', 'fold = "top"  # a remark\n', set()),
    ('caliper = "0.006"', 'caliper = "0.008"', {"envelope", "tray", "lid", "band"}),
    ('size = "5 x 1/4 x 1/4"', 'size = "6 x 1/4 x 1/4"', {"card", "mat", "envelope", "tray", "lid", "band"}),
    ("quantity = 4", "quantity = 5", {"card", "mat", "envelope", "tray", "lid", "band"}),
    ('ruler = "1/16"', 'ruler = "1/32"', {"card", "mat", "envelope", "tray", "lid", "band"}),
    ('wraps = "tray"', 'wraps = "tray"\ngoes = "over the top"', {"band"}),
    ('covers = "tray"', 'covers = "tray"\nturn = 90', set()),
    ('fold = "top"', 'fold = "top"\ngrain = "height"', set()),
    ('sheet = "24 x 24"', 'sheet = "8 x 24"', {"card", "mat", "envelope", "tray", "lid", "band"}),
    ('units = "in"', 'units = "in"\naccuracy = { cut = "3/8", score = "3/8" }', set()),
)


def told(kit: BuiltKit) -> list[tuple[object, ...]]:
    return [
        (
            each.part,
            each.paper,
            dict(each.lengths),
            each.pattern,
            dict(each.inside),
            dict(each.outside),
            each.how,
            each.notes,
        )
        for each in kit.parts
    ]


@pytest.mark.parametrize(("old", "new", "anew"), EDITS, ids=[old for old, _, _ in EDITS])
def test_parts_are_taken_over_only_where_nothing_that_they_depend_on_is_another(
    old: str, new: str, anew: set[str]
) -> None:
    before, text = built(KIT), KIT.replace(old, new, 1)
    quick, whole = build(read_kit(text), like=before), built(text)
    assert told(quick) == told(whole)
    assert {each.name for each in quick.parts if each.folded is not before.part(each.name).folded} == anew


@pytest.fixture(scope="module")
def known() -> Mapping[str, PartProof]:
    """The parts of the kit by themselves, every check of them made."""
    own = part_proofs(built(KIT))
    prove(built(KIT), known=own)
    return own


@pytest.mark.parametrize(("old", "new"), [each[:2] for each in EDITS], ids=[old for old, *_ in EDITS])
def test_what_is_known_of_the_parts_of_another_kit_changes_nothing_about_a_proof(
    known: Mapping[str, PartProof], old: str, new: str
) -> None:
    kit = built(KIT.replace(old, new, 1))
    assert prove(kit, with_fixes=False, known=known) == prove(kit, with_fixes=False)


def test_what_is_known_of_a_part_is_looked_at_again_only_where_it_may_be_another(
    known: Mapping[str, PartProof],
) -> None:
    own = part_proofs(built(KIT.replace('height = "1/2"', 'height = "5/8"', 1)), like=known)
    assert {name for name, each in own.items() if each is not known[name]} == {"band"}
    turned = part_proofs(built(KIT.replace('covers = "tray"', 'covers = "tray"\nturn = 90', 1)), like=known)["lid"]
    assert turned is not known["lid"]
    assert turned.made is known["lid"].made
    assert turned.motion is known["lid"].motion
