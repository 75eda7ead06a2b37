"""States of folding on the way: what is folded and glued after each stage of making. Angles in degrees."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Final

from kitwright.folding.poses import Folded, fold
from kitwright.pattern import Joint, PanelRef, Pattern

__all__ = ["State", "fold_after", "fold_pictured", "state_after"]

FLAT: Final = 180.0
"""The angle of a panel folded flat on its neighbour, degrees."""


@dataclass(frozen=True, slots=True)
class State:
    """The fold angle of every folded panel, by reference, and the joints that are glued by now."""

    angles: Mapping[PanelRef, float]
    glued: tuple[Joint, ...]


def state_after(pattern: Pattern, stage: int) -> State:
    """The state when stage number `stage` (from 0) is done; −1 is the flat state before the first.

    Panels named so far, on every copy, are at their finished angle, later ones are still flat. With the last stage everything is
    folded and glued, named or not. Raises `ValueError` if a stage names a panel that no blank has.
    """
    check_names(pattern)
    done = pattern.stages[: stage + 1]
    finished = stage >= len(pattern.stages) - 1
    folded = {name for one in done for name in one.folds}
    glues = {name for one in done for name in one.glues}
    angles = {
        PanelRef(copy, score.child): score.angle if finished or score.child in folded else 0.0
        for copy, blank in pattern.copies()
        for score in blank.scores
    }
    return State(angles, tuple(joint for joint in pattern.joints if finished or joint.tab.panel in glues))


def fold_after(pattern: Pattern, stage: int, *, moving: Collection[str] = (), ajar: float = 1.0) -> Folded:
    """The pattern as it lies on the table when stage number `stage` (from 0; −1 is flat) is done.

    Panels named in `moving` that are then folded flat on another are left at the share `ajar` of their angle, so that they show.
    """
    state = state_after(pattern, stage)
    angles = {
        ref: angle * ajar if ref.panel in moving and abs(angle) == FLAT else angle
        for ref, angle in state.angles.items()
    }
    return fold(pattern, angles, glued=None if stage >= len(pattern.stages) - 1 else state.glued)


def fold_pictured(pattern: Pattern) -> Folded:
    """The finished part as it is best shown: `pictured` panels of every copy at their pictured angles, the others finished."""
    shown = dict(pattern.pictured)
    return fold(pattern, {ref: shown[ref.panel] for ref, _ in pattern.panels() if ref.panel in shown})


def check_names(pattern: Pattern) -> None:
    """Raise `ValueError` if a stage folds or glues a panel that no blank has."""
    known = {panel.name for blank in pattern.blanks for panel in blank.panels}
    unknown = sorted({name for one in pattern.stages for name in (*one.folds, *one.glues)} - known)
    if unknown:
        raise ValueError(f"the stages name panels that no blank has: {', '.join(unknown)}")
