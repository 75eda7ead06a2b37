"""The lines of a view: which pieces of the plates' edges can be seen. Millimetres; picture x right, y up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString

from kitwright.folding.plates import EdgeKind, PlateEdge
from kitwright.folding.projection import Projection
from kitwright.folding.rigid import Matrix
from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern import PanelRef, Point

__all__ = ["ViewEdge", "visible_edges"]

NUDGE: Final = 1e-4
"""Millimetres by which an edge is moved into its plate to see whether the plate can be seen there: too little to be drawn, far more
than rounding."""

NEARLY: Final = 20 * NUDGE
"""Millimetres within which the end of a visible piece of an edge counts as the end of the edge, or as where another piece begins."""

PLACES: Final = 5
"""Decimals of a millimetre to which two edges must agree to be one edge of two plates."""

Shares = list[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class ViewEdge:
    """A visible piece of an edge in the picture; `bend` is by how many degrees a score is folded; `panels` are those it bounds."""

    start: Point
    end: Point
    kind: EdgeKind
    bend: float
    panels: tuple[PanelRef, ...]


@dataclass(slots=True)
class Line:
    """One edge in space, with all the plates that it bounds and the shares of it that can be seen."""

    start: Matrix
    end: Matrix
    edge: PlateEdge
    panels: list[PanelRef] = field(default_factory=list)
    shares: Shares = field(default_factory=list)


def visible_edges(scene: Projection, seen: NDArray[np.object_]) -> tuple[ViewEdge, ...]:
    """All visible pieces of edges, each edge once. `seen` are the visible shapes of the plates in the picture.

    An edge is seen where a plate that it bounds is seen beside it. Plates seen edge on have no shape: their edges are seen where no
    plate is nearer to the viewer.
    """
    lines: dict[tuple[tuple[float, ...], ...], Line] = {}
    owners: list[int] = []
    sides: list[tuple[Line, bool]] = []
    for number, plate in enumerate(scene.plates):
        for start, end, edge in plate_edges(scene, number):
            if np.hypot(*(end - start)[:2]) <= NUDGE:
                continue
            one, other = (tuple(np.round(point, PLACES) + 0.0) for point in (start, end))
            line = lines.setdefault((min(one, other), max(one, other)), Line(start, end, edge))
            line.panels.append(plate.panel)
            owners.append(number)
            sides.append((line, one == tuple(np.round(line.start, PLACES) + 0.0)))
    add_seen_beside(scene, seen, owners, sides)
    add_edge_on(scene, owners, sides)
    return tuple(piece for line in lines.values() for piece in pieces(line))


def plate_edges(scene: Projection, number: int) -> Iterator[tuple[Matrix, Matrix, PlateEdge]]:
    """The edges of a plate in the picture (x, y, towards the viewer), its inside on their left if the normal faces the viewer."""
    plate, ring = scene.plates[number], scene.rings[number]
    yield from zip(ring, np.roll(ring, -1, axis=0), plate.edges, strict=True)
    cut = PlateEdge(EdgeKind.CUT)
    for hole in plate.holes:
        around = hole @ scene.axes.T
        if is_counter_clockwise(hole, plate.normal):
            around = around[::-1]
        for start, end in zip(around, np.roll(around, -1, axis=0), strict=True):
            yield start, end, cut


def is_counter_clockwise(ring: Matrix, normal: Matrix) -> bool:
    """Whether a ring in space runs counter-clockwise seen from where the normal points."""
    return float(np.sum(np.cross(ring - ring[0], np.roll(ring, -1, axis=0) - ring[0]), axis=0) @ normal) > 0


def add_seen_beside(
    scene: Projection, seen: NDArray[np.object_], owners: Sequence[int], sides: Sequence[tuple[Line, bool]]
) -> None:
    """Note the shares of edges beside which their plate is seen."""
    chosen = [i for i, owner in enumerate(owners) if not shapely.is_empty(seen[owner])]
    if not chosen:
        return
    ends = np.array([[side_ends(sides[i])[0][:2], side_ends(sides[i])[1][:2]] for i in chosen])
    ahead = ends[:, 1] - ends[:, 0]
    lengths = np.hypot(ahead[:, 0], ahead[:, 1])
    left = np.column_stack([-ahead[:, 1], ahead[:, 0]]) / lengths[:, None]
    inward = left * np.sign([scene.facing[owners[i]] for i in chosen])[:, None] * NUDGE
    nudged = shapely.linestrings(ends + inward[:, None, :])
    parts, index = shapely.get_parts(shapely.intersection(nudged, seen[[owners[i] for i in chosen]]), return_index=True)
    for part, at in zip(parts, index, strict=True):
        if isinstance(part, LineString) and part.length > 2 * NUDGE:
            points = shapely.get_coordinates(part)
            walked = (points[[0, -1]] - ends[at, 0]) @ ahead[at] / lengths[at] ** 2
            add_share(sides[chosen[at]], walked, lengths[at])


def side_ends(side: tuple[Line, bool]) -> tuple[Matrix, Matrix]:
    """Start and end of a line in the direction of one of its plates."""
    line, is_forward = side
    return (line.start, line.end) if is_forward else (line.end, line.start)


def add_share(side: tuple[Line, bool], walked: Iterable[float], length: float) -> None:
    """Note a visible share of a line, given in the direction of one of its plates; ends that are nearly reached are reached."""
    line, is_forward = side
    low, high = sorted(walked if is_forward else (1 - share for share in walked))
    slack = NEARLY / length
    line.shares.append((0.0 if low < slack else low, 1.0 if high > 1 - slack else high))


def add_edge_on(scene: Projection, owners: Sequence[int], sides: Sequence[tuple[Line, bool]]) -> None:
    """Note the shares of the edges of plates seen edge on that no other plate hides."""
    boxes = shapely.bounds(scene.shadows)
    for owner, side in zip(owners, sides, strict=True):
        if not scene.is_edge_on[owner]:
            continue
        start, end = side_ends(side)
        length = float(np.hypot(*(end - start)[:2]))
        low, high = np.minimum(start, end)[:2], np.maximum(start, end)[:2]
        near = np.flatnonzero(np.all(boxes[:, :2] <= high, axis=1) & np.all(boxes[:, 2:] >= low, axis=1))
        hidden: list[LineString] = []
        for number in near:
            covered = covered_piece(scene, int(number), start, end)
            if covered is not None:
                hidden.append(covered.intersection(scene.shadows[number]))
        rest = LineString((start[:2], end[:2])).difference(shapely.union_all(hidden))
        for part in shapely.get_parts(rest):
            if isinstance(part, LineString) and part.length > 2 * NUDGE:
                points = shapely.get_coordinates(part)
                add_share(side, (points[[0, -1]] - start[:2]) @ (end - start)[:2] / length**2, length)


def covered_piece(scene: Projection, number: int, start: Matrix, end: Matrix) -> LineString | None:
    """The piece of a line behind the plane of a plate, if any."""
    a, b, c = scene.slopes[number]
    ahead = [float(a * point[0] + b * point[1] + c - point[2]) for point in (start, end)]
    if max(ahead) <= NUMERIC_TOLERANCE:
        return None
    if min(ahead) >= 0:
        return LineString((start[:2], end[:2]))
    crossing = start + (end - start) * (ahead[0] / (ahead[0] - ahead[1]))
    return LineString((start[:2] if ahead[0] > 0 else end[:2], crossing[:2]))


def pieces(line: Line) -> Iterator[ViewEdge]:
    """The visible pieces of a line, shares that overlap or touch joined."""
    joined: Shares = []
    slack = NEARLY / float(np.hypot(*(line.end - line.start)[:2]))
    for low, high in sorted(line.shares):
        if joined and low <= joined[-1][1] + slack:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    for low, high in joined:
        ends = [line.start + (line.end - line.start) * share for share in (low, high)]
        start, end = ((float(point[0]), float(point[1])) for point in ends)
        yield ViewEdge(start, end, line.edge.kind, line.edge.bend, tuple(dict.fromkeys(line.panels)))
