"""Tables for jobs that are known to be small enough for one."""

from __future__ import annotations

from collections.abc import Sequence

from kitwright.cutting.job import Job
from kitwright.cutting.knapsack import CutTable, make_table

__all__ = ["small_table"]


def small_table(job: Job, kinds: Sequence[int], sheets: Sequence[int], *, strip: int) -> CutTable:
    table = make_table(job, kinds, sheets, strip=strip)
    assert table is not None
    return table
