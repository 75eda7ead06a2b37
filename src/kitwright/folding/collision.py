"""Whether panels pass through one another at zero thickness. Lengths in mm.

Two panels collide where the inside of one crosses the inside of the other. Touching is no collision: edges that meet, an edge that
stands on a face, panels that lie flat on each other, a corner that only reaches a face.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from kitwright.folding.poses import Folded
from kitwright.folding.rigid import Matrix
from kitwright.pattern import PanelRef

__all__ = ["Crossing", "crossings"]

POKE: Final = 1e-8
"""Millimetres by which a panel must reach through another to count. Coordinates of a part of 1 m carry about 1e-13 m of rounding, a
few dozen times more after a chain of folds; a poke of 1e-6 mm is seen."""


@dataclass(frozen=True, slots=True)
class Crossing:
    """Two panels that pass through each other, along a line of so many mm; `depth` is how far the shallower side pokes through."""

    one: PanelRef
    other: PanelRef
    length: float
    depth: float


def crossings(folded: Folded, *, moving: frozenset[PanelRef] | None = None) -> tuple[Crossing, ...]:
    """All pairs of panels that pass through each other, in the order of drawing; only pairs with a `moving` panel if it is given."""
    refs = folded.refs
    clouds = [np.vstack([folded.points(ref), *folded.holes(ref)]) for ref in refs]
    starts = np.cumsum([0, *(len(cloud) for cloud in clouds[:-1])])
    every = np.vstack(clouds)
    normals = np.array([folded.normal(ref) for ref in refs])
    offsets = np.array([folded.poses[ref][:3, 3] @ folded.normal(ref) for ref in refs])
    heights = every @ normals.T - offsets
    highest, lowest = np.maximum.reduceat(heights, starts, axis=0), np.minimum.reduceat(heights, starts, axis=0)
    straddles = (highest > POKE) & (lowest < -POKE)  # [i, j]: panel i has points on both sides of the plane of panel j
    low, high = np.minimum.reduceat(every, starts, axis=0), np.maximum.reduceat(every, starts, axis=0)
    near = np.all(low[:, None] <= high[None], axis=2)
    first, second = np.nonzero(np.triu(straddles & straddles.T & near & near.T, k=1))
    found = []
    for i, j in zip(first.tolist(), second.tolist(), strict=True):
        if moving is None or refs[i] in moving or refs[j] in moving:
            crossing = cross(folded, refs[i], refs[j])
            if crossing is not None:
                found.append(crossing)
    return tuple(found)


def cross(folded: Folded, one: PanelRef, other: PanelRef) -> Crossing | None:
    """How two panels in different planes pass through each other, or nothing if they do not."""
    direction = np.cross(folded.normal(one), folded.normal(other))
    direction /= np.linalg.norm(direction)
    mine, yours = cut_by_plane(folded, one, other, direction), cut_by_plane(folded, other, one, direction)
    shared = [(max(a, c), min(b, d)) for a, b in mine for c, d in yours if min(b, d) - max(a, c) > POKE]
    if not shared:
        return None
    depth = min(poke_depth(folded, one, other), poke_depth(folded, other, one))
    return Crossing(one, other, sum(end - start for start, end in shared), depth)


def poke_depth(folded: Folded, ref: PanelRef, through: PanelRef) -> float:
    """How far a panel reaches through the plane of another, on the side where it reaches less."""
    heights = folded.to_panel(through, folded.points(ref))[:, 2]
    return float(min(heights.max(), -heights.min()))


def cut_by_plane(folded: Folded, ref: PanelRef, plane: PanelRef, direction: Matrix) -> list[tuple[float, float]]:
    """Where the inside of a panel crosses the plane of another: stretches along `direction`, in mm from the origin.

    Corners in the plane count as lying just above it, so that a mere touch gives no stretch, or one of no length.
    """
    crossed: list[float] = []
    for ring in (folded.points(ref), *folded.holes(ref)):
        heights = folded.to_panel(plane, ring)[:, 2]
        following, ahead = np.roll(ring, -1, axis=0), np.roll(heights, -1)
        above, above_next = heights >= -POKE / 2, ahead >= -POKE / 2
        for k in np.flatnonzero(above != above_next):
            share = heights[k] / (heights[k] - ahead[k])
            crossed.append(float((ring[k] + share * (following[k] - ring[k])) @ direction))
    crossed.sort()
    return [pair for n, pair in enumerate(pairwise(crossed)) if n % 2 == 0]
