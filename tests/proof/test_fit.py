"""Mats, envelopes, lids and bands: what is ok, what is tight or loose, what fails, with exact numbers on both sides of each limit."""

from __future__ import annotations

from fractions import Fraction

import pytest

from kitwright.findings import Severity
from kitwright.folding import MeasuredExtent
from kitwright.kit.model import FitRules
from kitwright.measure import MM_PER_INCH, Ruler, Unit
from kitwright.pattern import Axis, Extent, PanelRef
from kitwright.proof import (
    LID_PLAY,
    LOOSE_BAND,
    check_band_place,
    check_envelope,
    check_lid_height,
    check_mat,
    check_over,
)
from kitwright.proof.fit import Play

INCHES = Ruler(Unit.INCH, MM_PER_INCH / 16)
MILLIMETRES = Ruler(Unit.MILLIMETRE, Fraction(1))
FAIL, WARNING, NOTE, OK = Severity.FAIL, Severity.WARNING, Severity.NOTE, Severity.OK


def inside(mm: float) -> MeasuredExtent:
    return MeasuredExtent(Extent(Axis.WIDTH, PanelRef("lid", "west"), PanelRef("lid", "east")), mm, (), 0.0)


@pytest.mark.parametrize(
    ("free", "severity", "limit"),
    [
        (-0.2, FAIL, 0.0),
        (-0.0011, FAIL, 0.0),
        (-0.0009, WARNING, 0.2),  # sizes are rounded to marks with a thousandth of slack
        (0.19, WARNING, 0.2),
        (0.2, OK, 0.2),
        (0.4, OK, 0.2),
        (2.5, OK, 0.2),
        (2.51, WARNING, 2.5),
        (10.0, WARNING, 2.5),
        (10.01, FAIL, 10.0),
        (11.0, FAIL, 10.0),
    ],
)  # limits of tight and loose: common practice, no source
def test_a_lid_is_judged_by_its_free_play(free: float, severity: Severity, limit: float) -> None:
    found = check_over("lid over box", "width", inside(100 + free), 100.0, play=LID_PLAY, ruler=MILLIMETRES, what="lid")
    assert (found.code, found.severity, found.required) == ("lid-fit-width", severity, limit)
    assert found.measured == pytest.approx(free)
    assert found.margin == pytest.approx(limit - free if limit >= 2.5 else free - limit)


@pytest.mark.parametrize(
    ("free", "says"),
    [
        (-0.2, "The lid is 0.2 mm too small and does not go on (width inside 99.8 mm against 100 mm outside)."),
        (0.1, "The lid goes on very tightly: only 0.1 mm free in all (width inside 100.1 mm against 100 mm outside)."),
        (1.0, "The lid goes on with 1 mm free in all (width inside 101 mm against 100 mm outside)."),
        (3.0, "The lid is loose: 3 mm free in all (width inside 103 mm against 100 mm outside)."),
    ],
)
def test_a_lid_is_told_with_both_sizes(free: float, says: str) -> None:
    found = check_over("lid over box", "width", inside(100 + free), 100.0, play=LID_PLAY, ruler=MILLIMETRES, what="lid")
    assert found.message == says


def test_a_band_may_be_a_little_looser_than_a_lid() -> None:
    def severity(what: str, play: Play) -> Severity:
        return check_over("a", "depth", inside(102.8), 100.0, play=play, ruler=MILLIMETRES, what=what).severity

    assert severity("lid", LID_PLAY) is WARNING
    assert severity("band", LOOSE_BAND) is OK


@pytest.mark.parametrize(("free", "expected"), [(3.0, OK), (3.1, WARNING), (12.0, WARNING), (12.1, FAIL)])
def test_a_band_that_is_far_too_large_stays_on_nothing(free: float, expected: Severity) -> None:
    found = check_over(
        "a", "depth", inside(100 + free), 100.0, play=LOOSE_BAND, ruler=MILLIMETRES, what="band"
    )  # limits of loose and of what falls off: common practice, no source
    assert found.severity is expected
    assert ("stays on nothing" in found.message) is (expected is FAIL)


@pytest.mark.parametrize(
    ("hanging", "severity", "says"),
    [
        (39.0, OK, "The front flap ends 1 mm above the foot of the box."),
        (40.0, OK, "The front flap ends 0 mm above the foot of the box."),
        (41.5, FAIL, "The front flap is 1.5 mm longer than the box is high, so it would stand on the table."),
    ],
)
def test_what_hangs_down_from_a_lid_ends_above_the_table(hanging: float, severity: Severity, says: str) -> None:
    found = check_lid_height(
        "lid over box", hanging, 40.0, MILLIMETRES, what="front flap", at_least=15.0, is_all_round=False
    )
    assert (found.code, found.severity, found.message) == ("lid-height", severity, says)
    assert found.margin == pytest.approx(40.0 - hanging)


@pytest.mark.parametrize(
    ("breadth", "under", "severity", "says"),
    [
        (30.0, None, OK, "The band is 30 mm broad where there are 40 mm."),
        (40.0, "lid", OK, "The band is 40 mm broad where lid leaves 40 mm free."),
        (40.2, None, OK, "The band is 40.2 mm broad where there are 40 mm."),
        (40.3, None, FAIL, "The band is 40.3 mm broad where there are 40 mm, so it does not lie flat."),
        (41.5, None, FAIL, "The band is 41.5 mm broad where there are 40 mm, so it does not lie flat."),
    ],
)
def test_a_band_lies_wholly_on_what_it_goes_round(
    breadth: float, under: str | None, severity: Severity, says: str
) -> None:
    found = check_band_place("band round tin", breadth, 40.0, MILLIMETRES, under=under)
    assert (found.code, found.severity, found.message) == ("band-place", severity, says)
    assert found.margin == pytest.approx(40.0 - breadth)


def test_a_lid_that_leaves_half_a_millimetre_leaves_something() -> None:
    found = check_band_place("band round tin", 20.0, 0.5, MILLIMETRES, under="the lid")
    assert found.message == "The band is 20 mm broad where the lid leaves 0.5 mm free, so it does not lie flat."


def test_a_band_where_a_lid_leaves_nothing_goes_where_the_lid_lies() -> None:
    found = check_band_place("band round tin", 20.0, 0.0, MILLIMETRES, under="the lid")
    assert found.message == "The band is 20 mm broad and goes where the lid lies, so it does not lie flat."


def test_free_play_that_just_is_comfortable_is_no_warning() -> None:
    found = check_over("lid over box", "width", inside(0.2), 0.0, play=LID_PLAY, ruler=MILLIMETRES, what="lid")
    assert (found.measured, found.severity) == (0.2, OK)


@pytest.mark.parametrize(("rim", "severity"), [(33.6, OK), (33.6508, OK), (33.6512, NOTE), (33.7, NOTE), (40.0, NOTE)])
def test_a_lid_all_round_leaves_a_quarter_of_an_inch_to_hold(rim: float, severity: Severity) -> None:
    found = check_lid_height("lid over box", rim, 40.0, MILLIMETRES, what="rim", at_least=8.0, is_all_round=True)
    assert found.severity is severity


def envelope(card: tuple[float, float, float], room: tuple[float, float]) -> tuple[Severity, float]:
    inch = float(MM_PER_INCH)
    found = check_envelope(
        "card in it",
        (card[0] * inch, card[1] * inch, card[2] * inch),
        (room[0] * inch, room[1] * inch),
        INCHES,
    )
    assert found.code == "envelope-fit"
    assert found.measured is not None
    return found.severity, round(found.measured / inch, 6)


A2 = (5.75, 4.375)  # PWG 5101.1-2002, na_a2, in


@pytest.mark.parametrize(
    ("card", "severity", "free"),
    [
        ((5.5, 4.25, 0.011), OK, 0.125),  # a quarter of a letter sheet (ANSI/ASME Y14.1 size A) in its envelope
        ((4.25, 5.5, 0.011), OK, 0.125),  # the same, turned
        ((5.5, 4.125, 0.011), OK, 0.25),  # the largest enclosure that printed tables give
        ((5.625, 4.25, 0.011), OK, 0.125),
        ((5.6875, 4.25, 0.011), WARNING, 0.0625),
        ((5.75, 4.375, 0.0), WARNING, 0.0),
        ((5.5, 4.25, 0.125), OK, 0.125),  # as thick as the play: it just goes in (geometry)
        ((5.5, 4.25, 0.126), FAIL, -0.001),
        ((5.8125, 4.25, 0.0), FAIL, -0.0625),
        ((5.0, 3.5, 0.011), NOTE, 0.75),
        ((5.25, 3.875, 0.011), OK, 0.5),
    ],
)
def test_a_card_in_an_a2_envelope(card: tuple[float, float, float], severity: Severity, free: float) -> None:
    assert envelope(card, A2) == (severity, free)


def test_an_envelope_that_is_too_small_says_by_how_much() -> None:
    found = check_envelope("card in e", (105, 148, 0.6), (146.05, 111.125), INCHES)
    # ISO 216 A6 in the envelope for a quarter of a letter sheet: 148 mm is 1.95 mm more than 5 3/4 in, and 0.6 mm thick
    assert found.message == "It does not go in: the envelope is 0.100 in too small, thickness reckoned in."
    assert found.measured == pytest.approx(-2.55)


@pytest.mark.parametrize(
    ("mat", "severity", "says"),
    [
        ((5.25, 4.0), OK, "The border is 1/8 in at the sides, 1/8 in above and below."),
        ((5.375, 4.125), OK, "The border is 1/16 in at the sides, 1/16 in above and below."),
        (
            (5.4375, 4.1875),
            NOTE,
            "The border is narrow: 0.031 in at the sides, 0.031 in above and below. It shows every slip.",
        ),
        ((5.25, 4.125), OK, "The border is 1/8 in at the sides, 1/16 in above and below."),
        ((5.0, 4.0), NOTE, "The border is uneven: 1/4 in at the sides, 1/8 in above and below."),
        ((5.5, 4.25), NOTE, "The border is narrow: 0 in at the sides, 0 in above and below. It shows every slip."),
        ((5.75, 4.0), FAIL, "It sticks out at the sides by 1/8 in."),
        ((5.25, 4.5), FAIL, "It sticks out at the top and bottom by 1/8 in."),
        ((5.75, 4.5), FAIL, "It sticks out at the sides and the top and bottom by 1/8 in."),
    ],
)
def test_a_mat_on_a_card(mat: tuple[float, float], severity: Severity, says: str) -> None:
    inch = float(MM_PER_INCH)
    found = check_mat("mat on card", (mat[0] * inch, mat[1] * inch), (5.5 * inch, 4.25 * inch), INCHES)
    assert (found.code, found.severity, found.message) == ("mat-on-card", severity, says)
    assert found.measured == pytest.approx(min(5.5 - mat[0], 4.25 - mat[1]) / 2 * inch)
    if severity is FAIL:
        assert found.required == 0
        assert found.margin == found.measured


def test_a_mat_inside_a_lid_goes_between_the_walls_of_its_box() -> None:
    found = check_mat("mat inside lid", (98, 60), (100, 62), MILLIMETRES, walls=("box", (97, 61)))
    assert (found.severity, found.measured, found.required) == (FAIL, -0.5, 0)
    assert found.message.startswith("It is 1 mm too large to go between the walls of box")


@pytest.mark.parametrize("unit", list(Unit))
def test_the_free_play_that_is_usual_for_an_envelope_in_a_unit_is_neither_tight_nor_much(unit: Unit) -> None:
    usual = float(FitRules.usual(unit).envelope)
    found = check_envelope("card in e", (148, 105, 0), (148 + usual, 105 + usual / 2), Ruler(unit, unit.mm / 32))
    assert found.severity is OK


def test_an_envelope_has_the_same_free_play_by_a_ruler_in_centimetres_as_in_millimetres() -> None:
    rulers = (MILLIMETRES, Ruler(Unit.CENTIMETRE, Fraction(1)))
    for free in (2.9, 3.1, 12.9, 13.1, 19.0):
        found = {check_envelope("card", (148, 105, 0.3), (148 + free, 105 + free), ruler).severity for ruler in rulers}
        assert len(found) == 1
