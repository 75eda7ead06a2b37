"""Panels as seen from one another: shapes in a common plane, and whether two panels lie flat on each other. Lengths in mm."""

from __future__ import annotations

import numpy as np
from shapely import Polygon

from kitwright.folding.poses import Folded
from kitwright.measure import CORNER_GRID, CRAFT_TOLERANCE, LEAST_AREA
from kitwright.pattern import PanelRef

__all__ = ["flat_distance", "flat_shape", "overlap", "own_shape"]


def own_shape(folded: Folded, ref: PanelRef) -> Polygon:
    """A panel's shape with its holes, in its own plane (coordinates of its blank)."""
    return folded.pattern.panel(ref).shape


def flat_shape(folded: Folded, ref: PanelRef, onto: PanelRef) -> Polygon:
    """The shape of panel `ref`, dropped squarely onto the plane of panel `onto` (coordinates of that one's blank)."""
    rings = [folded.to_panel(onto, ring)[:, :2] for ring in (folded.points(ref), *folded.holes(ref))]
    return Polygon(rings[0], rings[1:])


def flat_distance(folded: Folded, ref: PanelRef, onto: PanelRef) -> float:
    """How far the farthest corner of panel `ref` is from the plane of panel `onto`, mm."""
    return float(np.abs(folded.to_panel(onto, folded.points(ref))[:, 2]).max())


def overlap(folded: Folded, ref: PanelRef, onto: PanelRef) -> Polygon | None:
    """Where panel `ref` lies flat on panel `onto` (in that one's plane), or nothing if it does not.

    Flat means: every corner within the craft tolerance of the plane.
    """
    if flat_distance(folded, ref, onto) > CRAFT_TOLERANCE:
        return None
    shared = own_shape(folded, onto).intersection(flat_shape(folded, ref, onto), grid_size=CORNER_GRID)
    return shared if shared.area > LEAST_AREA else None
