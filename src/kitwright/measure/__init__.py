"""Lengths, rulers, money and tolerances. Inside the program every length is in millimetres."""

from kitwright.measure.length import MM_PER_INCH, Length, Unit, parse_length, parse_size
from kitwright.measure.money import Money, parse_money
from kitwright.measure.ruler import Ruler, format_length, parse_ruler
from kitwright.measure.tolerance import (
    CORNER_GRID,
    CRAFT_TOLERANCE,
    LEAST_AREA,
    LEAST_CLASH,
    LEAST_SINK,
    MACHINE_TOLERANCE,
    NEAR_MARK,
    NUMERIC_TOLERANCE,
    ON_LIMIT,
    SEAM_OVERLAP,
    exact_length,
)
from kitwright.measure.words import counted, nearest_word, plain_number, plain_word, square_of, suggestion, with_article

__all__ = [
    "CORNER_GRID",
    "CRAFT_TOLERANCE",
    "LEAST_AREA",
    "LEAST_CLASH",
    "LEAST_SINK",
    "MACHINE_TOLERANCE",
    "MM_PER_INCH",
    "NEAR_MARK",
    "NUMERIC_TOLERANCE",
    "ON_LIMIT",
    "SEAM_OVERLAP",
    "Length",
    "Money",
    "Ruler",
    "Unit",
    "counted",
    "exact_length",
    "format_length",
    "nearest_word",
    "parse_length",
    "parse_money",
    "parse_ruler",
    "parse_size",
    "plain_number",
    "plain_word",
    "square_of",
    "suggestion",
    "with_article",
]
