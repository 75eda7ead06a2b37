"""How a blank may lie on a sheet: what print and grain allow."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from kitwright.paper import Caliper, Fibres, Grain, Paper, Print, fibres_in_blank, turns_on_mat, turns_on_sheet


def paper(grain: Grain, print_: Print = Print.NONE, sheet: tuple[int, int] = (216, 279)) -> Paper:
    width, height = map(Fraction, sheet)
    caliper = Caliper(0.28, is_estimate=False)
    return Paper(
        key="p",
        label="P",
        sheet_width_mm=width,
        sheet_height_mm=height,
        gsm=216,
        caliper=caliper,
        grain=grain,
        print_=print_,
    )


@pytest.mark.parametrize(
    ("grain", "sheet", "turn", "fibres"),
    [
        (Grain.LONG, (216, 279), 0, Fibres.HEIGHT),  # the grain of Letter, grain long: along the 11 in
        (Grain.LONG, (216, 279), 1, Fibres.WIDTH),
        (Grain.LONG, (216, 279), 2, Fibres.HEIGHT),
        (Grain.LONG, (279, 216), 0, Fibres.WIDTH),
        (Grain.SHORT, (216, 279), 0, Fibres.WIDTH),
        (Grain.SHORT, (216, 279), 3, Fibres.HEIGHT),
        (Grain.UNKNOWN, (216, 279), 0, None),
    ],
)
def test_the_fibres_of_a_blank_run_as_it_lies_on_its_sheet(
    grain: Grain, sheet: tuple[int, int], turn: int, fibres: Fibres | None
) -> None:
    assert fibres_in_blank(paper(grain, sheet=sheet), turn) is fibres


@pytest.mark.parametrize("fibres", list(Fibres))
def test_a_blank_lies_so_that_its_grain_runs_as_asked(fibres: Fibres) -> None:
    made = paper(Grain.LONG)
    (turn,) = turns_on_sheet(made, print_turn=0, has_up=True, fibres=fibres)
    assert fibres_in_blank(made, turn) is fibres


@pytest.mark.parametrize("print_turn", range(4))
def test_a_one_way_print_goes_before_the_grain_where_it_shows_and_counts_for_nothing_where_it_does_not(
    print_turn: int,
) -> None:
    made = paper(Grain.LONG, Print.ONE_WAY)
    for fibres in (None, *Fibres):
        assert turns_on_sheet(made, print_turn=print_turn, has_up=True, fibres=fibres) == (-print_turn % 4,)
    assert turns_on_sheet(made, print_turn=print_turn, has_up=False, fibres=None) == (0, 1)


def test_a_grain_that_is_not_known_keeps_no_blank_from_lying_either_way() -> None:
    assert turns_on_sheet(paper(Grain.UNKNOWN), print_turn=0, has_up=True, fibres=Fibres.WIDTH) == (0, 1)


def test_on_a_mat_half_a_turn_is_another_way_but_for_a_one_way_print() -> None:
    assert turns_on_mat(paper(Grain.UNKNOWN), print_turn=0, has_up=True, fibres=None) == (0, 1, 2, 3)
    (turn,) = turns_on_sheet(paper(Grain.LONG), print_turn=0, has_up=True, fibres=Fibres.WIDTH)
    assert turns_on_mat(paper(Grain.LONG), print_turn=0, has_up=True, fibres=Fibres.WIDTH) == (turn, turn + 2)
    one_way = replace(paper(Grain.UNKNOWN), print_=Print.ONE_WAY)
    assert turns_on_mat(one_way, print_turn=1, has_up=True, fibres=None) == (3,)
    assert turns_on_mat(one_way, print_turn=1, has_up=False, fibres=None) == (0, 1, 2, 3)
