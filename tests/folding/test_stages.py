"""How a part lies on the table between and after the steps of its making."""

import pytest
from tests.folding.shapes import tray

from kitwright.folding import fold_after
from kitwright.folding.plates import bend_between
from kitwright.folding.stages import state_after
from kitwright.pattern import Draft, PanelRef, Pattern, Stage


def test_with_the_last_step_everything_is_folded_and_glued_named_or_not() -> None:
    whole = tray(60, 40, 20)
    pattern = Pattern(
        whole.blanks, whole.joints, whole.stance, stages=(Stage("", folds=("south",)), Stage("", folds=()))
    )
    first, last = state_after(pattern, 0), state_after(pattern, 1)
    assert {ref.panel for ref, angle in first.angles.items() if angle} == {"south"}
    assert first.glued == ()
    assert last.angles == {PanelRef("tray", score.child): score.angle for score in whole.blanks[0].scores}
    assert last.glued == whole.joints


def test_only_a_panel_named_that_is_folded_flat_is_left_ajar() -> None:
    draft = Draft("card")
    body = draft.panel("body", 60, 40)
    for side, angle in (("west", -180), ("east", -180), ("north", -90)):
        body.fold_out(side, side, 20, angle=angle)
    pattern = Pattern((draft.finish(),), stages=(Stage("", folds=("west", "east", "north")),))

    def bends(**more: float) -> list[float]:
        folded = fold_after(pattern, 0, moving=("west", "north"), **more)
        return [bend_between(folded, body.ref, PanelRef("card", side)) for side in ("west", "east", "north")]

    assert bends(ajar=0.75) == pytest.approx([135, 180, 90])
    assert bends() == pytest.approx([180, 180, 90])
