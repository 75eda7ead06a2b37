"""A part for the folded view: its tree of hinges, and where every piece of card lies after every step. Millimetres, degrees.

The page folds by itself between the steps; at each step the turns and the places of the roots are the engine's own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from kitwright.folding import Folded, fold, fold_after, fold_pictured, shift, state_after
from kitwright.kit import BuiltKit, BuiltPart, as_used, lids_of, put_on
from kitwright.pattern import PanelKind, PanelRef, Pattern, Side
from kitwright.plan import blank_label

__all__ = ["fold_data", "whole_data"]


def fold_data(part: BuiltPart) -> dict[str, Any]:
    """Everything that the page needs to fold a part."""
    pattern = part.pattern
    count = len(pattern.stages)
    return {
        "name": part.name,
        "copies": [copy_data(part, name) for name, _ in pattern.copies()],
        "states": [state_data(pattern, number) for number in range(-1, max(count, 1))],
        "words": ["Flat on the table, print side as it lies.", *(stage.words for stage in pattern.stages)],
    }


def copy_data(part: BuiltPart, copy: str, *, before: str = "") -> dict[str, Any]:
    """One piece of card: its panels, each with the score it hangs on. `lift` is the side to which it lies on another panel."""
    pattern = part.pattern
    blank = pattern.blank_of(copy)
    hinges = {score.child: score for score in blank.scores}
    lifts = {
        joint.tab.panel: -1 if joint.side is Side.UNDER else 1 for joint in pattern.joints if joint.tab.blank == copy
    }
    return {
        "name": before + copy,
        "paper": part.paper.key,
        "blank": blank_label(part, blank),
        "size": list(blank.size),
        "thickness": part.paper.thickness,
        "up": None if part.paper.can_turn else part.part.turn,
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


Matrix = NDArray[np.float64]

APART: Final = 25.0
"""Millimetres between things that lie side by side on the table."""


def whole_data(built: BuiltKit) -> dict[str, Any] | None:
    """The kit's box with everything that belongs to it: closed, with the lid lifted, and all of it side by side. None without a box.

    Of each kind of part one is shown; whether all of them go in is for the proof.
    """
    main = next((each for each in built.parts if each.part.holds and not each.is_flat), None)
    if main is None:
        return None
    closed = {main.name, *(each.name for each in lids_of(built.kit, main.name))}
    lids = [each for each in built.parts if {each.part.covers, each.part.wraps} & closed]
    held = [each for each in built.parts if each.name in main.part.holds]
    scenes = [
        opened(main, lids, held, lift=0.0),
        opened(main, lids, held, lift=1.0),
        side_by_side([main, *lids], held),
    ]
    shown = [main, *lids, *held]
    return {
        "name": built.kit.name,
        "copies": [
            copy_data(part, copy, before=f"{part.name}: ") for part in shown for copy, _ in part.pattern.copies()
        ],
        "states": [scene_state(each) for each in scenes],
        "words": ["Closed.", "Opened: what goes over and round it is lifted off.", "One of each, side by side."],
    }


@dataclass(frozen=True, eq=False)
class Shown:
    """A finished part where it is shown; `is_pictured` if at the angles at which it is best seen, not closed."""

    part: BuiltPart
    folded: Folded
    is_pictured: bool = True


LAY_DOWN: Final = np.array([[1.0, 0, 0, 0], [0, 0, 1.0, 0], [0, -1.0, 0, 0], [0, 0, 0, 1.0]])
"""What stood upright lies on its back: its front looks up, its upper edge away from you."""
QUARTER: Final = np.array([[0, -1.0, 0, 0], [1.0, 0, 0, 0], [0, 0, 1.0, 0], [0, 0, 0, 1.0]])


def opened(main: BuiltPart, lids: list[BuiltPart], held: list[BuiltPart], *, lift: float) -> tuple[Shown, ...]:
    """The box with its contents; what goes over and round it is in place (lift 0) or lifted off, one above the other (lift 1)."""
    box = fold_pictured(main.pattern).standing()
    _, size = box.bounds()
    found = [Shown(main, box), *contents(main, held, size)]
    raised = float(size[2]) * 0.25 + 30.0
    for part in lids:
        cover = as_used(part, fold_pictured(part.pattern), turn=part.part.turn)
        _, its = cover.bounds()
        on = put_on(cover, size, top=float(size[2]) + part.paper.thickness if part.part.covers else None)
        off = size[2] + raised - on.bounds()[0][2]
        found.append(Shown(part, on.moved(shift(0.0, 0.0, float(off) * lift))))
        raised += float(its[2]) + 15.0
    return tuple(found)


def contents(main: BuiltPart, held: list[BuiltPart], size: Matrix) -> Iterator[Shown]:
    """One of each thing that is held, in the middle: standing behind each other, or lying on each other."""
    stands = main.form.stands_contents if main.part.standing is None else main.part.standing
    along = main.paper.thickness
    for part in held:
        thing = fold(part.pattern)
        if not stands and part.is_flat:
            thing = thing.moved(LAY_DOWN)
        thing = thing.standing()
        _, its = thing.bounds()
        if its[0] > size[0] >= its[1]:
            thing = thing.moved(QUARTER).standing()
            _, its = thing.bounds()
        if stands:
            place = shift(float(size[0] - its[0]) / 2, along + 2.0, main.paper.thickness)
            along += float(its[1]) + max(part.thickness, 1.0)
        else:
            place = middle_of(size, its, along)
            along += float(its[2]) + max(part.thickness, 0.5)
        yield Shown(part, thing.moved(place), is_pictured=False)


def middle_of(size: Matrix, its: Matrix, height: float) -> Matrix:
    """The move that puts something in the middle of a box of a size, so high."""
    return shift(float(size[0] - its[0]) / 2, float(size[1] - its[1]) / 2, height)


def side_by_side(behind: list[BuiltPart], before: list[BuiltPart]) -> tuple[Shown, ...]:
    """Parts in two rows on the table."""
    found = []
    for row, y in ((behind, 3 * APART), (before, 0.0)):
        right = 0.0
        for part in row:
            thing = fold_pictured(part.pattern).standing()
            _, its = thing.bounds()
            found.append(Shown(part, thing.moved(shift(right, y if row is behind else -3 * APART - float(its[1]), 0))))
            right += float(its[0]) + APART
    return tuple(found)


def scene_state(scene: tuple[Shown, ...]) -> dict[str, Any]:
    """A scene as the page folds it: the fold of every hinge, the place of every root."""
    angles: dict[str, float] = {}
    roots: dict[str, list[float]] = {}
    for shown in scene:
        pictured = dict(shown.part.pattern.pictured) if shown.is_pictured else {}
        for copy, blank in shown.part.pattern.copies():
            name = f"{shown.part.name}: {copy}"
            roots[name] = root_pose(shown.folded, PanelRef(copy, blank.root.name))
            angles |= {f"{name}/{score.child}": pictured.get(score.child, score.angle) for score in blank.scores}
    bounds = [shown.folded.bounds() for shown in scene]
    return {
        "angles": angles,
        "roots": roots,
        "low": [float(each) for each in np.min([low for low, _ in bounds], axis=0)],
        "high": [float(each) for each in np.max([high for _, high in bounds], axis=0)],
    }
