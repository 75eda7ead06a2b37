"""The same pieces on one sheet arranged anew, so that what is left over lies together: exact, for a handful of pieces.

For every part of the pieces, the smallest rectangles that some cut tree gets them out of are worked out from those of smaller parts
(shape functions, as in R. H. J. M. Otten, Proc. 19th Design Automation Conference, 1982). Sides of a cut may change places, so the
offcut may be thought of in the upper right corner, freed by strips from the left and from below.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product
from typing import Final

from kitwright.cutting.stock import PieceType
from kitwright.cutting.tree import Axis, Cut, CutTree, Offcut, Part

__all__ = ["arrangements"]

Counts = tuple[int, ...]
"""How many of each piece, in the order of the pieces."""

Shape = tuple[int, int, CutTree]
"""Width and height (nm) of a rectangle, and a cut tree that gets the pieces out of exactly that."""

MOST_WORK: Final = 60_000
"""Shapes and strips looked at before it is given up."""


MICROSECONDS_A_SHAPE: Final = 2
"""About so long each takes."""


class TooManyPiecesError(Exception):
    """There are too many ways to arrange these pieces; used in this file only."""


@dataclass(slots=True)
class Arranger:
    """Works on one sheet; `shapes` are the smallest rectangles for each part of the pieces, the narrowest first."""

    pieces: Sequence[PieceType]
    width: int
    height: int
    shapes: dict[Counts, list[Shape]] = field(default_factory=dict)
    corners: dict[tuple[Counts, int, int], list[Shape]] = field(default_factory=dict)
    work: int = 0

    def spend(self, work: int) -> None:
        """Count what is done; raises `TooManyPiecesError` when it is too much."""
        self.work += work
        if self.work > MOST_WORK:
            raise TooManyPiecesError

    def shapes_of(self, counts: Counts) -> list[Shape]:
        """The smallest rectangles that these pieces can be cut from."""
        if counts not in self.shapes:
            found = list(self.singles(counts)) if sum(counts) == 1 else list(self.joined(counts))
            self.spend(len(found) + 1)
            self.shapes[counts] = outermost_first(found, smallest=True)
        return self.shapes[counts]

    def singles(self, counts: Counts) -> Iterator[Shape]:
        """One piece alone, every way it may lie."""
        piece = self.pieces[counts.index(1)]
        for turn in sorted(piece.turns):
            width, height = piece.size(turn)
            if width <= self.width and height <= self.height:
                yield width, height, Part(piece.name, turn)

    def joined(self, counts: Counts) -> Iterator[Shape]:
        """Two groups side by side or one above the other."""
        for some in parts_of(counts):
            rest = minus(counts, some)
            if not any(some) or not any(rest) or some > rest:
                continue
            low, high = self.shapes_of(some), self.shapes_of(rest)
            self.spend(len(low) * len(high))
            for one, other in product(low, high):
                wide, tall = one[0] + other[0], max(one[1], other[1])
                if wide <= self.width and tall <= self.height:
                    yield wide, tall, Cut(Axis.VERTICAL, one[0], grown(one, one[0], tall), grown(other, other[0], tall))
                wide, tall = max(one[0], other[0]), one[1] + other[1]
                if wide <= self.width and tall <= self.height:
                    cut = Cut(Axis.HORIZONTAL, one[1], grown(one, wide, one[1]), grown(other, wide, other[1]))
                    yield wide, tall, cut

    def offcuts_beside(self, counts: Counts, width: int, height: int) -> list[Shape]:
        """The largest offcuts beside these pieces on an area of this size, each with the tree of the whole area."""
        if not any(counts):
            return [(width, height, Offcut())]
        key = (counts, width, height)
        if key not in self.corners:
            self.corners[key] = outermost_first(list(self.freed(counts, width, height)), smallest=False)
        return self.corners[key]

    def freed(self, counts: Counts, width: int, height: int) -> Iterator[Shape]:
        """An offcut after a strip with some of the pieces is cut off at the left or from below."""
        for some in parts_of(counts):
            if not any(some):
                continue
            rest = minus(counts, some)
            strips = self.shapes_of(some)
            self.spend(len(strips) + 1)
            beside = next((shape for shape in strips if shape[1] <= height and shape[0] < width), None)
            if beside is not None:
                at = beside[0]
                for wide, tall, tree in self.offcuts_beside(rest, width - at, height):
                    yield wide, tall, Cut(Axis.VERTICAL, at, grown(beside, at, height), tree)
            below = next((shape for shape in reversed(strips) if shape[0] <= width and shape[1] < height), None)
            if below is not None:
                at = below[1]
                for wide, tall, tree in self.offcuts_beside(rest, width, height - at):
                    yield wide, tall, Cut(Axis.HORIZONTAL, at, grown(below, width, at), tree)


def arrangements(
    counts: Mapping[str, int], pieces: Sequence[PieceType], width: int, height: int
) -> tuple[list[Shape], int]:
    """Cut trees of an area of this size (nm) that give exactly these pieces, each with the size of its largest offcut; and the work.

    None of the offcuts lies inside another one; the largest area comes first. The trimmer's limits are not looked at. There are none
    where the pieces are too many. The work is counted in microseconds.
    """
    used = [piece for piece in pieces if counts.get(piece.name)]
    wanted = tuple(counts[piece.name] for piece in used)
    # every part of the pieces is parted in two in every way, so this much work there is at least
    if math.prod((count + 1) * (count + 2) // 2 for count in wanted) // 2 > MOST_WORK:
        return [], 0
    arranger = Arranger(used, width, height)
    try:
        found = arranger.offcuts_beside(wanted, width, height)
    except TooManyPiecesError:
        found = []
    best_first = sorted(found, key=lambda shape: (-shape[0] * shape[1], shape[0]))
    return best_first, arranger.work * MICROSECONDS_A_SHAPE


def parts_of(counts: Counts) -> Iterator[Counts]:
    """Every part of a group of pieces, none and all among them."""
    return product(*(range(count + 1) for count in counts))


def minus(counts: Counts, some: Counts) -> Counts:
    """What is left of a group without some of it."""
    return tuple(whole - part for whole, part in zip(counts, some, strict=True))


def outermost_first(shapes: list[Shape], *, smallest: bool) -> list[Shape]:
    """The shapes by width, without those that another one makes useless: no smaller one inside (or no larger one around)."""
    kept: list[Shape] = []
    for shape in sorted(shapes, key=lambda shape: shape[:2] if smallest else (-shape[0], -shape[1])):
        if not kept or (shape[1] < kept[-1][1] if smallest else shape[1] > kept[-1][1]):
            kept.append(shape)
    return kept


def grown(shape: Shape, width: int, height: int) -> CutTree:
    """The tree of a shape on an area that is as large or larger in one direction: what is too much is cut off first."""
    wide, tall, tree = shape
    if height > tall:
        return Cut(Axis.HORIZONTAL, tall, grown((wide, tall, tree), width, tall), Offcut())
    if width > wide:
        return Cut(Axis.VERTICAL, wide, tree, Offcut())
    return tree
