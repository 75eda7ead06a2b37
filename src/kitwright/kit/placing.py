"""How a lid or a band lies on what it goes over or round: a move in space, millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import NDArray

from kitwright.folding import Folded, shift
from kitwright.kit.model import Goes

__all__ = ["HALF_ROUND", "laid", "put_on"]

Matrix = NDArray[np.float64]

LAID: Final[Mapping[Goes, Matrix]] = MappingProxyType(
    {
        Goes.WALLS: np.eye(4),
        Goes.OVER: np.array([[0, 0, -1.0, 0], [1.0, 0, 0, 0], [0, -1.0, 0, 0], [0, 0, 0, 1.0]]),
        Goes.ENDS: np.array([[1.0, 0, 0, 0], [0, 0, 1.0, 0], [0, -1.0, 0, 0], [0, 0, 0, 1.0]]),
    }
)
"""What turns a band that stands into one that goes over the top: its front then lies on top."""

HALF_ROUND: Final = np.diag([-1.0, -1.0, 1.0, 1.0])
"""Half a turn about the plumb line."""


def laid(folded: Folded, goes: Goes) -> Folded:
    """A finished band turned the way it goes round, standing at the origin."""
    return folded.moved(LAID[goes]).standing()


def put_on(cover: Folded, size: Matrix, *, top: float | None = None) -> Folded:
    """A lid or band in the middle of a box of a `size` (width, depth, height): its upper end at the height `top`, or in the middle too."""
    _, its = cover.bounds()
    wide, deep, high = (size - its) / 2
    return cover.moved(shift(wide, deep, high if top is None else top - its[2]))
