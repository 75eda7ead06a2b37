"""Sheets by name. ISO 216:2007, table 1; PWG 5101.1-2002 for North American sheets."""

from fractions import Fraction
from itertools import pairwise

import pytest

from kitwright.errors import Mistakes
from kitwright.kit import Kit, read_kit

TEXT = """
[kit]
name = "Cards"
units = "{units}"
[paper.card]
sheet = "{sheet}"
weight = "200 gsm"
[[part]]
name = "card"
form = "flat card"
size = "3 in x 2 in"
paper = "card"
"""


def kit_with(sheet: str, units: str = "mm") -> Kit:
    """A kit cut from this sheet."""
    return read_kit(TEXT.format(sheet=sheet, units=units))


@pytest.mark.parametrize(
    ("sheet", "width", "height"),
    [
        ("A4", "210", "297"),
        ("a4 lying", "297", "210"),
        ("A3", "297", "420"),
        ("B5", "176", "250"),
        ("Letter", "215.9", "279.4"),
        ("legal", "215.9", "355.6"),
        ("Tabloid", "279.4", "431.8"),
    ],
)
@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_sheet_may_be_said_by_its_name(sheet: str, width: str, height: str, units: str) -> None:
    paper = kit_with(sheet, units).papers["card"]
    assert (paper.sheet_width_mm, paper.sheet_height_mm) == (Fraction(width), Fraction(height))


def test_each_sheet_of_the_a_series_is_half_of_the_one_before() -> None:
    sizes = [kit_with(f"A{number}").papers["card"] for number in (2, 3, 4, 5, 6)]
    for larger, smaller in pairwise(sizes):
        assert smaller.sheet_height_mm == larger.sheet_width_mm
        assert smaller.sheet_width_mm == larger.sheet_height_mm // 2  # ISO 216 rounds down to whole millimetres


@pytest.mark.parametrize(
    ("sheet", "says"), [("Lettre", "Did you mean 'Letter'?"), ("A4 flying", "there is no sheet called")]
)
def test_an_unknown_name_is_told_with_the_nearest(sheet: str, says: str) -> None:
    with pytest.raises(Mistakes, match="Or write width x height") as caught:
        kit_with(sheet)
    assert says in str(caught.value)
