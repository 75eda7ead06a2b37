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

from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern.blank import Blank, Score
from kitwright.pattern.geometry import Point, Ring, along, arc_points, bounds, distance, left_normal, same_point, unit
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
        zero a valley. Raises `ValueError` if nothing of the side or of the new panel's far edge would be left.
        """
        start, end = self.straight_side(side)
        length = distance(start, end)
        if depth <= 0 or sum(inset) >= length or sum(inset) + sum(taper) > length + NUMERIC_TOLERANCE:
            raise ValueError(f"{name!r} cannot be folded out of {side!r} of {self.name!r}: nothing of it would be left")
        ahead = unit(start, end)
        begin, stop = along(start, ahead, inset[0]), along(start, ahead, length - inset[1])
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
        """Cut both corners of a side off at 45 degrees, `by` mm along each edge."""
        index = self.sides.index(side)
        count = len(self.points)
        corner, following = self.points[index], self.points[(index + 1) % count]
        before, after = self.points[index - 1], self.points[(index + 2) % count]
        new = [
            along(corner, unit(corner, before), by),
            along(corner, unit(corner, following), by),
            along(following, unit(following, corner), by),
            along(following, unit(following, after), by),
        ]
        self.replace(index, new, [side, side, side])

    def round_off(self, side: str, radius: float) -> None:
        """Round both square corners of a side."""
        index = self.sides.index(side)
        corner, following = self.points[index], self.points[(index + 1) % len(self.points)]
        ahead = unit(corner, following)
        heading = math.degrees(math.atan2(ahead[1], ahead[0]))
        length = distance(corner, following)
        first = arc_points(along(corner, ahead, radius, radius), radius, heading + 180, heading + 270, ARC_STEPS // 2)
        second = arc_points(
            along(corner, ahead, length - radius, radius), radius, heading + 270, heading + 360, ARC_STEPS // 2
        )
        self.replace(index, [*first, *second], [side] * (len(first) + len(second) - 1))

    def thumb_notch(self, side: str, radius: float) -> None:
        """A half-round notch in the middle of a straight side."""
        start, end = self.straight_side(side)
        index = self.sides.index(side)
        ahead, middle = unit(start, end), ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        heading = math.degrees(math.atan2(ahead[1], ahead[0]))
        arc = arc_points(middle, radius, heading + 180, heading, ARC_STEPS)
        self.replace(index, [start, *arc, end], [side] * (len(arc) + 1))

    def round_hole(self, side: str, *, diameter: float, inwards: float) -> None:
        """A round hole, its centre `inwards` mm from the middle of a side."""
        start, end = self.straight_side(side)
        ahead, middle = unit(start, end), ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        normal = left_normal(ahead)
        centre = (middle[0] + normal[0] * inwards, middle[1] + normal[1] * inwards)
        self.holes.append(arc_points(centre, diameter / 2, 0, 360, 2 * ARC_STEPS)[:-1])

    def straight_side(self, side: str) -> tuple[Point, Point]:
        """Start and end of the longest straight piece of a side. Raises `KeyError` for an unknown side."""
        count = len(self.points)
        pieces = [(self.points[i], self.points[(i + 1) % count]) for i in range(count) if self.sides[i] == side]
        if not pieces:
            raise KeyError(f"panel {self.name!r} has no side {side!r}")
        return max(pieces, key=lambda piece: distance(*piece))

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

    def replace(self, index: int, chain: list[Point], sides: list[str]) -> None:
        """Put a chain of points in place of the two corners of edge `index`."""
        count = len(self.points)
        following = (index + 1) % count
        if following == 0:
            self.points[index:] = chain
            del self.points[0]
            self.sides[index:] = [*sides, self.sides[0]]
            del self.sides[0]
            # the chain's last point takes the place of the first corner: keep the list turning from there
            self.points.insert(0, self.points.pop())
            self.sides.insert(0, self.sides.pop())
            return
        after = self.sides[following]
        self.points[index : following + 1] = chain
        self.sides[index : following + 1] = [*sides, after]


class Draft:
    """A blank while it is being drawn."""

    def __init__(self, name: str, *, copies: int = 1) -> None:
        self.name = name
        self.copies = copies
        self.sketched: list[Sketched] = []
        self.scores: list[Score] = []

    def panel(self, name: str, width: float, height: float) -> Sketched:
        """The first panel: a rectangle. Everything else is folded out of it. Raises `ValueError` if there is one already."""
        if self.sketched:
            raise ValueError(f"blank {self.name!r} has a first panel already: fold {name!r} out of a side")
        points = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
        return self.add(Sketched(self, name, points, list(COMPASS), PanelKind.FACE))

    def shape(self, name: str, outline: Ring, sides: tuple[str, ...]) -> Sketched:
        """The first panel in any other outline, counter-clockwise, each edge with its side's name."""
        if self.sketched:
            raise ValueError(f"blank {self.name!r} has a first panel already: fold {name!r} out of a side")
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
