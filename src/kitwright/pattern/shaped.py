"""Panels with slanted or shortened ends, in the numbers that a maker with ruler and scissors needs. Millimetres."""

from __future__ import annotations

from dataclasses import dataclass

from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern.blank import Blank, Score
from kitwright.pattern.geometry import Point, unit
from kitwright.pattern.panel import Panel

__all__ = ["ShapedPanel", "shaped_panels"]


@dataclass(frozen=True, slots=True)
class ShapedPanel:
    """A panel with four corners that is no rectangle, or that does not take the whole side it hangs on.

    It is `depth` deep from its score and `at_score` long there; its far corners are taken back by `right` and `left`, as seen from
    the score. `foot` is the stretch of the score from the left or the lower edge of the blank, `upright` says that it runs upwards;
    `whole` says that the panel takes the whole side.
    """

    name: str
    depth: float
    at_score: float
    right: float
    left: float
    foot: tuple[float, float]
    upright: bool
    whole: bool


def shaped_panels(blank: Blank) -> tuple[ShapedPanel, ...]:
    """The panels of a blank whose ends must be cut to shape, in their order; scores that run aslant are left to the template."""
    found = (shaped_panel(blank, panel) for panel in blank.panels[1:])
    return tuple(each for each in found if each is not None)


def shaped_panel(blank: Blank, panel: Panel) -> ShapedPanel | None:
    """The numbers of one panel; `None` if it is a rectangle along a whole side, or has another outline."""
    score = blank.score_of(panel.name)
    upright = abs(score.start[0] - score.end[0]) <= NUMERIC_TOLERANCE
    level = abs(score.start[1] - score.end[1]) <= NUMERIC_TOLERANCE
    if not (upright or level) or panel.edge_names.count("far") != 1 or len(panel.outline) != 4:
        return None
    far = [from_score(score, point) for point in panel.ends("far")]
    (first, one_depth), (last, other_depth) = far
    if abs(one_depth - other_depth) > NUMERIC_TOLERANCE:
        return None
    low, high = sorted((score.start[1], score.end[1]) if upright else (score.start[0], score.end[0]))
    right, left = first, score.length - last
    whole = takes_whole_side(blank.panel(score.parent), score)
    if whole and max(abs(right), abs(left)) <= NUMERIC_TOLERANCE:
        return None
    return ShapedPanel(panel.name, one_depth, score.length, right, left, (low, high), upright, whole)


def from_score(score: Score, point: Point) -> tuple[float, float]:
    """How far a point lies along a score from its start, and how far beyond it, away from the parent."""
    ahead = unit(score.start, score.end)
    there = (point[0] - score.start[0], point[1] - score.start[1])
    return there[0] * ahead[0] + there[1] * ahead[1], there[0] * ahead[1] - there[1] * ahead[0]


def takes_whole_side(parent: Panel, score: Score) -> bool:
    """Whether a score runs along the whole straight side of the parent."""
    along = [from_score(score, point) for point in parent.outline]
    reach = [place for place, beyond in along if abs(beyond) <= NUMERIC_TOLERANCE]
    return min(reach) >= -NUMERIC_TOLERANCE and max(reach) <= score.length + NUMERIC_TOLERANCE
