"""Answers by trying everything: every cut tree on a small grid, every way to divide pieces among sheets. Plain, slow, its own code."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import combinations

from kitwright.cutting import PieceType, Stock, TrimmerLimits

__all__ = ["WithMargins", "fewest_of", "fewest_sheets", "fits_one_sheet", "largest_offcut"]

Sizes = tuple[tuple[int, int], ...]
"""The sizes in which one piece may lie."""


def sizes_of(piece: PieceType) -> Sizes:
    """Width and height for every allowed quarter turn."""
    return tuple(
        {(piece.height, piece.width) if turn in (1, 3) else (piece.width, piece.height) for turn in piece.turns}
    )


def each(pieces: Sequence[PieceType]) -> tuple[Sizes, ...]:
    """One entry for every single piece that is wanted."""
    return tuple(sizes_of(piece) for piece in pieces for _ in range(piece.count))


def halves(group: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Every part of a group, none and all of it too."""
    for size in range(len(group) + 1):
        yield from combinations(group, size)


class Sheets:
    """All cut trees for some pieces on areas of a grid, with a longest cut and a narrowest strip that can be held."""

    def __init__(self, wanted: Sequence[Sizes], limits: TrimmerLimits) -> None:
        self.wanted = wanted
        self.reach = limits.longest_cut or 10**9
        self.strip = limits.smallest_strip
        self.fits = cache(self.try_all)

    def try_all(self, group: tuple[int, ...], wide: int, high: int) -> bool:
        """Whether the pieces of a group can be cut from an area."""
        if not group or (len(group) == 1 and (wide, high) in self.wanted[group[0]]):
            return True
        if sum(min(w * h for w, h in self.wanted[one]) for one in group) > wide * high:
            return False
        return self.split(group, wide, high, upright=True) or self.split(group, high, wide, upright=False)

    def split(self, group: tuple[int, ...], extent: int, length: int, *, upright: bool) -> bool:
        """The same by a first cut of some length across `extent`."""
        if length > self.reach:
            return False

        def area(at: int) -> tuple[int, int]:
            return (at, length) if upright else (length, at)

        return any(
            self.fits(some, *area(at)) and self.fits(tuple(one for one in group if one not in some), *area(extent - at))
            for at in range(1, extent)
            if max(at, extent - at) >= self.strip
            for some in halves(group)
        )


def fits_one_sheet(pieces: Sequence[PieceType], width: int, height: int, limits: TrimmerLimits) -> bool:
    """Whether all the pieces can be cut from one sheet."""
    wanted = each(pieces)
    return Sheets(wanted, limits).fits(tuple(range(len(wanted))), width, height)


def fewest_sheets(pieces: Sequence[PieceType], width: int, height: int, limits: TrimmerLimits) -> int | None:
    """The fewest sheets for the pieces; None if one of them cannot be cut at all."""
    wanted = each(pieces)
    sheets = Sheets(wanted, limits)
    return fewest_of(len(wanted), lambda group: sheets.fits(group, width, height))


def fewest_of(pieces: int, fit: Callable[[tuple[int, ...]], bool]) -> int | None:
    """The fewest sheets for so many pieces, where `fit` tells which of them fit on one; None if one of them does not."""

    @cache
    def fewest(group: tuple[int, ...]) -> int:
        if not group:
            return 0
        first, rest = group[:1], group[1:]
        return min(
            1 + fewest(tuple(one for one in rest if one not in some)) for some in halves(rest) if fit((*first, *some))
        )

    if not all(fit((one,)) for one in range(pieces)):
        return None
    return fewest(tuple(range(pieces)))


Rectangle = tuple[int, int, int, int]
"""Left, bottom, right, top on the whole sheet."""


class WithMargins:
    """All orders of all cuts, through the whole sheet and through what comes of it, margins or not, wherever they run."""

    def __init__(self, pieces: Sequence[PieceType], stock: Stock, limits: TrimmerLimits) -> None:
        self.wanted = each(pieces)
        self.sheet = 0, 0, stock.width, stock.height
        edges = stock.margins
        self.usable = edges.left, edges.bottom, stock.width - edges.right, stock.height - edges.top
        self.reach = limits.longest_cut or 10**9
        self.strip = limits.smallest_strip
        self.fits = cache(self.try_all)

    def fit(self, group: tuple[int, ...]) -> bool:
        """Whether the pieces of a group can be cut from one sheet."""
        return self.fits(group, self.sheet)

    def try_all(self, group: tuple[int, ...], paper: Rectangle) -> bool:
        """Whether the pieces of a group can be cut from a part of the sheet."""
        left, bottom, right, top = paper
        low, high = self.usable[:2], self.usable[2:]
        if not group:
            return True
        is_bare = left >= low[0] and bottom >= low[1] and right <= high[0] and top <= high[1]
        if is_bare and len(group) == 1 and (right - left, top - bottom) in self.wanted[group[0]]:
            return True
        room = (min(right, high[0]) - max(left, low[0])) * (min(top, high[1]) - max(bottom, low[1]))
        if sum(min(w * h for w, h in self.wanted[one]) for one in group) > room:
            return False
        return any(
            self.fits(some, first) and self.fits(tuple(one for one in group if one not in some), second)
            for first, second in self.cuts(paper)
            for some in halves(group)
        )

    def cuts(self, paper: Rectangle) -> Iterator[tuple[Rectangle, Rectangle]]:
        """What every cut that the trimmer can make leaves: the hand holds the wider side, as wide as it is without margins."""
        left, bottom, right, top = paper
        if top - bottom <= self.reach:
            for at in range(left + 1, right):
                if self.is_held(0, left, at, right):
                    yield (left, bottom, at, top), (at, bottom, right, top)
        if right - left <= self.reach:
            for at in range(bottom + 1, top):
                if self.is_held(1, bottom, at, top):
                    yield (left, bottom, right, at), (left, at, right, top)

    def is_held(self, axis: int, start: int, at: int, end: int) -> bool:
        """Whether one of the sides of a cut is wide enough."""
        low, high = self.usable[axis], self.usable[axis + 2]
        return max(min(at, high) - max(start, low), min(end, high) - max(at, low)) >= self.strip


def largest_offcut(pieces: Sequence[PieceType], width: int, height: int) -> int:
    """The area of the largest rectangle that can be cut from one sheet besides all the pieces; 0 if there is none."""
    sizes = sorted(((w, h) for w in range(1, width + 1) for h in range(1, height + 1)), key=lambda s: -s[0] * s[1])
    for wide, high in sizes:
        if fits_one_sheet([*pieces, PieceType("offcut", wide, high, 1, (0,))], width, height, TrimmerLimits()):
            return wide * high
    return 0
