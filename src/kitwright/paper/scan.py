"""A scan of a paper: which picture it is, how much of the sheet it shows, and which edge of the picture is the paper's up."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TypeAlias

from kitwright.errors import Mistake

__all__ = ["Affine", "Scan", "UpEdge"]

Affine: TypeAlias = tuple[float, float, float, float, float, float]
"""a, b, c, d, e, f of `(x, y) → (ax + cy + e, bx + dy + f)`, in the order in which SVG writes a matrix."""


class UpEdge(StrEnum):
    """The edge of a picture towards which the paper's up points."""

    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"
    LEFT = "left"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scan:
    """How a picture belongs to a sheet. Exact millimetres from the sheet's lower left corner, the paper's up upwards.

    `picture` is the picture's word in the workshop. `shows` is the size of what it shows, None for the whole sheet; `at` is where
    the lower left corner of that lies. Raises `Mistake` for a picture that shows nothing.
    """

    picture: str
    shows: tuple[Fraction, Fraction] | None = None
    at: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))
    up: UpEdge = UpEdge.TOP

    def __post_init__(self) -> None:
        if self.shows is not None and min(self.shows) <= 0:
            raise Mistake(
                "The picture of the paper shows nothing of it.", do="Write how much it shows, like 8 1/2 x 11."
            )
        if min(self.at) < 0:
            raise Mistake(
                "The picture of the paper begins outside the sheet.", do="Write 0 x 0 for the lower left corner."
            )

    def on_sheet(self, sheet: tuple[Fraction, Fraction]) -> Affine:
        """Where the picture lies on a sheet of this size: from shares of the picture (0 to 1, right and down) to mm (right and up)."""
        width, height = (float(each) for each in self.shows or sheet)
        left, low = (float(each) for each in self.at)
        match self.up:
            case UpEdge.TOP:
                return (width, 0.0, 0.0, -height, left, low + height)
            case UpEdge.RIGHT:
                return (0.0, height, width, 0.0, left, low)
            case UpEdge.BOTTOM:
                return (-width, 0.0, 0.0, height, left + width, low)
            case UpEdge.LEFT:
                return (0.0, -height, -width, 0.0, left + width, low + height)
