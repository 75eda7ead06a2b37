import numpy as np
import pytest
from tests.folding.shapes import tray

from kitwright.folding import LOOSE_GAP, fold, fold_after, shift, state_after
from kitwright.folding.poses import sweep
from kitwright.pattern import Draft, EdgeRef, Joint, Mate, PanelRef, Pattern, Side, Stage, Stance


def flap(angle: float, stance: Stance = Stance.LYING) -> Pattern:
    draft = Draft("card")
    draft.panel("body", 40, 30).fold_out("south", "flap", 10, angle=angle)
    return Pattern((draft.finish(),), stance=stance)


FLAP = PanelRef("card", "flap")
BODY = PanelRef("card", "body")


def test_a_valley_fold_of_90_degrees_lifts_the_flap_with_its_print_towards_the_parent() -> None:
    folded = fold(flap(90))
    assert folded.points(FLAP)[:, 2].max() == 10
    assert folded.normal(FLAP).tolist() == [0, 1, 0]  # the parent lies on the +y side of the score


def test_a_mountain_fold_of_90_degrees_lowers_the_flap_with_its_print_away_from_the_parent() -> None:
    folded = fold(flap(-90))
    assert folded.points(FLAP)[:, 2].min() == -10
    assert folded.normal(FLAP).tolist() == [0, -1, 0]


def test_a_fold_of_180_degrees_lays_the_flap_back_on_its_parent() -> None:
    for angle in (180, -180):
        folded = fold(flap(angle))
        assert np.ptp(folded.points(FLAP)[:, 2]) == 0
        assert folded.points(FLAP)[:, 1].tolist() == pytest.approx([10, 10, 20, 20])
        assert folded.normal(FLAP).tolist() == [0, 0, -1]


def test_a_standing_pattern_turns_its_print_towards_the_viewer_and_its_up_upwards() -> None:
    folded = fold(flap(-90, Stance.STANDING))
    assert folded.normal(BODY).tolist() == [0, -1, 0]
    assert folded.print_up(BODY).tolist() == [0, 0, 1]


def test_a_pattern_that_lies_face_down_turns_its_print_down_and_its_up_away_from_the_viewer() -> None:
    folded = fold(flap(-90, Stance.FACE_DOWN))
    assert folded.normal(BODY).tolist() == [0, 0, -1]
    assert folded.print_up(BODY).tolist() == [0, 1, 0]
    assert folded.points(FLAP)[:, 2].max() == 10


def test_the_walls_of_a_tray_stand_on_the_table_and_meet_at_its_corners() -> None:
    folded = fold(tray(60, 40, 20))
    low, high = folded.standing().bounds()
    assert (low.tolist(), high.tolist()) == ([0, 0, 0], [60, 40, 20])
    south = folded.edge(EdgeRef(PanelRef("tray", "south"), "right"))
    west = folded.edge(EdgeRef(PanelRef("tray", "west"), "left"))
    assert south.tolist() == west[::-1].tolist()


def test_one_angle_can_be_overridden_and_a_share_bends_all_of_them() -> None:
    pattern = tray(60, 40, 20)
    south = PanelRef("tray", "south")
    folded = fold(pattern, {south: 0.0})
    assert np.ptp(folded.points(south)[:, 2]) == 0
    half = fold(pattern, share=0.5)
    assert half.points(south)[:, 2].max() == pytest.approx(20 * np.sqrt(0.5), abs=1e-12)


def test_to_panel_undoes_to_world() -> None:
    folded = fold(tray(60, 40, 20), share=0.37)
    ref = PanelRef("tray", "south left tab")
    local = folded.to_panel(ref, folded.points(ref))
    assert np.abs(local[:, 2]).max() < 1e-12
    assert np.allclose(local[:, :2], folded.pattern.panel(ref).outline, atol=1e-12)


def two_halves(*, along: bool, mate: bool = True) -> Pattern:
    """Two equal pieces; the foot of the second lies on the foot of the first (along) or continues it."""
    draft = Draft("half", copies=2)
    face = draft.panel("face", 40, 30)
    foot = face.fold_out("south", "foot", 20)
    joining = Mate("far", "hinge" if along else "far", along=along) if mate else None
    joint = Joint(foot.on(2), foot.ref, Side.OVER, joining)
    return Pattern((draft.finish(),), joints=(joint,), stance=Stance.STANDING)


def test_a_copy_laid_along_covers_the_target_turned_about() -> None:
    folded = fold(two_halves(along=True))
    first, second = PanelRef("half", "foot"), PanelRef("half 2", "foot")
    assert {tuple(p) for p in folded.points(first)} == {tuple(p) for p in folded.points(second)}
    assert folded.normal(first).tolist() == folded.normal(second).tolist() == [0, 0, -1]
    assert folded.normal(PanelRef("half 2", "face")).tolist() == [0, 1, 0]


def test_a_copy_joined_against_an_edge_continues_the_target_beyond_it() -> None:
    folded = fold(two_halves(along=False))
    first, second = folded.points(PanelRef("half", "foot")), folded.points(PanelRef("half 2", "foot"))
    assert (first[:, 1].min(), first[:, 1].max()) == (0, 20)
    assert (second[:, 1].min(), second[:, 1].max()) == (20, 40)
    assert folded.points(PanelRef("half 2", "face"))[:, 1].tolist() == [40] * 4


def test_a_copy_that_no_joint_puts_in_place_is_refused() -> None:
    with pytest.raises(ValueError, match="puts half 2 in place"):
        fold(two_halves(along=True, mate=False))


def test_pieces_not_glued_yet_lie_side_by_side() -> None:
    folded = fold(two_halves(along=True), glued=())
    first, second = folded.points(PanelRef("half", "face")), folded.points(PanelRef("half 2", "face"))
    assert second[:, 0].min() - first[:, 0].max() == LOOSE_GAP
    assert second[:, 2].min() == first[:, 2].min()


def test_pieces_that_lie_face_down_are_laid_side_by_side_too() -> None:
    draft = Draft("sheet", copies=3)
    draft.panel("body", 40, 30)
    folded = fold(Pattern((draft.finish(),), stance=Stance.FACE_DOWN), glued=())
    lefts = [folded.points(PanelRef(name, "body"))[:, 0].min() for name in ("sheet", "sheet 2", "sheet 3")]
    assert lefts == [-40, LOOSE_GAP, 40 + 2 * LOOSE_GAP]


def staged() -> Pattern:
    pattern = two_halves(along=True)
    stages = (Stage("Fold the feet.", folds=("foot",)), Stage("Glue the halves.", glues=("foot",)))
    return Pattern(pattern.blanks, pattern.joints, pattern.stance, stages=stages)


def test_a_stage_folds_its_panels_on_every_copy_and_leaves_later_ones_flat() -> None:
    pattern = staged()
    feet = [PanelRef("half", "foot"), PanelRef("half 2", "foot")]
    assert [state_after(pattern, -1).angles[foot] for foot in feet] == [0, 0]
    assert [state_after(pattern, 0).angles[foot] for foot in feet] == [-90, -90]


def test_pieces_come_together_in_the_stage_that_glues_them() -> None:
    pattern = staged()
    second = PanelRef("half 2", "face")
    assert fold_after(pattern, 0).points(second)[:, 0].min() == 40 + LOOSE_GAP
    assert fold_after(pattern, 1).points(second)[:, 0].min() == 0


def test_a_stage_that_names_an_unknown_panel_is_refused() -> None:
    pattern = Pattern(flap(90).blanks, stages=(Stage("Fold the flep.", folds=("flep",)),))
    with pytest.raises(ValueError, match="flep"):
        state_after(pattern, 0)


@pytest.mark.parametrize("is_glued", [False, True])
def test_every_state_of_a_sweep_is_that_state_folded_by_itself(is_glued: bool) -> None:
    draft = Draft("leaf", copies=2)
    flap = draft.panel("body", 40, 30).fold_out("east", "flap", 20)
    joint = Joint(flap.on(2), flap.ref, Side.OVER, Mate("far", "far"))
    pattern, glued = Pattern((draft.finish(),), joints=(joint,)), (joint,) if is_glued else ()
    ways = [(0.0, -90.0), (-30.0, -90.0), (-90.0, -90.0), (-179.0, -90.0)]
    swept = sweep(pattern, {flap.ref: np.array([first for first, _ in ways]), flap.on(2): -90.0}, glued=glued)
    for number, (first, second) in enumerate(ways):
        alone, there = fold(pattern, {flap.ref: first, flap.on(2): second}, glued=glued), swept.state(number)
        assert there.refs == alone.refs
        for ref in there.refs:
            assert there.poses[ref] == pytest.approx(alone.poses[ref], abs=1e-12)


def test_a_folded_part_can_be_moved_as_a_whole() -> None:
    low, high = fold(flap(90)).moved(shift(1, 2, 3)).bounds()
    assert (low.tolist(), high.tolist()) == ([1, 12, 3], [41, 42, 13])
