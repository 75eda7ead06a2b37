"""Template pages: blanks at true size to lay on the card or to trace, on as many pages as they need, each with a ruler bar."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.plan import CutLine, Plan
from kitwright.printouts.compose import canvas, ruler_bar
from kitwright.printouts.drawing import Drawing, turned
from kitwright.printouts.make.pattern_picture import blank_marks, glue_on, print_turn_of
from kitwright.printouts.make.signs import signs_of
from kitwright.printouts.page import Page
from kitwright.printouts.tiling import tile
from kitwright.printouts.write.house import bare_page, columns, heading, paragraph, picture
from kitwright.printouts.write.typst import Markup

__all__ = ["needs_template", "template_blocks"]

MARGIN, FOOTER = 6.5, 5.5
"""Margin of a template page (mm): what home printers leave white, and the line at the foot."""

HEAD, TALL_HEAD, BAR = 20.9, 36.0, 19.0
"""Height of the head with its ruler bar, of one that also says how pages are joined, and breadth of a bar beside the drawing (mm)."""

LONGEST_TITLE = 60
"""Signs of a title that stand on one line."""

LOW_HEAD = 9.5
"""Height of the head where the ruler bar stands beside the drawing (mm)."""

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
            yield from template_pages(drawing, title, line.label, page, hint=paragraph(hint))


def template_pages(drawing: Drawing, title: str, name: str, page: Page, *, hint: Markup) -> Iterator[Markup]:
    """A drawing at true size: on one page if it fits any way, with its ruler bar above or beside it; otherwise in fields."""
    wide, high = page.width - 2 * MARGIN, page.height - 2 * MARGIN - FOOTER
    above, beside_ = (wide, high - HEAD), (wide - BAR, high - LOW_HEAD)
    fields = (wide, high - TALL_HEAD)
    way = next((way for way in (above, beside_) for turn in (0, 1) if fits(turned(drawing, turn), *way)), fields)
    tiles = tile(drawing, width=way[0], height=way[1])
    bar = turned(ruler_bar(), 1) if way == beside_ else ruler_bar()
    ruler = picture(bar, alt="Ruler bar: 10 cm and 4 in", close=True)
    title = title if len(title) <= LONGEST_TITLE else f"{title[: LONGEST_TITLE - 1]}…"
    for number, each in enumerate(tiles, 1):
        shown = picture(each.drawing, alt=f"{name} at true size", close=True)
        if way == beside_:
            line = columns([heading(title, level=3)], [hint], widths=["1fr", "auto"], between=4)
            body = columns([shown], [ruler], widths=["1fr", f"{BAR:g}mm"], between=0)
            yield bare_page(line, body, margin=MARGIN, footer=FOOTER)
        elif way == above:
            line = columns([heading(title, level=3), hint], [ruler], widths=["1fr", "auto"], between=4)
            yield bare_page(line, shown, margin=MARGIN, footer=FOOTER)
        else:
            joining = paragraph(f"Field {each.name}: trim on the marked line, lay the targets on each other.")
            key = picture(each.key, alt="Map of the pages", close=True)
            line = columns([hint, joining], [key], [ruler], widths=["1fr", "auto", "auto"], between=4)
            head = heading(f"{title}, page {number} of {len(tiles)}", level=3)
            yield bare_page(head, line, shown, margin=MARGIN, footer=FOOTER)


def fits(drawing: Drawing, width: float, height: float) -> bool:
    """Whether a drawing goes into a field as it lies."""
    return drawing.width <= width and drawing.height <= height
