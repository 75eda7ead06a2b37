"""PDF from Typst source: fonts only from packages, the same bytes every time, nothing read from or written to the disk."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import typst

__all__ = ["FONT", "to_pdf"]

FONT: Final = "Source Sans Pro"

NO_FILES: Final[Mapping[str, bytes]] = {}


def to_pdf(source: str, *, files: Mapping[str, bytes] = NO_FILES) -> bytes:
    """The PDF of a complete Typst source. `files` are pictures and the like, by the name that the source uses.

    The dates of the file are fixed, so equal sources give equal bytes on every machine.
    """
    import typst  # noqa: PLC0415  (a large library, needed only when something is printed)

    written = {"main.typ": source.encode(), **files}
    made: bytes = typst.compile(written, font_paths=fonts(), timestamp=0, format="pdf")  # type: ignore[call-overload]
    return made  # (the library's type hints leave out that it takes several files)


@cache
def fonts() -> typst.Fonts:
    """The fonts of the packages, and none of the computer's own, so that a page breaks in the same place everywhere."""
    import font_source_sans_pro  # noqa: PLC0415
    import typst  # noqa: PLC0415

    return typst.Fonts(include_system_fonts=False, font_paths=[font_source_sans_pro.font_directory])
