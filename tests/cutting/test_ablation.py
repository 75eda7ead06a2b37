"""Parts of the search taken out for a comparison: what is left still finds right plans, and is put together again afterwards."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchmarks.cutting.ablation import Job, find
from benchmarks.cutting.parts import FULL, VARIANTS
from kitwright.cutting import QUICK, PieceType, Stock

SIZES = ((3, 7, 2), (5, 4, 3), (6, 6, 1), (8, 3, 2), (2, 9, 2))
JOB = Job(
    "tests",
    "small",
    [PieceType(str(place), wide, high, count, (0,)) for place, (wide, high, count) in enumerate(SIZES)],
    [Stock("small", 10, 9, None, 5), Stock("large", 14, 11, None, 8)],
    replace(QUICK, rounds=20, steps=200, patterns=60),
    is_makers=True,
)
WHOLE = [getattr(part.owner, part.name) for parts in VARIANTS.values() for part in parts]


@pytest.mark.parametrize("variant", VARIANTS)
def test_without_any_part_the_plan_is_complete_and_right(variant):
    found = find(JOB, variant)
    assert found.is_complete
    assert found.faults == 0


def test_a_part_that_was_not_asked_for_cannot_change_the_search():
    full = find(JOB, FULL)
    idle = [variant for variant in VARIANTS if variant not in full.asked]
    assert idle
    for variant in idle:
        assert replace(find(JOB, variant), variant=FULL, asked=full.asked, seconds=full.seconds) == full


def test_every_part_is_there_again_afterwards():
    find(JOB, "all")
    assert [getattr(part.owner, part.name) for parts in VARIANTS.values() for part in parts] == WHOLE
