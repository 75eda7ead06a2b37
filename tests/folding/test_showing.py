"""Which backs can be seen past the other panels, against what geometry says."""

from dataclasses import replace

import pytest

from kitwright.folding import fold, seen_backs
from kitwright.pattern import Draft, Pattern, Stance


def seen_of_clip(wide: float, high: float, gap: float, *, window: bool = False) -> set[str]:
    """The panels of an upright clip, two walls joined along one of their upright edges, whose backs are seen; a window of 4 x 4 may be in
    the middle of its front."""
    draft = Draft("clip")
    draft.panel("front", wide, high).fold_out("east", "side", gap).fold_out("far", "back", wide)
    blank = draft.finish()
    if window:
        x, y = wide / 2, high / 2
        hole = ((x - 2, y - 2), (x + 2, y - 2), (x + 2, y + 2), (x - 2, y + 2))
        blank = replace(blank, panels=(replace(blank.panels[0], holes=(hole,)), *blank.panels[1:]))
    return {ref.panel for ref in seen_backs(fold(Pattern((blank,), stance=Stance.STANDING)))}


# Geometry: one who looks at an upright panel aslant under 45 degrees, level, looks past one in front of it that reaches less far aside
# than it stands away; from steeply above or below (four up on one ahead), past one that reaches less than four times as far.
@pytest.mark.parametrize(
    ("wide", "high", "gap", "is_seen"),
    [
        (28, 130, 15, True),  # past the upright edge, 14 mm from the middle; the level ones are 65 mm from it
        (32, 130, 15, False),
        (32, 118, 15, True),  # over the level edges, 59 mm from the middle
    ],
)
def test_a_back_is_seen_past_the_panel_in_front_of_it_just_where_a_look_goes_by_its_edge(
    wide: float, high: float, gap: float, is_seen: bool
) -> None:
    assert seen_of_clip(wide, high, gap) == ({"front", "side", "back"} if is_seen else {"side"})


def test_a_back_is_seen_straight_through_a_window() -> None:
    assert "back" not in seen_of_clip(32, 130, 15)
    assert "back" in seen_of_clip(32, 130, 15, window=True)


@pytest.mark.parametrize(("flap", "seen"), [(85, {"body"}), (95, set())])
def test_a_sliver_of_a_back_does_not_count_as_showing(flap: float, seen: set[str]) -> None:
    draft = Draft("card")
    draft.panel("body", 100, 50).fold_out("east", "flap", flap, angle=-180)
    assert {ref.panel for ref in seen_backs(fold(Pattern((draft.finish(),))))} == seen
