"""What an error of one cut, score, fold or glued edge does to a folded part: which panels it moves, and which way.

To first order, and for parts whose folds are true right angles and flat panels: a score that lies d off its mark moves everything
that hangs on it by d (a − b), where a and b are the directions in which the two panels at the score run away from it in space.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import numpy as np
from numpy.typing import NDArray

from kitwright.folding import Folded, MeasuredExtent, Papers, paper_of
from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.paper import caliper_tolerance, layers_thickness
from kitwright.pattern import Blank, EdgeRef, End, FoldWay, Joint, PanelRef, Point, Score
from kitwright.proof.tolerance.accuracy import Accuracy
from kitwright.proof.tolerance.stack import Stack
from kitwright.proof.tolerance.variation import Variation

__all__ = ["Lines", "pack_thickness"]

Vector = NDArray[np.float64]
Shifts = dict[Variation, Vector]
FLAT_FOLD: Final = 1.0
"""A score folded by less (degrees) is not folded: there is no fold that could wander off it."""


def pack_thickness(key: str, reach: float) -> Variation:
    """The thickness of all sheets of one pack, as one variation; `key` is the paper's word."""
    return Variation(f"thickness of {key}", reach)


class Lines:
    """All errors of one folded part, named after `name`, and the sizes that they move."""

    def __init__(self, name: str, folded: Folded, papers: Papers, accuracy: Accuracy) -> None:
        self.name = name
        self.folded = folded
        self.papers = papers
        self.accuracy = accuracy
        self.shifts = self.all_shifts()

    def stack(self, measured: MeasuredExtent) -> Stack:
        """A measured size with everything that moves it: cuts, scores, folds, glued edges, and the thickness of the pack."""
        axis = measured.extent.axis.place
        ends = (measured.extent.low, measured.extent.high)
        low, high = sorted(ends, key=lambda end: sum(self.folded.span(end, axis)))
        moves: dict[Variation, float] = {}
        for end, sign in ((high, 1.0), (low, -1.0)):
            for variation, vector in self.end_shifts(end).items():
                moves[variation] = moves.get(variation, 0.0) + sign * float(vector[axis])
        for term in measured.terms:
            paper = paper_of(self.papers, self.folded, term.panel.blank)
            variation = pack_thickness(paper.key, caliper_tolerance(paper))
            moves[variation] = moves.get(variation, 0.0) + term.amount / layers_thickness(1, paper)
        return Stack(measured.net, {each: by for each, by in moves.items() if abs(by) > NUMERIC_TOLERANCE})

    def end_shifts(self, end: End) -> Shifts:
        """What moves an end of a size: the panel, and for an edge its own line too."""
        if isinstance(end, PanelRef):
            return self.shifts[end]
        return added(self.shifts[end.panel], self.edge_shifts(end))

    def all_shifts(self) -> dict[PanelRef, Shifts]:
        """What moves every panel of every copy in space."""
        pattern = self.folded.pattern
        local = {name: self.copy_shifts(name, blank) for name, blank in pattern.copies()}
        placed: dict[str, Shifts] = {next(iter(local)): {}}
        waiting = [name for name in local if name not in placed]
        while waiting:
            joint = next(
                each
                for each in pattern.joints
                if each.mate and (each.tab.blank in placed) != (each.target.blank in placed)
            )
            copy, shifts = self.placed_by(joint, local, placed)
            placed[copy] = shifts
            waiting.remove(copy)
        return {
            PanelRef(name, panel): added(placed[name], shifts)
            for name, panels in local.items()
            for panel, shifts in panels.items()
        }

    def copy_shifts(self, copy: str, blank: Blank) -> dict[str, Shifts]:
        """What moves the panels of one copy while its root stays."""
        found: dict[str, Shifts] = {blank.root.name: {}}
        waiting = list(blank.scores)
        while waiting:
            for score in [each for each in waiting if each.parent in found]:
                across = normal(score.start, score.end)
                apart = self.direction(PanelRef(copy, score.parent), across) - self.direction(
                    PanelRef(copy, score.child), across
                )
                here = {each: by * apart for each, by in self.fold_line(copy, score).items()}
                found[score.child] = added(found[score.parent], here)
                waiting.remove(score)
        return found

    def placed_by(
        self, joint: Joint, local: Mapping[str, Mapping[str, Shifts]], placed: Mapping[str, Shifts]
    ) -> tuple[str, Shifts]:
        """The copy that a joint puts in place, and what moves it: both edges that are laid on each other, and the hand."""
        if joint.mate is None:
            raise ValueError("a joint without a mate puts nothing in place")
        tab, target = EdgeRef(joint.tab, joint.mate.tab_edge), EdgeRef(joint.target, joint.mate.target_edge)
        fixed, moving = (target, tab) if joint.target.blank in placed else (tab, target)
        there = added(
            added(placed[fixed.panel.blank], local[fixed.panel.blank][fixed.panel.panel]), self.edge_shifts(fixed)
        )
        back = added(local[moving.panel.blank][moving.panel.panel], self.edge_shifts(moving))
        here = {each: -vector for each, vector in back.items()}
        start, end = self.folded.pattern.panel(fixed.panel).ends(fixed.edge)
        across = normal(start, end)
        glued: Shifts = {}
        for word, way in (("across", across), ("along", (-across[1], across[0]))):
            variation = Variation(f"{self.name}: gluing {joint.tab} {word}", self.accuracy.glue, self.accuracy.shape)
            glued[variation] = self.direction(fixed.panel, way)
        return moving.panel.blank, added(added(there, here), glued)

    def edge_shifts(self, ref: EdgeRef) -> Shifts:
        """What moves an edge of a panel while the panel itself stays."""
        blank = self.folded.pattern.blank_of(ref.panel.blank)
        start, end = blank.panel(ref.panel.panel).ends(ref.edge)
        across = normal(start, end)
        score = next((each for each in blank.scores if lies_on(each, ref.panel.panel, start, end)), None)
        if score is None:
            line = self.cut_line(ref.panel.blank, blank, start, end)
        else:
            line, across = self.fold_line(ref.panel.blank, score), normal(score.start, score.end)
        direction = self.direction(ref.panel, across)
        return {each: by * direction for each, by in line.items()}

    def direction(self, ref: PanelRef, way: Point) -> Vector:
        """A direction on the blank as it lies in space on a panel."""
        pose = self.folded.poses[ref]
        found: Vector = pose[:3, 0] * way[0] + pose[:3, 1] * way[1]
        return found

    def fold_line(self, copy: str, score: Score) -> dict[Variation, float]:
        """How far a fold lies from where it is drawn: its setting on the board, the edge it is measured from, and the fold itself.

        Mountain folds are scored with the print up, measured from the left or lower edge; valleys from the back, measured from the
        right or upper edge, which is itself a cut. Scores in one line are one setting.
        """
        place = line_place(score.start, score.end)
        where = f"{self.name}: {copy}"
        moves: dict[Variation, float] = {}
        if place is None:
            moves[self.variation(f"{where}, score of {score.child}", self.accuracy.score)] = 1.0
        else:
            axis, at = place
            moves[self.variation(f"{where}, score {'xy'[axis]} {at:.3f}", self.accuracy.score)] = 1.0
            if score.way is FoldWay.VALLEY:
                moves |= self.far_edge(copy, axis)
        if abs(score.angle) > FLAT_FOLD:
            moves[self.variation(f"{where}, fold of {score.child}", self.accuracy.fold)] = 1.0
        return moves

    def cut_line(self, copy: str, blank: Blank, start: Point, end: Point) -> dict[Variation, float]:
        """How far a cut edge lies from where it is drawn. The left and the lower edge lie on the guide: all else is measured from them."""
        place = line_place(start, end)
        where = f"{self.name}: {copy}"
        if place is None:
            return {self.variation(f"{where}, cut {start[0]:.3f} {start[1]:.3f}", self.accuracy.cut): 1.0}
        axis, at = place
        if at <= NUMERIC_TOLERANCE:
            return {}
        if at >= blank.size[axis] - NUMERIC_TOLERANCE:
            return self.far_edge(copy, axis)
        return {self.variation(f"{where}, cut {'xy'[axis]} {at:.3f}", self.accuracy.cut): 1.0}

    def far_edge(self, copy: str, axis: int) -> dict[Variation, float]:
        """The right or the upper edge of a blank: cut to width against the guide."""
        return {self.variation(f"{self.name}: {copy}, cut {('width', 'height')[axis]}", self.accuracy.cut): 1.0}

    def variation(self, what: str, reach: float) -> Variation:
        """An error with the maker's shape of errors."""
        return Variation(what, reach, self.accuracy.shape)


def added(one: Shifts, other: Shifts) -> Shifts:
    """Two sets of movements together."""
    found = dict(one)
    for variation, vector in other.items():
        found[variation] = found[variation] + vector if variation in found else vector
    return found


def line_place(start: Point, end: Point) -> tuple[int, float] | None:
    """Whether a line stands upright (0) or lies level (1) on its blank, and where; None for one that runs aslant."""
    for axis in (0, 1):
        if abs(start[axis] - end[axis]) <= NUMERIC_TOLERANCE:
            return axis, start[axis]
    return None


def normal(start: Point, end: Point) -> Point:
    """The direction across a line in which its place is counted: to the right, or upwards, where it runs along the blank."""
    place = line_place(start, end)
    if place is not None:
        return (1.0, 0.0) if place[0] == 0 else (0.0, 1.0)
    across = np.array([end[1] - start[1], start[0] - end[0]])
    across = across / np.linalg.norm(across)
    return float(across[0]), float(across[1])


def lies_on(score: Score, panel: str, start: Point, end: Point) -> bool:
    """Whether a score at a panel lies in the line from start to end of one of its edges: it may take up only a piece of it."""
    if panel not in (score.parent, score.child):
        return False
    along = np.subtract(end, start)
    length = float(np.linalg.norm(along))
    for point in (score.start, score.end):
        x, y = np.subtract(point, start)
        across = abs(along[0] * y - along[1] * x) / length
        share = (along[0] * x + along[1] * y) / length
        if across > NUMERIC_TOLERANCE or not -NUMERIC_TOLERANCE <= share <= length + NUMERIC_TOLERANCE:
            return False
    return True
