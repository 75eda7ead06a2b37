"""Folding a pattern: where every panel of every copy lies in space. World: x right, y away from you, z up; millimetres.

Folded panels have no thickness here. A pose maps a point (x, y, 0) of the blank to the world, so that all panels of one blank, laid
flat, would share one pose.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from kitwright.folding.rigid import (
    IDENTITY,
    Matrix,
    Number,
    cosine_sine,
    edge_frame,
    hinge_turn,
    inverse,
    shift,
    transposed,
)
from kitwright.pattern import Blank, EdgeRef, End, Joint, PanelRef, Pattern, Point, Stance

__all__ = ["LOOSE_GAP", "Folded", "Sweep", "fold", "in_world", "sweep"]

LOOSE_GAP: Final = 20.0
"""Millimetres between pieces of card that are not glued together yet: they are shown side by side on the table."""

STANCES: Final[Mapping[Stance, Matrix]] = {
    Stance.LYING: IDENTITY,
    Stance.FACE_DOWN: np.diag([-1.0, 1.0, -1.0, 1.0]),
    Stance.STANDING: np.array([[1.0, 0, 0, 0], [0, 0, -1.0, 0], [0, 1.0, 0, 0], [0, 0, 0, 1.0]]),
}


@dataclass(frozen=True, eq=False)
class Folded:
    """A pattern in some state of folding: one pose (4×4 rigid motion, blank to world) per panel of every copy."""

    pattern: Pattern
    poses: Mapping[PanelRef, Matrix]

    @property
    def refs(self) -> tuple[PanelRef, ...]:
        """All panels, copy by copy, in the order they were drawn."""
        return tuple(self.poses)

    def to_world(self, ref: PanelRef, points: Iterable[Point]) -> Matrix:
        """Points of a panel's blank (as drawn, mm) in the world, as rows (n, 3)."""
        flat = np.array(list(points), dtype=np.float64).reshape(-1, 2)
        pose = self.poses[ref]
        world: Matrix = flat @ pose[:3, :2].T + pose[:3, 3]
        return world

    def to_panel(self, ref: PanelRef, points: ArrayLike) -> Matrix:
        """World points as seen from a panel, rows (x, y, z): x and y on its blank as drawn, z above its print side."""
        pose = self.poses[ref]
        local: Matrix = (np.asarray(points, dtype=np.float64).reshape(-1, 3) - pose[:3, 3]) @ pose[:3, :3]
        return local

    def points(self, ref: PanelRef) -> Matrix:
        """The outline of a panel in the world, rows (n, 3), counter-clockwise seen from its print side."""
        return self.to_world(ref, self.pattern.panel(ref).outline)

    def holes(self, ref: PanelRef) -> tuple[Matrix, ...]:
        """The holes of a panel in the world, each as rows (n, 3)."""
        return tuple(self.to_world(ref, hole) for hole in self.pattern.panel(ref).holes)

    def normal(self, ref: PanelRef) -> Matrix:
        """The direction in which a panel's print side faces, length 1."""
        return self.poses[ref][:3, 2]

    def print_up(self, ref: PanelRef, *, turns: int = 0) -> Matrix:
        """The direction in which the print's up points on a panel, length 1: the blank's up (+y as cut), turned so many quarters
        anticlockwise seen on the print."""
        cosine, sine = cosine_sine(90.0 * turns)
        up: Matrix = self.poses[ref][:3, :2] @ np.array((-sine, cosine))
        return up

    def edge(self, ref: EdgeRef) -> Matrix:
        """The chain of points of a named edge in the world, rows (n, 3), in the direction of the panel's outline."""
        return self.to_world(ref.panel, self.pattern.panel(ref.panel).edge(ref.edge))

    def span(self, end: End, axis: int) -> tuple[float, float]:
        """The least and the greatest place of a panel or an edge along one of the three axes (0, 1, 2)."""
        points = self.points(end) if isinstance(end, PanelRef) else self.edge(end)
        return float(points[:, axis].min()), float(points[:, axis].max())

    def bounds(self) -> tuple[Matrix, Matrix]:
        """The least and the greatest x, y, z of all panels."""
        every = np.vstack([self.points(ref) for ref in self.poses])
        return every.min(axis=0), every.max(axis=0)

    def moved(self, by: Matrix) -> Folded:
        """The same, moved as a whole by a 4×4 rigid motion, such as `shift(0, 0, 40)`."""
        return Folded(self.pattern, {ref: by @ pose for ref, pose in self.poses.items()})

    def standing(self) -> Folded:
        """The same, moved so that it stands on the table (z = 0) with its left front corner at x = 0, y = 0."""
        low, _ = self.bounds()
        return self.moved(shift(-low[0], -low[1], -low[2]))


@dataclass(frozen=True, eq=False)
class Sweep:
    """A pattern in several states of folding: for each panel of every copy a stack of poses (n, 4, 4), one for each state."""

    pattern: Pattern
    poses: Mapping[PanelRef, Matrix]

    def state(self, number: int) -> Folded:
        """One of the states, counted from 0."""
        return Folded(self.pattern, {ref: poses[number] for ref, poses in self.poses.items()})


def fold(
    pattern: Pattern,
    angles: Mapping[PanelRef, float] | None = None,
    *,
    share: float = 1.0,
    glued: Collection[Joint] | None = None,
) -> Folded:
    """The pattern folded: every score at its finished angle, or at the one that `angles` names for its outer panel.

    `share` multiplies all angles (0 is flat, 1 is finished). The root panel of the first blank lies in the pattern's stance; every
    other copy is put in place by the first joint whose mate reaches a copy that has a place already: the panels then face the same
    way and the middles of the two edges meet. `glued` limits that to some of the joints; pieces that none of those reaches are laid
    side by side. Raises `ValueError` if `glued` is not given and no joint reaches a copy: its pattern was drawn without the mate.
    """
    scaled = {
        PanelRef(copy, score.child): (angles or {}).get(PanelRef(copy, score.child), score.angle) * share
        for copy, blank in pattern.copies()
        for score in blank.scores
    }
    return Folded(pattern, poses_at(pattern, scaled, glued))


def sweep(pattern: Pattern, angles: Mapping[PanelRef, Number], *, glued: Collection[Joint]) -> Sweep:
    """Many states at once, each as `fold` gives it: `angles` holds for every folded panel its angle in all states, or a row of them."""
    poses = poses_at(pattern, angles, glued)
    count = np.broadcast_shapes(*(pose.shape for pose in poses.values()))
    return Sweep(pattern, {ref: np.broadcast_to(pose, count) for ref, pose in poses.items()})


def poses_at(
    pattern: Pattern, angles: Mapping[PanelRef, Number], glued: Collection[Joint] | None
) -> dict[PanelRef, Matrix]:
    """The pose of every panel with every score at such an angle, copies put in place as `fold` says."""
    loose = {name: copy_poses(blank, name, angles) for name, blank in pattern.copies()}
    order = list(loose)
    placed: dict[str, Matrix] = {order[0]: STANCES[pattern.stance]} if order else {}
    joints = [joint for joint in pattern.joints if joint.mate and (glued is None or joint in glued)]
    while len(placed) < len(order):
        joint = next((joint for joint in joints if (joint.tab.blank in placed) != (joint.target.blank in placed)), None)
        if joint is not None:
            copy, root = place_by(pattern, joint, loose, placed)
        elif glued is not None:
            copy = next(name for name in order if name not in placed)
            root = beside(pattern, copy, loose, placed)
        else:
            missing = [name for name in order if name not in placed]
            raise ValueError(f"no joint with a mate puts {', '.join(missing)} in place")
        placed[copy] = root
    return {PanelRef(name, panel): placed[name] @ pose for name in order for panel, pose in loose[name].items()}


def copy_poses(blank: Blank, copy: str, angles: Mapping[PanelRef, Number]) -> dict[str, Matrix]:
    """The pose of every panel of one copy while its root stays as drawn; panels in drawing order."""
    poses: dict[str, Matrix] = {blank.root.name: IDENTITY}
    waiting = list(blank.scores)
    while waiting:
        later = []
        for score in waiting:
            if score.parent in poses:
                turn = hinge_turn(score.start, score.end, angles[PanelRef(copy, score.child)])
                poses[score.child] = poses[score.parent] @ turn
            else:
                later.append(score)
        if len(later) == len(waiting):
            raise ValueError(f"panel {later[0].child!r} of blank {blank.name!r} hangs on nothing")
        waiting = later
    return {panel.name: poses[panel.name] for panel in blank.panels}


def place_by(
    pattern: Pattern, joint: Joint, loose: Mapping[str, Mapping[str, Matrix]], placed: Mapping[str, Matrix]
) -> tuple[str, Matrix]:
    """The copy that a joint puts in place, and the pose of its root."""
    if joint.mate is None:
        raise ValueError("a joint without a mate puts nothing in place")
    tab_start, tab_end = pattern.panel(joint.tab).ends(joint.mate.tab_edge)
    start, end = pattern.panel(joint.target).ends(joint.mate.target_edge)
    on_tab = edge_frame(tab_start, tab_end)
    on_target = edge_frame(start, end) if joint.mate.along else edge_frame(end, start)
    fixed, fixed_frame, moving, moving_frame = (
        (joint.target, on_target, joint.tab, on_tab)
        if joint.target.blank in placed
        else (joint.tab, on_tab, joint.target, on_target)
    )
    there = placed[fixed.blank] @ loose[fixed.blank][fixed.panel] @ fixed_frame
    return moving.blank, there @ inverse(loose[moving.blank][moving.panel] @ moving_frame)


def beside(
    pattern: Pattern, copy: str, loose: Mapping[str, Mapping[str, Matrix]], placed: Mapping[str, Matrix]
) -> Matrix:
    """The root pose of a piece that is not joined yet: in the pattern's stance, to the right of what is there already."""

    def cloud(name: str, root: Matrix) -> Matrix:
        blank = pattern.blank_of(name)
        rows = [(root @ pose, blank.panel(panel).outline) for panel, pose in loose[name].items()]
        return joined([in_world(pose, outline) for pose, outline in rows])

    there = joined([cloud(name, root) for name, root in placed.items()])
    root = STANCES[pattern.stance]
    here = cloud(copy, root)
    by = there.min(axis=-2) - here.min(axis=-2)
    right = there[..., 0].max(axis=-1) + LOOSE_GAP - here[..., 0].min(axis=-1)
    return shift(right, by[..., 1], by[..., 2]) @ root


def in_world(pose: Matrix, points: ArrayLike) -> Matrix:
    """Points of a blank (rows of x, y) in the world, as rows (n, 3); for a stack of poses a stack of them."""
    world: Matrix = np.asarray(points, dtype=np.float64) @ transposed(pose[..., :3, :2]) + pose[..., None, :3, 3]
    return world


def joined(rows: Sequence[Matrix]) -> Matrix:
    """Rows of points, or stacks of them, as one."""
    stack = np.broadcast_shapes(*(each.shape[:-2] for each in rows))
    return np.concatenate([np.broadcast_to(each, (*stack, *each.shape[-2:])) for each in rows], axis=-2)
