"""Checking a lower bound from its certificate alone, in whole numbers, by an exact programme over all cut trees.

Shares no code with the search. The question for each stock: can the pieces of one sheet be worth more than the certificate allows? If they
can as long as nothing is counted, it is asked once more with the pieces counted that the certificate names.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from kitwright.cutting.counted_check import Rated, Worths, can_hold_more
from kitwright.cutting.stock import PieceType, Stock

__all__ = ["are_worth_at_most"]

Valued = tuple[int, int, int]
"""Width, height, worth of a piece as it may lie."""

LARGEST_INT64: Final = 2**62
"""Sums below this do not run over in a machine word."""

MOST_POINTS: Final = 1_500
MOST_SUMS: Final = 100_000_000
"""A table with more positions than this along an edge, or for which more sums of two sides would be compared, is not made."""


def are_worth_at_most(
    stocks: Sequence[Stock],
    demand: Sequence[PieceType],
    worth: Mapping[str, int],
    limits: Mapping[str, int],
    longest_cut: int | None,
    *,
    counted: Collection[str] = (),
    step: int | None = None,
) -> tuple[str, ...]:
    """The names of the stocks on which some cut tree is worth more than its limit, or where that would take too long to tell.

    A cut tree may hold any number of each piece; with pieces that are `counted`, only as many of each as are wanted. With a `step` (nm)
    all lengths are rounded down to whole steps, which never makes a sheet worth less: if some lengths go into a side, the whole steps in
    each of them are together no more than those in the side.
    """
    groups: dict[tuple[PieceType, ...], list[Stock]] = {}
    for stock in stocks:
        held = tuple(piece for piece in demand if piece.may_come_from(stock) and worth.get(piece.name, 0) > 0)
        valued = valued_sizes(held, worth)
        limit, area = limits[stock.name], stock.usable_width * stock.usable_height
        # no table is needed if no piece is worth more for its area than the whole sheet may be
        if limit < 0 or not all(each * area <= wide * high * limit for wide, high, each in valued):
            groups.setdefault(held, []).append(stock)
    found = []
    for held, alike in groups.items():
        sizes = [(stock.usable_width, stock.usable_height) for stock in alike]
        areas = value_areas(sizes, valued_sizes(held, worth), longest_cut, step)
        if areas is None:
            found += [stock.name for stock in alike]
            continue
        rated = rated_pieces(held, worth, counted, areas.unit)
        for stock, size in zip(alike, sizes, strict=True):
            limit = limits[stock.name]
            if areas.value(size) > limit and (not counted or areas.may_hold_more(size, rated, limit)):
                found.append(stock.name)
    return tuple(found)


def valued_sizes(held: Sequence[PieceType], worth: Mapping[str, int]) -> tuple[Valued, ...]:
    """The sizes in which the pieces may lie."""
    return tuple((*piece.size(turn), worth[piece.name]) for piece in held for turn in sorted(set(piece.turns)))


@dataclass(frozen=True, slots=True, eq=False)
class Areas:
    """What areas are worth at most: `table[i, j]` for `across[i]` × `up[j]`, in steps of `unit` nm."""

    unit: int
    across: list[int]
    up: list[int]
    table: npt.NDArray[np.int64]

    def value(self, size: tuple[int, int]) -> int:
        """Of an area that the table was made for (nm)."""
        return int(self.table[self.across.index(size[0] // self.unit), self.up.index(size[1] // self.unit)])

    def may_hold_more(self, size: tuple[int, int], rated: Sequence[Rated], limit: int) -> bool:
        """Whether a sheet of this size (nm) may be worth more than the limit with no piece more often than wanted."""
        if self.table.dtype == object:
            return True
        width, height = size[0] // self.unit, size[1] // self.unit
        return can_hold_more((width, height), rated, limit, Worths(self.across, self.up, self.table))


def rated_pieces(
    held: Sequence[PieceType], worth: Mapping[str, int], counted: Collection[str], unit: int
) -> tuple[Rated, ...]:
    """The pieces, those that are alike put together, in steps of `unit` nm."""
    wanted: dict[tuple[tuple[tuple[int, int], ...], int, bool], int] = {}
    for piece in held:
        sizes = sorted({piece.size(turn) for turn in piece.turns})
        key = tuple((wide // unit, high // unit) for wide, high in sizes), worth[piece.name], piece.name in counted
        wanted[key] = wanted.get(key, 0) + piece.count
    return tuple(Rated(sizes, each, count, is_counted) for (sizes, each, is_counted), count in wanted.items())


def value_areas(
    sizes: Sequence[tuple[int, int]], valued: Sequence[Valued], longest_cut: int | None, step: int | None
) -> Areas | None:
    """The greatest worth of pieces that straight cuts can take from each area that can become of such sheets; None: too large a table.

    The recursion of Gilmore and Gomory (Operations Research 13, 1965) over the positions that sums of piece sizes can reach
    (Herz, IBM J. Res. Dev. 16, 1972). Only positions up to half of an area are tried as cuts: the other half is its mirror.
    Columns that differ by less than the narrowest piece cannot be cut from each other and are worked out together.
    """
    lengths = [*(length for size in sizes for length in size), *(length for one in valued for length in one[:2])]
    if step is not None and not 0 < step <= min(lengths):
        return None
    unit = step or math.gcd(*lengths, longest_cut or 0)
    width, height = max(size[0] for size in sizes) // unit, max(size[1] for size in sizes) // unit
    reach = max(width, height) if longest_cut is None else longest_cut // unit
    valued = [
        (wide // unit, high // unit, each)
        for wide, high, each in valued
        if wide // unit <= width and high // unit <= height
    ]
    across = reachable([wide for wide, _, _ in valued], width, {size[0] // unit for size in sizes})
    up = reachable([high for _, high, _ in valued], height, {size[1] // unit for size in sizes})
    if across is None or up is None or sums_of(across, up) > MOST_SUMS:
        return None
    smallest = min((wide * high for wide, high, _ in valued), default=1)
    most = max((each for _, _, each in valued), default=0) * (width * height // smallest + 1)
    table = np.zeros((len(across), len(up)), dtype=np.int64 if most < LARGEST_INT64 else object)
    for wide, high, each in valued:
        i, j = across.index(wide), up.index(high)
        table[i, j] = max(table[i, j], each)
    short, narrow = bisect_right(up, reach), bisect_right(across, reach)
    columns = [rest_places(across, x) for x in across]
    rows = [rest_places(up, y) for y in up]
    step = min((wide for wide, _, _ in valued), default=1)
    start = 0
    while start < len(across):
        stop = bisect_right(across, across[start] + step - 1)
        for i in range(start, stop):
            cuts, rests = columns[i]
            if len(cuts):  # vertical cuts are as long as the area is high
                pairs = (table[cuts, :short] + table[rests, :short]).max(axis=0)
                table[i, :short] = np.maximum(table[i, :short], pairs)
        block, cuttable = table[start:stop], table[start : min(stop, max(start, narrow))]
        for j in range(len(up)):
            cuts, rests = rows[j]
            if len(cuts):  # horizontal cuts are as long as the area is wide
                pairs = (cuttable[:, cuts] + cuttable[:, rests]).max(axis=1)
                cuttable[:, j] = np.maximum(cuttable[:, j], pairs)
            if j:
                cuttable[:, j] = np.maximum(cuttable[:, j], cuttable[:, j - 1])
            if j < short:
                if start:
                    block[0, j] = max(block[0, j], table[start - 1, j])
                block[:, j] = np.maximum.accumulate(block[:, j])
        start = stop
    return Areas(unit, across, up, table)


def sums_of(across: list[int], up: list[int]) -> int:
    """How many sums of two sides a table with these positions compares."""
    cuts_x, cuts_y = (sum(bisect_right(line, end // 2) - 1 for end in line) for line in (across, up))
    return cuts_x * len(up) + cuts_y * len(across)


def reachable(sizes: Sequence[int], extent: int, extents: set[int]) -> list[int] | None:
    """0, all sums of the sizes up to `extent`, and the `extents` themselves, in order; None where there are too many."""
    found = {0}
    for size in sorted(set(sizes), reverse=True):
        newest = found
        while newest:
            newest = {point + size for point in newest if point + size <= extent} - found
            found = found | newest
            if len(found) > MOST_POINTS:
                return None
    return sorted(found | extents)


def rest_places(points: list[int], whole: int) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]:
    """For each cut of `whole` at a point up to its middle: the place of the cut and the place of the largest point in the rest."""
    cuts = [place for place, point in enumerate(points) if 0 < point <= whole - point]
    rests = [bisect_right(points, whole - points[place]) - 1 for place in cuts]
    return np.array(cuts, dtype=np.intp), np.array(rests, dtype=np.intp)
