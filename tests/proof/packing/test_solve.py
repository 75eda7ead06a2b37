"""The search for packings: with rounded sizes it says nothing else than with true ones."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import kitwright.proof.packing.solve
from kitwright.proof.packing import PackedThing, Turns
from kitwright.proof.packing.job import make_job
from kitwright.proof.packing.solve import search_packing

SIDES = st.tuples(st.integers(30, 99), st.integers(30, 99), st.integers(30, 99))


def job_of(things, inner):
    job, _ = make_job(things, inner)
    assert job is not None
    return job


def overlaps(one, two):
    return all(
        one.corner[axis] < two.corner[axis] + two.size[axis] and two.corner[axis] < one.corner[axis] + one.size[axis]
        for axis in range(3)
    )


def holds(job, laid):
    """Whether it is a packing of the job, by arithmetic of the test's own."""
    is_inside = all(0 <= each.corner[axis] <= job.space[axis] - each.size[axis] for each in laid for axis in range(3))
    is_complete = sorted(each.item for each in laid) == [item.index for item in job.items for _ in range(item.quantity)]
    has_its_size = all(each.size in job.items[each.item].ways for each in laid)
    return (
        is_inside
        and is_complete
        and has_its_size
        and not any(overlaps(one, two) for number, one in enumerate(laid) for two in laid[:number])
    )


@settings(max_examples=40, deadline=None)
@given(
    sides=st.lists(SIDES, min_size=3, max_size=5),
    space=st.tuples(*[st.integers(100, 200)] * 3),
    most=st.integers(300, 1500),
)
def test_rounded_sizes_give_the_same_answers_as_true_ones(sides, space, most):
    things = [PackedThing(str(number), size, 1, Turns.ANY) for number, size in enumerate(sides)]
    inner = tuple(edge * 10**6 for edge in space)
    job = job_of(things, inner)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(kitwright.proof.packing.solve, "MOST_COVERED", 0)
        true = search_packing(job, effort=1)
        patch.setattr(kitwright.proof.packing.solve, "MOST_CLAUSES", most)
        rounded = search_packing(job, effort=1)
    assert true is False or holds(job, true)
    assert rounded is None or (rounded is False) == (true is False)
    assert rounded in (None, False) or holds(job, rounded)


def test_a_row_too_long_only_in_its_true_sizes_is_found_out():
    # rounded down to tens all three go side by side, in truth 3 x 39 is more than 116; nothing else is possible so low and shallow
    things = [PackedThing(str(number), (39, 39, 39), 1, Turns.ANY) for number in range(2)]
    things.append(PackedThing("odd", (39, 38.9, 39), 1, Turns.UPRIGHT))
    job = job_of(things, (116_000_000, 40_000_000, 40_000_000))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(kitwright.proof.packing.solve, "MOST_COVERED", 0)
        patch.setattr(kitwright.proof.packing.solve, "MOST_CLAUSES", 60)
        assert search_packing(job, effort=1) is False


def test_things_that_fill_the_space_to_the_last_side_by_side_are_packed(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(kitwright.proof.packing.solve, "MOST_COVERED", 0)
    job = job_of([PackedThing("cube", (50, 50, 50), 2, Turns.UPRIGHT)], (100_000_000, 50_000_000, 50_000_000))
    laid = search_packing(job, effort=1)
    assert isinstance(laid, tuple)
    assert holds(job, laid)


def test_what_is_not_found_out_with_the_effort_allowed_is_not_decided():
    things = [
        PackedThing(str(number), (20 + number, 15 + 2 * number, 9 + number), 1, Turns.ANY) for number in range(12)
    ]
    job = job_of(things, (70_000_000, 60_000_000, 48_000_000))
    assert search_packing(job, effort=1e-6) is None
