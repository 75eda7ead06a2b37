"""A cut as it is made: the paper at the guide with its top pointing as said, the blade, what comes off and what is put aside."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from types import MappingProxyType
from typing import Final

from kitwright.cutting import BenchPiece, BenchStep, Holds, TopPoints, to_mm
from kitwright.measure import Ruler
from kitwright.printouts.compose import beside, fitted, print_up_arrow, stacked
from kitwright.printouts.drawing import Dimension, Drawing, Label, Line, Mark, Move, Polygon, Role
from kitwright.printouts.lettering import wrapped
from kitwright.printouts.make.bench_words import step_words
from kitwright.printouts.make.layout_picture import rectangle

__all__ = ["cut_drawing", "order_drawing"]

ANGLE: Final = MappingProxyType(
    {TopPoints.AWAY: 90.0, TopPoints.LEFT: 180.0, TopPoints.RIGHT: 0.0, TopPoints.TOWARDS: 270.0}
)
"""Where the up of the print points on the picture; the guide is at the left and the maker below."""

CELL: Final = (62.0, 58.0)
"""Width of one cut in a row of cuts, and its height where its words take two lines, mm."""

ACROSS: Final = 4
LETTERS: Final = 3.2
LINE: Final = 1.4 * LETTERS


def cut_drawing(step: BenchStep, ruler: Ruler, *, width: float, height: float) -> Drawing:
    """One setting of the guide as large as fits: the paper as it lies, its cuts, and what each side of them is."""
    return fitted(cut_marks(step, ruler), width=width, height=height, largest=1.0).drawing


def cut_marks(step: BenchStep, ruler: Ruler) -> Iterator[Mark]:
    """The paper at its own size, its left edge at the guide; the maker sits below."""
    wide, high = laid(step.take, step.top)
    guide = float(to_mm(step.guide))
    bar = max(2.0, wide / 40)
    yield Polygon(rectangle(-bar, -0.06 * high, bar, 1.12 * high), Role.OUTER)
    strips, rest = step.gives[: step.repeats], step.gives[step.repeats :]
    for place, piece in enumerate(strips):
        yield from side(piece, place * guide, (place + 1) * guide, high)
    reached = step.repeats * guide
    if rest:
        yield from side(rest[0], reached, wide, high)
    else:  # an edge that is no use
        yield Polygon(rectangle(reached, 0, wide - reached, high), Role.OFFCUT)
    yield Polygon(rectangle(0, 0, wide, high), Role.OUTLINE)
    for place in range(1, step.repeats + 1):
        yield Line((place * guide, -0.04 * high), (place * guide, 1.04 * high), Role.ACTION)
    yield Dimension((0, 0), (guide, 0), ruler.format(guide), offset=-7)
    length = max(wide, high) / 6
    yield print_up_arrow((wide + 0.75 * length, high / 2), angle=ANGLE[step.top], length=length)


def laid(piece: BenchPiece, top: TopPoints) -> tuple[float, float]:
    """Width and height of a piece as it lies at the guide, mm."""
    width, height = float(to_mm(piece.width)), float(to_mm(piece.height))
    return (height, width) if top in (TopPoints.LEFT, TopPoints.RIGHT) else (width, height)


def side(piece: BenchPiece, left: float, right: float, high: float) -> Iterator[Mark]:
    """What lies between two cuts: a part, a strip that is cut further, or what is put aside."""
    role = {Holds.PART: Role.PIECE, Holds.STRIP: Role.BLANK}.get(piece.holds, Role.OFFCUT)
    yield Polygon(rectangle(left, 0, right - left, high), role)
    words = {Holds.PART: piece.piece, Holds.STRIP: piece.mark}.get(piece.holds, "left over")
    middle = ((left + right) / 2, high / 2)
    yield Label(words, middle, room=(0.92 * (right - left), 0.5 * high), plate=role is Role.OFFCUT)


def order_drawing(steps: Sequence[BenchStep], ruler: Ruler) -> Drawing:
    """All cuts of a layout one after the other, above each what is taken, where the guide stands and what comes of it."""
    cells = [order_cell(number, step, ruler) for number, step in enumerate(steps, 1)]
    rows = [cells[first : first + ACROSS] for first in range(0, len(cells), ACROSS)]
    blank = Drawing(CELL[0], 1.0)
    wide = [beside([*row, *[blank] * (ACROSS - len(row))], gap=0.0, align="high") for row in rows]
    return stacked(wide, gap=0.0)


def order_cell(number: int, step: BenchStep, ruler: Ruler) -> Drawing:
    """One cut: its words, below them its picture."""
    taken, _, _, given = step_words(step, ruler)
    often = f", {step.repeats} times" if step.repeats > 1 else ""
    guide = f"guide at {ruler.with_unit(float(to_mm(step.guide)))}{often}"
    room = CELL[0] - 4
    lines = [
        line for words in (f"{number}. {taken}", guide, given) for line in wrapped(words, room, LETTERS).split("\n")
    ]
    picture = cut_drawing(step, ruler, width=room, height=CELL[1] - 14)
    high = 11.0 + LINE * (len(lines) - 2) + picture.height + 3.0
    marks: list[Mark] = [
        Label(words, (2.0, high - 3 - LINE * place), Role.RULER, LETTERS, anchor="start")
        for place, words in enumerate(lines)
    ]
    move = Move(e=2 + (room - picture.width) / 2, f=3.0)
    return Drawing(CELL[0], high, (*marks, *(mark.under(move) for mark in picture.marks)))
