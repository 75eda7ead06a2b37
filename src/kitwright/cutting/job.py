"""The question as the search sees it: whole numbers on the coarsest exact grid, pieces of the same kind put together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from kitwright.cutting.check import can_hold, is_bared_first, is_within_reach
from kitwright.cutting.plan import prices_of
from kitwright.cutting.stock import PieceType, Stock, TrimmerLimits

__all__ = ["Job", "Kind", "Ranges", "Sheet", "make_job", "ranges_of"]

Ranges = tuple[tuple[int, int | None], ...]
"""For each sheet of a job, how many of it may be used: at least, at most (None: no end)."""


@dataclass(frozen=True, slots=True)
class Kind:
    """All pieces that are alike to the search: `poses` are the sizes in which they may lie."""

    pieces: tuple[PieceType, ...]
    poses: tuple[tuple[int, int], ...]
    sheets: frozenset[int]

    @property
    def count(self) -> int:
        """How many are wanted in all."""
        return sum(piece.count for piece in self.pieces)

    @property
    def area(self) -> int:
        """The area of one."""
        return self.poses[0][0] * self.poses[0][1]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The usable area of one stock; `count` None means as many as wanted."""

    stock: Stock
    width: int
    height: int
    price: int
    count: int | None


@dataclass(frozen=True, slots=True)
class Job:
    """Kinds and sheets in grid units of `unit` nm each. `reach` is the longest cut (no limit: the longest side)."""

    kinds: tuple[Kind, ...]
    sheets: tuple[Sheet, ...]
    reach: int
    strip: int
    unit: int

    @property
    def demand(self) -> tuple[int, ...]:
        """How many of each kind are wanted."""
        return tuple(kind.count for kind in self.kinds)


def make_job(demand: Sequence[PieceType], stocks: Sequence[Stock], trimmer: TrimmerLimits) -> Job:
    """The job for pieces that each fit on some sheet. Stocks that are out, or of which the trimmer cannot begin, are left out."""
    prices = prices_of(stocks)
    usable = [
        (stock, price)
        for stock, price in zip(stocks, prices, strict=True)
        if stock.count != 0 and is_within_reach(stock, trimmer)
    ]
    lengths = [length for piece in demand for length in (piece.width, piece.height)]
    lengths += [length for stock, _ in usable for length in (stock.usable_width, stock.usable_height)]
    lengths += [trimmer.smallest_strip, trimmer.longest_cut or 0]
    unit = math.gcd(*lengths) or 1
    sheets = tuple(
        Sheet(stock, stock.usable_width // unit, stock.usable_height // unit, price, stock.count)
        for stock, price in usable
    )
    longest = max((max(sheet.width, sheet.height) for sheet in sheets), default=0)
    reach = longest if trimmer.longest_cut is None else trimmer.longest_cut // unit
    kinds = kinds_of(demand, [sheet.stock for sheet in sheets], trimmer, unit)
    return Job(kinds, sheets, reach, trimmer.smallest_strip // unit, unit)


def ranges_of(job: Job) -> Ranges:
    """How many of each sheet may be used, as the counts of the stocks alone say it."""
    return tuple((0, sheet.count) for sheet in job.sheets)


def kinds_of(
    demand: Sequence[PieceType], stocks: Sequence[Stock], trimmer: TrimmerLimits, unit: int
) -> tuple[Kind, ...]:
    """Pieces grouped by sizes in which they may lie and stocks they may come from, the largest area first."""
    groups: dict[tuple[frozenset[tuple[int, int]], frozenset[int]], list[PieceType]] = {}
    for piece in demand:
        sizes = frozenset(piece.size(turn) for turn in piece.turns)
        allowed = frozenset(index for index, stock in enumerate(stocks) if may_hold(stock, piece, trimmer))
        groups.setdefault((sizes, allowed), []).append(piece)
    kinds = []
    for (sizes, allowed), pieces in groups.items():
        poses = tuple((width // unit, height // unit) for width, height in sorted(sizes, reverse=True))
        kinds.append(Kind(tuple(pieces), poses, allowed))
    return tuple(sorted(kinds, key=lambda kind: (-kind.area, kind.poses, kind.pieces[0].name)))


def may_hold(stock: Stock, piece: PieceType, trimmer: TrimmerLimits) -> bool:
    """Whether a piece may be laid on a stock: on one that keeps margins when it is first cut, only if they can be cut off the piece."""
    return piece.may_come_from(stock) and (
        is_bared_first(stock, trimmer.longest_cut) or any(can_hold(stock, piece, turn, trimmer) for turn in piece.turns)
    )
