"""Making something a hundred thousand times in numbers: how many of the makes fit, and how sure that share is."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from statistics import NormalDist
from typing import Final

import numpy as np
from numpy.typing import NDArray

from kitwright.proof.tolerance.stack import Stack
from kitwright.proof.tolerance.variation import Shape, Variation

__all__ = ["MAKES", "Makes", "Share"]

MAKES: Final = 100_000
"""How often a kit is made in numbers: shares are then sure to a few tenths of a percent at the most."""

Row = NDArray[np.float32]
Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Share:
    """`count` makes out of `of`, and between which limits the true share lies with 95 % confidence (Wilson's score interval)."""

    count: int
    of: int

    @property
    def share(self) -> float:
        """The share found, 0 to 1."""
        return self.count / self.of

    @property
    def interval(self) -> tuple[float, float]:
        """Lower and upper limit of the true share at 95 % (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927)."""
        z = NormalDist().inv_cdf(0.975)
        centre = self.share + z * z / (2 * self.of)
        half = z * math.sqrt(self.share * (1 - self.share) / self.of + z * z / (4 * self.of * self.of))
        scale = 1 + z * z / self.of
        return max(0.0, (centre - half) / scale), min(1.0, (centre + half) / scale)


@dataclass(frozen=True)
class Makes:
    """So many makes of one kit. Each variation has the same errors in every fit that it has a part in, from a stream of its own:
    what else is in the kit changes nothing. The same seed gives the same makes on every machine.
    """

    count: int = MAKES
    seed: int = 1
    drawn: dict[Variation, Row] = field(default_factory=dict, repr=False, compare=False)

    def errors(self, variation: Variation) -> Row:
        """The error of a variation in every make, mm; drawn once."""
        if variation not in self.drawn:
            self.drawn[variation] = self.draw(variation)
        return self.drawn[variation]

    def draw(self, variation: Variation) -> Row:
        """Errors from the variation's own stream, which its name and the seed decide."""
        digest = hashlib.blake2b(variation.what.encode(), digest_size=8).digest()
        random = np.random.default_rng([self.seed, int.from_bytes(digest, "big")])
        match variation.shape:
            case Shape.UNIFORM:
                unit = np.float32(2) * random.random(self.count, dtype=np.float32) - np.float32(1)
            case Shape.TRIANGULAR:
                unit = random.random(self.count, dtype=np.float32) - random.random(self.count, dtype=np.float32)
            case Shape.NORMAL:
                unit = random.standard_normal(self.count, dtype=np.float32) / np.float32(3)
        row: Row = unit * np.float32(variation.reach)
        return row

    def lengths(self, stack: Stack) -> Row:
        """The length of a stack in every make, mm."""
        found = np.full(self.count, stack.nominal, dtype=np.float32)
        for variation, by in stack.moves.items():
            if by and variation.reach:
                found += np.float32(by) * self.errors(variation)
        return found

    def share(self, mask: Mask) -> Share:
        """The share of the makes that a mask names."""
        return Share(int(mask.sum()), self.count)

    def least(self, stacks: Sequence[Stack]) -> Row:
        """The least of several lengths in every make, mm."""
        found = self.lengths(stacks[0])
        for stack in stacks[1:]:
            np.minimum(found, self.lengths(stack), out=found)
        return found
