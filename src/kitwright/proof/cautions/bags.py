"""Thin plastic bags: when the usual bag-warning rules are met, and how large the warning must then be."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake
from kitwright.measure import MM_PER_INCH

__all__ = ["BAG_SOURCE", "Bag", "BagScreen", "BagTrigger", "screen_bag"]

THIN_FILM: Final = MM_PER_INCH / 1000
"""One mil. Film thinner than this is what the rules mean."""

WIDE_OPENING: Final = 5 * MM_PER_INCH
"""The narrowest opening named by a rule (Rhode Island; others say 7 in). Measured flat here, which is the cautious reading."""

CANADA_THIN_FILM: Final = Fraction(19, 1000)
CANADA_OPENING: Final = 14 * MM_PER_INCH
"""Opening circumference from which Canada asks for a warning and thicker film round a toy (Toys Regulations, section 4)."""

TYPE_BY_SIZE: Final = ((60, 24), (40, 18), (30, 14))
"""Length plus width in inches, from which on this type size in points is asked for; below the last one, SMALLEST_TYPE."""

SMALLEST_TYPE: Final = 10

BAG_SOURCE: Final = (
    "bag rules of US states and cities, such as R.I. Gen. Laws 11-9-16: film under 0.001 in, opening over 5 in"
)


@dataclass(frozen=True, slots=True)
class Bag:
    """A plastic bag, measured flat, in mm. `film` is the thickness of one wall, None if it is not known."""

    name: str
    width: float | Fraction
    length: float | Fraction
    film: float | Fraction | None


class BagTrigger(StrEnum):
    """What the sizes say about a bag."""

    WARN = "thin and wide: print the warning"
    ADVISE = "at the edge of the rules: the warning is advised"
    NONE = "below the sizes that the rules name"


@dataclass(frozen=True, slots=True)
class BagScreen:
    """The answer for one bag: the trigger, and the type size in points that goes with its size.

    The last two are about a bag round a toy in Canada: whether its opening is so wide that a warning in English and French is
    asked for, and whether its film is then too thin (or of unknown thickness).
    """

    trigger: BagTrigger
    points: int
    canada_asks_for_warning: bool
    canada_film_too_thin: bool


def screen_bag(bag: Bag) -> BagScreen:
    """Whether the usual rules ask for a warning on this bag, with its type size in points by length plus width.

    A film of unknown thickness is taken as thin. A wide bag of thicker film, and a narrow one of thin film, are *advise*.

    Raises `Mistake` for a size or film that is not above zero.
    """
    if bag.width <= 0 or bag.length <= 0 or (bag.film is not None and bag.film <= 0):
        raise Mistake(f"The bag {bag.name!r} must be larger than zero in every measure.", do="Measure it lying flat.")
    width = _exact(bag.width)
    film = None if bag.film is None else _exact(bag.film)
    is_thin = film is None or film < THIN_FILM
    is_wide = width >= WIDE_OPENING
    if is_thin and is_wide:
        trigger = BagTrigger.WARN
    elif is_thin or is_wide:
        trigger = BagTrigger.ADVISE
    else:
        trigger = BagTrigger.NONE
    canada_asks = 2 * width >= CANADA_OPENING
    return BagScreen(
        trigger=trigger,
        points=_points(width + _exact(bag.length)),
        canada_asks_for_warning=canada_asks,
        canada_film_too_thin=canada_asks and (film is None or film < CANADA_THIN_FILM),
    )


def _exact(mm: float | Fraction) -> Fraction:
    """The length without the binary dust of a decimal fraction, to a hundred-thousandth of a millimetre."""
    return Fraction(mm).limit_denominator(100_000)


def _points(length_plus_width: Fraction) -> int:
    inches = length_plus_width / MM_PER_INCH
    return next((points for least, points in TYPE_BY_SIZE if inches >= least), SMALLEST_TYPE)
