"""A stack of tolerances: a length and how each thing that varies moves it, to first order. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from kitwright.proof.tolerance.variation import Variation

__all__ = ["Stack"]


@dataclass(frozen=True, slots=True)
class Stack:
    """A length that is `nominal` if nothing is off, and how many millimetres each variation adds per millimetre of its own.

    Stacks add and subtract; a variation that both have counts once, with its coefficients added: what is common cancels.
    """

    nominal: float
    moves: Mapping[Variation, float] = field(default_factory=lambda: MappingProxyType({}))

    def __add__(self, other: Stack | float) -> Stack:
        if not isinstance(other, Stack):
            return Stack(self.nominal + other, self.moves)
        moves = dict(self.moves)
        for variation, by in other.moves.items():
            moves[variation] = moves.get(variation, 0.0) + by
        return Stack(self.nominal + other.nominal, MappingProxyType(moves))

    def __mul__(self, factor: float) -> Stack:
        moves = {variation: by * factor for variation, by in self.moves.items()}
        return Stack(self.nominal * factor, MappingProxyType(moves))

    def __sub__(self, other: Stack | float) -> Stack:
        return self + other * -1.0

    @property
    def worst(self) -> float:
        """How far the length may be off, up or down, if everything is off as far as it can be, and all the wrong way."""
        return math.fsum(abs(by) * variation.reach for variation, by in self.moves.items())

    @property
    def rss(self) -> float:
        """The root of the sum of the squares of all reaches.

        It holds three standard deviations only where every reach is three of its own. With even (uniform) errors about 8 % of all
        makes lie beyond it (Irwin–Hall); the share of makes is therefore counted, not read off this.
        """
        return math.sqrt(math.fsum((by * variation.reach) ** 2 for variation, by in self.moves.items()))

    @property
    def least(self) -> float:
        """The least that the length can be."""
        return self.nominal - self.worst

    @property
    def greatest(self) -> float:
        """The greatest that the length can be."""
        return self.nominal + self.worst
