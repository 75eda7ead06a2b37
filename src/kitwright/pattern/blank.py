"""A blank: the piece of cardstock that is cut out, scored and folded. Panels, scores, outline; print side up, lengths in mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from shapely import Geometry, LineString, MultiLineString, Polygon, intersection, line_merge, unary_union
from shapely.geometry.base import BaseGeometry

from kitwright.measure import NUMERIC_TOLERANCE, SEAM_OVERLAP
from kitwright.pattern.geometry import Point, Ring, bounds, distance

if TYPE_CHECKING:
    from kitwright.pattern.panel import Panel

__all__ = ["Blank", "FoldWay", "Score", "join_shapes"]


class FoldWay(StrEnum):
    """Which way a score folds, seen from the print side (Yoshizawa–Randlett: valley comes towards you)."""

    VALLEY = "valley"
    MOUNTAIN = "mountain"


@dataclass(frozen=True, slots=True)
class Score:
    """A fold line between two panels; `start` to `end` runs along the parent's outline (parent on the left).

    `angle` is the finished fold in degrees from flat: above zero a valley, below zero a mountain (the sign of the FOLD format 1.2).
    """

    parent: str
    child: str
    start: Point
    end: Point
    angle: float

    @property
    def way(self) -> FoldWay:
        """Valley or mountain, seen from the print side."""
        return FoldWay.VALLEY if self.angle > 0 else FoldWay.MOUNTAIN

    @property
    def length(self) -> float:
        """Length of the score, mm."""
        return distance(self.start, self.end)


@dataclass(frozen=True)
class Blank:
    """Panels that hang together by scores as a tree, the first panel being its root; lower left corner of the whole at (0, 0).

    `copies` is how many equal blanks one part needs (two halves of one box are one blank, cut twice).
    """

    name: str
    panels: tuple[Panel, ...]
    scores: tuple[Score, ...]
    copies: int = 1

    @cached_property
    def by_name(self) -> dict[str, Panel]:
        """The panels by their names."""
        return {panel.name: panel for panel in self.panels}

    def panel(self, name: str) -> Panel:
        """The named panel. Raises `KeyError`."""
        return self.by_name[name]

    @property
    def root(self) -> Panel:
        """The panel that stays put while the others fold."""
        return self.panels[0]

    def score_of(self, child: str) -> Score:
        """The score on which the named panel hangs. Raises `KeyError` for the root and for unknown names."""
        for score in self.scores:
            if score.child == child:
                return score
        raise KeyError(child)

    @cached_property
    def shape(self) -> Polygon:
        """The whole blank as one polygon with its holes (shapely)."""
        joined = join_shapes([panel.shape for panel in self.panels])
        if not isinstance(joined, Polygon):
            raise TypeError(f"the panels of blank {self.name!r} do not hang together")
        return joined

    @property
    def outline(self) -> Ring:
        """The outer cut line as a closed ring, counter-clockwise, first point not repeated."""
        ring = [(float(x), float(y)) for x, y in self.shape.normalize().exterior.coords[:-1]]
        return tuple(ring if self.shape.normalize().exterior.is_ccw else reversed(ring))

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the rectangle that the blank is cut from, mm."""
        left, low, right, high = bounds(point for panel in self.panels for point in panel.outline)
        return right - left, high - low

    @property
    def area(self) -> float:
        """Paper in the blank, mm²."""
        return math.fsum(panel.area for panel in self.panels)

    @property
    def is_rectangle(self) -> bool:
        """Whether the blank is done once its rectangle is cut (no corners to cut away, no holes, no slits)."""
        width, height = self.size
        return abs(self.area - width * height) <= NUMERIC_TOLERANCE * (width + height) and not self.slits

    @cached_property
    def slits(self) -> tuple[tuple[Point, Point], ...]:
        """Cuts inside the blank: where two panels lie side by side without a score between them."""
        found = []
        for i, one in enumerate(self.panels):
            for other in self.panels[i + 1 :]:
                if any({score.parent, score.child} == {one.name, other.name} for score in self.scores):
                    continue
                rings = Polygon(one.outline).exterior, Polygon(other.outline).exterior
                shared = intersection(*rings, grid_size=1e-7)
                found.extend(straight_pieces(shared))
        return tuple(found)


def join_shapes(shapes: Sequence[Polygon]) -> BaseGeometry:
    """The union of panels that meet along their edges, on a grid finer than a nanometre.

    Where corners on a slanting edge do not lie on it to the last bit and leave a gap of a hair, the panels are grown by a nanometre
    and the whole is taken back by as much.
    """
    joined = unary_union(list(shapes), grid_size=1e-7)
    if isinstance(joined, Polygon):
        return joined
    grown = unary_union([shape.buffer(SEAM_OVERLAP, join_style="mitre") for shape in shapes])
    return grown.buffer(-SEAM_OVERLAP, join_style="mitre")


def straight_pieces(shape: Geometry) -> list[tuple[Point, Point]]:
    """The straight pieces longer than the numeric tolerance in a shapely result, those in one line joined."""
    parts = getattr(shape, "geoms", [shape])
    lines = [part for part in parts if isinstance(part, LineString) and part.length > NUMERIC_TOLERANCE]
    merged = line_merge(MultiLineString(lines)).simplify(NUMERIC_TOLERANCE)
    pieces: list[tuple[Point, Point]] = []
    for line in getattr(merged, "geoms", [merged]):
        points = [(float(x), float(y)) for x, y in line.coords]
        pieces.extend(pairwise(points))
    return pieces
