"""Cutting stock with one sheet and with several, against published bounds and best known values."""

from collections.abc import Iterator
from typing import Any

from benchmarks.cutting.measured import Measured, measure, read, turns
from kitwright.cutting import PieceType, Stock

SECONDS = 20.0


def pieces_of(case: dict[str, Any], *, turned: bool) -> list[PieceType]:
    return [PieceType(str(i), w, h, n, turns(turned=turned)) for i, (w, h, n) in enumerate(case["pieces"])]


def line(name: str, done: Measured, known: float, lp: float) -> str:
    plan = done.plan
    proved = "proved" if plan.is_proved else f"gap {100 * plan.gap / plan.value:.3f} %"
    fault = "" if done.is_verified else " NOT VERIFIED"
    return f"{name:10} {plan.value:>10} bound {plan.bound.value:>10} {proved:14} LP {lp} known {known} {done.seconds:6.2f} s{fault}"


def cutting_stock() -> Iterator[str]:
    """gcut1d-12d, one sheet, without and with quarter turns, 20 s each: published LP bounds and optima."""
    for turned in (False, True):
        proved = total = 0
        for name, case in read("cutting_stock.json").items():
            lp, known = case["known"]["one_turned" if turned else "one"]
            done = measure(pieces_of(case, turned=turned), [Stock("sheet", *case["sheets"][0])], seconds=SECONDS)
            proved += done.plan.is_proved
            total += done.plan.value
            yield line(name, done, known, lp)
        yield f"{'turned' if turned else 'upright'}: {proved} of 12 proved, total {total}"


def several_sheets() -> Iterator[str]:
    """gcut1d-12d with three sheets, cost = area, without and with quarter turns, 20 s each."""
    gaps, dearer = [], 0
    for turned in (False, True):
        for name, case in read("cutting_stock.json").items():
            lp, known = case["known"]["several_turned" if turned else "several"]
            stocks = [Stock(str(i), w, h, None, w * h) for i, (w, h) in enumerate(case["sheets"])]
            done = measure(pieces_of(case, turned=turned), stocks, seconds=SECONDS)
            gaps.append(100 * done.plan.gap / done.plan.value)
            dearer += done.plan.value > known
            yield line(name, done, known, lp)
    yield f"mean gap {sum(gaps) / len(gaps):.3f} %, worst {max(gaps):.3f} %, dearer than the best known: {dearer} of 24"
