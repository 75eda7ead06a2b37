"""When and from which side two panels came to lie on each other, read off the stages, the folds and the joints of a pattern."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from kitwright.folding.planes import overlap
from kitwright.folding.poses import Folded
from kitwright.folding.rigid import Matrix
from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern import Joint, PanelRef, Score, Side

__all__ = ["Event", "History", "Moment"]

Moment = tuple[int, int, int]
"""A stage (from 0), then 0 for a joint and 1 for a mere fold, then the order of drawing."""


@dataclass(frozen=True, slots=True)
class Event:
    """Something came to lie on something: `upper` on `lower`, as counted along a direction agreed before."""

    when: Moment
    upper: PanelRef
    lower: PanelRef
    joint: Joint | None = None


class History:
    """The order of making of one folded part."""

    def __init__(self, folded: Folded) -> None:
        pattern = folded.pattern
        self.folded = folded
        last = len(pattern.stages)
        self.fold_stage = {name: n for n, stage in reversed(list(enumerate(pattern.stages))) for name in stage.folds}
        self.glue_stage = {name: n for n, stage in reversed(list(enumerate(pattern.stages))) for name in stage.glues}
        self.last = last
        self.scores: dict[PanelRef, tuple[int, PanelRef, Score]] = {
            PanelRef(copy, score.child): (n, PanelRef(copy, score.parent), score)
            for copy, blank in pattern.copies()
            for n, score in enumerate(blank.scores)
        }
        self.joints = {frozenset((joint.tab, joint.target)): joint for joint in reversed(pattern.joints)}

    def event(self, one: PanelRef, other: PanelRef, up: Matrix) -> Event | None:
        """How two panels that lie on each other came to do so, `up` being the direction to count along; nothing if that is unknown."""
        joint = self.joints.get(frozenset((one, other)))
        folds = self.folds_between(one, other)
        if joint is not None:
            return self.glued(joint, folds, up)
        if not folds:
            return None
        child = max(folds, key=self.moment)
        mover, rest = (one, other) if child in self.ancestry(one) else (other, one)
        rise = self.last_rise(child, mover, rest, up)
        if abs(rise) <= NUMERIC_TOLERANCE:
            return None
        # what rose at the end of its fold came from below, and stays there
        return Event(self.moment(child), *((rest, mover) if rise > 0 else (mover, rest)))

    def glued(self, joint: Joint, folds: list[PanelRef], up: Matrix) -> Event:
        """The event of a joint: at the last fold between its two panels, or when different pieces are glued."""
        stage = max(map(self.moment, folds))[0] if folds else self.glue_stage.get(joint.tab.panel, self.last)
        number = self.folded.pattern.joints.index(joint)
        target_up = float(self.folded.normal(joint.target) @ up) > 0
        tab_is_upper = (joint.side is Side.OVER) is target_up
        pair = (joint.tab, joint.target) if tab_is_upper else (joint.target, joint.tab)
        return Event((stage, 0, number), *pair, joint)

    def moment(self, child: PanelRef) -> Moment:
        """When the score on which a panel hangs is folded."""
        return (self.fold_stage.get(child.panel, self.last), 1, self.scores[child][0])

    def ancestry(self, ref: PanelRef) -> list[PanelRef]:
        """The panel and those it hangs on, up to (not with) the root."""
        found = []
        while ref in self.scores:
            found.append(ref)
            ref = self.scores[ref][1]
        return found

    def folds_between(self, one: PanelRef, other: PanelRef) -> list[PanelRef]:
        """The panels whose folded scores lie on the way from one panel to another of the same piece."""
        if one.blank != other.blank:
            return []
        way = set(self.ancestry(one)) ^ set(self.ancestry(other))
        return [child for child in way if self.is_folded(child)]

    def is_folded(self, child: PanelRef) -> bool:
        """Whether the score of a panel is folded at all in this state."""
        mine, parent = self.folded.poses[child], self.folded.poses[self.scores[child][1]]
        return float(np.abs(mine[:3, :3] - parent[:3, :3]).max()) > NUMERIC_TOLERANCE

    def last_rise(self, child: PanelRef, mover: PanelRef, rest: PanelRef, up: Matrix) -> float:
        """How fast (mm per radian) `mover` moves along `up` at the end of the fold of `child`, where it comes to lie on `rest`."""
        _, _, score = self.scores[child]
        start, end = self.folded.to_world(child, (score.start, score.end))
        axis = (end - start) / np.linalg.norm(end - start)
        turn = axis if score.angle < 0 else -axis  # a fold by an angle turns by minus that angle about its score
        shared, onto = overlap(self.folded, mover, rest), rest
        if shared is None:
            shared, onto = overlap(self.folded, rest, mover), mover
        if shared is None:
            return 0.0
        middle = shared.centroid
        at = self.folded.to_world(onto, [(middle.x, middle.y)])[0]
        return float(np.cross(turn, at - start) @ up)
