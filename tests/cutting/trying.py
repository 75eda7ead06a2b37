"""Answers by trying everything: every cut tree on a small grid, every way to divide pieces among sheets. Plain, slow, its own code."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations

from kitwright.cutting import PieceType, TrimmerLimits

__all__ = ["fewest_sheets", "fits_one_sheet", "largest_offcut"]

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

    @cache
    def fewest(group: tuple[int, ...]) -> int:
        if not group:
            return 0
        first, rest = group[:1], group[1:]
        return min(
            1 + fewest(tuple(one for one in rest if one not in some))
            for some in halves(rest)
            if sheets.fits((*first, *some), width, height)
        )

    if not all(sheets.fits((one,), width, height) for one in range(len(wanted))):
        return None
    return fewest(tuple(range(len(wanted))))


def largest_offcut(pieces: Sequence[PieceType], width: int, height: int) -> int:
    """The area of the largest rectangle that can be cut from one sheet besides all the pieces; 0 if there is none."""
    sizes = sorted(((w, h) for w in range(1, width + 1) for h in range(1, height + 1)), key=lambda s: -s[0] * s[1])
    for wide, high in sizes:
        if fits_one_sheet([*pieces, PieceType("offcut", wide, high, 1, (0,))], width, height, TrimmerLimits()):
            return wide * high
    return 0
