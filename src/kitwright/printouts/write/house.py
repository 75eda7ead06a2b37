"""The house style of printed documents, as small functions that give Typst markup. Plain `str` is always words, and is escaped.

A document is put together from blocks (`heading`, `paragraph`, `table`, `picture` …) and finished by `document`, which gives a
complete source for `pdf.to_pdf`. Fractions such as `4 1/4` are written plainly and are set as small fractions that do not break.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, TypeAlias

from kitwright.printouts.drawing import Drawing
from kitwright.printouts.lettering import text_width, wrapped
from kitwright.printouts.page import Page
from kitwright.printouts.style import LIGHT
from kitwright.printouts.write.coverage import missing_signs, missing_words, printable
from kitwright.printouts.write.house_style import PRELUDE
from kitwright.printouts.write.svg import number
from kitwright.printouts.write.typst import Markup, drawing_to_typst, typst_string, words

__all__ = [
    "BODY_POINTS",
    "Align",
    "bare_page",
    "bold",
    "caution",
    "checklist",
    "columns",
    "document",
    "gap",
    "heading",
    "joined",
    "muted",
    "name_width",
    "new_page",
    "note",
    "paragraph",
    "picture",
    "pictures",
    "shared",
    "small",
    "steps",
    "table",
    "table_height",
    "together",
]

BODY_POINTS = 11.0
"""Size of the letters of running words, as the house style has it."""

TABLE_LETTERS, TABLE_INSET = 3.7, 4.4
"""Size of the letters in a table and the free width in a cell (mm), as the house style has them."""

TABLE_ROW, TABLE_LINE = 6.6, 5.2
"""Height of a row of one line, and of every further line (mm), reckoned a little high."""

MOST_SIGNS = 1200
"""A cell with more signs may be higher than a page."""

Align: TypeAlias = Literal["left", "center", "right"]


def document(
    blocks: Iterable[Markup],
    *,
    title: str,
    kit: str,
    page: Page,
    subtitle: str = "",
    true_scale: bool = False,
    language: str = "en",
) -> str:
    """A complete source: page and fonts, the title over the first page, the blocks, and a footer with kit, title and page numbers.

    `true_scale` adds to the footer that the page must be printed at 100 %. Signs that the font has not stand as a box, and a note
    at the head of the first page says which they are.
    """
    settings = ", ".join(
        (
            f"title: {typst_string(title)}",
            f"kit: {typst_string(kit)}",
            f"subtitle: [{words(subtitle)}]" if subtitle else "subtitle: none",
            f"width: {number(page.width)}mm",
            f"height: {number(page.height)}mm",
            f"margin: {number(page.margin)}mm",
            f"footer-room: {number(page.footer)}mm",
            f"true-scale: {'true' if true_scale else 'false'}",
            f"lang: {typst_string(language)}",
        )
    )
    colours = "\n".join(f'#let {tint.value} = rgb("{colour}")' for tint, colour in LIGHT.items())
    body = "\n\n".join(blocks)
    missing = missing_signs(settings + body)
    told = f"{note(missing_words(missing), word='Signs that cannot be printed')}\n\n" if missing else ""
    return printable(f"{colours}\n{PRELUDE}\n#show: kit-page.with({settings})\n\n{told}{body}\n")


# ---- words in a line


def joined(*parts: str) -> Markup:
    """Parts of a line, one after the other."""
    return Markup("".join(words(part) for part in parts))


def bold(text: str) -> Markup:
    """Words that stand out."""
    return Markup(f"#strong[{words(text)}]")


def muted(text: str) -> Markup:
    """Words that stand back."""
    return Markup(f"#text(fill: soft)[{words(text)}]")


# ---- blocks


def heading(text: str, *, level: int = 1) -> Markup:
    """A heading under the title: 1 for a section, 2 and 3 below it."""
    return Markup(f"#heading(level: {level})[{words(text)}]")


def paragraph(*parts: str) -> Markup:
    """A paragraph."""
    return Markup(f"#par[{joined(*parts)}]")


def gap(mm: float) -> Markup:
    """Free height."""
    return Markup(f"#v({number(mm)}mm)")


def new_page() -> Markup:
    """The rest begins on a new page."""
    return Markup("#pagebreak(weak: true)")


def bare_page(*blocks: Markup, margin: float, footer: float) -> Markup:
    """A page of its own with narrow margins (mm), for what is printed at true size."""
    margins = f"x: {number(margin)}mm, top: {number(margin)}mm, bottom: {number(margin + footer)}mm"
    return Markup(f"#page(margin: ({margins}), footer-descent: 1mm)[{lines_of(blocks)}]")


def together(*blocks: Markup, low: bool = False) -> Markup:
    """Blocks that stay on one page, if it has room for them.

    `low` says that any page has: then they are not measured, which takes the typesetter several times the memory of setting them.
    """
    if low:
        return Markup(f"#block(width: 100%, breakable: false)[{lines_of(blocks)}]")
    return Markup(f"#kept[{lines_of(blocks)}]")


def small(*blocks: Markup, points: float = 9) -> Markup:
    """Blocks in smaller letters, for what is looked up rather than read."""
    return Markup(
        f"#block(width: 100%)[#set text(size: {number(points)}pt)\n#set par(leading: 0.45em, spacing: 0.6em)\n{lines_of(blocks)}]"
    )


def columns(*cells: Iterable[Markup], widths: Sequence[str] | None = None, between: float = 8.0) -> Markup:
    """Groups of blocks next to each other; `widths` as Typst has them (`1fr`, `60mm`, `auto`), equal if not given."""
    made = [f"[{lines_of(cell)}]" for cell in cells]
    tracks = ", ".join(widths or ["1fr"] * len(made))
    return Markup(f"#grid(columns: ({tracks},), column-gutter: {number(between)}mm, {', '.join(made)})")


def lines_of(blocks: Iterable[Markup]) -> str:
    """Blocks below each other."""
    return "\n\n".join(words(block) for block in blocks)


def table(
    head: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    align: Sequence[Align] | None = None,
    widths: Sequence[str] | None = None,
) -> Markup:
    """A table with its head repeated on every page; only rows that may be higher than a page break. The last of `widths` may be `1fr`."""
    count = len(head)
    aligns = ", ".join(align or ["left"] * count)
    tracks = ", ".join(widths or ["auto"] * (count - 1) + ["1fr"])
    cells = ", ".join(cell for row in rows for cell in table_cells(row))
    heads = ", ".join(f"[{words(cell)}]" for cell in head)
    return Markup(f"#kit-table(columns: ({tracks},), align: ({aligns},), head: ({heads},), {cells})")


def table_height(rows: Iterable[Sequence[str]], widths: Sequence[float]) -> float:
    """How high a table of words in columns so wide (mm) is at most, its head included (mm)."""
    lines = (
        max(
            wrapped(cell, wide - TABLE_INSET, TABLE_LETTERS).count("\n") + 1
            for cell, wide in zip(row, widths, strict=True)
        )
        for row in rows
    )
    return TABLE_ROW + sum(TABLE_ROW + TABLE_LINE * (many - 1) for many in lines)


def table_cells(row: Sequence[str]) -> Iterator[str]:
    """The cells of a row; they may break if one of them has very many signs."""
    looks = "table.cell(breakable: true)" if any(len(cell) > MOST_SIGNS for cell in row) else ""
    return (f"{looks}[{words(cell)}]" for cell in row)


def name_width(names: Iterable[str], *, most: float) -> str:
    """How wide a column of names is: as wide as the longest, but at most so many mm; longer names go into several lines."""
    widest = max((text_width(name, TABLE_LETTERS) for name in names), default=0.0)
    return "auto" if widest + TABLE_INSET <= most else f"{number(most)}mm"


def steps(items: Iterable[str]) -> Markup:
    """Numbered steps."""
    return Markup(f"#kit-steps({', '.join(f'[{words(item)}]' for item in items)})")


def checklist(items: Iterable[str]) -> Markup:
    """Things to tick off with a pencil."""
    return Markup(f"#kit-checklist({', '.join(f'[{words(item)}]' for item in items)})")


def caution(*lines: str, word: str = "Caution", points: float = BODY_POINTS) -> Markup:
    """A box that says what can hurt, how, and how to avoid it, in letters of at least so many points."""
    told = [
        words(line) if points <= BODY_POINTS else f"#text(size: {number(points)}pt)[{words(line)}]" for line in lines
    ]
    return Markup(f"#kit-box(word: [{words(word)}], sign: true, {', '.join(f'[{line}]' for line in told)})")


def note(*lines: str, word: str = "Note") -> Markup:
    """A quiet box for what is worth knowing."""
    return Markup(f"#kit-box(word: [{words(word)}], sign: false, {', '.join(f'[{words(line)}]' for line in lines)})")


def picture(drawing: Drawing, *, alt: str, caption: str = "", close: bool = False) -> Markup:
    """A drawing at its own size with words under it; `alt` says what it shows to those who cannot see it.

    `close` leaves no free height above and below it.
    """
    space = "gap: 0mm, " if close else ""
    under = f"[{words(caption)}]" if caption else "none"
    return Markup(f"#kit-picture({space}alt: {typst_string(alt)}, caption: {under})[{drawing_to_typst(drawing)}]")


def pictures(
    made: Sequence[Markup], *, across: int, between: float = 6.0, level: Literal["top", "bottom"] = "bottom"
) -> Markup:
    """Pictures in a grid, row by row, those of a row on one `level`; a row never breaks across pages."""
    rows = [made[i : i + across] for i in range(0, len(made), across)]
    grids = (
        f"#block(breakable: false)[#grid(columns: ({', '.join(['1fr'] * across)},), column-gutter: {number(between)}mm, "
        f"align: center + {level}, {', '.join(f'[{each}]' for each in row)})]"
        for row in rows
    )
    return Markup("\n\n".join(grids))


def shared(name: str, block: Markup) -> tuple[Markup, Markup]:
    """A block that is shown several times: what says it once, before and outside all blocks that show it, and what shows it.

    `name` is of small letters, figures and hyphens, and nothing else in the document has it.
    """
    return Markup(f"#let {name} = [{block}]"), Markup(f"#{name}")
