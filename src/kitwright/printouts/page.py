"""The pages that home printers take. Millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kitwright.errors import Mistake

__all__ = ["A4", "PAGES", "US_LETTER", "Page", "page_named"]


@dataclass(frozen=True, slots=True)
class Page:
    """A page upright: its name for people, its key for documents, its size, and the margin that printers leave free."""

    name: str
    key: str
    width: float
    height: float
    margin: float = 15.0
    footer: float = 12.0


US_LETTER: Final = Page("US Letter", "us-letter", 215.9, 279.4)
"""8 1/2 × 11 in (ANSI/ASME Y14.1, size A)."""

A4: Final = Page("A4", "a4", 210.0, 297.0)
"""210 × 297 mm (ISO 216)."""

PAGES: Final = (US_LETTER, A4)


def page_named(key: str) -> Page:
    """The page with this key (`us-letter`, `a4`). Raises `Mistake` for any other word."""
    for page in PAGES:
        if page.key == key.strip().lower():
            return page
    raise Mistake(f"{key!r} is not a page known here.", do=f"Use {' or '.join(page.key for page in PAGES)}.")
