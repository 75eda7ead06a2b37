"""Sheets of paper: size, margins, grain and print."""

import dataclasses
from fractions import Fraction
from typing import Any

import pytest

from kitwright.errors import Mistake
from kitwright.measure import Money, parse_size
from kitwright.paper import Caliper, Grain, Margins, Paper, Print, sheet_weight_g


def paper(size: str = "8.5 x 11 in", **changes: Any) -> Paper:
    width, height = (length.mm for length in parse_size(size))
    plain = Paper(
        key="kraft",
        label="Kraft card",
        sheet_width_mm=width,
        sheet_height_mm=height,
        gsm=216.0,
        caliper=Caliper(0.28),
    )
    return dataclasses.replace(plain, **changes)


def test_the_first_number_of_a_sheet_is_its_width_and_the_second_its_height() -> None:
    sheet = paper("8.5 x 11 in")
    assert sheet.sheet_width_mm == Fraction("215.9")
    assert sheet.sheet_height_mm == Fraction("279.4")
    assert sheet.thickness == 0.28
    assert sheet.sheet_area_mm2 == Fraction("60322.46")


def test_margins_make_the_usable_part_smaller_and_leave_the_sheet() -> None:
    sheet = paper(
        "12 x 12 in", margins=Margins(left=Fraction(3), right=Fraction(2), bottom=Fraction(1), top=Fraction(10))
    )
    assert sheet.usable_width_mm == Fraction("299.8")
    assert sheet.usable_height_mm == Fraction("293.8")
    assert sheet.sheet_width_mm == Fraction("304.8")


def test_without_margins_the_whole_sheet_is_usable() -> None:
    sheet = paper("21 x 29.7 cm")
    assert sheet.usable_width_mm == 210
    assert sheet.usable_height_mm == 297


def test_an_a4_sheet_of_80_gsm_weighs_4_9896_grams() -> None:
    # Encyclopedia, "Grammage", worked example.
    assert sheet_weight_g(paper("210 x 297 mm", gsm=80)) == pytest.approx(4.9896, abs=1e-12)


@pytest.mark.parametrize(
    ("size", "grain", "runs_up"),
    [
        ("8.5 x 11 in", Grain.LONG, True),
        ("8.5 x 11 in", Grain.SHORT, False),
        ("11 x 8.5 in", Grain.LONG, False),
        ("11 x 8.5 in", Grain.SHORT, True),
        ("12 x 12 in", Grain.LONG, True),
        ("12 x 12 in", Grain.SHORT, False),
        ("8.5 x 11 in", Grain.UNKNOWN, None),
    ],
)
def test_long_grain_runs_along_the_longer_side_and_on_a_square_along_the_height(
    size: str, grain: Grain, runs_up: bool | None
) -> None:
    assert paper(size, grain=grain).grain_runs_up is runs_up


@pytest.mark.parametrize(("print_", "can_turn"), [(Print.NONE, True), (Print.ALL_OVER, True), (Print.ONE_WAY, False)])
def test_only_a_one_way_print_keeps_a_piece_from_turning(print_: Print, can_turn: bool) -> None:
    assert paper(print_=print_).can_turn is can_turn


def test_grain_and_print_are_written_with_the_words_of_a_kit_document() -> None:
    assert [word.value for word in Print] == ["none", "all-over", "one-way"]
    assert [word.value for word in Grain] == ["long", "short", "unknown"]
    assert Print("one-way") is Print.ONE_WAY


def test_what_nobody_said_about_a_paper_stays_unknown() -> None:
    sheet = paper()
    assert sheet.price is None
    assert sheet.on_hand is None
    assert sheet.grain is Grain.UNKNOWN
    assert not sheet.two_sided
    assert sheet.hinge_depth == 0.5


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"sheet_width_mm": Fraction(0)}, "The sheet of 'Kraft card' has no size. Write it like 12 x 12."),
        ({"sheet_height_mm": Fraction(0)}, "has no size"),
        ({"sheet_height_mm": Fraction(-1)}, "has no size"),
        ({"margins": Margins(left=Fraction(108), right=Fraction(108))}, "leave nothing of the sheet"),
        ({"margins": Margins(left=Fraction("115.9"), right=Fraction(100))}, "leave nothing of the sheet"),
        ({"margins": Margins(bottom=Fraction("179.4"), top=Fraction(100))}, "leave nothing of the sheet"),
        ({"margins": Margins(top=Fraction(280))}, "leave nothing of the sheet"),
        ({"gsm": 0.0}, "has no weight"),
        ({"gsm": float("nan")}, "has no weight"),
        ({"hinge_depth": -0.01}, "It is a share of the thickness, from 0"),
        ({"hinge_depth": 1.01}, "The hinge depth of 'Kraft card' is 1.01."),
        ({"price": Money("USD", -1)}, "The price of 'Kraft card' is below zero"),
        ({"on_hand": -1}, "The sheets on hand of 'Kraft card' are below zero"),
    ],
)
def test_a_paper_that_cannot_be_is_refused(changes: dict[str, Any], message: str) -> None:
    with pytest.raises(Mistake) as refused:
        paper(**changes)
    assert message in str(refused.value)


@pytest.mark.parametrize("side", ["left", "right", "bottom", "top"])
def test_a_margin_below_zero_is_refused(side: str) -> None:
    with pytest.raises(Mistake, match="A margin of a sheet is below zero"):
        Margins(**{side: Fraction(-1)})


def test_the_values_at_the_edge_of_the_possible_are_accepted() -> None:
    sheet = paper(hinge_depth=0.0, price=Money("USD", 0), on_hand=0)
    assert paper(hinge_depth=1.0).hinge_depth == 1
    assert (sheet.hinge_depth, sheet.on_hand) == (0, 0)


def test_a_paper_is_a_value_that_cannot_be_changed_and_can_be_a_key() -> None:
    assert paper() == paper()
    assert {paper(): 1}[paper()] == 1
    with pytest.raises(dataclasses.FrozenInstanceError):
        paper().gsm = 1  # type: ignore[misc]  # the point of the test
