"""The test strip: a page with which a maker measures a paper, a printer and a hand, and a form for the readings behind it."""

from __future__ import annotations

from typing import Final

from kitwright.measure import MM_PER_INCH, Unit
from kitwright.printouts.compose import ruler_bar
from kitwright.printouts.drawing import Dimension, Drawing, Label, Line, Mark, Polygon, Role
from kitwright.printouts.page import Page
from kitwright.printouts.write.house import columns, document, heading, new_page, note, paragraph, picture, steps, table
from kitwright.printouts.write.pdf import to_pdf
from kitwright.printouts.write.typst import Markup

__all__ = ["APART", "BAR", "bar_words", "strip_page", "strip_source"]

APART: Final = {Unit.MILLIMETRE: 100.0, Unit.INCH: float(4 * MM_PER_INCH)}
"""How far apart the two scores of the strip are, mm."""

BAR: Final = {Unit.MILLIMETRE: 150.0, Unit.INCH: float(6 * MM_PER_INCH)}
"""The length of the bar that shows how large the printer prints, mm."""

WORDS: Final = {Unit.MILLIMETRE: "mm", Unit.INCH: "in"}
WALL: Final = 38.0
BREADTH: Final = 20.0
THICK: Final = 2.6
"""The card in the pictures, thicker than life so that its two faces are seen."""


def bar_words(mm: float, unit: Unit) -> str:
    """A round length in words: 100 mm, 4 in."""
    return f"{mm / float(unit.mm):g} {WORDS[unit]}"


def strip_page(page: Page, *, unit: Unit) -> bytes:
    """Both pages as a PDF. `unit` is inches or millimetres."""
    return to_pdf(strip_source(page, unit=unit))


def strip_source(page: Page, *, unit: Unit) -> str:
    """Both pages as a Typst source."""
    apart, bar = bar_words(APART[unit], unit), bar_words(BAR[unit], unit)
    blocks = [
        heading("1  The printer", level=2),
        paragraph(f"Print this page at 100 % (actual size). Measure the bar from its first to its {bar} mark."),
        picture(ruler_bar(centimetres=15, inches=6), alt="Ruler bar: 15 cm and 6 in"),
        heading("2  The thickness of the card", level=2),
        columns(
            [
                steps(
                    (
                        "Stack ten sheets, or ten offcuts, of one pack. Press them flat.",
                        "Measure how high the stack is, best with a sliding caliper.",
                    )
                )
            ],
            [picture(stack_picture(), alt="Ten sheets in a stack, its height measured")],
            widths=["1fr", "60mm"],
        ),
        heading("3  Where the fold turns", level=2),
        columns(
            [
                steps(
                    (
                        f"Cut a strip of the card, as long as the one below. Score it twice, {apart} apart, as you always do.",
                        "Measure how far apart the scores are.",
                        "Fold both ends up to right angles and burnish. Measure the room inside, between the walls.",
                        "Do it with three strips: the mean is better than one.",
                    )
                )
            ],
            [picture(u_picture(), alt="The strip folded to a U, the room inside measured")],
            widths=["1fr", "60mm"],
        ),
        picture(strip_picture(unit), alt=f"The strip at true size, its scores {apart} apart"),
        heading("4  Your cuts", level=2),
        paragraph(
            f"Cut ten pieces to the same length, {bar_words(APART[unit] / 4, unit)}, each with the guide set anew. Measure them."
        ),
        new_page(),
        heading("Readings", level=2),
        form(unit),
        note(
            "A ruler reads to about a quarter of a millimetre. That is enough for the printer and the cuts; for the fold of thin card "
            "it is too coarse: use a sliding caliper, or leave the hinge as it is.",
        ),
        paragraph(
            f"Type the readings in:  kitwright strip --units {unit.value} --bar … --stack … --inside … --piece …"
        ),
    ]
    return document(
        blocks,
        title="Test strip",
        kit="Test strip",
        page=page,
        subtitle="Once for each paper, printer and tool",
        true_scale=True,
    )


def form(unit: Unit) -> Markup:
    """The lines to write the readings on."""
    apart = bar_words(APART[unit], unit)
    line = "____________"
    rows = (
        ("", "Paper, and its pack", line * 2, ""),
        ("1", f"Bar that should be {bar_words(BAR[unit], unit)}", line, "--bar"),
        ("2", "Height of ten sheets", line, "--stack"),
        ("3", f"Distance of the scores that should be {apart}", line, "--apart"),
        *(("3", f"Room inside strip {number}", line, "--inside") for number in (1, 2, 3)),
        *(("4", f"Piece {number}", line, "--piece") for number in range(1, 11)),
    )
    head = ("", "What was measured", f"Reading, {WORDS[unit]}", "Typed in as")
    return table(head, rows, widths=("auto", "1fr", "auto", "auto"))


def strip_picture(unit: Unit) -> Drawing:
    """The strip at true size: two walls and the middle, with its scores."""
    apart = APART[unit]
    length = apart + 2 * WALL
    low = 9.0
    marks: tuple[Mark, ...] = (
        Polygon(((0, low), (length, low), (length, low + BREADTH), (0, low + BREADTH)), Role.OUTLINE),
        *(Line((x, low), (x, low + BREADTH), Role.MOUNTAIN) for x in (WALL, WALL + apart)),
        Dimension((WALL, low), (WALL + apart, low), bar_words(apart, unit), offset=-5.0),
        Label("wall", (WALL / 2, low + BREADTH / 2)),
        Label("wall", (length - WALL / 2, low + BREADTH / 2)),
        Label("middle", (WALL + apart / 2, low + BREADTH / 2)),
    )
    return Drawing(length, low + BREADTH + 1, marks)


def u_picture() -> Drawing:
    """The strip folded up, seen from its edge, much thicker than life."""
    wide, high, low = 44.0, 20.0, 1.0
    left, right = 4.0, 4.0 + wide
    outer = (
        (left, low + high),
        (left, low),
        (right, low),
        (right, low + high),
        (right - THICK, low + high),
        (right - THICK, low + THICK),
        (left + THICK, low + THICK),
        (left + THICK, low + high),
    )
    marks = (
        Polygon(outer, Role.PIECE),
        Dimension((left + THICK, low + 9.0), (right - THICK, low + 9.0), "inside", offset=2.0),
    )
    return Drawing(right + 4.0, low + high + 2.0, marks)


def stack_picture() -> Drawing:
    """Ten sheets on each other, much thicker than life, with the height of all."""
    wide, each = 34.0, 1.5
    sheets = tuple(
        Polygon(
            (
                (4.0, 1.0 + n * each),
                (4.0 + wide, 1.0 + n * each),
                (4.0 + wide, 1.0 + (n + 1) * each),
                (4.0, 1.0 + (n + 1) * each),
            ),
            Role.PIECE,
        )
        for n in range(10)
    )
    top = 1.0 + 10 * each
    return Drawing(58.0, top + 2.0, (*sheets, Dimension((4.0 + wide, 1.0), (4.0 + wide, top), "ten", offset=-6.0)))
