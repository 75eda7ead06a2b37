"""Sheets that have a name of their own, as shops and printers use it: so that nobody need look up that A4 is 210 × 297 mm."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from kitwright.errors import Mistake
from kitwright.kit.neighbours import inches
from kitwright.kit.values import number_text, sizes_in
from kitwright.measure import Unit, suggestion

__all__ = ["SHEET_NAMES", "sheet_in"]

Size = tuple[Fraction, Fraction]

LYING: Final = "lying"
"""Said after a name for the sheet turned a quarter, its longer side across."""


SHEET_NAMES: Final[Mapping[str, Size]] = MappingProxyType(
    {
        **{
            name: (Fraction(width), Fraction(height))
            for name, width, height in (
                ("A2", 420, 594),
                ("A3", 297, 420),
                ("A4", 210, 297),
                ("A5", 148, 210),
                ("A6", 105, 148),
                ("B3", 353, 500),
                ("B4", 250, 353),
                ("B5", 176, 250),
            )
        },
        "Letter": inches("17/2", "11"),
        "Legal": inches("17/2", "14"),
        "Tabloid": inches("11", "17"),
    }
)
"""Upright sheets by name, mm. ISO 216:2007 for A and B; PWG 5101.1-2002 for Letter, Legal and Tabloid (there: ledger)."""


def sheet_in(unit: Unit) -> Callable[[object], Size]:
    """Reads a sheet: a name, with *lying* for one turned a quarter, or width and height."""
    size = sizes_in(unit, least=2, names=("width", "height"))
    names = {name.lower(): each for name, each in SHEET_NAMES.items()}

    def read(value: object) -> Size:
        said = number_text(value).strip()
        if not said[:1].isalpha():
            width, height = size(value)
            return width, height
        name, _, way = said.lower().partition(" ")
        if name not in names or way.strip() not in ("", LYING):
            raise Mistake(
                f"there is no sheet called {said!r}.", do=f"{suggestion(said, SHEET_NAMES)} Or write width x height."
            )
        width, height = names[name]
        return (height, width) if way else (width, height)

    return read
