"""Drawing a blank by attachment: fold this panel out of that side. Names, scores and angles come with the drawing.

Sides of the first panel bear compass names. Sides of a panel that was folded out are named as seen by somebody who stands on its
score and looks at it:

             far
          ┌───────┐
     left │       │ right        first panel:  north
          └─hinge─┘                       west       east
       ═══ parent ═══                          south
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Final

from shapely import Polygon

from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern.blank import Blank, Score
from kitwright.pattern.geometry import Point, Ring, along, arc_points, bounds, distance, same_point, signed_area, unit
from kitwright.pattern.joint import EdgeRef, PanelRef
from kitwright.pattern.panel import Panel, PanelKind

__all__ = ["COMPASS", "Draft", "Sketched"]

COMPASS: Final = ("south", "east", "north", "west")
"""Sides of a first panel, in the order of its outline."""

FOLDED: Final = ("hinge", "right", "far", "left")
"""Sides of a panel folded out, in the order of its outline."""

ARC_STEPS: Final = 32
"""Straight pieces of a drawn arc: its chord error is under a hundredth of a millimetre for radii to 30 mm."""


@dataclass(slots=True)
class Sketched:
    """A panel while it is being drawn. Its verbs add to the draft and give the new panel."""

    draft: Draft
    name: str
    points: list[Point]
    sides: list[str]
    kind: PanelKind
    holes: list[Ring] = field(default_factory=list)

    @property
    def ref(self) -> PanelRef:
        """This panel, for joints and claims."""
        return PanelRef(self.draft.name, self.name)

    def on(self, copy: int) -> PanelRef:
        """This panel on a further copy of the blank (2, 3 …)."""
        return PanelRef(self.draft.name if copy == 1 else f"{self.draft.name} {copy}", self.name)

    def edge(self, side: str, *, copy: int = 1) -> EdgeRef:
        """A side of this panel, for claims."""
        return EdgeRef(self.on(copy), side)

    def fold_out(
        self,
        side: str,
        name: str,
        depth: float,
        *,
        angle: float = -90.0,
        inset: tuple[float, float] = (0.0, 0.0),
        taper: tuple[float, float] = (0.0, 0.0),
        kind: PanelKind = PanelKind.FACE,
    ) -> Sketched:
        """A panel `depth` mm deep, folded out of one straight side.

        `inset` leaves that much of the side free at the new panel's right and left end; `taper` moves its far corners
        inwards, right and left. `angle` is the finished fold, in degrees: below zero a mountain (print outside), above
        zero a valley. Raises `ValueError` if nothing of the side or of the new panel's far edge would be left, if another
        panel hangs there already, and for a fold beyond 180 degrees.
        """
        start, end = self.straight_side(side)
        length = distance(start, end)
        if depth <= 0 or min(inset) < 0 or sum(inset) + max(sum(taper), 0) > length + NUMERIC_TOLERANCE:
            raise ValueError(f"{name!r} cannot be folded out of {side!r} of {self.name!r}: nothing of it would be left")
        if abs(angle) > 180:
            raise ValueError(f"{name!r} cannot be folded by {angle:g} degrees: 180 is a fold flat on itself")
        ahead = unit(start, end)
        begin, stop = along(start, ahead, inset[0]), along(start, ahead, length - inset[1])
        if distance(begin, stop) <= NUMERIC_TOLERANCE:
            raise ValueError(f"{name!r} cannot be folded out of {side!r} of {self.name!r}: nothing of it would be left")
        self.check_free(side, begin, stop)
        self.split(side, begin)
        self.split(side, stop)
        right, left = along(begin, ahead, taper[0], -depth), along(stop, ahead, -taper[1], -depth)
        points, sides = [stop, begin, right, left], list(FOLDED)
        if same_point(right, left):
            points, sides = [stop, begin, right], ["hinge", "right", "left"]
        child = Sketched(self.draft, name, points, sides, kind)
        self.draft.take(child, Score(self.name, name, begin, stop, angle))
        return child

    def tab(
        self,
        side: str,
        depth: float,
        *,
        slope: float = 45.0,
        angle: float = -90.0,
        inset: tuple[float, float] = (0.0, 0.0),
        name: str = "",
    ) -> Sketched:
        """A glue tab along a side, its ends cut back at `slope` degrees from square so that it does not catch in the corner."""
        start, end = self.straight_side(side)
        back = min(depth * math.tan(math.radians(slope)), (distance(start, end) - sum(inset)) / 3)
        word = name or f"{self.name} {side} tab"
        return self.fold_out(side, word, depth, angle=angle, inset=inset, taper=(back, back), kind=PanelKind.TAB)

    def hem(self, side: str, depth: float, *, nick: float = 0.0, name: str = "") -> Sketched:
        """An edge folded back on itself, behind this panel; `nick` takes its ends back so that they do not show."""
        word = name or f"{self.name} hem"
        return self.fold_out(side, word, depth, angle=-180.0, taper=(nick, nick), kind=PanelKind.HEM)

    def chamfer(self, side: str, by: float) -> None:
        """Cut both corners of a side off, `by` mm along each edge (at 45 degrees where the corner is square).

        Raises `ValueError` if nothing of the side or its neighbours would be left, or if a panel hangs there.
        """
        for at_end in (True, False):
            count = len(self.points)
            mine = [i for i in range(count) if self.sides[i] == side]
            if not mine:
                raise KeyError(f"panel {self.name!r} has no side {side!r}")
            if at_end:
                index = next((i + 1) % count for i in mine if self.sides[(i + 1) % count] != side)
            else:
                index = next(i for i in mine if self.sides[i - 1] != side)
            before, corner, after = self.points[index - 1], self.points[index], self.points[(index + 1) % count]
            if by <= 0 or by >= min(distance(before, corner), distance(corner, after)) - NUMERIC_TOLERANCE:
                raise ValueError(
                    f"the corners of {side!r} of {self.name!r} cannot be cut by that: nothing would be left"
                )
            chain = [along(corner, unit(corner, other), by) for other in (before, after)]
            self.check_free(side, chain[0], corner)
            self.check_free(side, corner, chain[-1])
            self.points[index : index + 1] = chain
            self.sides[index : index + 1] = [side, self.sides[index]]

    def thumb_notch(self, side: str, radius: float) -> None:
        """A half-round notch in the middle of a straight side. Raises `ValueError` if the side is too short or bears a panel there."""
        start, end = self.straight_side(side)
        ahead, middle = unit(start, end), ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        if radius <= 0 or 2 * radius >= distance(start, end) - NUMERIC_TOLERANCE:
            raise ValueError(f"a notch of radius {radius:g} does not go into {side!r} of {self.name!r}")
        heading = math.degrees(math.atan2(ahead[1], ahead[0]))
        arc = arc_points(middle, radius, heading + 180, heading, ARC_STEPS)
        self.check_free(side, arc[0], arc[-1])
        self.split(side, arc[0])
        self.split(side, arc[-1])
        before = next(i for i, point in enumerate(self.points) if same_point(point, arc[0]))
        self.points[before + 1 : before + 1] = arc[1:-1]
        self.sides[before + 1 : before + 1] = [side] * (len(arc) - 2)

    def round_hole(self, side: str, *, diameter: float, inwards: float) -> None:
        """A round hole, its centre `inwards` mm from the middle of a side. Raises `ValueError` if it is not inside the panel."""
        start, end = self.straight_side(side)
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        centre = along(middle, unit(start, end), 0, inwards)
        hole = arc_points(centre, diameter / 2, 0, 360, 2 * ARC_STEPS)[:-1]
        if diameter <= 0 or not Polygon(self.points).contains_properly(Polygon(hole)):
            raise ValueError(f"a hole of {diameter:g} mm does not go into {self.name!r} there")
        self.holes.append(hole)

    def straight_side(self, side: str) -> tuple[Point, Point]:
        """Start and end of the longest straight run of a side, whatever hangs on it. Raises `KeyError` for an unknown side."""
        count = len(self.points)
        mine = [i for i in range(count) if self.sides[i] == side]
        if not mine:
            raise KeyError(f"panel {self.name!r} has no side {side!r}")
        return max((self.run_from(i) for i in mine), key=lambda run: distance(*run))

    def run_from(self, index: int) -> tuple[Point, Point]:
        """The straight run of one side that begins with edge `index`."""
        count = len(self.points)
        start, end = self.points[index], self.points[(index + 1) % count]
        for step in range(1, count):
            following = (index + step) % count
            further = self.points[(following + 1) % count]
            bends = distance(start, end) + distance(end, further) - distance(start, further) > NUMERIC_TOLERANCE
            if self.sides[following] != self.sides[index] or bends:
                break
            end = further
        return start, end

    def check_free(self, side: str, start: Point, end: Point) -> None:
        """Raise `ValueError` if a panel hangs on the straight stretch from `start` to `end`."""
        for score in self.draft.scores:
            if self.name in {score.parent, score.child} and share_stretch((start, end), (score.start, score.end)):
                raise ValueError(f"{side!r} of {self.name!r} is taken there: {score.child!r} hangs on {score.parent!r}")

    def split(self, side: str, at: Point) -> None:
        """Add a corner on a side, unless there is one already."""
        if any(same_point(point, at) for point in self.points):
            return
        count = len(self.points)
        for i in range(count):
            here, there = self.points[i], self.points[(i + 1) % count]
            on_it = abs(distance(here, at) + distance(at, there) - distance(here, there)) <= NUMERIC_TOLERANCE
            if self.sides[i] == side and on_it:
                self.points.insert(i + 1, at)
                self.sides.insert(i + 1, side)
                return
        raise ValueError(f"{at} does not lie on {side!r} of {self.name!r}")


def share_stretch(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two straight stretches lie on one line and have more than a point in common."""
    ahead = unit(*other)
    spans = []
    for point in one:
        there = (point[0] - other[0][0], point[1] - other[0][1])
        if abs(ahead[0] * there[1] - ahead[1] * there[0]) > NUMERIC_TOLERANCE:
            return False
        spans.append(ahead[0] * there[0] + ahead[1] * there[1])
    return min(max(spans), distance(*other)) - max(min(spans), 0.0) > NUMERIC_TOLERANCE


class Draft:
    """A blank while it is being drawn."""

    def __init__(self, name: str, *, copies: int = 1) -> None:
        self.name = name
        self.copies = copies
        self.sketched: list[Sketched] = []
        self.scores: list[Score] = []

    def panel(self, name: str, width: float, height: float) -> Sketched:
        """The first panel: a rectangle. Everything else is folded out of it.

        Raises `ValueError` if there is one already, or if a size is not above zero.
        """
        if min(width, height) <= 0:
            raise ValueError(f"{name!r} cannot measure {width:g} × {height:g} mm")
        points = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
        return self.shape(name, tuple(points), COMPASS)

    def shape(self, name: str, outline: Ring, sides: tuple[str, ...]) -> Sketched:
        """The first panel in any other outline, counter-clockwise, each edge with its side's name.

        Raises `ValueError` if there is a first panel already, or for an outline that crosses itself or runs the wrong way round.
        """
        if self.sketched:
            raise ValueError(f"blank {self.name!r} has a first panel already: fold {name!r} out of a side")
        if len(outline) != len(sides):
            raise ValueError(f"{name!r} has {len(outline)} edges, but {len(sides)} names for them")
        if len(outline) < 3 or not Polygon(outline).is_valid or signed_area(outline) <= 0:
            raise ValueError(f"the outline of {name!r} must go round once, counter-clockwise, without crossing itself")
        return self.add(Sketched(self, name, list(outline), list(sides), PanelKind.FACE))

    def add(self, panel: Sketched) -> Sketched:
        """Take up a panel; its name must be new. Raises `ValueError`."""
        if any(panel.name == other.name for other in self.sketched):
            raise ValueError(f"blank {self.name!r} has two panels named {panel.name!r}")
        self.sketched.append(panel)
        return panel

    def take(self, child: Sketched, score: Score) -> None:
        """Take up a panel that was folded out, with its score."""
        self.add(child)
        self.scores.append(score)

    def finish(self) -> Blank:
        """The finished blank, its lower left corner at (0, 0)."""
        left, low, _, _ = bounds(point for panel in self.sketched for point in panel.points)

        def move(point: Point) -> Point:
            return (point[0] - left, point[1] - low)

        panels = tuple(
            Panel(
                panel.name,
                tuple(move(point) for point in panel.points),
                tuple(panel.sides),
                panel.kind,
                tuple(tuple(move(point) for point in hole) for hole in panel.holes),
            )
            for panel in self.sketched
        )
        scores = tuple(Score(s.parent, s.child, move(s.start), move(s.end), s.angle) for s in self.scores)
        return Blank(self.name, panels, scores, self.copies)
