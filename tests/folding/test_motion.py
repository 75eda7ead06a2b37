"""The ways in which the panels of one step of folding may turn, and which of them is told."""

from itertools import pairwise

import numpy as np
import pytest

from kitwright.folding import bumps
from kitwright.folding.motion import Way, bumps_on, way_to
from kitwright.folding.plates import bend_between
from kitwright.pattern import Draft, PanelRef, Pattern, Stage


def strip() -> Pattern:
    """Three panels in a row, both scores folded in one step."""
    draft = Draft("strip")
    draft.panel("body", 40, 30).fold_out("east", "arm", 30).fold_out("far", "hook", 20)
    return Pattern((draft.finish(),), stages=(Stage("Fold.", folds=("arm", "hook")),))


# both folds end at 90 degrees, of which the end itself is left out
@pytest.mark.parametrize(
    ("way", "bends"),
    [
        (Way.TOGETHER, [(30, 30), (60, 60)]),
        (Way.INNER_FIRST, [(30, 0), (60, 0), (90, 0), (90, 30), (90, 60)]),
        (Way.OUTER_FIRST, [(0, 30), (0, 60), (0, 90), (30, 90), (60, 90)]),
    ],
)
def test_panels_turn_together_or_those_nearer_to_the_middle_first_or_last(
    way: Way, bends: list[tuple[float, float]]
) -> None:
    shares, states = way_to(strip(), 0, way, step=30)
    names = [PanelRef("strip", name) for name in ("body", "arm", "hook")]
    folded = [states.state(number) for number in range(len(shares))]
    found = [bend_between(each, *pair) for each in folded for pair in pairwise(names)]
    assert found == pytest.approx(list(np.ravel(bends)), abs=1e-9)
    assert shares == pytest.approx([(n + 1) / (len(bends) + 1) for n in range(len(bends))])


def test_of_ways_on_which_as_few_panels_bump_the_first_is_told() -> None:
    draft = Draft("frame")
    floor = draft.panel("floor", 50, 40)
    floor.fold_out("east", "wall", 30, angle=90).fold_out("far", "roof", 70, angle=90, inset=(5, 5))
    floor.fold_out("west", "other wall", 60, angle=90)
    pattern = Pattern((draft.finish(),), stages=(Stage("Fold.", folds=("wall", "roof", "other wall")),))
    together, outer, inner = (bumps_on(pattern, 0, way, 9.0) for way in Way)
    assert len(together) == len(outer) == len(inner) == 1
    assert together != inner
    assert bumps(pattern, step=9.0) == tuple(together)
