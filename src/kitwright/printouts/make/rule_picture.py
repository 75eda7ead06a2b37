"""The rule of a scoring board with one pass of scores: where the tool is set, as it is seen at the bench."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from kitwright.measure import Ruler, Unit
from kitwright.pattern import FoldWay, ScorePass
from kitwright.printouts.annotate import spread
from kitwright.printouts.compose import canvas
from kitwright.printouts.drawing import Drawing, Label, Line, Mark, Polygon, Polyline, Role
from kitwright.printouts.lettering import text_width
from kitwright.printouts.make.pattern_picture import ROLE_OF_FOLD

__all__ = ["rule_drawing"]

RULE, CARD, RISE, LEAD = 11.0, 9.0, 4.0, 4.0
"""Heights of the rule and of the card above it, by how much a stop stands over the card, and of the lines to its number (mm)."""

STOP_SIZE, FIGURE_SIZE = 6.0, 4.0
"""Letters of the stops and of the rule's own figures (mm)."""

FINEST: Final = 0.9
"""Marks of the rule that would lie closer than this (mm) are left out."""

MARKS_OF: Final = MappingProxyType(
    {
        Unit.INCH: (Fraction(1), Fraction(1, 2), Fraction(1, 4), Fraction(1, 8)),
        Unit.CENTIMETRE: (Fraction(1), Fraction(1, 2), Fraction(1, 10)),
        Unit.MILLIMETRE: (Fraction(10), Fraction(5), Fraction(1)),
    }
)
"""The marks of a rule, longest first, in its unit."""

HEIGHTS: Final = (5.0, 3.6, 2.6, 1.8)
FIGURES: Final = (1, 2, 5, 10, 20, 50)


def rule_drawing(each: ScorePass, ruler: Ruler, *, width: float) -> Drawing:
    """The card lying on the rule from zero to its full length, the length drawn `width` mm long, and every stop with its number.

    The card is tinted as the side that is up. Numbers that would touch are spread apart and led to their stops; behind the last of them
    stands, in light letters, the length of the side.
    """
    factor = width / each.length
    return canvas([*rule(each.length, ruler.unit, factor), *card(each, ruler, factor)])


def rule(length: float, unit: Unit, factor: float) -> Iterator[Mark]:
    """The rule itself: its edge, its marks and as many figures as have room."""
    width = length * factor
    yield Line((0, RULE), (width, RULE), Role.RULER)
    steps = MARKS_OF[unit]
    drawn: set[Fraction] = set()
    for step, height in zip(steps, HEIGHTS, strict=False):
        gap = float(step * unit.mm) * factor
        if gap < FINEST:
            break
        for number in range(count(width, gap)):
            if step * number not in drawn:
                drawn.add(step * number)
                yield Line((gap * number, RULE), (gap * number, RULE - height), Role.RULER)
    gap = float(steps[0] * unit.mm) * factor
    widest = text_width(str(round(float(steps[0]) * (count(width, gap) - 1))), FIGURE_SIZE) + FIGURE_SIZE / 2
    every = next((each for each in FIGURES if each * gap >= widest), FIGURES[-1])
    for number in range(0, count(width, gap), every):
        at = (gap * number, RULE - HEIGHTS[0] - 0.8)
        yield Label(str(int(steps[0] * number)), at, Role.RULER, size=FIGURE_SIZE, level="top")


def count(width: float, gap: float) -> int:
    """How many marks with a gap between them a width has, the one at zero among them; a hair short is there."""
    return math.floor(width / gap + 1e-6) + 1


def card(each: ScorePass, ruler: Ruler, factor: float) -> Iterator[Mark]:
    """The card above the rule, its stops and their numbers."""
    width, top = each.length * factor, RULE + CARD
    face = Role.BACK_FACE if each.way is FoldWay.VALLEY else Role.PRINT_FACE
    corners = ((0.0, RULE), (width, RULE), (width, top), (0.0, top))
    yield Polygon(corners, face)
    yield Polygon(corners, Role.CUT)
    role = ROLE_OF_FOLD[each.way]
    stops = [(mark.at * factor, ruler.format(mark.at)) for mark in each.marks]
    numbers = [*stops, (width, ruler.with_unit(each.length))]
    widest = max(text_width(words, STOP_SIZE, "bold") for _, words in stops) + STOP_SIZE / 2
    last = (widest + text_width(numbers[-1][1], STOP_SIZE)) / 2
    places = spread([at for at, _ in stops], gap=widest)
    end = max(width, places[-1] + last)
    for (at, words), place in zip(stops, places, strict=True):
        yield Polyline(((at, RULE), (at, top + RISE), (place, top + RISE + LEAD)), role)
        yield Label(words, (place, top + RISE + LEAD + 1), role, size=STOP_SIZE, level="base", weight="bold")
    yield Polyline(((width, top), (width, top + RISE), (end, top + RISE + LEAD)), Role.DIMENSION)
    yield Label(numbers[-1][1], (end, top + RISE + LEAD + 1), Role.DIMENSION, size=STOP_SIZE, level="base")
