"""The search for small batches asks for plans of the sheets it met beside its steps, and leaves nothing on its way when it ends."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from kitwright.cutting import UPRIGHT, PieceType, Stock, TrimmerLimits, small_batch
from kitwright.cutting.bound import area_bound
from kitwright.cutting.fill import fill_batch
from kitwright.cutting.generate import make_pricings
from kitwright.cutting.job import make_job
from kitwright.cutting.met import Met
from kitwright.cutting.plan import QUICK, Progress
from kitwright.cutting.small_batch import SmallBatch
from kitwright.cutting.watch import Watch

# four pieces of 6 × 6 need four sheets of 10 × 10, although their area is that of two: so the search never meets the bound by area
PIECES = [PieceType(str(rank), 6, 6, 1, UPRIGHT) for rank in range(4)]


class Asked:
    """Stands for a question on its way; writes down what becomes of it."""

    def __init__(self, told: list[str]) -> None:
        self.told = told
        told.append("asked")

    def take(self, _watch: Watch, _stage: str) -> None:
        self.told.append("taken")

    def drop(self) -> None:
        self.told.append("dropped")


def start(monkeypatch: pytest.MonkeyPatch) -> tuple[SmallBatch, list[str]]:
    """A search that asks often, knows no bound but that by area, and writes down what becomes of its questions."""
    told: list[str] = []

    def ask(_job: object, _met: Met, _watch: Watch) -> Asked:
        return Asked(told)

    monkeypatch.setattr(small_batch, "choose_among", ask)
    monkeypatch.setattr(small_batch, "STEPS_A_CHOICE", 20)
    job = make_job(PIECES, [Stock("sheet", 10, 10)], TrimmerLimits())
    watch = Watch(job, area_bound(job), None)
    watch.tell_plan(fill_batch(job)[0])
    return SmallBatch(job, watch, (), Random(0)), told


def test_a_plan_of_the_sheets_met_is_asked_for_beside_the_steps_and_taken_up_before_the_next(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    batch, told = start(monkeypatch)
    batch.go_on(75)
    assert told == ["asked", "taken", "asked", "taken", "asked"]
    batch.choose()
    batch.take_up()
    assert told[5:] == ["taken", "asked", "taken"]
    batch.take_up()
    assert len(told) == 8


def test_nobody_waits_for_an_answer_when_the_plan_is_proved(monkeypatch: pytest.MonkeyPatch) -> None:
    batch, told = start(monkeypatch)
    batch.choose()
    batch.watch.tell_bound(replace(batch.watch.bound, value=4))
    batch.choose()
    assert told == ["asked", "dropped"]


def test_what_is_on_its_way_is_dropped_when_the_search_breaks_off(monkeypatch: pytest.MonkeyPatch) -> None:
    batch, told = start(monkeypatch)
    batch.choose()

    def break_off(_: Progress) -> bool:
        raise KeyboardInterrupt

    batch.watch.progress = break_off
    with pytest.raises(KeyboardInterrupt):
        batch.improve([], QUICK)
    assert told == ["asked", "dropped"]


def test_the_search_ends_with_the_answer_to_its_last_question(monkeypatch: pytest.MonkeyPatch) -> None:
    batch, told = start(monkeypatch)
    batch.improve([], QUICK)
    assert told[-1] == "taken"
    assert told.count("asked") == told.count("taken") > 1


def test_a_batch_without_a_way_to_fewer_sheets_is_proved() -> None:
    job = make_job(PIECES, [Stock("sheet", 10, 10)], TrimmerLimits())
    watch = Watch(job, area_bound(job), None)
    watch.tell_plan(fill_batch(job)[0])
    SmallBatch(job, watch, make_pricings(job), Random(0)).improve([], QUICK)
    assert watch.value == watch.bound.value == 4
