"""Whether what lies in an envelope or a pocket is still flat enough for one, or wants a box. Millimetres."""

from __future__ import annotations

from typing import Final

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.measure import Ruler

__all__ = ["LIES_FLAT", "check_thickness"]

LIES_FLAT: Final = 25.4 / 4
"""Thickest that a letter may be, mm: Domestic Mail Manual (DMM) 101 1.1. What is thicker bulges."""

FLAT: Final = 25.4 * 3 / 4
"""Thickest that a large envelope may be, mm: DMM 101 2.1. What is thicker is a parcel."""

SHARE: Final = 1 / 4
"""How thick an envelope may be for its shorter side: thicker it has the shape of a box and no flat sides. Common practice, no source."""

SOURCE: Final = "letter at most 1/4 in thick, large envelope 3/4 in: DMM 101 1.1, 2.1; a quarter of the side: common practice, no source"


def thickest(inside: tuple[float, float]) -> float:
    """How thick what lies in an envelope or pocket (inside width, height) can be."""
    return min(FLAT, SHARE * min(inside))


def check_thickness(
    about: str, thickness: float, inside: tuple[float, float], ruler: Ruler, *, what: str, filling: str = ""
) -> Finding | None:
    """All that lies in an envelope or pocket (`what`) against how thick one of this inside size can be.

    `filling` names the things where there are several. Nothing is said of what is no thicker than a letter.
    """
    most = thickest(inside)
    told = f"What lies in it is {ruler.near(thickness)} thick"
    if filling:
        told = f"In each lie {filling}, {ruler.near(thickness)} thick together"
    if thickness > most:
        reading = Reading(thickness, most, SOURCE, is_upper_limit=True)
        do = "Make more of it, so that less lies in each, or take a box" if filling else "Take a box"
        words = f"{told}, and a flat {what} of this size holds {ruler.near(most)} at most. {do}."
        return judged("thickness", Severity.FAIL, about, words, reading)
    if thickness > LIES_FLAT:
        reading = Reading(thickness, LIES_FLAT, SOURCE, is_upper_limit=True)
        words = f"{told}, so that it bulges. Up to {ruler.near(LIES_FLAT)} it lies flat."
        return judged("thickness", Severity.WARNING, about, words, reading)
    return None
