import numpy as np
import pytest
from tests.folding.shapes import box_net, ring, spanning_trees, tray

from kitwright.folding import bumps, crossings, fold
from kitwright.folding.collision import crossings_in
from kitwright.folding.poses import sweep
from kitwright.pattern import Blank, Draft, PanelRef, Pattern, Stage


def test_closed_boxes_do_not_collide_with_themselves() -> None:
    for tree in list(spanning_trees())[::9]:
        assert crossings(fold(Pattern((box_net((1, 1, 1), tree),)))) == ()


def test_touching_tabs_hems_and_folded_flat_panels_are_no_collision() -> None:
    draft = Draft("envelope")
    body = draft.panel("body", 100, 60)
    for side in ("south", "east", "north", "west"):
        body.fold_out(side, side, 40, angle=-180)
    for pattern in (Pattern((draft.finish(),)), tray(60, 40, 20), ring((60, 40, 60, 40), 30, 8, 3)):
        assert crossings(fold(pattern)) == ()


def post(poke: float) -> Pattern:
    """A floor, a wall standing on its east edge, and a shelf that reaches from the wall's top to `poke` through a second wall."""
    draft = Draft("frame")
    floor = draft.panel("floor", 50, 40)
    wall = floor.fold_out("east", "wall", 30, angle=90)
    wall.fold_out("far", "roof", 50 + poke, angle=90, inset=(5, 5))
    floor.fold_out("west", "other wall", 60, angle=90)
    return Pattern((draft.finish(),))


# ADV-7 in plain words: touching is no collision, a poke of a millionth of a millimetre is one.
@pytest.mark.parametrize(("poke", "seen"), [(-1e-6, False), (0.0, False), (1e-6, True), (0.05, True), (20.0, True)])
def test_a_poke_of_a_millionth_of_a_millimetre_is_seen_and_a_touch_is_not(poke: float, seen: bool) -> None:
    found = crossings(fold(post(poke)))
    assert bool(found) is seen
    for crossing in found:
        assert {crossing.one.panel, crossing.other.panel} == {"roof", "other wall"}
        assert crossing.length == pytest.approx(30, abs=1e-6)
        assert crossing.depth == pytest.approx(poke, abs=1e-9)


def test_a_panel_may_pass_through_a_hole() -> None:
    found = crossings(fold(post(20)))
    assert len(found) == 1
    blank = post(20).blanks[0]
    slot = ((-29.0, 4.0), (-29.0, 36.0), (-31.0, 36.0), (-31.0, 4.0))
    low = min(x for panel in blank.panels for x, _ in panel.outline)
    floor_left = blank.panel("floor").outline[0][0]
    assert low == 0
    moved = tuple((x + floor_left, y) for x, y in slot)
    panels = tuple(
        type(panel)(panel.name, panel.outline, panel.edge_names, panel.kind, (moved,))
        if panel.name == "other wall"
        else panel
        for panel in blank.panels
    )
    assert crossings(fold(Pattern((Blank("frame", panels, blank.scores),)))) == ()


def test_the_states_of_a_sweep_in_which_panels_pass_through_each_other_are_told_with_the_crossings_of_each() -> None:
    pattern = post(20)
    floor, wall, roof, other = (PanelRef("frame", name) for name in ("floor", "wall", "roof", "other wall"))
    angles = [0.0, 15.0, 89.0, 90.0, 91.0, 165.0]
    swept = sweep(pattern, {wall: 90.0, roof: 90.0, other: np.array(angles)}, glued=())
    alone = [crossings(fold(pattern, {other: angle})) for angle in angles]
    told = dict(crossings_in(swept, moving=frozenset({other})))
    assert set(told) == {number for number, found in enumerate(alone) if found} == {2, 3, 4, 5}
    assert [(each.one, each.other) for found in told.values() for each in found] == [
        *[(roof, other)] * 3,
        (wall, other),
    ]
    for number, found in told.items():
        assert [each.depth for each in found] == pytest.approx([each.depth for each in alone[number]], abs=1e-9)
    assert [number for number, _ in crossings_in(swept, moving=frozenset({floor, wall}))] == [5]


def test_folding_in_an_order_that_goes_does_not_bump() -> None:
    assert bumps(tray(60, 40, 20)) == ()
    pattern = tray(60, 40, 20)
    tabs = tuple(panel.name for panel in pattern.blanks[0].panels if panel.name.endswith("tab"))
    walls = ("south", "east", "north", "west")
    stages = (Stage("Tabs.", folds=tabs), Stage("Walls.", folds=walls))
    assert bumps(Pattern(pattern.blanks, pattern.joints, pattern.stance, stages=stages)) == ()


def test_a_bump_on_the_way_names_the_stage_and_the_panels() -> None:
    draft = Draft("strip")
    body = draft.panel("body", 40, 30)
    body.fold_out("west", "post", 30)
    arm = body.fold_out("east", "arm", 30)
    arm.fold_out("far", "hook", 45, angle=-100)
    pattern = Pattern((draft.finish(),), stages=(Stage("", folds=("post", "hook")), Stage("", folds=("arm",))))
    found = bumps(pattern)
    assert {bump.stage for bump in found} == {1}
    assert {(bump.crossing.one.panel, bump.crossing.other.panel) for bump in found} == {("post", "hook")}
