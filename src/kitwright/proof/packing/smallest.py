"""The smallest inside size on the marks of a ruler that holds given things, by a measure that grows with every side.

Only sizes that some arrangement can use are looked at: a side is a sum of sizes of things, plus the clearance, rounded up to a mark.
Of the sizes that measure less than the best one found, it is enough to rule out those below which the others lie.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import permutations, product
from typing import Final

from kitwright.errors import Mistake
from kitwright.proof.packing.build import SHUFFLED
from kitwright.proof.packing.job import AXES, Item, normal_sums
from kitwright.proof.packing.pack import EFFORT, answer, check_names, checked_clearance
from kitwright.proof.packing.things import (
    DUST,
    NANOMETRES,
    AnyAnswer,
    Clearance,
    DoesNotFit,
    Packed,
    PackedThing,
    Space,
    Triple,
    Unknown,
)

__all__ = ["Fixed", "Size", "Smallest", "board_area", "smallest_inside"]

MOST_SIDES: Final = 32
"""Sides of one axis looked at where two or three axes are free; more are thinned out evenly, and then nothing is proved least."""

MOST_LIGHT: Final = 500
"""Sizes tried by construction alone."""

MOST_SEARCHED: Final = 6
"""Sizes searched with the solver."""

Size = tuple[Fraction, Fraction, Fraction]
Fixed = tuple[float | Fraction | None, float | Fraction | None, float | Fraction | None]


@dataclass(frozen=True, slots=True)
class Smallest:
    """The smallest size found (width, depth, height in mm), with its packing.

    `is_proved`: every size on the marks that measures less was ruled out. Otherwise a smaller one may exist.
    """

    size: Size
    packing: Packed
    is_proved: bool


def board_area(size: Size) -> Fraction:
    """The surface of a closed box of this inside size in mm², the usual measure of what is small."""
    width, depth, height = size
    return 2 * (width * depth + width * height + depth * height)


def smallest_inside(
    things: Sequence[PackedThing],
    *,
    step: Fraction,
    most: Space,
    fixed: Fixed = (None, None, None),
    clearance: float | Fraction | Clearance = 0,
    measure: Callable[[Size], Fraction] = board_area,
    effort: float = EFFORT,
) -> Smallest | DoesNotFit | Unknown:
    """The smallest inside size that holds the things with the clearance (free play in all, in mm).

    Sides that are not in `fixed` lie on marks every `step` mm and are at most those of `most`. `measure` must grow with each side.
    `DoesNotFit` if the things do not go into the largest size allowed; `Unknown` if that could not be decided.

    Raises `Mistake` as `pack` does, and for a step or a fixed side that is not above zero.
    """
    free = checked_clearance(clearance)
    check_names(things)
    if step <= 0 or any(side is not None and side <= 0 for side in fixed):
        raise Mistake(
            "A step or a fixed side must be larger than zero.", do="Use the marks of your ruler, such as 1/16 in."
        )
    marked = (side // step * step if given is None else given for side, given in zip(_sides(most), fixed, strict=True))
    width, depth, height = (Fraction(side) for side in marked)
    if min(width, depth, height) <= 0:
        raise Mistake(
            "The largest size allowed is smaller than one mark of the ruler.", do="Allow more, or choose finer marks."
        )
    largest = (width, depth, height)
    first = answer(things, Space(*largest), free, effort=effort, shuffled=SHUFFLED)
    if not isinstance(first, Packed):
        return first
    lists = tuple(
        _side_list(things, axis, step, side, Fraction(free[axis])) if given is None else (side,)
        for axis, side, given in zip(AXES, largest, fixed, strict=True)
    )
    return _Search(things, free, lists, measure, effort).run(Smallest(largest, first, is_proved=False))


def _sides(space: Space) -> Size:
    return Fraction(space.width), Fraction(space.depth), Fraction(space.height)


def _side_list(
    things: Sequence[PackedThing], axis: int, step: Fraction, largest: Fraction, free: Fraction
) -> tuple[Fraction, ...]:
    """The sides that some arrangement can use, on marks, in order; every mark where there are too many arrangements."""
    room = math.floor((largest - free) * NANOMETRES + DUST)
    items = [Item(index, thing.quantity, thing.ways) for index, thing in enumerate(things)]
    sums = normal_sums(items, axis, room)
    if sums is None:
        return tuple(step * mark for mark in range(1, math.floor(largest / step) + 1))
    marks = {math.ceil((Fraction(total, NANOMETRES) + free) / step - DUST / NANOMETRES) for total in sums if total}
    return tuple(step * mark for mark in sorted(marks) if step * mark <= largest)


def _thinned(sides: tuple[Fraction, ...]) -> tuple[Fraction, ...]:
    if len(sides) <= MOST_SIDES:
        return sides
    return tuple(sides[(len(sides) - 1) * place // (MOST_SIDES - 1)] for place in range(MOST_SIDES))


@dataclass(slots=True)
class _Search:
    """The state of one search: sizes are triples of places in `lists`."""

    things: Sequence[PackedThing]
    free: Clearance
    lists: tuple[tuple[Fraction, ...], ...]
    measure: Callable[[Size], Fraction]
    effort: float
    light_left: int = MOST_LIGHT
    searches_left: int = MOST_SEARCHED
    ruled_out: list[Triple] = field(default_factory=list)

    def run(self, best: Smallest) -> Smallest:
        """The smallest size from here on."""
        full = self.lists
        frees = sum(len(sides) > 1 for sides in full)
        if frees > 1:
            self.lists = tuple(_thinned(sides) for sides in full)
        is_whole = self.lists == full
        best = self.shrunk_every_way(best)
        best, is_proved = self.rule_out_smaller(best)
        if not is_whole:
            self.lists = full
            self.ruled_out.clear()
            best = self.shrunk_every_way(best)
        return Smallest(best.size, best.packing, is_proved=is_proved and is_whole)

    def size(self, places: Triple) -> Size:
        """The size in mm at these places of the lists."""
        width, depth, height = (sides[place] for sides, place in zip(self.lists, places, strict=True))
        return width, depth, height

    def look(self, size: Size, *, effort: float = 0.0) -> AnyAnswer:
        """Whether the things go into this size: by construction alone, or searched as well."""
        return answer(self.things, Space(*size), self.free, effort=effort, shuffled=SHUFFLED if effort else 8)

    def shrunk_every_way(self, best: Smallest) -> Smallest:
        """The best of shrinking the size side by side, in every order of the sides."""
        found = [self.shrunk(best, order) for order in permutations(AXES)]
        return min((best, *found), key=lambda each: self.measure(each.size))

    def shrunk(self, start: Smallest, order: tuple[int, ...]) -> Smallest:
        """Each side in turn as small as halving finds a packing for, the others kept."""
        best = start
        for axis in order:
            smaller = [side for side in self.lists[axis] if side < best.size[axis]]
            low, high = 0, len(smaller)
            while low < high and self.light_left > 0:
                self.light_left -= 1
                middle = (low + high) // 2
                size = _with(best.size, axis, smaller[middle])
                packed = self.look(size)
                if isinstance(packed, Packed):
                    best, high = Smallest(size, packed, is_proved=False), middle
                else:
                    low = middle + 1
        return best

    def rule_out_smaller(self, best: Smallest) -> tuple[Smallest, bool]:
        """Look at the largest sizes that measure less: a packing there is the new best, a proof rules out all that lies below."""
        undecided: set[Triple] = set()
        while True:
            better = None
            for places in list(self.smaller_sizes(best)):
                if places in undecided or self.is_ruled_out(places):
                    continue
                if self.light_left <= 0:
                    return best, False
                found = self.decided(places)
                if isinstance(found, Packed):
                    better = Smallest(self.size(places), found, is_proved=False)
                    break
                if isinstance(found, DoesNotFit):
                    self.ruled_out.append(places)
                else:
                    undecided.add(places)
            if better is None:
                return best, not undecided
            best = self.shrunk_every_way(better)

    def decided(self, places: Triple) -> AnyAnswer:
        """Whether the things go into the size at these places, searched if construction does not tell and searches are left."""
        self.light_left -= 1
        size = self.size(places)
        found = self.look(size)
        if isinstance(found, Unknown) and self.searches_left > 0:
            self.searches_left -= 1
            found = self.look(size, effort=self.effort)
        return found

    def smaller_sizes(self, best: Smallest) -> Iterator[Triple]:
        """The sizes that measure less than the best and lie below no other such size, as places."""
        limit = self.measure(best.size)
        tops: dict[tuple[int, int], int] = {}
        for width, depth in product(range(len(self.lists[0])), range(len(self.lists[1]))):
            tops[width, depth] = self.top(width, depth, limit)
        for (width, depth), top in tops.items():
            is_below_another = top <= max(tops.get((width + 1, depth), -1), tops.get((width, depth + 1), -1))
            if top >= 0 and not is_below_another:
                yield width, depth, top

    def top(self, width: int, depth: int, limit: Fraction) -> int:
        """The place of the largest height with which these two sides measure less than the limit; -1 if there is none."""
        low, high = 0, len(self.lists[2])
        while low < high:
            middle = (low + high) // 2
            if self.measure(self.size((width, depth, middle))) < limit:
                low = middle + 1
            else:
                high = middle
        return low - 1

    def is_ruled_out(self, places: Triple) -> bool:
        """Whether a size that holds this one was ruled out."""
        return any(all(own <= other for own, other in zip(places, each, strict=True)) for each in self.ruled_out)


def _with(size: Size, axis: int, side: Fraction) -> Size:
    changed = [*size]
    changed[axis] = side
    return changed[0], changed[1], changed[2]
