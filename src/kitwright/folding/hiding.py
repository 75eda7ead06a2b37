"""What hides what: for each plate, the pieces of the picture in which another plate is nearer to the viewer."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from kitwright.folding.projection import DECIMALS, Projection
from kitwright.folding.rigid import Matrix
from kitwright.measure import NUMERIC_TOLERANCE

__all__ = ["nearer_parts"]


def nearer_parts(scene: Projection) -> list[list[Polygon]]:
    """For each plate, the pieces of the picture in which some other plate hides it."""
    covers: list[list[Polygon]] = [[] for _ in scene.plates]
    solid = np.flatnonzero(~scene.is_edge_on)
    if len(solid) < 2:
        return covers
    first, second = np.triu_indices(len(solid), k=1)
    one, other = solid[first], solid[second]
    boxes = shapely.bounds(scene.shadows)
    near = np.all(boxes[one][:, :2] < boxes[other][:, 2:], axis=1) & np.all(
        boxes[other][:, :2] < boxes[one][:, 2:], axis=1
    )
    one, other = one[near], other[near]
    shared = solid_parts(shapely.intersection(scene.shadows[one], scene.shadows[other]))
    real = shapely.area(shared) > NUMERIC_TOLERANCE
    one, other, shared = one[real], other[real], shared[real]
    for i, j, piece in zip(one.tolist(), other.tolist(), shared.tolist(), strict=True):
        in_front = stacked_in_front(scene, i, j)
        if in_front is not None:
            covers[i if in_front else j].append(piece)
            continue
        slope = scene.slopes[j] - scene.slopes[i]
        points = shapely.get_coordinates(piece)
        ahead = points @ slope[:2] + slope[2]
        if ahead.min() >= -NUMERIC_TOLERANCE:
            covers[i].append(piece)
        elif ahead.max() <= NUMERIC_TOLERANCE:
            covers[j].append(piece)
        else:
            left, low, right, high = piece.bounds
            box = (left - 1, low - 1, right + 1, high + 1)
            halves = np.array([half_plane(slope, box), half_plane(-slope, box)])
            mine, yours = solid_parts(shapely.intersection(piece, halves))
            covers[i].append(mine)
            covers[j].append(yours)
    return covers


def solid_parts(shapes: NDArray[np.object_]) -> NDArray[np.object_]:
    """The same shapes without stray points and lines: where two polygons only touch, GEOS hands over what they share."""
    mixed = np.isin(
        shapely.get_type_id(shapes), (shapely.GeometryType.POLYGON, shapely.GeometryType.MULTIPOLYGON), invert=True
    )
    for i in np.flatnonzero(mixed):
        parts = shapely.get_parts(shapes[i])
        shapes[i] = shapely.union_all(parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON])
    return shapes


def stacked_in_front(scene: Projection, one: int, other: int) -> bool | None:
    """Of two plates of one stack: whether `other` is nearer to the viewer than `one`. None for plates of different stacks."""
    mine, yours = scene.plates[one], scene.plates[other]
    if mine.stack is None or mine.stack is not yours.stack or mine.stack_up is None:
        return None
    return (yours.place > mine.place) is bool(mine.stack_up @ scene.axes[2] > 0)


def half_plane(slope: Matrix, box: tuple[float, float, float, float]) -> Polygon:
    """The part of the picture's box (least x, y, greatest x, y) where a·x + b·y + c is above zero."""
    low_x, low_y, high_x, high_y = box
    corners = [(low_x, low_y), (high_x, low_y), (high_x, high_y), (low_x, high_y)]
    values = [float(slope[0] * x + slope[1] * y + slope[2]) for x, y in corners]
    kept: list[tuple[float, float]] = []
    for i, (corner, value) in enumerate(zip(corners, values, strict=True)):
        (x0, y0), before = corners[i - 1], values[i - 1]
        if (before > 0) is not (value > 0):
            share = before / (before - value)
            kept.append((x0 + share * (corner[0] - x0), y0 + share * (corner[1] - y0)))
        if value > 0:
            kept.append(corner)
    return Polygon(np.round(kept, DECIMALS) + 0.0) if len(kept) > 2 else Polygon()
