"""Every kit cut by the same layouts: easier to follow and to hand over kit by kit, at a price in sheets."""

from __future__ import annotations

from dataclasses import replace

from kitwright.cutting.plan import CutPlan

__all__ = ["same_for_every"]


def same_for_every(one: CutPlan, shared: CutPlan, times: int) -> CutPlan:
    """The plan for one kit done so many times, as an answer to the question that `shared` answers: its bound is that of `shared`.

    What is left out of one kit is left out of every kit. The stocks of `one` must have no count, or be there often enough.
    """
    return replace(
        shared,
        layouts=tuple(replace(layout, times=layout.times * times) for layout in one.layouts),
        unplaced=tuple(replace(entry, count=entry.count * times) for entry in one.unplaced),
        value=one.value * times,
    )
