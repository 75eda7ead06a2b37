"""Checking a lower bound from its certificate alone, in whole numbers, by an exact programme over all cut trees.

Shares no code with the search. The question for each stock: can the pieces of one sheet be worth more than the certificate allows?
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np
import numpy.typing as npt

from kitwright.cutting.stock import PieceType, Stock
from kitwright.errors import Mistake

__all__ = ["dearest_sheet", "is_worth_at_most"]

Valued = tuple[int, int, int]
"""Width, height, worth of a piece as it may lie."""

LARGEST_INT64: Final = 2**62
"""Sums below this do not run over in a machine word."""

MOST_POINTS: Final = 5_000
"""More positions than this along one edge are not looked at; no ruler and no list of real sizes comes near."""


def is_worth_at_most(
    stock: Stock, demand: Sequence[PieceType], worth: Mapping[str, int], limit: int, longest_cut: int | None
) -> bool:
    """Whether no cut tree on this stock, with any number of each piece it may hold, is worth more than `limit`."""
    width, height = stock.usable_width, stock.usable_height
    valued = [
        (*piece.size(turn), worth.get(piece.name, 0))
        for piece in demand
        if piece.may_come_from(stock) and worth.get(piece.name, 0) > 0
        for turn in sorted(set(piece.turns))
    ]
    if limit < 0:
        return False
    if all(each * width * height <= wide * high * limit for wide, high, each in valued):
        return True  # no piece is worth more for its area than the whole sheet may be
    return dearest_sheet(width, height, valued, longest_cut) <= limit


def dearest_sheet(width: int, height: int, valued: Sequence[Valued], longest_cut: int | None) -> int:
    """The greatest worth of pieces that straight cuts from edge to edge can take from one sheet, no cut longer than `longest_cut`.

    The recursion of Gilmore and Gomory (Operations Research 13, 1965) over the positions that sums of piece sizes can reach
    (Herz, IBM J. Res. Dev. 16, 1972). Only positions up to half of an area are tried as cuts: the other half is its mirror.
    """
    unit = math.gcd(width, height, *(length for wide, high, _ in valued for length in (wide, high)))
    unit = math.gcd(unit, longest_cut) if longest_cut else unit
    width, height = width // unit, height // unit
    reach = max(width, height) if longest_cut is None else longest_cut // unit
    valued = [
        (wide // unit, high // unit, each)
        for wide, high, each in valued
        if wide // unit <= width and high // unit <= height
    ]
    if not valued:
        return 0
    across = reachable([wide for wide, _, _ in valued], width)
    up = reachable([high for _, high, _ in valued], height)
    smallest = min(wide * high for wide, high, _ in valued)
    most = max(each for _, _, each in valued) * (width * height // smallest + 1)
    table = np.zeros((len(across), len(up)), dtype=np.int64 if most < LARGEST_INT64 else object)
    for wide, high, each in valued:
        i, j = across.index(wide), up.index(high)
        table[i, j] = max(table[i, j], each)
    rests = [rest_places(across, x) for x in across], [rest_places(up, y) for y in up]
    for i, x in enumerate(across):
        for j, y in enumerate(up):
            best = table[i, j]
            if y <= reach:
                best = max(best, table[i - 1, j] if i else 0, best_pair(table[:, j], rests[0][i]))
            if x <= reach:
                best = max(best, table[i, j - 1] if j else 0, best_pair(table[i], rests[1][j]))
            table[i, j] = best
    return int(table[-1, -1])


def reachable(sizes: Sequence[int], extent: int) -> list[int]:
    """0, all sums of the sizes up to `extent`, and `extent` itself, in order."""
    found = {0}
    for size in sorted(set(sizes), reverse=True):
        newest = found
        while newest:
            newest = {point + size for point in newest if point + size <= extent} - found
            found = found | newest
            if len(found) > MOST_POINTS:
                raise Mistake(
                    "The sizes have too many sums to check the bound.", do="Round the sizes to a coarser ruler."
                )
    return sorted(found | {extent})


def rest_places(points: list[int], whole: int) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]:
    """For each cut of `whole` at a point up to its middle: the place of the cut and the place of the largest point in the rest."""
    cuts = [place for place, point in enumerate(points) if 0 < point <= whole - point]
    rests = [bisect_right(points, whole - points[place]) - 1 for place in cuts]
    return np.array(cuts, dtype=np.intp), np.array(rests, dtype=np.intp)


def best_pair(line: npt.NDArray[np.int64], places: tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]) -> int:
    """The greatest sum of a cut's two sides along one line of the table."""
    cuts, rests = places
    return int((line[cuts] + line[rests]).max()) if len(cuts) else 0
