"""First plans: how often a sheet is filled anew, and that a stop is heard between sheets."""

import pytest

from kitwright.cutting import ANY_TURN, THOROUGH, PieceType, Progress, Reason, Stock, lay_out, verify_plan
from kitwright.cutting import fill as module
from kitwright.cutting.fill import fill_batch
from kitwright.cutting.job import make_job
from kitwright.cutting.stock import TrimmerLimits

MM = 1_000_000
PIECES = [PieceType(str(n), (40 + 7 * n) * MM, (90 - 3 * n) * MM, 30, ANY_TURN) for n in range(12)]
OFFCUTS = [Stock(f"offcut {n}", (100 + 9 * n) * MM, (150 - 4 * n) * MM, 1, 0) for n in range(20)]
SHEET = Stock("sheet", 305 * MM, 305 * MM, None, 1)


def test_a_sheet_is_filled_anew_only_where_less_is_wanted_than_it_could_hold(monkeypatch: pytest.MonkeyPatch) -> None:
    fills = 0
    fill_sheet = module.fill_sheet

    def counted(*args: object) -> object:
        nonlocal fills
        fills += 1
        return fill_sheet(*args)  # type: ignore[arg-type]

    monkeypatch.setattr(module, "fill_sheet", counted)
    patterns, left = fill_batch(make_job(PIECES, [SHEET, *OFFCUTS], TrimmerLimits()))
    assert not any(left)
    assert len(patterns) > len(OFFCUTS)
    assert fills < len(patterns) * len(OFFCUTS)


def test_a_stop_is_heard_while_the_first_plan_is_made() -> None:
    looks = 0

    def goes_on(_: Progress) -> bool:
        nonlocal looks
        looks += 1
        return looks < 30

    stocks = [SHEET, *OFFCUTS]
    plan = lay_out(PIECES, stocks, effort=THOROUGH, progress=goes_on)
    assert plan.layouts
    assert {each.reason for each in plan.unplaced} == {Reason.STOPPED}
    assert verify_plan(PIECES, stocks, plan) == ()
