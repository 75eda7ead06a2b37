"""How often a rectangle uses each of some kinds, many of them in one machine word, so that thousands of rectangles are compared at once.

A kind has a field of bits, wide enough for as many pieces as are wanted, and one bit above it that catches what runs over.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

__all__ = ["Tallies", "Tally", "make_tally"]

Tallies = npt.NDArray[np.uint64]
"""One row a word, one column a rectangle."""

BITS: Final = 64


@dataclass(frozen=True, slots=True, eq=False)
class Tally:
    """The fields of the kinds that are counted; the others may be used as often as one likes."""

    ones: dict[int, Tallies]
    """One piece of a kind, as one column."""
    nothing: Tallies
    """No piece, as one column."""
    guards: Tallies
    """The bits that catch what runs over."""
    spare: Tallies
    """What may be added to as many as are wanted without running over."""

    def of(self, kind: int) -> Tallies:
        """One piece of this kind, as one column."""
        return self.ones.get(kind, self.nothing)

    def fit(self, many: Tallies, others: Tallies) -> npt.NDArray[np.bool_]:
        """For each of the others (rows), which of many rectangles (columns) go with it, no kind used more often than it is wanted."""
        both = (others + self.spare)[:, :, None] + many[:, None, :]
        return np.asarray(((both & self.guards[:, :, None]) == 0).all(axis=0))

    def within(self, many: Tallies, others: Tallies) -> npt.NDArray[np.bool_]:
        """For each of the others (rows), which of many rectangles (columns) use no kind more often than it does."""
        guards = self.guards[:, :, None]
        left = (others | self.guards)[:, :, None] - many[:, None, :]
        return np.asarray(((left & guards) == guards).all(axis=0))


def make_tally(most: Mapping[int, int]) -> Tally:
    """Fields for these kinds, each of which may be used at most so often."""
    places, word, low = {}, 0, 0
    for kind, count in most.items():
        wide = count.bit_length() + 1
        if low + wide > BITS:
            word, low = word + 1, 0
        places[kind] = (word, low, wide)
        low += wide
    words = word + 1
    nothing = np.zeros((words, 1), dtype=np.uint64)
    guards, spare = nothing.copy(), nothing.copy()
    ones = {}
    for kind, (word, low, wide) in places.items():
        guard = 1 << (low + wide - 1)
        guards[word, 0] += np.uint64(guard)
        spare[word, 0] += np.uint64(guard - (1 << low) - (most[kind] << low))
        ones[kind] = nothing.copy()
        ones[kind][word, 0] = np.uint64(1 << low)
    return Tally(ones, nothing, guards, spare)
