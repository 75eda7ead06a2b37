"""Few mats for pieces of any outline: each mat is filled as full as a nesting library can, and cut as often as it is of use.

The library (spyrrow, MIT licence) nests outlines into the shortest strip of a given height; whether that strip is shorter than the mat is
what is asked of it, for fuller and less full choices of pieces. It works against the clock: on another machine the layouts may be others.
Every layout is checked by `verify_nested`. There is no proof that fewer mats are impossible; `fewest_by_area` is a bound.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from typing import Final

from shapely import Polygon

from kitwright.cutting.nest import Mat, MatLayout, NestedPlan, Nestling, Outlined
from kitwright.cutting.nest_check import HAIR

__all__ = ["fewest_by_area", "nest"]

FULL: Final = (0.94, 0.88, 0.82, 0.76, 0.7, 0.62, 0.54, 0.45, 0.35, 0.25)
"""How much of a mat pieces with half the gap round them may cover, tried from the fullest."""

SECONDS: Final = 1
"""For each of the two phases of a try."""

SEED: Final = 20261125

Told = Callable[[int, int], bool]
"""Called with the mats found and the pieces left; answers whether to go on."""


def nest(pieces: Sequence[Outlined], mat: Mat, *, tell: Told | None = None, seconds: int = SECONDS) -> NestedPlan:
    """Mats for all the pieces. What goes onto no mat by itself, or was not reached when `tell` said stop, is `unplaced`."""
    kinds = {piece.name: piece for piece in pieces}
    left = Counter({piece.name: piece.count for piece in pieces if piece.count > 0})
    layouts: list[MatLayout] = []
    unplaced: dict[str, int] = {}
    fullest = 0
    for name in [name for name in left if not fits_alone(kinds[name], mat)]:
        unplaced[name] = left.pop(name)

    def goes_on() -> bool:
        return tell is None or tell(sum(each.times for each in layouts), sum(left.values()))

    while left and goes_on():
        lying, fullest = filled(kinds, left, mat, seconds, fullest, goes_on=goes_on)
        if not lying:
            break
        counts = Counter(each.name for each in lying)
        times = min(left[name] // count for name, count in counts.items())
        layouts.append(MatLayout(lying, times))
        for name, count in counts.items():
            left[name] -= count * times
        left = +left
    return NestedPlan(mat, tuple(layouts), {**unplaced, **left})


def fewest_by_area(pieces: Sequence[Outlined], mat: Mat) -> int:
    """A number of mats that cannot be undercut: all the paper of the pieces, as if it could lie without a gap."""
    return math.ceil(sum(piece.area * piece.count for piece in pieces) / (mat.width * mat.height) - 1e-9)


def fits_alone(piece: Outlined, mat: Mat) -> bool:
    """Whether one piece lies on a mat in one of its turns."""
    return any(width <= mat.width + HAIR and high <= mat.height + HAIR for width, high in sizes(piece))


def sizes(piece: Outlined) -> list[tuple[float, float]]:
    """Width and height in each of its turns."""
    left, low, right, high = Polygon(piece.outline).bounds
    return [(high - low, right - left) if turn % 2 else (right - left, high - low) for turn in piece.turns]


def filled(
    kinds: Mapping[str, Outlined],
    left: Counter[str],
    mat: Mat,
    seconds: int,
    fullest: int,
    *,
    goes_on: Callable[[], bool],
) -> tuple[tuple[Nestling, ...], int]:
    """One mat with as much of what is left as could be laid on it, at least one piece; and the place in `FULL` to begin the next from.

    Nothing lies on it where `goes_on` said stop between two tries, each of which takes a while.
    One step fuller than the last mat is as full as is tried: what did not go in before will hardly go in now.
    """
    tried: list[Counter[str]] = []
    for place in range(fullest, len(FULL)):
        chosen = choice(kinds, left, mat, FULL[place])
        if not chosen or chosen in tried:
            continue
        if tried and not goes_on():
            return (), fullest
        tried.append(chosen)
        lying = laid(kinds, chosen, mat, seconds) if chosen.total() > 1 else None
        if lying is not None:
            return lying, max(place - 1, 0)
    largest = max(left, key=lambda name: (kinds[name].area, name))
    return (alone(kinds[largest], mat),), fullest


def choice(kinds: Mapping[str, Outlined], left: Counter[str], mat: Mat, share: float) -> Counter[str]:
    """Pieces, the largest first, that with half the gap round them cover at most this share of a mat."""
    room = share * mat.width * mat.height
    chosen: Counter[str] = Counter()
    for name in sorted(left, key=lambda each: (-kinds[each].area, each)):
        own = Polygon(kinds[name].outline).buffer(mat.gap / 2, join_style="mitre").area
        count = min(left[name], int(room / own))
        if count:
            chosen[name] = count
            room -= count * own
    return chosen


def laid(
    kinds: Mapping[str, Outlined], chosen: Mapping[str, int], mat: Mat, seconds: int
) -> tuple[Nestling, ...] | None:
    """The chosen pieces on one mat; None where the library found no way."""
    import spyrrow  # noqa: PLC0415  (a compiled library, needed only here)

    if any(min(high for _, high in sizes(kinds[name])) > mat.height for name in chosen):
        return None
    items = [
        spyrrow.Item(name, list(kinds[name].outline), count, [90.0 * turn for turn in kinds[name].turns])
        for name, count in sorted(chosen.items())
    ]
    config = spyrrow.StripPackingConfig(
        total_computation_time=None,
        exploration_time=seconds,
        compression_time=seconds,
        num_workers=1,
        seed=SEED,
        min_items_separation=mat.gap or None,
    )
    found = spyrrow.StripPackingInstance("mat", mat.height, items).solve(config)
    lying = tuple(
        Nestling(each.id, round(each.rotation / 90) % 4, each.translation[0], each.translation[1])
        for each in found.placed_items
    )
    return pushed(kinds, lying, mat)


def pushed(kinds: Mapping[str, Outlined], lying: tuple[Nestling, ...], mat: Mat) -> tuple[Nestling, ...] | None:
    """All the pieces moved together into the corner of the mat; None where they are wider or higher than it."""
    boxes = [each.shape(kinds[each.name].outline).bounds for each in lying]
    left, low = min(box[0] for box in boxes), min(box[1] for box in boxes)
    if max(box[2] for box in boxes) - left > mat.width or max(box[3] for box in boxes) - low > mat.height:
        return None
    return tuple(Nestling(each.name, each.turn, each.x - left, each.y - low) for each in lying)


def alone(piece: Outlined, mat: Mat) -> Nestling:
    """One piece in the corner of a mat, in the first of its turns that fits."""
    for turn, (width, high) in zip(piece.turns, sizes(piece), strict=True):
        if width <= mat.width + HAIR and high <= mat.height + HAIR:
            left, low, _, _ = Nestling(piece.name, turn, 0.0, 0.0).shape(piece.outline).bounds
            return Nestling(piece.name, turn, -left, -low)
    raise ValueError(f"{piece.name} fits no mat")
