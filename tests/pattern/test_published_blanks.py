"""Published measurements, drawn by hand through the public names of `kitwright.pattern` and read back off the chart.

Each source is named beside its check. Lengths in mm.
"""

from __future__ import annotations

import math

import pytest
from tests.pattern.checks import check_pattern

import kitwright.forms  # noqa: F401  # fills the catalogue
from kitwright.catalogue import get
from kitwright.pattern import Blank, Draft, Pattern, RuleSide, ScoreChart, score_chart

IN = 25.4


def blank_of(form: str, **lengths: float) -> Blank:
    """A form's first blank."""
    return get(form)(**lengths).draw().blanks[0]


def at(chart: ScoreChart, side: RuleSide) -> list[float]:
    """Where the marks of one side are."""
    return [mark.at for each in chart.passes if each.side is side for mark in each.marks]


def slip_case(height: float, width: float, thickness: float) -> Blank:
    """Two sides and a spine in a row, with a flap at the head and the tail of both sides; in mm."""
    draft = Draft("slip case")
    spine = draft.panel("spine", thickness, height + 5)
    for side, name in (("west", "front"), ("east", "back")):
        board = spine.fold_out(side, name, width)
        board.fold_out("left", f"{name} left flap", thickness)
        board.fold_out("right", f"{name} right flap", thickness)
    return draft.finish()


def test_a_slip_case_from_one_sheet_measures_what_a_library_publishes() -> None:
    # Cornell University Library, Preservation Manual Guide 11A (1999): (H + 0.5 + 2T) by (2W + T) in cm. For H 20.3, W 13.0, T 2.2
    # the sheet is 25.2 by 28.2, scored at 2.2 and 23.0 and at 13.0 and 15.2; two squares are cut out.
    blank = slip_case(203, 130, 22)
    chart = score_chart(blank)
    assert check_pattern(Pattern((blank,))) == ()
    assert (chart.width, chart.height) == pytest.approx((282, 252))
    assert at(chart, RuleSide.WIDTH) == pytest.approx([130, 152])
    assert at(chart, RuleSide.HEIGHT) == pytest.approx([22, 230])
    assert [piece.is_rectangle for piece in chart.cut_away] == [True, True]
    assert [(piece.width, piece.height) for piece in chart.cut_away] == [pytest.approx((22, 22))] * 2


def strip(width: float, lengths: list[float]) -> Blank:
    """Panels in a row, from left to right."""
    draft = Draft("strip")
    panel = draft.panel("panel 1", lengths[0], width)
    for number, length in enumerate(lengths[1:], start=2):
        panel = panel.fold_out("east" if number == 2 else "far", f"panel {number}", length)
    return draft.finish()


def test_a_phase_box_strip_is_creased_where_a_library_publishes() -> None:
    # Indiana University Libraries, Book Repair Manual, "Phase Box": strip W by 2.5 L + 2 D + 12 mm, creased at L − 1, L + D + 2,
    # 2 L + D + 5 and 2 L + 2 D + 9. For L 240, W 120, D 60: 120 × 732, creases 239, 302, 545, 609 (creases derived from its panels).
    chart = score_chart(strip(120, [239, 63, 243, 64, 123]))
    long, deep = 240, 60
    assert (chart.width, chart.height) == (2.5 * long + 2 * deep + 12, 120) == (732, 120)
    creases = [long - 1, long + deep + 2, 2 * long + deep + 5, 2 * long + 2 * deep + 9]
    assert at(chart, RuleSide.WIDTH) == creases == [239, 302, 545, 609]
    assert chart.cut_away == ()


@pytest.mark.parametrize(
    ("form", "size", "sheet"),
    [
        # published tutorials of makers, recomputed: a tray 12 × 12 with sides 4.5 from 21 × 21, its lid 12.25 with sides 2.5 from
        # 17.25 × 17.25; a holder 11 square and 5 high from 21 × 21 (cm)
        ("tray", (120, 120, 45), (210, 210)),
        ("lift-off lid", (122.5, 122.5, 25), (172.5, 172.5)),
        ("tray", (110, 110, 50), (210, 210)),
        # a tray 1-1/8 by 3-1/2 and 1 high from 3-1/8 by 5-1/2, scored at 1 (in)
        ("tray", (1.125 * IN, 3.5 * IN, IN), (3.125 * IN, 5.5 * IN)),
    ],
)
def test_trays_and_lids_are_cut_from_the_published_sheets(
    form: str, size: tuple[float, float, float], sheet: tuple[float, float]
) -> None:
    width, depth, height = size
    chart = score_chart(blank_of(form, width=width, depth=depth, height=height, tab=10))
    assert (chart.width, chart.height) == pytest.approx(sheet)
    assert at(chart, RuleSide.WIDTH) == pytest.approx([height, height + width])
    assert at(chart, RuleSide.HEIGHT) == pytest.approx([height, height + depth])


def test_two_nesting_trays_by_the_published_allowances_go_into_each_other() -> None:
    # Abbey Newsletter 15(6), October 1991, step 2, for 3 mm board: inner base W + 3 by L + 3, outer base W + 6 by L + 9, walls T + 3
    width, length, thickness, board = 150, 220, 30, 3
    inner = blank_of("tray", width=width + 3, depth=length + 3, height=thickness + 3, tab=10)
    outer = blank_of("tray", width=width + 6, depth=length + 9, height=thickness + 3, tab=10)
    assert inner.size == pytest.approx((219, 289))
    assert outer.size == pytest.approx((222, 295))
    free = [b - a for a, b in zip(sizes(inner), sizes(outer), strict=True)]
    assert free == pytest.approx([board, 2 * board])


def sizes(tray: Blank) -> tuple[float, float]:
    """Width and depth of a tray's bottom."""
    (left, low), _, (right, high), _ = tray.panel("bottom").outline
    return right - left, high - low


def volume(sheet: tuple[float, float], height: float) -> float:
    """What a tray holds that is cut from a whole sheet with walls of this height, mm³; measured on its drawing."""
    tray = blank_of("tray", width=sheet[0] - 2 * height, depth=sheet[1] - 2 * height, height=height, tab=6)
    assert tray.size == pytest.approx(sheet)
    wall = tray.panel("front wall")
    return tray.panel("bottom").area * (wall.area / tray.score_of("front wall").length)


def best_height(sheet: tuple[float, float]) -> float:
    """The wall height with the largest volume, by golden-section search."""
    ratio = (math.sqrt(5) - 1) / 2
    low, high = 8.0, min(sheet) / 2 - 10
    while high - low > 1e-8:
        one, other = high - ratio * (high - low), low + ratio * (high - low)
        if volume(sheet, one) >= volume(sheet, other):
            high = other
        else:
            low = one
    return (low + high) / 2


@pytest.mark.parametrize(
    ("sheet", "height", "most"),
    [
        # the open box of largest volume from an a × b sheet, a problem of every calculus textbook: cut squares of
        # (a + b − √(a² − ab + b²)) / 6. A 12 in square: 2 in and 128 in³; 15 × 8 in: 5/3 in and 90.740741 in³;
        # 11 × 8.5 in: 1.585418 in and 66.148235 in³; A4: 40.423362 mm and 1128495.105 mm³
        ((12 * IN, 12 * IN), 2 * IN, 128 * IN**3),
        ((15 * IN, 8 * IN), 5 / 3 * IN, 90.740741 * IN**3),
        ((11 * IN, 8.5 * IN), 1.585418 * IN, 66.148235 * IN**3),
        ((210.0, 297.0), 40.423362, 1128495.105),
    ],
)
def test_the_tray_of_largest_volume_from_a_sheet_is_the_textbook_one(
    sheet: tuple[float, float], height: float, most: float
) -> None:
    found = best_height(sheet)
    long, short = sheet
    assert found == pytest.approx((long + short - math.sqrt(long**2 - long * short + short**2)) / 6, abs=1e-5)
    assert found == pytest.approx(height, abs=2e-5)
    assert volume(sheet, found) == pytest.approx(most, rel=1e-8)
