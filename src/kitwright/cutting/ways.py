"""Random ways in a group to one element, hardly longer than the shortest, that mostly keep clear of numbers below zero."""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt

from kitwright.cutting.group import Group, Ints, Lengths

__all__ = ["Reals", "Ways"]

Reals = npt.NDArray[np.float64]

WALKS: Final = 128
"""So many ways are tried each time."""

LONGER: Final = (1.0, 1.02, 1.05, 1.1, 1.2)
"""How much longer than the shortest a way may be."""

LONGEST: Final = 20
"""No way has more steps."""

CHOICES: Final = (1, 2, 4, 8)
"""Among so many random steps a way takes the one that leaves least below zero; each way keeps to one of these."""

BETWEEN_EQUALS: Final = 1e-6
"""Weight of the random numbers that decide between steps which leave as little below zero."""


class Ways:
    """The ways to a target by steps (elements, one in each row), each of which takes `uses` (one in each column) from some numbers."""

    def __init__(self, group: Group, elements: Ints, target: Ints, numbers: Reals, uses: Reals) -> None:
        self.group = group
        self.elements = elements
        self.target = target
        self.numbers = numbers
        self.uses: Reals = np.ascontiguousarray(uses.T)

    def walk(self, costs: Lengths, random: np.random.Generator) -> Ints:
        """Random ways by steps that cost what they say, above zero: how often each step is taken, one way in each row.

        Ways that end nowhere are left out, and the same may come twice. The same generator gives the same ways.
        """
        lengths = self.group.lengths(self.elements, costs, self.target, max(LONGER))
        left = lengths[self.group.ranks(self.target)] * random.choice(LONGER, size=WALKS)
        first = lengths[self.group.ranks_less(self.target[None, :], self.elements)[0]] + costs
        useful = np.flatnonzero(first <= left.max())
        steps, costs, uses = self.elements[useful], costs[useful], self.uses[useful]
        choices = random.choice(CHOICES, size=WALKS)
        times: Ints = np.zeros((WALKS, len(self.elements)), dtype=np.int64)
        numbers = np.repeat(self.numbers[None, :], WALKS, axis=0)
        here = np.repeat(self.target[None, :], WALKS, axis=0)
        going = np.flatnonzero(here.any(axis=1))
        for _ in range(LONGEST):
            if not len(going) or not len(useful):
                break
            fits = lengths[self.group.ranks_less(here[going], steps)] + costs <= left[going, None]
            picks = pick(fits, numbers[going], uses, choices[going], random)
            moves = fits[np.arange(len(going)), picks]
            going, picks = going[moves], picks[moves]
            times[going, useful[picks]] += 1
            numbers[going] -= uses[picks]
            left[going] -= costs[picks]
            here[going] = (here[going] - steps[picks]) % self.group.orders
            going = going[here[going].any(axis=1)]
        return times[~here.any(axis=1)]


def pick(fits: npt.NDArray[np.bool_], numbers: Reals, uses: Reals, choices: Ints, random: np.random.Generator) -> Ints:
    """A step for each way: of as many fitting ones as it may choose from, the one that leaves least below zero."""
    most = min(max(CHOICES), fits.shape[1])
    ends = sorted({min(each, most) - 1 for each in CHOICES})
    chance = random.random(fits.shape) * fits
    drawn = np.argpartition(-chance, ends, axis=1)[:, :most]
    chance = np.take_along_axis(chance, drawn, axis=1)
    short = np.minimum(numbers[:, None, :] - uses[drawn], 0.0).sum(axis=2) + BETWEEN_EQUALS * chance
    short[(chance == 0) | (np.arange(most) >= choices[:, None])] = -np.inf
    picks: Ints = drawn[np.arange(len(drawn)), short.argmax(axis=1)]
    return picks
