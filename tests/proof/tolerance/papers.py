"""A card for tests: 216 g/m², 0.3 mm thick, its caliper good to a tenth."""

from __future__ import annotations

from fractions import Fraction

from kitwright.paper import Paper, parse_caliper

CARD = Paper(
    key="card",
    label="Card",
    sheet_width_mm=Fraction(600),
    sheet_height_mm=Fraction(600),
    gsm=216.0,
    caliper=parse_caliper("0.3 mm"),
)
