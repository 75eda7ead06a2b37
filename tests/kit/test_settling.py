"""Sizes are measured again until they are settled, where layers come and go with the size.

The forms are made up for these tests, and are in the catalogue only while they run.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from tests.kit.documents import built, head, inside, outside, part, quick_findings

from kitwright import catalogue
from kitwright.catalogue import Following, Form, Share, form, length
from kitwright.errors import Mistakes
from kitwright.findings import Finding, Severity
from kitwright.pattern import Axis, Claims, Draft, Extent, Pattern, Shows, Stage, Stance


def made_up(key: str, follows: Following) -> type[Form]:
    """A form with a bottom, two walls, and two flaps folded onto the bottom, which lie on each other where they are long enough."""

    @form(key, title=key, summary=key, size={"width": Axis.WIDTH, "depth": Axis.DEPTH, "height": Axis.HEIGHT})
    class Flapped(Form):
        stance = Stance.FACE_DOWN

        width: float = length("Width", at_least=10, at_most=400)
        depth: float = length("Depth", at_least=10, at_most=400)
        height: float = length("Height", at_least=5, at_most=200)
        flap: float = length("Flap", at_least=5, at_most=100, default=follows)

        def rules(self) -> Iterator[Finding]:
            if self.flap == 5:
                yield Finding("flap-is-short", Severity.NOTE, "flap", "The flaps are short.")

        def draw(self) -> Pattern:
            draft = Draft("box")
            bottom = draft.panel("bottom", self.width, self.depth)
            left = bottom.fold_out("west", "left", self.height)
            right = bottom.fold_out("east", "right", self.height)
            bottom.fold_out("south", "front flap", self.flap, angle=-180)
            bottom.fold_out("north", "back flap", self.flap, angle=-180)
            sides = (
                Extent(Axis.WIDTH, left.ref, right.ref),
                Extent(Axis.DEPTH, bottom.edge("south"), bottom.edge("north")),
                Extent(Axis.HEIGHT, bottom.ref, left.edge("far")),
            )
            return Pattern(
                (draft.finish(),),
                stance=self.stance,
                claims=Claims(inside=sides, outside=sides, shows=(Shows(left.ref, main=True),)),
                stages=(Stage("Fold.", folds=("front flap", "back flap", "left", "right")),),
            )

    return catalogue._FORMS.pop(key)


MADE_UP = {
    "wide flaps": made_up("wide flaps", Share("width", 0.4)),
    "turning flaps": made_up("turning flaps", Share("height", -1.0, more=70.0)),
}
HEAD = head(units="mm", ruler="0.5", caliper="1 mm", sheet="900 x 900")


@pytest.fixture(autouse=True)
def in_catalogue() -> Iterator[None]:
    """The forms in the catalogue, and out of it again."""
    catalogue._FORMS.update(MADE_UP)
    yield
    for key in MADE_UP:
        del catalogue._FORMS[key]


@pytest.mark.parametrize(("depth", "layers"), [("83", 2), ("80.5", 3), ("79", 3)])
def test_layers_that_come_with_the_thickness_are_measured_too(depth: str, layers: int) -> None:
    # 100 mm wide inside is 102 from score to score: only then do two flaps of 40 % lie on each other on a bottom of 80.5
    kit = built(HEAD + part("box", "wide flaps", inside=f"100 x {depth} x 30"))
    found = inside(kit, "box")
    assert 100 <= found["width"] < 100.5
    assert 30 <= found["height"] < 30.5
    # the bottom takes half its own layer from the score, and each flap on it a whole one
    assert float(kit.part("box").lengths["height"]) - found["height"] == pytest.approx(layers - 0.5, abs=0.26)


@pytest.mark.parametrize(("width", "flap"), [("11", 5), ("30", 12), ("300", 100)])
def test_what_follows_another_length_stays_inside_its_own_limits(width: str, flap: int) -> None:
    kit = built(HEAD + part("box", "wide flaps", size=f"{width} x 300 x 30"))
    assert kit.part("box").lengths["flap"] == flap
    noted = [(each.about, each.parts) for each in quick_findings(kit) if each.code == "flap-is-short"]
    assert noted == ([("box: flap", ("box",))] if flap == 5 else [])


def test_an_outside_size_is_used_where_layers_go_with_it() -> None:
    kit = built(HEAD + part("box", "wide flaps", outside="102 x 80.5 x 30"))
    assert 29.4 < outside(kit, "box")["height"] <= 30
    assert 101.4 < outside(kit, "box")["width"] <= 102


def test_sizes_that_ask_for_each_other_in_turn_are_told() -> None:
    with pytest.raises(Mistakes) as caught:
        built(HEAD + part("box", "turning flaps", inside="100 x 80 x 28"))
    (mistake,) = caught.value.mistakes
    assert mistake.place.spot == 'part "box"'
    assert mistake.what == "The size of a turning flaps for this does not settle: its layers change with it."
    assert mistake.do == "Give the part a size."
