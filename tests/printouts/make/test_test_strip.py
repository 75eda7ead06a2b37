"""The test strip as printed: two pages, its bar and its scores at true size, a line for every reading."""

from __future__ import annotations

import pypdfium2
import pytest

from kitwright.measure import Unit
from kitwright.printouts.drawing import Line, Polygon, Role
from kitwright.printouts.make.test_strip import APART, BAR, bar_words, strip_page, strip_picture
from kitwright.printouts.page import A4, PAGES, US_LETTER, Page

UNITS = (Unit.INCH, Unit.MILLIMETRE)


@pytest.mark.parametrize("unit", UNITS)
def test_the_scores_are_a_round_length_apart_on_the_strip(unit: Unit) -> None:
    marks = strip_picture(unit).marks
    scores = sorted(mark.start[0] for mark in marks if isinstance(mark, Line) and mark.role is Role.MOUNTAIN)
    assert scores[1] - scores[0] == pytest.approx(APART[unit])
    assert {Unit.MILLIMETRE: 100.0, Unit.INCH: pytest.approx(101.6)} == APART
    assert (bar_words(APART[unit], unit), bar_words(BAR[unit], unit)) in {("4 in", "6 in"), ("100 mm", "150 mm")}
    (strip,) = (mark for mark in marks if isinstance(mark, Polygon))
    walls = scores[0] - min(x for x, _ in strip.points), max(x for x, _ in strip.points) - scores[1]
    assert walls[0] == pytest.approx(walls[1])


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("unit", UNITS)
def test_the_strip_lies_inside_the_margins_of_every_page(page: Page, unit: Unit) -> None:
    assert strip_picture(unit).width <= page.width - 2 * page.margin


@pytest.mark.parametrize(("page", "unit"), [(US_LETTER, Unit.INCH), (A4, Unit.MILLIMETRE), (A4, Unit.INCH)])
def test_the_pdf_has_what_to_do_on_one_page_and_the_readings_on_the_other(page: Page, unit: Unit) -> None:
    pdf = pypdfium2.PdfDocument(strip_page(page, unit=unit))
    assert len(pdf) == 2
    assert pdf[0].get_size() == pytest.approx((page.width / 25.4 * 72, page.height / 25.4 * 72), abs=0.01)
    first, second = (pdf[number].get_textpage().get_text_range() for number in (0, 1))
    assert "100 %" in first
    assert bar_words(APART[unit], unit) in first
    for reading in ("--bar", "--stack", "--apart", "--inside", "--piece"):
        assert reading in second
    assert second.count("--piece") >= 10
    pdf.close()
