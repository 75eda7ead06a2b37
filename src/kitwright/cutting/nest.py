"""Pieces of any outline on the mats of a cutting machine: what is asked, and what a layout is. Millimetres, quarter turns to the left."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from shapely import Polygon
from shapely.affinity import rotate, translate

from kitwright.errors import Mistake

__all__ = ["Mat", "MatLayout", "NestedPlan", "Nestling", "Outlined"]

Ring = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Outlined:
    """A kind of piece: its outer ring of points as it is drawn, how many are wanted, and the quarter turns that it may lie in."""

    name: str
    outline: Ring
    count: int
    turns: tuple[int, ...] = (0,)

    @property
    def area(self) -> float:
        """Of one piece, mm²."""
        return float(Polygon(self.outline).area)


@dataclass(frozen=True, slots=True)
class Mat:
    """The room in which pieces may lie, `width` × `height`, and the card that must stay between two of them.

    Raises `Mistake` for a mat without room or a gap below zero.
    """

    width: float
    height: float
    gap: float

    def __post_init__(self) -> None:
        if self.width <= 0 or self.height <= 0:
            raise Mistake("The mat has no room inside its edges.", do="Make the edges smaller, or the mat larger.")
        if self.gap < 0:
            raise Mistake("The gap between pieces is below zero.", do="Write 0 or more.")


@dataclass(frozen=True, slots=True)
class Nestling:
    """One piece on a mat: turned so many quarters to the left about its own zero point, then moved there."""

    name: str
    turn: int
    x: float
    y: float

    def shape(self, outline: Ring) -> Polygon:
        """The piece where it lies."""
        return translate(rotate(Polygon(outline), 90 * self.turn, origin=(0, 0)), self.x, self.y)


@dataclass(frozen=True, slots=True)
class MatLayout:
    """The pieces of one mat, and how many mats are cut so."""

    pieces: tuple[Nestling, ...]
    times: int

    @property
    def counts(self) -> Counter[str]:
        """How many pieces of each kind lie on one mat."""
        return Counter(piece.name for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class NestedPlan:
    """All mats of a paper; `unplaced` names kinds that go onto no mat, with how many of them are wanted.

    `unreached` are pieces that a search had no mat for when it was stopped; of them nothing is known.
    """

    mat: Mat
    layouts: tuple[MatLayout, ...]
    unplaced: Mapping[str, int]
    unreached: Mapping[str, int] = field(default_factory=dict)

    @property
    def mats(self) -> int:
        """How many mats are cut."""
        return sum(layout.times for layout in self.layouts)
