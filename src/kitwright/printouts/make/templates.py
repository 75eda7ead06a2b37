"""Template pages: blanks at true size to lay on the card or to trace, on as many pages as they need, each with a ruler bar."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.plan import CutLine, Plan
from kitwright.printouts.compose import canvas, ruler_bar
from kitwright.printouts.make.pattern_picture import blank_marks, glue_on
from kitwright.printouts.make.signs import signs_of
from kitwright.printouts.page import Page
from kitwright.printouts.tiling import tile
from kitwright.printouts.write.house import columns, heading, new_page, paragraph, picture
from kitwright.printouts.write.typst import Markup

__all__ = ["needs_template", "template_blocks"]

HEAD_ROOM = 46.0
"""Height on a template page (mm) for the heading, the line under it and the ruler bar."""

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
    wide, high = page.width - 2 * page.margin, page.height - 2 * page.margin - page.footer - HEAD_ROOM
    for line in plan.lines:
        if not needs_template(line):
            continue
        drawing = canvas(blank_marks(line.blank, glue=glue_on(line.part.pattern, line.blank)))
        tiles = tile(drawing, width=wide, height=high)
        for number, each in enumerate(tiles, 1):
            yield new_page()
            many = f", page {number} of {len(tiles)}" if len(tiles) > 1 else ""
            yield heading(f"Template {signs[line.label]}  {line.label}{many}", level=2)
            hint = "Print at 100 % and measure the bar before cutting."
            if len(tiles) > 1:
                hint += f" This is field {each.name}: trim on the marked line and lay the targets on each other."
            cells = [[paragraph(hint)], [picture(ruler_bar(), alt="Ruler bar: 10 cm and 4 in")]]
            if len(tiles) > 1:
                cells.insert(1, [picture(each.key, alt="Map of the pages")])
            yield columns(*cells, widths=["1fr", *["auto"] * (len(cells) - 1)], between=5)
            yield picture(each.drawing, alt=f"{line.label} at true size")
