"""Template pages: blanks at true size to lay on the card or to trace, on as many pages as they need, each with a ruler bar."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.plan import CutLine, Plan
from kitwright.printouts.compose import canvas, ruler_bar
from kitwright.printouts.drawing import Drawing, turned
from kitwright.printouts.lettering import text_width
from kitwright.printouts.make.page_head import HINT_SIZE, SLACK, UNDER, Title, words_height
from kitwright.printouts.make.pattern_picture import blank_marks, glue_on, print_turn_of
from kitwright.printouts.make.signs import signs_of
from kitwright.printouts.page import Page
from kitwright.printouts.tiling import Tile, tile
from kitwright.printouts.write.house import bare_page, columns, paragraph, picture
from kitwright.printouts.write.typst import Markup

__all__ = ["needs_template", "template_blocks"]

MARGIN, FOOTER = 6.5, 5.5
"""Margin of a template page (mm): what home printers leave white, and the line at the foot."""

HEAD, TALL_HEAD, BAR = 20.9, 36.0, 19.0
"""Least height of a head with its ruler bar, of one that also says how pages are joined, and breadth of a bar beside the drawing (mm)."""

LOW_HEAD = 9.5
"""Least height of the head where the ruler bar stands beside the drawing (mm)."""

BETWEEN = 4.0
"""Free width between the cells of a head (mm)."""

NARROW = 45.0
"""Words get no narrower column than this beside the map and the bar (mm); they stand below both instead."""

NICK = 10.0
"""A slanted piece narrower than this (mm) is cut by eye: the end of a tab or hem taken back a little."""

FEW = 2


def needs_template(line: CutLine) -> bool:
    """Whether a blank has slanted or rounded cuts, holes or aslant scores that numbers alone do not give.

    One or two small slanted cuts at the ends of a tab need none.
    """
    shaped = [piece for piece in line.chart.cut_away if not piece.is_rectangle or piece.is_inside]
    small = len(shaped) <= FEW and all(
        min(piece.width, piece.height) < NICK and not piece.is_inside for piece in shaped
    )
    return bool(line.chart.aslant) or bool(shaped and not small)


def template_blocks(plan: Plan, page: Page) -> Iterator[Markup]:
    """The pages of all blanks that need one."""
    signs = signs_of(plan)
    for line in plan.lines:
        if needs_template(line):
            turn = print_turn_of(line.part)
            drawing = canvas(blank_marks(line.blank, glue=glue_on(line.part.pattern, line.blank), print_turn=turn))
            hint = "Measure the bar before cutting."
            if turn is not None:
                hint += " The arrow points to the top of the print."
            title = f"Template {signs[line.label]}  {line.label}"
            yield from template_pages(drawing, title, line.label, page, hint=hint)


def template_pages(drawing: Drawing, title: str, name: str, page: Page, *, hint: str) -> Iterator[Markup]:
    """A drawing at true size: on one page if it fits any way, with its ruler bar above or beside it; otherwise in fields.

    The head takes the room that its words need, and the drawing has the rest of the page.
    """
    wide, high = page.width - 2 * MARGIN, page.height - 2 * MARGIN - FOOTER
    bar = ruler_bar()
    above = Title(title, wide - BETWEEN - bar.width, hints=(hint,), room=HEAD)
    beside_ = Title(title, wide - BETWEEN - text_width(hint, HINT_SIZE), hints=(), room=LOW_HEAD)
    if fits_turned(drawing, wide, high - max(above.height, HEAD)):
        (only,) = tile(drawing, width=wide, height=high - max(above.height, HEAD))
        line = columns([above.heading, paragraph(hint)], [bar_picture(bar)], widths=["1fr", "auto"], between=BETWEEN)
        yield bare_page(line, at_true_size(only, name), margin=MARGIN, footer=FOOTER)
    elif fits_turned(drawing, wide - BAR, high - max(beside_.height, LOW_HEAD)):
        (only,) = tile(drawing, width=wide - BAR, height=high - max(beside_.height, LOW_HEAD))
        line = columns([beside_.heading], [paragraph(hint)], widths=["1fr", "auto"], between=BETWEEN)
        upright = bar_picture(turned(bar, 1))
        body = columns([at_true_size(only, name)], [upright], widths=["1fr", f"{BAR:g}mm"], between=0)
        yield bare_page(line, body, margin=MARGIN, footer=FOOTER)
    else:
        yield from field_pages(drawing, title, name, (wide, high), hint=hint)


def field_pages(drawing: Drawing, title: str, name: str, field: tuple[float, float], *, hint: str) -> Iterator[Markup]:
    """A drawing at true size in fields, each on its page of so many mm, with a map of all and how they are joined."""
    wide, high = field
    head = TALL_HEAD
    while True:
        tiles = tile(drawing, width=wide, height=high - head)
        titles = [f"{title}, page {number} of {len(tiles)}" for number in range(1, len(tiles) + 1)]
        heads = [joined_head(each, words, hint, wide) for each, words in zip(tiles, titles, strict=True)]
        needed = max(height for _, height in heads)
        if needed <= head:
            break
        head = needed
    for each, (blocks, _) in zip(tiles, heads, strict=True):
        yield bare_page(*blocks, at_true_size(each, name), margin=MARGIN, footer=FOOTER)


def joined_head(each: Tile, title: str, hint: str, wide: float) -> tuple[list[Markup], float]:
    """The head of a page that is joined with others, and how high it is (mm)."""
    bar = ruler_bar()
    hints = (hint, f"Field {each.name}: trim on the marked line, lay the targets on each other.")
    head = Title(title, wide, hints=(), room=0.0)
    told = [paragraph(words) for words in hints]
    key = picture(each.key, alt="Map of the pages", close=True)
    beside_ = wide - each.key.width - bar.width - 2 * BETWEEN
    pictured = max(bar.height, each.key.height)
    if beside_ >= NARROW:
        line = columns(told, [key], [bar_picture(bar)], widths=["1fr", "auto", "auto"], between=BETWEEN)
        return [head.heading, line], head.height + max(pictured, words_height(hints, beside_)) + SLACK
    line = columns([key], [bar_picture(bar)], widths=["1fr", "auto"], between=BETWEEN)
    return [head.heading, line, *told], head.height + pictured + UNDER + words_height(hints, wide) + SLACK


def bar_picture(bar: Drawing) -> Markup:
    """The ruler bar of a page."""
    return picture(bar, alt="Ruler bar: 10 cm and 4 in", close=True)


def at_true_size(each: Tile, name: str) -> Markup:
    """A field of a drawing."""
    return picture(each.drawing, alt=f"{name} at true size", close=True)


def fits_turned(drawing: Drawing, width: float, height: float) -> bool:
    """Whether a drawing goes into a field as it lies or turned by a quarter."""
    return any(fits(turned(drawing, quarters), width, height) for quarters in (0, 1))


def fits(drawing: Drawing, width: float, height: float) -> bool:
    """Whether a drawing goes into a field as it lies."""
    return drawing.width <= width and drawing.height <= height
