"""One document has one result: whatever was built and proved before, building and proving it again gives what it gives from nothing."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.kit.again import from_nothing, told
from tests.kit.documents import built, head, part
from tests.kit.random_kits import edited, sensible

from kitwright.errors import Mistakes
from kitwright.kit import build, prove, read_kit
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
    # what is changed, and the parts that are drawn anew
    ('height = "1/2"', 'height = "5/8"', {"band"}),
    ('size = "5 1/2 x 4 1/4"', 'size = "5 1/2 x 4 3/4"', {"card", "mat", "envelope", "tray", "lid", "band"}),
    ('fold = "top"', 'fold = "top"  # a remark\n', set()),
    ('caliper = "0.006"', 'caliper = "0.008"', {"envelope", "band"}),
    ('size = "5 x 1/4 x 1/4"', 'size = "6 x 1/4 x 1/4"', {"tray", "lid", "band"}),
    ('wraps = "tray"', 'wraps = "tray"\ngoes = "over the top"', {"band"}),
    ('covers = "tray"', 'covers = "tray"\nturn = 90', set()),
    ('fold = "top"', 'fold = "top"\ngrain = "height"', set()),
    ('units = "in"', 'units = "in"\naccuracy = { cut = "3/8", score = "3/8" }', set()),
)


@pytest.mark.parametrize(("old", "new", "anew"), EDITS, ids=[old for old, _, _ in EDITS])
def test_what_an_edit_leaves_as_it_is_is_not_drawn_again(old: str, new: str, anew: set[str]) -> None:
    before, after = built(KIT), built(KIT.replace(old, new, 1))
    assert {each.name for each in after.parts if each.folded is not before.part(each.name).folded} == anew


def test_a_liner_in_a_lid_takes_room_from_the_box_by_the_paper_it_is_of_now() -> None:
    kit = (
        head(units="mm", ruler="1", caliper="0.3 mm", sheet="600 x 900")
        + '[paper.felt]\nsheet = "600 x 900"\nweight = "240 gsm"\ncaliper = "{}"\n'
        + part("box", "tray", holds="soap")
        + part("lid", "lift-off lid", covers="box")
        + part("liner", "mat", paper="felt", on="lid", face="inside")
        + '[[extra]]\nname = "soap"\nsize = "80 x 50 x 25"\n'
    )
    thin, thick = (built(kit.replace("{}", caliper)) for caliper in ("0.15", "2.15"))
    assert thick.part("box").lengths["height"] - thin.part("box").lengths["height"] == 2
    assert told(thick) == from_nothing(kit.replace("{}", "2.15")).built


@pytest.fixture(scope="module")
def known() -> Mapping[str, PartProof]:
    """The parts of the kit by themselves, every check of them made."""
    own = part_proofs(built(KIT))
    prove(built(KIT), known=own)
    return own


def test_what_is_known_of_a_part_is_looked_at_again_only_where_it_may_be_another(
    known: Mapping[str, PartProof],
) -> None:
    own = part_proofs(built(KIT.replace('height = "1/2"', 'height = "5/8"', 1)), like=known)
    assert {name for name, each in own.items() if each is not known[name]} == {"band"}
    turned = part_proofs(built(KIT.replace('covers = "tray"', 'covers = "tray"\nturn = 90', 1)), like=known)["lid"]
    assert turned is not known["lid"]
    assert turned.made is known["lid"].made
    assert turned.motion is known["lid"].motion


@settings(deadline=None, max_examples=8)
@given(st.integers(0, 2**32))
def test_a_kit_edited_again_and_again_is_what_each_document_gives_from_nothing(seed: int) -> None:
    random = Random(seed)
    kit, own = sensible(random, most=5), None
    for _ in range(3):
        try:
            made = build(read_kit(kit.text))
        except Mistakes as mistakes:
            assert str(mistakes) == from_nothing(kit.text).mistakes
        else:
            own = part_proofs(made, like=own)
            fresh = from_nothing(kit.text)
            assert told(made) == fresh.built
            assert fresh.findings_with(made, own) == fresh.findings
        kit = edited(random, kit)
