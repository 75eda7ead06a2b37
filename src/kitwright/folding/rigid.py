"""Rigid motions of space as 4×4 matrices that act on column vectors (x, y, z, 1); lengths in mm, angles in degrees.

Where a number may be a row of them, the motion is a stack (n, 4, 4): one for each of several states.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray

from kitwright.pattern import Point

__all__ = ["IDENTITY", "Matrix", "Number", "cosine_sine", "edge_frame", "hinge_turn", "inverse", "shift", "transposed"]

Matrix = NDArray[np.float64]
"""A 4×4 rigid motion or a stack of them, or rows of points (n, 3)."""

Number = float | NDArray[np.float64]
"""A number, or a row of them: one for each of several states."""

IDENTITY: Final[Matrix] = np.eye(4)
IDENTITY.flags.writeable = False


def cosine_sine(degrees: float) -> tuple[float, float]:
    """Cosine and sine of an angle in degrees, exact at whole quarter turns, so that a square box closes exactly.

    >>> cosine_sine(-90)
    (0.0, -1.0)
    """
    quarters, rest = divmod(degrees, 90.0)
    if rest == 0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarters) % 4]
    return math.cos(math.radians(degrees)), math.sin(math.radians(degrees))


def shift(x: Number, y: Number, z: Number) -> Matrix:
    """The motion that moves everything by (x, y, z); a stack of motions for rows of distances."""
    by = np.stack(np.broadcast_arrays(x, y, z), axis=-1)
    moved = np.zeros((*by.shape[:-1], 4, 4)) + np.eye(4)
    moved[..., :3, 3] = by
    return moved


def inverse(motion: Matrix) -> Matrix:
    """The motion that undoes a rigid motion."""
    back = np.zeros_like(motion)
    turn = transposed(motion[..., :3, :3])
    back[..., :3, :3] = turn
    back[..., :3, 3] = -(turn @ motion[..., :3, 3, None])[..., 0]
    back[..., 3, 3] = 1.0
    return back


def transposed(matrix: Matrix) -> Matrix:
    """Rows and columns changed for each other, in each matrix of a stack."""
    return np.swapaxes(matrix, -1, -2)


def hinge_turn(start: Point, end: Point, angle: Number) -> Matrix:
    """The turn of what hangs on a score from `start` to `end` (parent on the left) when it is folded by `angle`.

    Above zero is a valley: the child rises on the print side (+z). That is a right-handed turn by −angle about start→end, after
    Rodrigues' formula for an axis in the plane of the paper.
    """
    length = math.hypot(end[0] - start[0], end[1] - start[1])
    x, y = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    cosine, sine = np.array([cosine_sine(-each) for each in np.ravel(angle)]).T.reshape(2, *np.shape(angle))
    rest = 1 - cosine
    turn = np.zeros((*cosine.shape, 4, 4))
    turn[..., 0, 0], turn[..., 0, 1], turn[..., 0, 2] = cosine + rest * x * x, rest * x * y, sine * y
    turn[..., 1, 0], turn[..., 1, 1], turn[..., 1, 2] = rest * x * y, cosine + rest * y * y, -sine * x
    turn[..., 2, 0], turn[..., 2, 1], turn[..., 2, 2] = -sine * y, sine * x, cosine
    about = np.array((start[0], start[1], 0.0))
    turn[..., :3, 3] = about - turn[..., :3, :3] @ about
    turn[..., 3, 3] = 1.0
    return turn


def edge_frame(start: Point, end: Point) -> Matrix:
    """The frame of an edge in its blank: origin in its middle, x along it, z towards the print side."""
    length = math.hypot(end[0] - start[0], end[1] - start[1])
    x, y = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    frame = np.eye(4)
    frame[:2, :2] = ((x, -y), (y, x))
    frame[:2, 3] = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    return frame
