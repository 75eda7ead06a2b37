"""Seams: by how much two edges that should meet miss each other. Lengths in mm, angles in degrees."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from kitwright.folding.poses import Folded
from kitwright.folding.rigid import Matrix
from kitwright.pattern import Seam

__all__ = ["Residual", "seam_residual"]


@dataclass(frozen=True, slots=True)
class Residual:
    """How far two edges of a seam are apart: across (gap, mm), along (slide, mm), and turned (angle, degrees); zero when they meet."""

    gap: float
    slide: float
    angle: float


def seam_residual(folded: Folded, seam: Seam) -> Residual:
    """By how much the edges of a seam miss each other, the worst place counting.

    Both edges are walked from end to end at equal shares of their lengths, the second one backwards where that brings the ends
    nearer (it does wherever print sides agree). Edges of unequal length show half the difference as slide.
    """
    one, other = folded.edge(seam.one), folded.edge(seam.other)
    if ends_apart(one, other[::-1]) <= ends_apart(one, other):
        other = other[::-1]
    shares = np.union1d(walk_shares(one), walk_shares(other))
    ahead, back = directions(one, shares), directions(other, shares)
    apart = at_shares(other, shares) - at_shares(one, shares)
    at_both_ends, ahead_twice = np.vstack([apart[:-1], apart[1:]]), np.vstack([ahead, ahead])
    along = np.sum(at_both_ends * ahead_twice, axis=1)
    across = np.linalg.norm(at_both_ends - along[:, None] * ahead_twice, axis=1)
    angles = np.arctan2(np.linalg.norm(np.cross(ahead, back), axis=1), np.sum(ahead * back, axis=1))
    return Residual(
        gap=float(np.max(across)), slide=float(np.max(np.abs(along))), angle=float(np.degrees(np.max(angles)))
    )


def ends_apart(one: Matrix, other: Matrix) -> float:
    """Sum of the distances between first points and between last points."""
    return float(np.linalg.norm(one[0] - other[0]) + np.linalg.norm(one[-1] - other[-1]))


def walk_shares(chain: Matrix) -> Matrix:
    """At which share of its length each point of a chain lies, 0 to 1."""
    walked = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(chain, axis=0), axis=1))])
    shares: Matrix = walked / walked[-1]
    return shares


def at_shares(chain: Matrix, shares: Matrix) -> Matrix:
    """The points at the given shares of a chain's length."""
    return np.column_stack([np.interp(shares, walk_shares(chain), chain[:, i]) for i in range(3)])


def directions(chain: Matrix, shares: Matrix) -> Matrix:
    """The direction (length 1) of a chain between each two neighbouring shares."""
    steps = np.diff(at_shares(chain, shares), axis=0)
    unit: Matrix = steps / np.linalg.norm(steps, axis=1, keepdims=True)
    return unit
