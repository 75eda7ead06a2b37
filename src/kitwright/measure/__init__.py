"""Lengths, rulers, money and tolerances. Inside the program every length is in millimetres."""

from kitwright.measure.length import MM_PER_INCH, Length, Unit, parse_length, parse_size
from kitwright.measure.money import Money, parse_money
from kitwright.measure.ruler import NEAR_MARK, Ruler, format_length, parse_ruler
from kitwright.measure.tolerance import CRAFT_TOLERANCE, NUMERIC_TOLERANCE
from kitwright.measure.words import counted, nearest_word, plain_number, plain_word, square_of, suggestion, with_article

__all__ = [
    "CRAFT_TOLERANCE",
    "MM_PER_INCH",
    "NEAR_MARK",
    "NUMERIC_TOLERANCE",
    "Length",
    "Money",
    "Ruler",
    "Unit",
    "counted",
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
