"""PDF and pictures from Typst source: fonts only from packages, the same bytes every time, nothing read from or written to the disk."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import typst

__all__ = ["to_page_pngs", "to_page_svgs", "to_pdf", "to_png"]


def to_pdf(source: str) -> bytes:
    """The PDF of a complete Typst source. The dates of the file are fixed, so equal sources give equal bytes on every machine."""
    import typst  # noqa: PLC0415  (a large library, needed only when something is printed)

    return typst.compile(source.encode(), font_paths=fonts(), timestamp=0, format="pdf")


def to_png(source: str, *, dots_per_inch: float = 144.0) -> bytes:
    """The only page of a complete Typst source as a PNG picture. Raises `RuntimeError` (from the library) for several pages."""
    import typst  # noqa: PLC0415

    return typst.compile(source.encode(), font_paths=fonts(), timestamp=0, format="png", ppi=dots_per_inch)


def to_page_svgs(source: str) -> tuple[bytes, ...]:
    """Every page of a complete Typst source as an SVG picture of its own, letters as outlines."""
    import typst  # noqa: PLC0415

    pages: bytes | list[bytes] = typst.compile(source.encode(), font_paths=fonts(), timestamp=0, format="svg")
    return tuple(pages) if isinstance(pages, list) else (pages,)


def to_page_pngs(source: str, *, dots_per_inch: float) -> tuple[bytes, ...]:
    """Every page of a complete Typst source as a PNG picture of its own."""
    import typst  # noqa: PLC0415

    pages: bytes | list[bytes] = typst.compile(
        source.encode(), font_paths=fonts(), timestamp=0, format="png", ppi=dots_per_inch
    )
    return tuple(pages) if isinstance(pages, list) else (pages,)


@cache
def fonts() -> typst.Fonts:
    """The fonts of the packages, and none of the computer's own, so that a page breaks in the same place everywhere."""
    import font_source_sans_pro  # noqa: PLC0415
    import typst  # noqa: PLC0415

    return typst.Fonts(include_system_fonts=False, font_paths=[font_source_sans_pro.font_directory])
