"""Checking what sheets can hold at most where pieces are counted: all rectangles that pieces can fill, the small ones first.

Shares no code with the search. Every way to cut a sheet is a rectangle made of two smaller ones side by side or on each other, and so on
down to single pieces. A rectangle is followed only as long as the best that could surround it would take the sheet above its limit; of two
of which one is no larger, worth no less and made of no more counted pieces, only that one is followed.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

import numpy as np
import numpy.typing as npt

__all__ = ["Rated", "Worths", "can_hold_more"]

MOST_RECTANGLES: Final = 60_000
"""With more rectangles than this to be followed, it counts as not proved."""

NEVER: Final = -(1 << 60)

Ints = npt.NDArray[np.int64]
Uses = npt.NDArray[np.int32]
"""How many of each counted piece."""


@dataclass(frozen=True, slots=True)
class Rated:
    """Pieces that are alike: the sizes in which one may lie, its worth, how many are wanted; `is_counted` if no more may be used."""

    sizes: tuple[tuple[int, int], ...]
    worth: int
    wanted: int
    is_counted: bool


@dataclass(frozen=True, slots=True, eq=False)
class Worths:
    """The most that areas up to a sheet's size are worth if nothing is counted: `values[i, j]` for the lengths `across[i]` and `up[j]`."""

    across: Sequence[int]
    up: Sequence[int]
    values: Ints


def can_hold_more(size: tuple[int, int], rated: Sequence[Rated], limit: int, worths: Worths) -> bool:
    """Whether some cut tree on a sheet of this size, with no piece more often than wanted, may be worth more than the limit.

    Only the counted pieces are looked at exactly, so the answer may be yes where it is no, but never the other way.
    """
    width, height = size
    counted = [rank for rank, one in enumerate(rated) if one.is_counted]
    wanted = np.array([rated[rank].wanted for rank in counted], dtype=np.int32)
    promise = Promise(size, rated, worths)
    waiting: dict[tuple[int, int, bytes], int] = {}
    order: list[tuple[int, int, int, bytes]] = []

    def follow(wide: int, high: int, worth: int, uses: Uses) -> None:
        key = wide, high, uses.tobytes()
        if worth > waiting.get(key, -1):
            if key not in waiting:
                heapq.heappush(order, (wide * high, *key))
            waiting[key] = worth

    for rank, one in enumerate(rated):
        uses = np.array([int(rank == place) for place in counted], dtype=np.int32)
        for wide, high in one.sizes:
            if one.worth > 0 and wide <= width and high <= height:
                if one.worth > limit:
                    return True
                if one.worth + promise.beyond(np.array([wide]), np.array([high]))[0] > limit:
                    follow(wide, high, one.worth, uses)
    done = np.zeros((MOST_RECTANGLES, 3), dtype=np.int64)
    used = np.zeros((MOST_RECTANGLES, len(counted)), dtype=np.int32)
    count = 0
    while order:
        _, wide, high, key = heapq.heappop(order)
        worth, uses = waiting.pop((wide, high, key)), np.frombuffer(key, dtype=np.int32)
        others, their = done[:count], used[:count]
        smaller = (others[:, 0] <= wide) & (others[:, 1] <= high) & (others[:, 2] >= worth)
        if (their[smaller] <= uses).all(axis=1).any():
            continue
        if count == MOST_RECTANGLES:
            return True
        done[count], used[count], count = (wide, high, worth), uses, count + 1
        others, their = done[:count], used[:count]
        free = np.flatnonzero((their + uses <= wanted).all(axis=1))
        across, up, worths_of = others[free].T
        for wides, highs in ((across + wide, np.maximum(up, high)), (np.maximum(across, wide), up + high)):
            fit = np.flatnonzero((wides <= width) & (highs <= height))
            both = worths_of[fit] + worth
            if (both > limit).any():
                return True
            good = np.flatnonzero(both + promise.beyond(wides[fit], highs[fit]) > limit)
            for place in good.tolist():
                rank = fit[place]
                follow(int(wides[rank]), int(highs[rank]), int(both[place]), their[free[rank]] + uses)
    return False


class Promise:
    """The most that can surround a rectangle on a sheet, by two reckonings of which the smaller holds."""

    def __init__(self, size: tuple[int, int], rated: Sequence[Rated], worths: Worths) -> None:
        self.area = size[0] * size[1]
        self.across = np.array(worths.across)
        self.up = np.array(worths.up)
        self.around = surroundings(size, worths)
        ranked = sorted((one for one in rated if one.worth > 0), key=lambda one: -Fraction(one.worth, area_of(one)))
        self.each = np.array([(area_of(one), one.worth) for one in ranked] + [(1, 0)])
        steps = [(area_of(one) * one.wanted, one.worth * one.wanted) for one in ranked]
        self.sums = np.cumsum([(0, 0), *steps], axis=0)

    def beyond(self, wide: Ints, high: Ints) -> Ints:
        """For rectangles of these sizes."""
        places = np.searchsorted(self.across, wide), np.searchsorted(self.up, high)
        rest = self.area - wide * high
        rank = np.searchsorted(self.sums[:, 0], rest, side="right") - 1
        areas, worths = self.each[rank].T
        by_area = self.sums[rank, 1] - (-(rest - self.sums[rank, 0]) * worths // areas)
        return np.asarray(np.minimum(self.around[places], by_area))


def area_of(one: Rated) -> int:
    """The area of one piece."""
    return one.sizes[0][0] * one.sizes[0][1]


def surroundings(size: tuple[int, int], worths: Worths) -> Ints:
    """What can be cut off beside and above before only an area is left, column by column from the whole sheet inwards."""
    across, up = np.array(worths.across), np.array(worths.up)
    width, height = (int(np.searchsorted(line, end)) for line, end in zip((across, up), size, strict=True))
    best = np.full((len(across), len(up)), NEVER, dtype=np.int64)
    best[width, height] = 0
    rests_up = [np.searchsorted(up, up[j + 1 : height + 1] - up[j], side="right") - 1 for j in range(height)]
    for i in range(width, 0, -1):
        rests = np.searchsorted(across, across[i + 1 : width + 1] - across[i], side="right") - 1
        if len(rests):
            best[i] = np.maximum(best[i], (best[i + 1 : width + 1] + worths.values[rests]).max(axis=0))
        for j in range(height - 1, 0, -1):
            best[i, j] = max(best[i, j], (best[i, j + 1 : height + 1] + worths.values[i, rests_up[j]]).max())
    return best
