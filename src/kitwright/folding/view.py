"""Views: line drawings of folded parts from any side, without perspective, hidden parts removed exactly. Plain data, in mm.

What hides what is worked out plate by plate: where the shadows of two plates overlap, the difference of their distances from the
viewer is linear, so the part of one that the other hides is a polygon cut by a straight line. Plates that lie flat on each other are
ordered by the layer model.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from kitwright.folding.hiding import nearer_parts
from kitwright.folding.plates import Plate
from kitwright.folding.projection import Projection, Viewpoint, project
from kitwright.folding.view_edges import ViewEdge, visible_edges
from kitwright.pattern import PanelRef, Point, Ring

__all__ = ["Arrow", "View", "ViewFace", "look", "seen_areas"]

GRID: Final = 1e-6
"""Millimetres to which the corners of visible pieces are rounded, so that rounding leaves no spikes without width."""

CRUMB: Final = 1e-3
"""Pieces of a face smaller than this, in mm², are left out: they come of rounding."""


@dataclass(frozen=True, slots=True)
class Arrow:
    """Where the up of the print can be marked on a face: a place well inside it and a direction in the picture.

    The direction is as long as 1 mm of the print's up looks in the picture (shorter than 1 on slanting faces).
    """

    at: Point
    direction: Point


@dataclass(frozen=True, slots=True)
class ViewFace:
    """What can be seen of one side of a plate: outer rings, each with its holes, in picture coordinates.

    `is_print` says whether it is the print side that is seen.
    """

    panel: PanelRef
    is_print: bool
    pieces: tuple[tuple[Ring, tuple[Ring, ...]], ...]
    arrow: Arrow | None

    @property
    def area(self) -> float:
        """Area in the picture, mm²."""
        return math.fsum(Polygon(ring, holes).area for ring, holes in self.pieces)


@dataclass(frozen=True, slots=True)
class View:
    """A picture as data: faces that do not overlap, and lines to be drawn on top. Coordinates in mm, x right, y up."""

    faces: tuple[ViewFace, ...]
    edges: tuple[ViewEdge, ...]


def look(plates: Iterable[Plate], viewpoint: Viewpoint) -> View:
    """The picture of some plates from a viewpoint: visible faces in the order of the plates, and the visible pieces of edges."""
    scene = project(tuple(plates), viewpoint)
    seen = seen_of(scene)
    faces = (face_of(scene, number, seen[number]) for number in range(len(seen)))
    return View(tuple(face for face in faces if face is not None), visible_edges(scene, seen))


def seen_areas(plates: Iterable[Plate], viewpoint: Viewpoint) -> tuple[tuple[PanelRef, float], ...]:
    """How much of each plate can be seen in the picture from a viewpoint, mm²; without the picture itself."""
    scene = project(tuple(plates), viewpoint)
    areas = (math.fsum(part.area for part in parts_of(seen)) for seen in seen_of(scene))
    return tuple((plate.panel, float(area)) for plate, area in zip(scene.plates, areas, strict=True))


def seen_of(scene: Projection) -> NDArray[np.object_]:
    """What can be seen of the shadow of every plate, as shapes."""
    seen = np.empty(len(scene.plates), dtype=object)
    for number, covers in enumerate(nearer_parts(scene)):
        shadow = scene.shadows[number]
        hidden = shapely.union_all(covers, grid_size=GRID)
        seen[number] = shapely.difference(shadow, hidden, grid_size=GRID) if covers else shadow
    return seen


def parts_of(seen: shapely.Geometry) -> list[Polygon]:
    """The pieces of what is seen of one plate."""
    return [part for part in shapely.get_parts(seen) if isinstance(part, Polygon) and part.area > CRUMB]


def face_of(scene: Projection, number: int, seen: shapely.Geometry) -> ViewFace | None:
    """What is seen of one plate, or nothing."""
    parts = parts_of(seen)
    if not parts:
        return None
    plate, is_print = scene.plates[number], bool(scene.facing[number] > 0)
    return ViewFace(
        panel=plate.panel,
        is_print=is_print,
        pieces=tuple((ring_of(part.exterior), tuple(ring_of(hole) for hole in part.interiors)) for part in parts),
        arrow=arrow_of(scene, plate, max(parts, key=lambda part: part.area)) if is_print else None,
    )


def ring_of(ring: shapely.LinearRing) -> Ring:
    """The points of a ring, the first not repeated."""
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(ring)[:-1])


def arrow_of(scene: Projection, plate: Plate, part: Polygon) -> Arrow | None:
    """Where to mark the print's up on a piece of a face."""
    if plate.print_up is None:
        return None
    direction = scene.axes[:2] @ plate.print_up
    middle = part.centroid if part.contains(part.centroid) else part.representative_point()
    return Arrow((float(middle.x), float(middle.y)), (float(direction[0]), float(direction[1])))
