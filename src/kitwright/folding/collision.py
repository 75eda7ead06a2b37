"""Whether panels pass through one another at zero thickness. Lengths in mm.

Two panels collide where the inside of one crosses the inside of the other. Touching is no collision: edges that meet, an edge that
stands on a face, panels that lie flat on each other, a corner that only reaches a face.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from kitwright.folding.poses import Folded, Sweep, in_world
from kitwright.folding.rigid import Matrix, transposed
from kitwright.pattern import PanelRef

__all__ = ["Crossing", "crossings", "crossings_in"]

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
    return crossing_pairs(folded, may_cross(folded, moving))


def crossings_in(states: Sweep, *, moving: frozenset[PanelRef]) -> Iterator[tuple[int, tuple[Crossing, ...]]]:
    """The states in which panels pass through each other, by their number, with the crossings of each; only pairs with a `moving` panel.

    All states are looked at together for pairs that could cross, and only the few that have such pairs one by one.
    """
    suspects = may_cross(states, moving)
    for number in np.flatnonzero(suspects.any(axis=(1, 2))).tolist():
        found = crossing_pairs(states.state(number), suspects[number])
        if found:
            yield number, found


def crossing_pairs(folded: Folded, suspects: NDArray[np.bool_]) -> tuple[Crossing, ...]:
    """Those of the suspected pairs of panels that do pass through each other."""
    first, second = np.nonzero(suspects)
    pairs = ((folded.refs[i], folded.refs[j]) for i, j in zip(first.tolist(), second.tolist(), strict=True))
    return tuple(found for pair in pairs if (found := cross(folded, *pair)) is not None)


def may_cross(folded: Folded | Sweep, moving: frozenset[PanelRef] | None) -> NDArray[np.bool_]:
    """For every two panels, by their places in drawing order, the first before the second, whether they might pass through each other.

    Each must have points on both sides of the plane of the other, and the boxes round them must meet. For a sweep, a stack (n, ·, ·).
    """
    refs, pattern = tuple(folded.poses), folded.pattern
    rings = [[*panel.outline, *(point for hole in panel.holes for point in hole)] for panel in map(pattern.panel, refs)]
    starts = np.cumsum([0, *(len(ring) for ring in rings[:-1])])
    every = np.concatenate([in_world(folded.poses[ref], ring) for ref, ring in zip(refs, rings, strict=True)], axis=-2)
    poses = np.stack([folded.poses[ref] for ref in refs], axis=-3)
    normals = poses[..., :3, 2]
    offsets = (poses[..., :3, 3] * normals).sum(axis=-1)
    heights = every @ transposed(normals) - offsets[..., None, :]
    highest, lowest = np.maximum.reduceat(heights, starts, axis=-2), np.minimum.reduceat(heights, starts, axis=-2)
    straddles = (highest > POKE) & (lowest < -POKE)  # [i, j]: panel i has points on both sides of the plane of panel j
    low, high = np.minimum.reduceat(every, starts, axis=-2), np.maximum.reduceat(every, starts, axis=-2)
    near = np.all(low[..., :, None, :] <= high[..., None, :, :], axis=-1)
    moves = np.array([moving is None or ref in moving for ref in refs])
    both = straddles & near
    found: NDArray[np.bool_] = np.triu(both & transposed(both) & (moves[:, None] | moves), k=1)
    return found


def cross(folded: Folded, one: PanelRef, other: PanelRef) -> Crossing | None:
    """How two panels in different planes pass through each other, or nothing if they do not."""
    direction = np.cross(folded.normal(one), folded.normal(other))
    direction /= np.linalg.norm(direction)
    mine, yours = cut_by_plane(folded, one, other, direction), cut_by_plane(folded, other, one, direction)
    shared = [(max(a, c), min(b, d)) for a, b in mine for c, d in yours if min(b, d) - max(a, c) > POKE]
    if not shared:
        return None
    depth = min(poke_depth(folded, one, other), poke_depth(folded, other, one))
    return Crossing(one, other, math.fsum(end - start for start, end in shared), depth)


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
