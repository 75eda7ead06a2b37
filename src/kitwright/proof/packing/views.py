"""Pictures of a packing as plain rectangles: seen from above and from the front, in the order in which they are painted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from kitwright.proof.packing.things import Placement

__all__ = ["ViewedThing", "front_view", "top_view"]


@dataclass(frozen=True, slots=True)
class ViewedThing:
    """One thing in a view, in mm: `x` to the right and `y` up from the lower left corner of the space.

    `is_seen` is False if the things nearer to the eye cover it wholly.
    """

    name: str
    copy: int
    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction
    is_seen: bool


def top_view(placements: Sequence[Placement]) -> tuple[ViewedThing, ...]:
    """Seen from above, the front of the box below; farthest (lowest) things first, so that later ones are painted over them."""
    return _view(placements, across=0, up=1, away=2, is_near_large=True)


def front_view(placements: Sequence[Placement]) -> tuple[ViewedThing, ...]:
    """Seen from the front, through the front wall; farthest things first."""
    return _view(placements, across=0, up=2, away=1, is_near_large=False)


def _view(
    placements: Sequence[Placement], *, across: int, up: int, away: int, is_near_large: bool
) -> tuple[ViewedThing, ...]:
    sign = 1 if is_near_large else -1
    ordered = sorted(placements, key=lambda each: (sign * each.corner[away], each.name, each.copy))
    shapes = [
        (each.corner[across], each.corner[up], each.corner[across] + each.size[across], each.corner[up] + each.size[up])
        for each in ordered
    ]
    return tuple(
        ViewedThing(
            name=each.name,
            copy=each.copy,
            x=each.corner[across],
            y=each.corner[up],
            width=each.size[across],
            height=each.size[up],
            is_seen=_is_seen(shapes[place], shapes[place + 1 :]),
        )
        for place, each in enumerate(ordered)
    )


_Rectangle = tuple[Fraction, Fraction, Fraction, Fraction]


def _is_seen(shape: _Rectangle, nearer: Sequence[_Rectangle]) -> bool:
    """Whether some part of the rectangle is covered by none of the nearer ones: looked at cell by cell of their edges."""
    left, low, right, high = shape
    meeting = [each for each in nearer if each[0] < right and left < each[2] and each[1] < high and low < each[3]]
    xs = sorted({left, right, *(x for each in meeting for x in (each[0], each[2]) if left < x < right)})
    ys = sorted({low, high, *(y for each in meeting for y in (each[1], each[3]) if low < y < high)})
    return any(
        not any(each[0] <= x < each[2] and each[1] <= y < each[3] for each in meeting) for x in xs[:-1] for y in ys[:-1]
    )
