"""Which signs the packaged font can print, and what stands in the place of those that it cannot."""

from __future__ import annotations

import struct
import unicodedata
from functools import cache
from pathlib import Path
from typing import Final

__all__ = ["STAND_IN", "missing_signs", "missing_words", "printable"]

STAND_IN: Final = "☐"
"""Stands for a sign that the font has not."""

MOST_TOLD: Final = 12
"""So many missing signs are told one by one."""


def printable(text: str) -> str:
    """The text with a box for every sign that the font has not; signs without a shape of their own are left out there."""
    known = font_signs()
    return "".join(sign if sign < " " or ord(sign) in known else stand_in(sign) for sign in text)


def stand_in(sign: str) -> str:
    """A box, or nothing for a sign that only changes its neighbours (a joiner, a variation)."""
    return "" if unicodedata.category(sign) in ("Mn", "Cf") else STAND_IN


def missing_signs(text: str) -> tuple[str, ...]:
    """The signs of a text that the font has not, each once, in the order in which they come."""
    known = font_signs()
    return tuple(dict.fromkeys(sign for sign in text if sign >= " " and ord(sign) not in known and stand_in(sign)))


def missing_words(signs: tuple[str, ...]) -> str:
    """One sentence that says which signs cannot be printed, by their numbers in Unicode."""
    numbers = [f"U+{ord(sign):04X}" for sign in signs[:MOST_TOLD]]
    more = f" and {len(signs) - MOST_TOLD} more" if len(signs) > MOST_TOLD else ""
    return (
        f"Some signs in the names of this kit are not in the font of these pages and stand as {STAND_IN}: "
        f"{', '.join(numbers)}{more}."
    )


@cache
def font_signs() -> frozenset[int]:
    """The code points of Source Sans Pro Regular, read from the font file's own table (OpenType `cmap`, format 12)."""
    import font_source_sans_pro  # noqa: PLC0415  (needed only when something is printed)

    data = (Path(font_source_sans_pro.font_directory) / "SourceSansPro-Regular.ttf").read_bytes()
    (tables,) = struct.unpack_from(">H", data, 4)
    records = (struct.unpack_from(">4sLLL", data, 12 + 16 * number) for number in range(tables))
    start = next(offset for tag, _, offset, _ in records if tag == b"cmap")
    (count,) = struct.unpack_from(">H", data, start + 2)
    maps = (struct.unpack_from(">HHL", data, start + 4 + 8 * number) for number in range(count))
    at = start + next(offset for platform, encoding, offset in maps if (platform, encoding) == (3, 10))
    (groups,) = struct.unpack_from(">L", data, at + 12)
    ranges = (struct.unpack_from(">LLL", data, at + 16 + 12 * number) for number in range(groups))
    return frozenset(code for first, last, _ in ranges for code in range(first, last + 1))
