"""What a form's limits leave on the marks of a ruler. Limits are in millimetres and lie on marks of no ruler in particular."""

from __future__ import annotations

from fractions import Fraction

from kitwright.catalogue import Parameter
from kitwright.measure import Ruler

__all__ = ["limits_on", "mark_within"]


def marks_within(parameter: Parameter, ruler: Ruler) -> tuple[Fraction, Fraction] | None:
    """The least and the largest mark (mm) that a parameter can have; None where a coarse ruler has none between its limits."""
    low, high = ruler.up(parameter.at_least), ruler.down(parameter.at_most)
    return (low, high) if low <= high else None


def limits_on(parameter: Parameter, ruler: Ruler) -> str:
    """The limits in words, on marks: `13/16 to 15 11/16 in`; the bare limits where there are no marks between them."""
    low, high = marks_within(parameter, ruler) or (parameter.at_least, parameter.at_most)
    return f"{ruler.format(low)} to {ruler.with_unit(high)}"


def mark_within(parameter: Parameter, ruler: Ruler, length: float) -> Fraction:
    """The mark nearest to a length (mm) that a parameter can have; where there are no marks between its limits, the length itself to a
    tenth of a millimetre.
    """
    marks = marks_within(parameter, ruler)
    mark = ruler.nearest(length) if marks else Fraction(round(length * 10), 10)
    low, high = marks or (Fraction(parameter.at_least), Fraction(parameter.at_most))
    return min(max(mark, low), high)
