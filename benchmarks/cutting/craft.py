"""Jobs like a maker's: kits of cards, mats and boxes from pads, letter sheets and scraps."""

from collections.abc import Iterator
from typing import Any

from benchmarks.cutting.measured import measure, read, turns
from kitwright.cutting import QUICK, PieceType, Stock


def job_of(case: dict[str, Any], kits: int = 1) -> tuple[list[PieceType], list[Stock]]:
    """Pieces and stocks of one case, the demand multiplied."""
    pieces = [
        PieceType(str(i), item["w"], item["h"], item["d"] * kits, turns(turned=item["rot"]))
        for i, item in enumerate(case["items"])
    ]
    stocks = [Stock(str(i), s["W"], s["H"], s["n"], round(s["cost"])) for i, s in enumerate(case["stocks"])]
    return pieces, stocks


def craft() -> Iterator[str]:
    """Nine craft-like jobs with scraps, 20 s each, against the best known cost."""
    proved = dearer = 0
    worst = 0.0
    for name, case in read("craft.json").items():
        done = measure(*job_of(case), seconds=20.0)
        plan = done.plan
        proved += plan.is_proved
        dearer += plan.value > case["best_known"]
        worst = max(worst, 100 * plan.gap / plan.value)
        fault = "" if done.is_verified else " NOT VERIFIED"
        yield (
            f"{name:10} {plan.value:>6} bound {plan.bound.value:>6} known {case['best_known']:.0f} "
            f"({case['proved_lower_bound']:.0f}) {done.seconds:6.2f} s, {len(plan.layouts)} layouts{fault}"
        )
    yield f"{proved} of 9 proved, {dearer} dearer than the best known, worst gap {worst:.3f} %"


def kits() -> Iterator[str]:
    """The craft jobs of at most 12 part types with the quick effort that screens use."""
    for name, case in read("craft.json").items():
        if len(case["items"]) <= 12:
            done = measure(*job_of(case), seconds=60.0, effort=QUICK)
            plan = done.plan
            yield f"{name:10} {plan.value:>6} bound {plan.bound.value:>6} {done.seconds:6.2f} s proved {plan.is_proved}"
