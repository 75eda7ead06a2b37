"""The other way round: the size on the maker's ruler with which a fit is proved. Millimetres, exact on the ruler."""

from __future__ import annotations

from fractions import Fraction

from kitwright.measure import Ruler
from kitwright.proof.tolerance.fit import Fit

__all__ = ["larger_by", "proved_length"]


def larger_by(fit: Fit) -> Fraction:
    """How much larger the outer thing must be (smaller, below zero) so that the fit's worst case on the tight side is just zero."""
    return Fraction(-fit.least).limit_denominator(10**7)


def proved_length(fit: Fit, now: Fraction, ruler: Ruler, *, is_outer: bool = True) -> Fraction:
    """The least length on the ruler that an outer thing can have, the greatest that an inner thing can have, so that they always fit.

    `now` is the length with which `fit` was reckoned; errors do not depend on the length, so the free play grows as it does. With
    this length the worst case is zero or better, and with the next mark of the ruler below (above) it would not be.
    """
    return ruler.up(now + larger_by(fit)) if is_outer else ruler.down(now - larger_by(fit))
