"""A form may reach over or round another along any axis: its size follows along each that it spans, and each is proved.

The form is made up for these tests, and is in the catalogue only while they run.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from tests.kit.documents import built, finding, head, inside, outside, part, quick_findings

from kitwright import catalogue
from kitwright.catalogue import Form, form, length
from kitwright.errors import Mistakes
from kitwright.findings import Severity
from kitwright.kit import BuiltKit, apply_changes, build, read_kit
from kitwright.kit.together import put_over, solids
from kitwright.pattern import Axis, Claims, Draft, Extent, Joint, Pattern, Seam, Shows, Side, Stage, Stance


@form(
    "sleeve",
    title="Sleeve",
    summary="A tube.",
    size={"width": Axis.WIDTH, "depth": Axis.DEPTH, "height": Axis.HEIGHT},
)
class Sleeve(Form):
    """Top, front, bottom, back and a tab: a tube, open at the left and at the right, into which a tray is pushed."""

    stance = Stance.LYING
    spans = frozenset({Axis.DEPTH, Axis.HEIGHT})

    width: float = length("Width", at_least=10, at_most=400)
    depth: float = length("Depth", at_least=10, at_most=400)
    height: float = length("Height", at_least=5, at_most=200)
    tab: float = length("Glue tab", at_least=5, at_most=30, default=10)

    def draw(self) -> Pattern:
        draft = Draft("sleeve")
        top = draft.panel("top", self.width, self.depth)
        front = top.fold_out("south", "front", self.height)
        bottom = front.fold_out("far", "bottom", self.depth)
        back = top.fold_out("north", "back", self.height)
        tab = back.tab("far", self.tab, name="tab")
        across = (Extent(Axis.DEPTH, front.ref, back.ref), Extent(Axis.HEIGHT, bottom.ref, top.ref))
        return Pattern(
            (draft.finish(),),
            joints=(Joint(tab.ref, bottom.ref, Side.UNDER),),
            stance=self.stance,
            claims=Claims(
                inside=across,
                outside=(Extent(Axis.WIDTH, top.edge("west"), top.edge("east")), *across),
                seams=(Seam(back.edge("far"), bottom.edge("far")),),
                shows=(Shows(top.ref, main=True),),
            ),
            stages=(Stage("Fold and glue.", folds=("front", "bottom", "back", "tab"), glues=("tab",)),),
        )


SLEEVE = catalogue._FORMS.pop("sleeve")


@pytest.fixture(autouse=True)
def sleeve() -> Iterator[None]:
    """The sleeve in the catalogue, and out of it again."""
    catalogue._FORMS["sleeve"] = SLEEVE
    yield
    del catalogue._FORMS["sleeve"]


TRAY = head(units="mm", ruler="1", caliper="0.5 mm", sheet="600 x 900", fit='{ lid = "1", band = "2" }') + part(
    "tray", "tray", size="100 x 60 x 30"
)


def over(**keys: str) -> str:
    """A kit with a sleeve over its tray."""
    return TRAY + part("sleeve", "sleeve", **{"covers": "tray", **keys})


def fits(kit: BuiltKit) -> dict[str, Severity]:
    """How each fit of the sleeve is found to be."""
    return {each.code: each.severity for each in quick_findings(kit) if each.about == "sleeve over tray"}


def test_its_size_follows_along_every_axis_that_it_spans() -> None:
    kit = built(over())
    tray, room = outside(kit, "tray"), inside(kit, "sleeve")
    assert tray["height"] > 30
    for axis in ("depth", "height"):
        assert tray[axis] + 1 <= room[axis] < tray[axis] + 2
    assert tray["width"] <= outside(kit, "sleeve")["width"] < tray["width"] + 1
    assert kit.part("sleeve").how == (
        "width: tray measures 100.5 mm outside, rounded up",
        "depth: tray measures 60.5 mm outside, with 1 mm free play, rounded up",
        "height: tray measures 30.2 mm outside, with 1 mm free play, rounded up",
    )
    assert fits(kit) == {"lid-fit-depth": Severity.OK, "lid-fit-height": Severity.OK}


@pytest.mark.parametrize(
    ("height", "severity"),
    [
        ("20", Severity.FAIL),
        ("31", Severity.FAIL),
        ("33", Severity.OK),
        ("36", Severity.WARNING),
        ("60", Severity.FAIL),
    ],
)
def test_a_height_that_does_not_fit_is_told(height: str, severity: Severity) -> None:
    found = finding(over(height=height), "lid-fit-height")
    assert found.severity is severity
    assert found.makings is not None
    assert found.measured == pytest.approx(float(height) - 1 - 30.25)


def test_a_height_that_is_too_small_is_mended() -> None:
    text = over(height="20")
    found = finding(text, "lid-fit-height", with_fixes=True)
    assert found.fix is not None
    assert found.fix.sentence == "Make the height of sleeve 33."
    assert fits(built(apply_changes(text, found.fix.changes)))["lid-fit-height"] is Severity.OK


def test_round_a_tray_it_is_proved_the_same_and_has_no_breadth_to_judge() -> None:
    kit = built(TRAY + part("sleeve", "sleeve", wraps="tray"))
    found = {each.code: each.severity for each in quick_findings(kit) if each.about == "sleeve round tray"}
    assert found == {"band-fit-depth": Severity.OK, "band-fit-height": Severity.OK}
    assert 2 <= inside(kit, "sleeve")["height"] - outside(kit, "tray")["height"] < 3


def test_where_it_goes_on_closely_no_card_is_in_the_way_of_card() -> None:
    close = over().replace('lid = "1"', 'lid = "0.1"').replace('ruler = "1"', 'ruler = "0.5"')
    found = [each.severity for each in quick_findings(built(close)) if each.code == "layers-in-the-way"]
    assert found == [Severity.OK]


def test_it_is_put_with_as_much_room_above_as_below() -> None:
    kit = built(over(height="35"))
    sleeve, tray = kit.part("sleeve"), kit.part("tray")
    boxes = [slab.solid.bounding_box() for slab in put_over(sleeve, tray, is_lid=True)]
    low, high = min(box[2] for box in boxes), max(box[5] for box in boxes)
    its = [slab.solid.bounding_box() for slab in solids(tray)]
    below, above = min(box[2] for box in its) - low, high - max(box[5] for box in its)
    # the tray is open at the top, so that its walls end half a card above its room
    assert below == pytest.approx(above, abs=0.51)


def test_it_holds_nothing_and_is_glued_on_outside_only() -> None:
    with pytest.raises(Mistakes, match="A sleeve cannot hold anything"):
        built(TRAY + part("sleeve", "sleeve", holds="tray", size="110 x 70 x 40"))
    with pytest.raises(Mistakes, match="no inside to glue on"):
        build(read_kit(over() + part("mat", "mat", on="sleeve", face="inside")))
