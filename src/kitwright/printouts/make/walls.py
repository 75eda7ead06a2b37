"""The sheets of card in the walls of a folded part, one by one, as a section through it shows them. Millimetres."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from kitwright.folding import MeasuredExtent
from kitwright.kit import BuiltPart
from kitwright.pattern import Axis

__all__ = ["Walls", "walls_along"]

Sheet = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Walls:
    """A part cut through along one axis: the sheets of its `low` and its `high` wall as (from, to), from the inside outwards.

    Measured from the inner face of the low wall. A solid thing (a pile of cards) has no sheets, only its `size`.
    """

    size: float
    low: tuple[Sheet, ...] = ()
    high: tuple[Sheet, ...] = ()

    @property
    def outer(self) -> Sheet:
        """The outer faces."""
        return (self.low[-1][0] if self.low else 0.0), (self.high[-1][1] if self.high else self.size)

    def moved(self, by: float) -> Walls:
        """The same walls elsewhere along the axis; `size` is kept."""
        return Walls(
            self.size,
            tuple((start + by, end + by) for start, end in self.low),
            tuple((start + by, end + by) for start, end in self.high),
        )


def walls_along(part: BuiltPart, axis: Axis) -> Walls:
    """The walls of a part along an axis; without sheets where it has no inside there.

    What is taken from the inside and what is added outside are the same terms that its sizes are measured with.
    """
    inside, outside = part.inside.get(axis), part.outside.get(axis)
    if inside is None:
        return Walls(part.thickness if outside is None else outside.net)
    low, high = thicknesses(inside, outside, at_low_end=True), thicknesses(inside, outside, at_low_end=False)
    return Walls(
        inside.net,
        tuple((-end, -start) for start, end in running(low)),
        tuple((inside.net + start, inside.net + end) for start, end in running(high)),
    )


def thicknesses(inside: MeasuredExtent, outside: MeasuredExtent | None, *, at_low_end: bool) -> list[float]:
    """How thick the sheets of one wall are, from the inside outwards: layers inside, the wall's own card, layers outside."""
    within = [term for term in inside.terms if term.at_low_end is at_low_end]
    beyond = [term for term in outside.terms if term.at_low_end is at_low_end] if outside else []
    own = math.fsum(abs(term.amount) for term in (*within, *beyond) if not term.is_layer)
    layers_in = [abs(term.amount) for term in reversed(within) if term.is_layer]
    layers_out = [abs(term.amount) for term in beyond if term.is_layer]
    return [*layers_in, *([own] if own else []), *layers_out]


def running(thick: list[float]) -> list[Sheet]:
    """Thicknesses as stretches one after the other, from 0."""
    edges = [0.0]
    for each in thick:
        edges.append(edges[-1] + each)
    return list(pairwise(edges))
