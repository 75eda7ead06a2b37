"""A part for the folded view: its tree of hinges, and where every piece of card lies after every step. Millimetres, degrees.

The page folds by itself between the steps; at each step the turns and the places of the roots are the engine's own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from kitwright.folding import Folded, fold_after, fold_pictured, shift, state_after
from kitwright.kit import BuiltKit, BuiltPart, Filling, as_used, blank_label, lids_of, put_on
from kitwright.pattern import PanelRef, Pattern, Side

__all__ = ["box_of", "fold_data", "hues_of", "whole_data"]

Matrix = NDArray[np.float64]

NOTHING: Final = Filling(())
"""What is in a part that holds nothing, or whose contents are not asked for."""

APART: Final = 25.0
"""Millimetres between things that lie side by side on the table, and between a box and what is held over it."""


def fold_data(part: BuiltPart, inside: Filling = NOTHING) -> dict[str, Any]:
    """Everything that the page needs to fold a part; and then, if something is found to lie in it, to put that in."""
    pattern = part.pattern
    count = len(pattern.stages)
    states = [state_data(pattern, number) for number in range(-1, max(count, 1))]
    words = ["Flat on the table, print side as it lies.", *(stage.words for stage in pattern.stages)]
    if inside.blocks:
        shown = Shown(part, fold_pictured(pattern))
        out = pulled_out(shown, inside)
        states += [scene_state((shown,), Bodies(inside, shown, lift), before=False) for lift in (out, 0.0)]
        words += ["What goes in is held over it.", "It is in its place."]
    return {
        "name": part.name,
        "copies": [copy_data(part, name) for name, _ in pattern.copies()],
        "bodies": bodies_data(inside),
        "states": states,
        "words": words,
        "start": len(states) - (2 if inside.blocks else 1),
        "counts": True,
    }


HUES: Final = 6
"""Quiet colours in which bodies are told apart; with more names than these they come again."""


def hues_of(inside: Filling) -> dict[str, int]:
    """The number of a colour for every name."""
    return {name: place % HUES for place, name in enumerate(dict.fromkeys(block.name for block in inside.blocks))}


def bodies_data(inside: Filling) -> list[dict[str, Any]]:
    """What lies together as one block each: its name, how many, width, depth and height, and the number of its colour."""
    hues = hues_of(inside)
    return [
        {"name": block.name, "count": block.count, "size": list(block.size), "hue": hues[block.name]}
        for block in inside.blocks
    ]


def pulled_out(shown: Shown, inside: Filling) -> float:
    """How far contents are lifted to be seen: clear over a box, half way out of an envelope."""
    if shown.part.is_flat:
        return max(block.size[2] for block in inside.blocks) * 0.6
    lowest = Bodies(inside, shown, 0.0).corners()[:, 2].min()
    return float(shown.folded.bounds()[1][2] - lowest) + APART


def copy_data(part: BuiltPart, copy: str, *, before: str = "") -> dict[str, Any]:
    """One piece of card: its panels, each with the score it hangs on. `lift` is how many layers it lies off to its print side."""
    pattern = part.pattern
    blank = pattern.blank_of(copy)
    hinges = {score.child: score for score in blank.scores}
    lifts = {
        joint.tab.panel: -1 if joint.side is Side.UNDER else 1 for joint in pattern.joints if joint.tab.blank == copy
    } | folded_flat(pattern, copy)
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
                "lift": lifts.get(panel.name, 0),
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


FLAT: Final = 175.0
"""A panel turned by so many degrees lies on the one it hangs on."""


def folded_flat(pattern: Pattern, copy: str) -> dict[str, int]:
    """The panels that are folded flat, and in which layer each then lies: the first ones lowest, to their print side if that is outside."""
    found: dict[str, int] = {}
    layer = 0
    for stage in range(len(pattern.stages)):
        angles = state_after(pattern, stage).angles.items()
        flat = {ref.panel: angle for ref, angle in angles if ref.blank == copy and abs(angle) > FLAT}
        if flat.keys() - found.keys():
            layer += 1
            found = {panel: layer if angle < 0 else -layer for panel, angle in flat.items()} | found
    return found


def state_data(pattern: Pattern, stage: int) -> dict[str, Any]:
    """The fold of every hinge, the place of every root, and the room all of it takes, after a step."""
    angles = state_after(pattern, stage).angles
    folded = fold_after(pattern, stage)
    low, high = folded.bounds()
    return {
        "angles": {f"{ref.blank}/{ref.panel}": angle for ref, angle in angles.items()},
        "roots": {copy: root_pose(folded, PanelRef(copy, blank.root.name)) for copy, blank in pattern.copies()},
        "hidden": [],
        "bodies": [],
        "low": [float(each) for each in low],
        "high": [float(each) for each in high],
    }


def root_pose(folded: Folded, ref: PanelRef) -> list[float]:
    """A pose as 16 numbers, column by column."""
    return as_numbers(folded.poses[ref])


def as_numbers(pose: Matrix) -> list[float]:
    """A 4×4 motion as 16 numbers, column by column."""
    return [float(each) for each in pose.T.reshape(-1)]


def whole_data(built: BuiltKit, inside: Filling = NOTHING) -> dict[str, Any] | None:
    """The kit's box with everything that belongs to it: closed, with the lid lifted, emptied, and one of each side by side.

    `inside` is what was found to lie in the box; what is held is shown by itself only on the table. None without a box.
    """
    main = box_of(built)
    if main is None:
        return None
    closed = {main.name, *(each.name for each in lids_of(built.kit, main.name))}
    lids = [each for each in built.parts if {each.part.covers, each.part.wraps} & closed]
    held = [each for each in built.parts if each.name in main.part.holds]
    table = side_by_side([main, *lids], held)
    kept = table[len(table) - len(held) :]
    box = opened(main, [], lift=0.0)[0]
    out = pulled_out(box, inside) if inside.blocks else 0.0
    scenes = [
        ("Closed.", 0.0, 0.0),
        ("Opened: what goes over and round it is lifted off.", 1.0, 0.0),
        *([("What goes in is held over the box.", 1.0, out)] if inside.blocks else []),
    ]
    states = [
        scene_state(opened(main, lids, lift=lift, over=over), Bodies(inside, box, over), hidden=kept)
        for _, lift, over in scenes
    ]
    shown = [main, *lids, *held]
    return {
        "name": built.kit.name,
        "copies": [
            copy_data(part, copy, before=f"{part.name}: ") for part in shown for copy, _ in part.pattern.copies()
        ],
        "bodies": bodies_data(inside),
        "states": [*states, scene_state(table)],
        "words": [*(words for words, _, _ in scenes), "One of each, side by side."],
        "start": len(scenes) - 1,
        "counts": False,
    }


def box_of(built: BuiltKit) -> BuiltPart | None:
    """The box of a kit, the first part that holds things and is not flat."""
    return next((each for each in built.parts if each.part.holds and not each.is_flat), None)


@dataclass(frozen=True, eq=False)
class Shown:
    """A finished part where it is shown, at the angles at which it is best seen."""

    part: BuiltPart
    folded: Folded


@dataclass(frozen=True, eq=False)
class Bodies:
    """What lies in a part that is shown, lifted by so much out of its place."""

    inside: Filling
    holder: Shown
    lift: float

    def corners(self) -> Matrix:
        """The low corner of every block in the scene, rows (n, 3)."""
        copy, blank = next(iter(self.holder.part.pattern.copies()))
        root = PanelRef(copy, blank.root.name)
        by = self.holder.folded.poses[root][:3, 3] - self.holder.part.folded.poses[root][:3, 3]
        found: Matrix = np.array([block.corner for block in self.inside.blocks]) + by + (0.0, 0.0, self.lift)
        return found


def opened(main: BuiltPart, lids: list[BuiltPart], *, lift: float, over: float = 0.0) -> tuple[Shown, ...]:
    """The box; what goes over and round it is in place (lift 0) or lifted off, one above the other (lift 1), and so much higher `over`
    which contents are held."""
    box = fold_pictured(main.pattern).standing()
    _, size = box.bounds()
    found = [Shown(main, box)]
    raised = float(size[2]) * 0.25 + 30.0 + over
    for part in lids:
        cover = as_used(part, fold_pictured(part.pattern), turn=part.part.turn)
        _, its = cover.bounds()
        on = put_on(cover, size, top=float(size[2]) + part.paper.thickness if part.part.covers else None)
        off = size[2] + raised - on.bounds()[0][2]
        found.append(Shown(part, on.moved(shift(0.0, 0.0, float(off) * lift))))
        raised += float(its[2]) + 15.0
    return tuple(found)


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


def scene_state(
    scene: tuple[Shown, ...], bodies: Bodies | None = None, *, hidden: tuple[Shown, ...] = (), before: bool = True
) -> dict[str, Any]:
    """A scene as the page folds it: the fold of every hinge, the place of every root and of every body, and what is not seen.

    `before`: copies are called after their part.
    """
    angles: dict[str, float] = {}
    roots: dict[str, list[float]] = {}
    unseen: list[str] = []
    for shown in (*scene, *hidden):
        pictured = dict(shown.part.pattern.pictured)
        for copy, blank in shown.part.pattern.copies():
            name = f"{shown.part.name}: {copy}" if before else copy
            roots[name] = root_pose(shown.folded, PanelRef(copy, blank.root.name))
            angles |= {f"{name}/{score.child}": pictured.get(score.child, score.angle) for score in blank.scores}
            unseen += [name] if shown in hidden else []
    bounds = [shown.folded.bounds() for shown in scene]
    places: list[list[float]] = []
    if bodies is not None and bodies.inside.blocks:
        corners = bodies.corners()
        sizes = np.array([block.size for block in bodies.inside.blocks])
        bounds.append((corners.min(axis=0), (corners + sizes).max(axis=0)))
        places = [as_numbers(shift(*(float(each) for each in corner))) for corner in corners]
    return {
        "angles": angles,
        "roots": roots,
        "hidden": unseen,
        "bodies": places,
        "low": [float(each) for each in np.min([low for low, _ in bounds], axis=0)],
        "high": [float(each) for each in np.max([high for _, high in bounds], axis=0)],
    }
