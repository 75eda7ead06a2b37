"""What is wanted and what it may be cut from: piece types, stocks, the trimmer's limits. Lengths in whole nanometres.

Nanometres because both rulers are exact in them: 1/64 in is 396 875 nm and 0.1 mm is 100 000 nm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake

__all__ = [
    "ANY_TURN",
    "NM_PER_MM",
    "UPRIGHT",
    "Margins",
    "PieceType",
    "Stock",
    "TrimmerLimits",
    "nm_down",
    "nm_up",
    "to_mm",
    "to_nm",
]

NM_PER_MM: Final = 1_000_000

ANY_TURN: Final = (0, 1, 2, 3)
"""No print, no grain: the piece may lie any way round."""

UPRIGHT: Final = (0,)
"""A one-way print: the piece must lie as it will stand."""


def to_nm(mm: float | Fraction) -> int:
    """A length in whole nanometres, from millimetres. Raises `Mistake` for a length finer than a nanometre.

    Give it a `Fraction` where the length came from a ruler: then nothing is lost. A float is taken to the nearest nanometre.

    >>> to_nm(Fraction(127, 5))
    25400000
    """
    if isinstance(mm, float):
        return round(mm * NM_PER_MM)
    nm = Fraction(mm) * NM_PER_MM
    if nm.denominator != 1:
        raise Mistake(f"{mm} mm is finer than a nanometre.", do="Round it to the ruler first.")
    return nm.numerator


def nm_down(mm: Fraction) -> int:
    """The most whole nanometres in a length: of room that there is, of the reach of a blade.

    >>> nm_down(Fraction(1, 3))
    333333
    """
    return math.floor(mm * NM_PER_MM)


def nm_up(mm: Fraction) -> int:
    """The least whole nanometres that take in a length: of what is no use, of what must be left.

    >>> nm_up(Fraction(1, 3))
    333334
    """
    return math.ceil(mm * NM_PER_MM)


def to_mm(nm: int) -> Fraction:
    """A length in exact millimetres, from nanometres."""
    return Fraction(nm, NM_PER_MM)


@dataclass(frozen=True, slots=True)
class PieceType:
    """One kind of piece: its size as it will stand (nm), how many are wanted, and how it may lie on a sheet.

    `turns` are the allowed quarter turns (anticlockwise) of the piece on the sheet, a subset of 0, 1, 2, 3. Whoever asks works
    them out from print and grain: a one-way print leaves only 0, grain along one side leaves 0 and 2.
    `stocks` names the stocks it may come from; None means any.
    """

    name: str
    width: int
    height: int
    count: int
    turns: tuple[int, ...]
    stocks: tuple[str, ...] | None = None

    def size(self, turn: int) -> tuple[int, int]:
        """Width and height on the sheet after so many quarter turns."""
        return (self.height, self.width) if turn % 2 else (self.width, self.height)

    def may_come_from(self, stock: Stock) -> bool:
        """Whether this piece may be cut from that stock."""
        return self.stocks is None or stock.name in self.stocks


@dataclass(frozen=True, slots=True)
class Margins:
    """Strips along the four edges of a sheet that may not be used (nm): a white edge, a torn strip."""

    left: int = 0
    bottom: int = 0
    right: int = 0
    top: int = 0


@dataclass(frozen=True, slots=True)
class Stock:
    """One kind of sheet or offcut: its size as it stands (nm), how many there are, what one costs.

    `count` None means as many as wanted. `price` is in minor units (cents); None means no price is known, then it counts as one
    sheet. An offcut that is already there has the price 0.
    """

    name: str
    width: int
    height: int
    count: int | None = None
    price: int | None = None
    margins: Margins = Margins()

    @property
    def usable_width(self) -> int:
        """Width between the left and the right margin (nm)."""
        return self.width - self.margins.left - self.margins.right

    @property
    def usable_height(self) -> int:
        """Height between the bottom and the top margin (nm)."""
        return self.height - self.margins.bottom - self.margins.top


@dataclass(frozen=True, slots=True)
class TrimmerLimits:
    """What the trimmer can do (nm): `longest_cut`, and `smallest_strip`, the least width that a hand can hold while it is cut.

    A cut is possible if it is no longer than `longest_cut` and if the wider of the two sides of it, the one that is held,
    is at least `smallest_strip` wide. A margin belongs to the sides of the sheet and may be cut off the whole sheet or off any part of it.
    As long as it is on, cuts across it are longer by it; it gives the hand nothing to hold, since it may be torn or askew. So a layout can
    be cut if the cuts of its tree and those of the margins have an order, each cut before those of what it leaves, in which all of them
    are possible and no piece keeps a margin; what is left over may keep its own.
    """

    longest_cut: int | None = None
    smallest_strip: int = 0
