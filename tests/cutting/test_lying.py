"""Sheets emptied in part and filled anew: nothing gets lost or lies where it may not, and no place is left to a piece that waits."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.cutting import UPRIGHT, PieceType, Stock, TrimmerLimits
from kitwright.cutting import lying as lying_module
from kitwright.cutting.area import Area, pieces_in
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.lying import Free, Lying, empty_sheet, free_on, lay, some_out
from kitwright.cutting.sketch import count_kinds

Drawn = tuple[int, int, tuple[int, ...], tuple[str, ...] | None]
"""Width, height, turns and the sheets it may come from, of a piece."""

SHEETS = (Stock("plain", 10, 8), Stock("striped", 8, 9))
PIECES = st.lists(
    st.builds(
        lambda width, height, turns, stocks: (width, height, turns, stocks),
        st.integers(1, 7),
        st.integers(1, 7),
        st.sampled_from((UPRIGHT, (0, 1))),
        st.sampled_from((None, ("plain",), ("striped",))),
    ),
    min_size=1,
    max_size=14,
)


def make(pieces: Sequence[Drawn]) -> Job:
    """One piece of each on the two sheets."""
    demand = [
        PieceType(str(rank), width, height, 1, turns, stocks)
        for rank, (width, height, turns, stocks) in enumerate(pieces)
    ]
    return make_job(demand, list(SHEETS), TrimmerLimits())


def all_kinds(job: Job) -> list[int]:
    """Every piece of a job by its kind."""
    return [kind for kind, count in enumerate(job.demand) for _ in range(count)]


def open_sheets(job: Job) -> tuple[list[Lying], list[Free]]:
    """One of each sheet with nothing on it."""
    sheets = [empty_sheet(job, place) for place in range(len(job.sheets))]
    return sheets, [one for sheet in sheets for one in free_on(sheet, [sheet.area])]


def ends_of(area: Area) -> list[Area]:
    """The areas that are not cut further."""
    return [end for part in area.parts for end in ends_of(part)] if area.parts else [area]


def check(job: Job, sheets: Sequence[Lying], lying: Counter[int]) -> None:
    """These kinds lie, each in a size it may have and on a sheet it may come from, and the sheets know their pieces."""
    assert Counter(leaf.kind for sheet in sheets for _, leaf in sheet.pieces) == lying
    for sheet in sheets:
        assert sorted(map(id, (area for area, _ in sheet.pieces))) == sorted(map(id, dict(pieces_in(sheet.area))))
        for area, leaf in sheet.pieces:
            assert area.leaf == leaf
            assert job.kinds[leaf.kind].poses[leaf.pose] == (area.width, area.height)
            assert sheet.place in job.kinds[leaf.kind].sheets
        free = [end for end in ends_of(sheet.area) if end.leaf is None]
        assert sheet.waste(job) == sum(end.width * end.height for end in free)


@pytest.mark.usefixtures("no_blink")
@given(pieces=PIECES, seed=st.integers(0, 1_000))
@settings(deadline=None)
def test_pieces_are_laid_until_no_leftover_has_a_place_for_those_that_wait(pieces: list[Drawn], seed: int) -> None:
    job = make(pieces)
    sheets, free = open_sheets(job)
    waiting = lay(job, free, all_kinds(job), Random(seed))
    check(job, sheets, Counter(all_kinds(job)) - Counter(waiting))
    for kind in waiting:
        for sheet in sheets:
            if sheet.place in job.kinds[kind].sheets:
                free_here = [end for end in ends_of(sheet.area) if end.leaf is None]
                fits = [
                    width <= end.width and height <= end.height
                    for end in free_here
                    for width, height in job.kinds[kind].poses
                ]
                assert not any(fits)


@given(pieces=PIECES, seed=st.integers(0, 1_000))
@settings(deadline=None)
def test_what_is_taken_out_leaves_the_sheet_as_it_was_and_its_place_free(pieces: list[Drawn], seed: int) -> None:
    job, random = make(pieces), Random(seed)
    sheets, free = open_sheets(job)
    waiting = lay(job, free, all_kinds(job), random)
    lies = Counter(all_kinds(job)) - Counter(waiting)
    for turn, sheet in enumerate(sheets):
        made, found, taken = some_out(sheet, random)
        check(job, sheets, lies)
        others = [*sheets[:turn], made, *sheets[turn + 1 :]]
        check(job, others, lies - Counter(taken))
        assert bool(taken) is bool(sheet.pieces)
        leftovers = [end for end in ends_of(made.area) if end.leaf is None]
        assert {id(area) for _, area, _, _ in found} == set(map(id, leftovers))
        assert all(one is made and [area.width, area.height] == size for one, area, *size in found)
        again = lay(job, found, taken, random)
        check(job, others, lies - Counter(again))


def test_a_large_piece_is_laid_before_small_ones_take_its_place(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lying_module, "BLINK", 0.0)
    job = make([(7, 7, UPRIGHT, ("plain",))] + 9 * [(3, 2, UPRIGHT, ("plain",))])
    for seed in range(100):
        assert 0 not in lay(job, open_sheets(job)[1], all_kinds(job), Random(seed))


def test_with_a_blink_now_and_then_a_good_place_is_overlooked(monkeypatch: pytest.MonkeyPatch) -> None:
    job = make([(6, 5, UPRIGHT, ("plain",))])
    for blink, seen in ((0.0, {0}), (0.5, {0, 1}), (1.0, {1})):
        monkeypatch.setattr(lying_module, "BLINK", blink)
        assert {len(lay(job, open_sheets(job)[1], [0], Random(seed))) for seed in range(50)} == seen


def test_a_sheet_becomes_a_pattern_if_anything_is_on_it_that_the_trimmer_can_cut() -> None:
    job = make([(6, 5, UPRIGHT, None), (4, 5, UPRIGHT, None)])
    sheet = empty_sheet(job, 0)
    assert sheet.pattern(job) is None
    assert lay(job, free_on(sheet, [sheet.area]), [0, 1], Random(1)) == []
    pattern = sheet.pattern(job)
    assert pattern is not None
    assert pattern.counts == count_kinds(pattern.sketch, 2) == (1, 1)
    assert sheet.pattern(Job(job.kinds, job.sheets, 4, job.strip, job.unit)) is None


@pytest.fixture
def no_blink(monkeypatch: pytest.MonkeyPatch) -> None:
    """No place is overlooked."""
    monkeypatch.setattr(lying_module, "BLINK", -1.0)
