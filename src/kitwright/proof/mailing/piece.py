"""The finished piece as the post office sees it: its sizes, which side the address runs along, weight, and what is odd."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake

__all__ = ["Feature", "MailPiece", "Shape", "exact", "round_girth"]

FINEST: Final = 1_000_000

PI_ABOVE: Final = Fraction(355, 113)
"""A fraction just above π (by 3e-7), so that a round girth is never reckoned too small."""


class Shape(StrEnum):
    """What sort of thing is posted."""

    CARD = "card"
    ENVELOPE = "envelope"
    BOX = "box"
    TUBE = "tube"


class Feature(StrEnum):
    """What post offices ask about beside the sizes. The maker says these; none follows from the sizes."""

    RIGID = "rigid"
    UNEVEN = "uneven or lumpy"
    LOOSE_ITEM = "pen, key, coin or loose lump inside"
    CLASP = "clasp, string or button"
    NON_PAPER_OUTSIDE = "outside not of paper"
    NOT_RECTANGULAR = "not rectangular"
    FOLDED = "folded or creased card"
    ATTACHMENT = "attachment that is not flat, stuck-down paper"


def exact(value: float | Fraction) -> Fraction:
    """A fraction as it is; a decimal number without its binary dust, to a millionth."""
    return value if isinstance(value, Fraction) else Fraction(value).limit_denominator(FINEST)


@dataclass(frozen=True, slots=True)
class MailPiece:
    """A piece ready for the post. Lengths in mm, weight in grams (None if it is not known yet).

    `along_address` is the side parallel to the lines of the address, `across_address` the other side of the same face,
    `thickness` the third size at its thickest. A tube has its length in `along_address` and its diameter in the two others.
    `girth` is the way round the thickest part, across the longest side; without it, it is reckoned from the sizes.
    `corner_radius` is 0 for square corners. `unevenness` is the greatest change of thickness, None if it was not measured.

    Raises `Mistake` where a size is not above zero or the sizes contradict each other.
    """

    along_address: float | Fraction
    across_address: float | Fraction
    thickness: float | Fraction
    weight: float | Fraction | None
    shape: Shape
    features: frozenset[Feature] = frozenset()
    corner_radius: float | Fraction = 0
    unevenness: float | Fraction | None = None
    girth: float | Fraction | None = None

    def __post_init__(self) -> None:
        """Refuse sizes that no piece can have."""
        if min(self.along_address, self.across_address, self.thickness) <= 0:
            raise Mistake(
                "A piece for the post must be larger than zero in all three sizes.", do="Measure it finished."
            )
        if self.weight is not None and self.weight <= 0:
            raise Mistake("The weight of a piece must be larger than zero.", do="Leave it out if it is not known.")
        if not 0 <= 2 * self.corner_radius <= min(self.along_address, self.across_address):
            raise Mistake(
                "The corner radius does not go with the sides of the piece.", do="It is at most half the shorter side."
            )
        if self.unevenness is not None and not 0 <= self.unevenness <= self.thickness:
            raise Mistake(
                "The change of thickness does not go with the thickness.", do="It is at most the thickness itself."
            )
        if self.girth is not None and self.girth <= 0:
            raise Mistake("The way round a piece must be larger than zero.", do="Leave it out to have it reckoned.")
        if self.shape is Shape.TUBE and exact(self.across_address) != exact(self.thickness):
            raise Mistake(
                "A tube has one diameter, but two different ones are given.",
                do="Give the larger one, or make it a box.",
            )

    @property
    def by_address(self) -> tuple[Fraction, Fraction, Fraction]:
        """Length, height and thickness as for letters: the length runs along the address."""
        return exact(self.along_address), exact(self.across_address), exact(self.thickness)

    @property
    def by_size(self) -> tuple[Fraction, Fraction, Fraction]:
        """Length, height and thickness as for larger pieces: the three sizes from the longest to the shortest."""
        longest, middle, shortest = sorted(self.by_address, reverse=True)
        return longest, middle, shortest

    @property
    def length_plus_girth(self) -> Fraction:
        """The longest side plus the way round the thickest part, in mm."""
        longest, middle, shortest = self.by_size
        if self.girth is not None:
            return longest + exact(self.girth)
        if self.shape is Shape.TUBE:
            return exact(self.along_address) + round_girth(exact(self.across_address))
        return longest + 2 * (middle + shortest)


def round_girth(diameter: Fraction) -> Fraction:
    """The way round a tube, never reckoned too small (π is taken as 355/113)."""
    return PI_ABOVE * diameter
