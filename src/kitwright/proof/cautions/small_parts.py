"""The small-part screen: does a rigid thing surely not go into the small-parts gauge? It never says that a thing is harmless.

The gauge is a cylinder 1 1/4 in across with a slanted floor 1 to 2 1/4 in below the rim (16 CFR 1501.4; the inch sizes govern).
The Canadian one, 31.7 mm across and 25.4 to 57.1 mm deep (Toys Regulations SOR/2011-17, schedule 1), is a hair smaller, so that
what cannot go into this one cannot go into that one either.

Why the screen is right, for rigid things only:

* nothing longer than the inner diagonal, √(1.25² + 2.25²) in = 65.4 mm, lies in the cylinder whichever way it is turned;
* a flat outline whose least width is above the diameter always shows more than the diameter seen along the axis, because the
  level line in its own plane is seen at full length. A block's largest face has its middle size as its least width.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake
from kitwright.measure import MM_PER_INCH

__all__ = ["GAUGE_SOURCE", "Outline", "Rigidity", "ScreenResult", "screen_small_part"]

GAUGE_WIDTH: Final = Fraction(5, 4) * MM_PER_INCH
GAUGE_DEPTH: Final = Fraction(9, 4) * MM_PER_INCH
GAUGE_DIAGONAL_SQUARED: Final = GAUGE_WIDTH**2 + GAUGE_DEPTH**2
GAUGE_SOURCE: Final = "small-parts gauge, 16 CFR 1501.4; reckoned from its sizes, not measured with one"


class Outline(StrEnum):
    """How a thing looks from above; for *other* the bounding box says too much, and the least width is needed."""

    BLOCK = "block"
    DISC = "disc or ball"
    OTHER = "other"


class Rigidity(StrEnum):
    """Whether a thing keeps its form when it is pressed. Anything soft may go into the gauge."""

    RIGID = "rigid"
    SOFT = "soft"


class ScreenResult(StrEnum):
    """What the screen can say: surely not, or perhaps. There is no third answer."""

    CANNOT_FIT = "cannot fit the gauge"
    MAY_FIT = "may fit the gauge: try a real one"


@dataclass(frozen=True, slots=True)
class _Sizes:
    longest: Fraction
    middle: Fraction


def screen_small_part(
    size: tuple[float | Fraction, float | Fraction, float | Fraction],
    *,
    outline: Outline,
    rigidity: Rigidity,
    least_width: float | Fraction | None = None,
) -> ScreenResult:
    """Whether a thing of this size (three edges of its box, mm, any order) surely does not go into the small-parts gauge.

    `least_width` (mm) is the narrowest gap between two parallel rulers that the outline passes through; it is used for
    `Outline.OTHER` only, and without it such a thing is judged by its length alone. Exactly at a limit the answer is *may fit*.
    The screen looks at the whole thing: what may break off it needs its own look.

    Raises `Mistake` for a size or width that is not above zero.
    """
    sizes = _sorted_sizes(size)
    if least_width is not None and least_width <= 0:
        raise Mistake("The least width of a thing must be larger than zero.", do="Measure it at its narrowest.")
    if rigidity is Rigidity.SOFT:
        return ScreenResult.MAY_FIT
    if sizes.longest**2 > GAUGE_DIAGONAL_SQUARED:
        return ScreenResult.CANNOT_FIT
    width = least_width if outline is Outline.OTHER else sizes.middle
    return ScreenResult.CANNOT_FIT if width is not None and width > GAUGE_WIDTH else ScreenResult.MAY_FIT


def _sorted_sizes(size: tuple[float | Fraction, float | Fraction, float | Fraction]) -> _Sizes:
    if any(edge <= 0 for edge in size):
        raise Mistake("A thing must be larger than zero in all three ways.", do="Measure length, width and thickness.")
    _, middle, longest = sorted(Fraction(edge) for edge in size)
    return _Sizes(longest=longest, middle=middle)
