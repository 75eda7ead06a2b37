"""Weights as rules write them, in grams, exactly."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake

__all__ = ["GRAMS", "parse_weight"]

GRAMS: Final = {
    "g": Fraction(1),
    "kg": Fraction(1000),
    "oz": Fraction(28_349_523_125, 10**9),
    "lb": Fraction(45_359_237, 10**5),
}
"""Grams in a unit of weight; the pound is 453.59237 g exactly (yard and pound agreement of 1959)."""

WEIGHT: Final = re.compile(r"(\d+(?:\.\d+)?)\s*([a-z]*)")


def parse_weight(text: str, unit: str) -> Fraction:
    """Read a weight such as `3.5 oz` or `70 lb`, in grams; `unit` where none is written. Zero is allowed.

    Raises `Mistake`.

    >>> float(parse_weight("3.5", "oz"))
    99.2233309375
    """
    found = WEIGHT.fullmatch(text.strip())
    name = (found[2] or unit) if found else ""
    if found is None or name not in GRAMS:
        raise Mistake(
            f"{text.strip()!r} is not a weight that can be read.", do="Write it like 20 g, 2 kg, 3.5 oz or 70 lb."
        )
    return Fraction(found[1]) * GRAMS[name]
