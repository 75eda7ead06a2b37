"""What the benchmarks share: reading their data, and one plan measured and verified within a time limit."""

import json
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kitwright.cutting import THOROUGH, CutPlan, Effort, PieceType, Progress, Stock, lay_out, verify_plan

DATA = Path(__file__).parent.parent / "data" / "cutting"


def read(name: str) -> dict[str, Any]:
    """One data file without its source line."""
    content: dict[str, Any] = json.loads((DATA / name).read_text(encoding="utf-8"))
    return {key: value for key, value in content.items() if key != "source"}


def turns(*, turned: bool) -> tuple[int, ...]:
    """Quarter turns allowed or not."""
    return (0, 1) if turned else (0,)


@dataclass(frozen=True)
class Measured:
    """One plan, how long it took, when the first complete plan was there (seconds), and whether the verifier found nothing."""

    plan: CutPlan
    seconds: float
    is_verified: bool


def measure(
    demand: Sequence[PieceType],
    stocks: Sequence[Stock],
    *,
    seconds: float,
    effort: Effort = THOROUGH,
    check: bool = True,
) -> Measured:
    """Lay out with this effort, stopped when the time is up."""
    start = time.perf_counter()

    def goes_on(_: Progress) -> bool:
        return time.perf_counter() - start < seconds

    plan = lay_out(demand, stocks, effort=effort, progress=goes_on)
    taken = time.perf_counter() - start
    return Measured(plan, taken, not check or not verify_plan(demand, stocks, plan))
