"""Reading `laid`: the sheets of a paper on which the maker chose where the blanks lie."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake, Unreadable
from kitwright.kit.entry import Entry
from kitwright.kit.model import Laid
from kitwright.kit.values import length_or_zero_in, place_in, text
from kitwright.measure import Unit

__all__ = ["MOST_LAID", "read_laid", "read_laid_length"]

MOST_LAID: Final = 200
"""Sheets of a paper, and blanks of a sheet, that a person lays by hand."""

FINEST: Final = 10**6
"""Parts of a millimetre that cutting can tell apart: nanometres."""

SAID: Final = re.compile(r"(?P<blank>.+?) at (?P<at>[^,]+?)(?:, turned (?P<turn>90|180|270))?")
EXAMPLE: Final = (
    'Write it like laid = [["lid at 1 x 2 1/2"]], a list for every sheet; after the place there may be ", turned 90".'
)


def read_laid(entry: Entry, unit: Unit) -> tuple[tuple[Laid, ...], ...]:
    """The sheets laid by hand; none where nothing is said or it has a mistake, which has been noted."""

    def read(value: object) -> tuple[tuple[Laid, ...], ...]:
        if not isinstance(value, list) or not all(isinstance(sheet, list) and sheet for sheet in value):
            raise Mistake("this is no list of sheets.", do=EXAMPLE)
        if max([len(value), *map(len, value)]) > MOST_LAID:
            raise Mistake(
                f"this is more than {MOST_LAID} in one list.", do="Lay fewer by hand; the rest is laid out for you."
            )
        return tuple(tuple(laid_in(said, unit) for said in sheet) for sheet in value)

    return entry.read("laid", read) or ()


def laid_in(value: object, unit: Unit) -> Laid:
    """One blank with its place."""
    said = text(value)
    found = SAID.fullmatch(said)
    if found is None:
        raise Mistake(f"{said[:80]!r} is no place of a blank.", do=EXAMPLE)
    try:
        at = place_in(unit)(found["at"])
    except Unreadable as mistake:
        raise Mistake(mistake.what, do=EXAMPLE) from None
    check_can_be_cut(at, found["at"])
    return Laid(found["blank"], at, int(found["turn"] or 0) // 90)


def read_laid_length(said: str, unit: Unit) -> Fraction:
    """How far a blank lies from an edge of its sheet, as it is typed, in mm. Raises `Mistake`."""
    far = length_or_zero_in(unit)(said)
    check_can_be_cut((far,), said)
    return far


def check_can_be_cut(lengths: Iterable[Fraction], said: str) -> None:
    """Raise `Mistake` for a place that is finer than anything that can be cut."""
    if any(FINEST % each.denominator for each in lengths):
        raise Mistake(f"{said!r} is finer than anything that can be cut.", do="Use the marks of your ruler.")
