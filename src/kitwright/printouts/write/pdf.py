"""PDF and pictures from Typst source: fonts only from packages, the same bytes every time, nothing read from or written to the disk."""

from __future__ import annotations

from functools import cache
from threading import Lock
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    import typst

__all__ = ["to_page_pngs", "to_page_svgs", "to_pdf"]


KEPT_FOR = 11
"""The typesetter keeps all it worked out until so many more documents were made: about 50 MB for an ordinary bench pack."""


def to_pdf(source: str) -> bytes:
    """The PDF of a complete Typst source. The dates of the file are fixed, so equal sources give equal bytes on every machine."""
    return compiled(source, "pdf")[0]


def to_page_svgs(source: str) -> tuple[bytes, ...]:
    """Every page of a complete Typst source as an SVG picture of its own, letters as outlines."""
    return compiled(source, "svg")


def to_page_pngs(source: str, *, dots_per_inch: float) -> tuple[bytes, ...]:
    """Every page of a complete Typst source as a PNG picture of its own."""
    return compiled(source, "png", dots_per_inch)


def compiled(source: str, form: Literal["pdf", "svg", "png"], dots_per_inch: float | None = None) -> tuple[bytes, ...]:
    """The files that the typesetter makes of a source, of which it keeps nothing in memory."""
    import typst  # noqa: PLC0415  (a large library, needed only when something is printed)

    try:
        made: bytes | list[bytes] = typst.compile(
            source.encode(), font_paths=fonts(), timestamp=0, format=form, ppi=dots_per_inch
        )
    finally:
        forget()
    return tuple(made) if isinstance(made, list) else (made,)


def forget() -> None:
    """Let the typesetter forget what it worked out: it has no call for that, but small documents of no words drive it out."""
    with FORGETTING:
        for _ in range(KEPT_FOR):
            small().compile(b"", format="svg")


FORGETTING: Final = Lock()


@cache
def small() -> typst.Compiler:
    """The typesetter of documents of no words; it is used by one at a time."""
    import typst  # noqa: PLC0415

    return typst.Compiler(b"", ignore_system_fonts=True)


@cache
def fonts() -> typst.Fonts:
    """The fonts of the packages, and none of the computer's own, so that a page breaks in the same place everywhere."""
    import font_source_sans_pro  # noqa: PLC0415
    import typst  # noqa: PLC0415

    return typst.Fonts(include_system_fonts=False, font_paths=[font_source_sans_pro.font_directory])
