"""A part for the folded view: its tree of hinges, and where every piece of card lies after every step. Millimetres, degrees.

The page folds by itself between the steps; at each step the turns and the places of the roots are the engine's own.
"""

from __future__ import annotations

from typing import Any

from kitwright.folding import Folded, fold_after, state_after
from kitwright.kit import BuiltPart
from kitwright.pattern import PanelKind, PanelRef, Pattern, Side

__all__ = ["fold_data"]


def fold_data(part: BuiltPart) -> dict[str, Any]:
    """Everything that the page needs to fold a part."""
    pattern = part.pattern
    count = len(pattern.stages)
    return {
        "name": part.name,
        "thickness": part.paper.thickness,
        "up": None if part.paper.can_turn else part.part.turn,
        "copies": [copy_data(pattern, name) for name, _ in pattern.copies()],
        "states": [state_data(pattern, number) for number in range(-1, max(count, 1))],
        "words": ["Flat on the table, print side as it lies.", *(stage.words for stage in pattern.stages)],
    }


def copy_data(pattern: Pattern, copy: str) -> dict[str, Any]:
    """One piece of card: its panels, each with the score it hangs on. `lift` is the side to which it lies on another panel."""
    blank = pattern.blank_of(copy)
    hinges = {score.child: score for score in blank.scores}
    lifts = {
        joint.tab.panel: -1 if joint.side is Side.UNDER else 1 for joint in pattern.joints if joint.tab.blank == copy
    }
    return {
        "name": copy,
        "root": blank.root.name,
        "panels": [
            {
                "name": panel.name,
                "kind": panel.kind.value,
                "outline": [list(point) for point in panel.outline],
                "holes": [[list(point) for point in hole] for hole in panel.holes],
                "lift": lifts.get(panel.name, 1 if panel.kind is PanelKind.HEM else 0),
                **(
                    {
                        "parent": hinges[panel.name].parent,
                        "start": list(hinges[panel.name].start),
                        "end": list(hinges[panel.name].end),
                    }
                    if panel.name in hinges
                    else {}
                ),
            }
            for panel in blank.panels
        ],
    }


def state_data(pattern: Pattern, stage: int) -> dict[str, Any]:
    """The fold of every hinge, the place of every root, and the room all of it takes, after a step."""
    angles = state_after(pattern, stage).angles
    folded = fold_after(pattern, stage)
    low, high = folded.bounds()
    return {
        "angles": {f"{ref.blank}/{ref.panel}": angle for ref, angle in angles.items()},
        "roots": {copy: root_pose(folded, PanelRef(copy, blank.root.name)) for copy, blank in pattern.copies()},
        "low": [float(each) for each in low],
        "high": [float(each) for each in high],
    }


def root_pose(folded: Folded, ref: PanelRef) -> list[float]:
    """A pose as 16 numbers, column by column."""
    return [float(each) for each in folded.poses[ref].T.reshape(-1)]
