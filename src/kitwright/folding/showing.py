"""Which backs of panels can be seen on a folded part, from outside or from above into it."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product
from typing import Final

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon, intersects_xy

from kitwright.folding.layers import LayerModel, layers
from kitwright.folding.planes import own_shape
from kitwright.folding.poses import Folded
from kitwright.folding.rigid import Matrix
from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern import PanelRef

__all__ = ["seen_backs"]

STEEP: Final = 0.2
"""A face is not looked at more slantingly than this (cosine; about 78 degrees)."""

SLIVER: Final = 0.1
"""A back of which less than this share is bare does not count as showing."""

CRACK: Final = 0.05
"""Nobody looks through the crack between two edges that meet: panels are taken as larger by so many mm all round."""

VIEWS: Final = tuple(
    np.array(view, dtype=np.float64) / np.linalg.norm(view)
    for view in product((-1, 0, 1), (-1, 0, 1), (4, 1, 0, -1, -4))
    if any(view)
)
"""Whence one looks: from the six sides, the edges and the corners, and steeply from above and below."""


def seen_backs(folded: Folded, *, model: LayerModel | None = None) -> tuple[PanelRef, ...]:
    """The panels whose unprinted side shows somewhere: bare of other layers, and open to the eye from some side.

    One place in the middle of what is bare is looked at, from 42 sides.
    """
    known = model or layers(folded)
    in_the_way = {ref: own_shape(folded, ref).buffer(CRACK) for ref in folded.refs}
    return tuple(ref for ref in folded.refs if is_seen(folded, known, ref, in_the_way))


def is_seen(folded: Folded, model: LayerModel, ref: PanelRef, in_the_way: Mapping[PanelRef, Polygon]) -> bool:
    """Whether a panel's back can be seen past all panels, each as large as it is in the way of the eye."""
    bare = model.bare(ref, front=False)
    if bare.area < SLIVER * own_shape(folded, ref).area:
        return False
    place = bare.representative_point()
    eye = folded.to_world(ref, [(place.x, place.y)])[0]
    views = np.array([view for view in VIEWS if view @ -folded.normal(ref) > STEEP])
    is_free = np.ones(len(views), dtype=bool)
    for other, shape in in_the_way.items():
        is_free &= ~meets(folded, other, shape, eye, views)
    return bool(is_free.any())


def meets(folded: Folded, ref: PanelRef, shape: Polygon, eye: Matrix, views: Matrix) -> NDArray[np.bool_]:
    """For each direction, whether one who looks that way from a place meets a shape in the plane of a panel."""
    near, towards = folded.to_panel(ref, eye)[0], views @ folded.poses[ref][:3, :3]
    slope = np.where(np.abs(towards[:, 2]) > NUMERIC_TOLERANCE, towards[:, 2], np.nan)
    distance = -near[2] / slope
    hits = near + distance[:, None] * towards
    ahead = np.nan_to_num(distance, nan=-1.0) > NUMERIC_TOLERANCE
    found: NDArray[np.bool_] = ahead & intersects_xy(shape, np.nan_to_num(hits[:, 0]), np.nan_to_num(hits[:, 1]))
    return found
