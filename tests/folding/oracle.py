"""A second fold engine for the tests: quarter turns only, integer matrices and exact fractions. Shares no code with the first.

A quarter turn about an axis of the plane never needs a root or a sine, so whatever this engine says of a closed box is exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from kitwright.pattern import Blank

Vector = tuple[Fraction, Fraction, Fraction]
Square = tuple[tuple[int, int, int], ...]

UNTURNED: Square = ((1, 0, 0), (0, 1, 0), (0, 0, 1))


@dataclass(frozen=True, slots=True)
class Place:
    """An exact rigid motion: an integer turn, then a move."""

    turn: Square
    move: Vector

    def point(self, at: Vector) -> Vector:
        x, y, z = (sum((self.turn[i][j] * at[j] for j in range(3)), self.move[i]) for i in range(3))
        return (x, y, z)


def exact(point: tuple[float, float]) -> Vector:
    return (Fraction(point[0]), Fraction(point[1]), Fraction(0))


def quarter(axis: tuple[int, int], quarters: int) -> Square:
    """The right-handed turn about a unit axis (x, y, 0) by so many quarters."""
    x, y = axis
    one = ((x * x, x * y, y), (x * y, y * y, -x), (-y, x, 0))
    result = UNTURNED
    for _ in range(quarters % 4):
        result = tuple(
            tuple(sum(one[i][k] * result[k][j] for k in range(3)) for j in range(3))  # type: ignore[misc]
            for i in range(3)
        )
    return result


def fold_exactly(blank: Blank) -> dict[str, Place]:
    """Where each panel of a blank lies once all its scores are folded; angles must be whole quarter turns."""
    places = {blank.root.name: Place(UNTURNED, (Fraction(0), Fraction(0), Fraction(0)))}
    waiting = list(blank.scores)
    while waiting:
        score = next(score for score in waiting if score.parent in places)
        waiting.remove(score)
        quarters, rest = divmod(Fraction(score.angle), 90)
        if rest:
            raise ValueError(f"{score.angle} is not a whole quarter turn")
        start, end = exact(score.start), exact(score.end)
        dx, dy = end[0] - start[0], end[1] - start[1]
        if dx and dy:
            raise ValueError("the score runs neither along x nor along y")
        turn = quarter(((dx > 0) - (dx < 0), (dy > 0) - (dy < 0)), -int(quarters))
        parent = places[score.parent]
        about = tuple(start[i] - sum(turn[i][j] * start[j] for j in range(3)) for i in range(3))
        mixed = tuple(tuple(sum(parent.turn[i][k] * turn[k][j] for k in range(3)) for j in range(3)) for i in range(3))
        places[score.child] = Place(mixed, parent.point(about))  # type: ignore[arg-type]
    return places


def exact_corners(blank: Blank) -> dict[str, tuple[Vector, ...]]:
    """The corners of every folded panel."""
    places = fold_exactly(blank)
    return {panel.name: tuple(places[panel.name].point(exact(p)) for p in panel.outline) for panel in blank.panels}


def closes(blank: Blank) -> bool:
    """Whether every edge of the folded panels meets exactly one other edge, run the other way."""
    edges: dict[tuple[Vector, Vector], int] = {}
    for corners in exact_corners(blank).values():
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
            edges[a, b] = edges.get((a, b), 0) + 1
    return all(count == 1 and edges.get((b, a)) == 1 for (a, b), count in edges.items())


def is_open_cube(blank: Blank) -> bool:
    """Whether five folded unit squares lie on five different faces of one cube."""
    faces = {frozenset(corners) for corners in exact_corners(blank).values()}
    corners = {corner for face in faces for corner in face}
    return len(faces) == 5 and len(corners) == 8


def volume(blank: Blank) -> Fraction:
    """Signed volume inside the folded panels, above zero where the print side is outside (divergence theorem)."""
    total = Fraction(0)
    for corners in exact_corners(blank).values():
        a = corners[0]
        for b, c in pairwise(corners[1:]):
            cross = (b[1] * c[2] - b[2] * c[1], b[2] * c[0] - b[0] * c[2], b[0] * c[1] - b[1] * c[0])
            total += sum(a[i] * cross[i] for i in range(3))
    return total / 6
