"""Random ways in groups small enough to see through."""

from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitwright.cutting import ways as module
from kitwright.cutting.group import Group, Ints
from kitwright.cutting.ways import Ways, pick


def as_ints(rows: Sequence[Sequence[int]]) -> Ints:
    return np.array(rows, dtype=np.int64)


def cyclic(order: int) -> Group:
    return Group(np.eye(1, dtype=np.int64), (order,))


def walked(ways: Ways, costs: Sequence[int], seed: int = 0) -> Ints:
    return ways.walk(np.array(costs, dtype=np.int32), np.random.default_rng(seed))


@given(st.lists(st.integers(2, 5), min_size=1, max_size=3), st.data())
def test_every_way_ends_at_the_target_and_is_hardly_longer_than_the_shortest(
    shape: list[int], data: st.DataObject
) -> None:
    group = Group(np.eye(len(shape), dtype=np.int64), tuple(shape))
    places = st.tuples(*(st.integers(0, each - 1) for each in shape))
    steps = as_ints(data.draw(st.lists(places, min_size=1, max_size=12, unique=True)))
    costs = data.draw(st.lists(st.integers(1, 50), min_size=len(steps), max_size=len(steps)))
    target = as_ints([data.draw(places)])[0]
    numbers = np.array(data.draw(st.lists(st.integers(0, 3), min_size=2, max_size=2)), dtype=float)
    uses = as_ints([[data.draw(st.integers(-2, 2)) for _ in steps] for _ in numbers]).astype(float)
    ways = Ways(group, steps, target, numbers, uses)
    times = walked(ways, costs)
    lengths = group.lengths(steps, np.array(costs, dtype=np.int32), target, max(module.LONGER))
    shortest = lengths[group.ranks(target)]
    for way in times:
        assert ((way @ steps - target) % group.orders == 0).all()
        assert way @ costs <= shortest * max(module.LONGER)
    assert (times == walked(ways, costs)).all()


def test_a_way_of_no_steps_leads_to_where_it_starts() -> None:
    ways = Ways(cyclic(4), as_ints([[1]]), as_ints([[0]])[0], np.ones(1), np.ones((1, 1)))
    assert not walked(ways, [5]).any()


def test_where_no_way_leads_none_is_told() -> None:
    ways = Ways(cyclic(4), as_ints([[2]]), as_ints([[1]])[0], np.ones(1), np.ones((1, 1)))
    assert not len(walked(ways, [5]))


def clear_share(choices: tuple[int, ...], monkeypatch: pytest.MonkeyPatch) -> float:
    """Eight equal steps lead to the target; seven of them take more from a number than there is. How many ways take the other."""
    monkeypatch.setattr(module, "CHOICES", choices)
    ways = Ways(cyclic(3), as_ints([[1]] * 8), as_ints([[1]])[0], np.ones(1), np.array([[2.0] * 5 + [1.0] + [2.0] * 2]))
    times = walked(ways, [5] * 8)
    assert len(times) == module.WALKS
    return float(times[:, 5].mean())


def test_ways_keep_clear_of_numbers_below_zero_where_they_can_choose(monkeypatch: pytest.MonkeyPatch) -> None:
    assert clear_share((1,), monkeypatch) < 0.3
    assert clear_share((8,), monkeypatch) == 1.0
    assert 0.3 < clear_share((1, 8), monkeypatch) < 0.8


def test_a_step_that_gives_back_makes_room_for_others() -> None:
    """Two steps lead there in either order: one takes two of a number that has one, the other gives one back."""
    ways = Ways(cyclic(7), as_ints([[2], [3], [5]]), as_ints([[5]])[0], np.ones(1), np.array([[2.0, -1.0, 3.0]]))
    times = walked(ways, [5, 5, 10])
    clear = (1 - times @ np.array([2, -1, 3]) >= 0).mean()
    assert clear > 0.8


def test_what_a_way_took_counts_for_its_next_step(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two like steps, each of which takes one of a number of its own that has one: one of each, not one of them twice."""
    monkeypatch.setattr(module, "CHOICES", (8,))
    ways = Ways(cyclic(5), as_ints([[1], [1]]), as_ints([[2]])[0], np.ones(2), np.eye(2))
    assert walked(ways, [5, 5]).tolist() == [[1, 1]] * module.WALKS


def test_a_way_takes_what_it_can_afford_even_if_that_leaves_less(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only ways that may be a sixth longer can take the step that keeps clear; the others take the short one and still arrive."""
    monkeypatch.setattr(module, "CHOICES", (8,))
    ways = Ways(cyclic(5), as_ints([[2], [2]]), as_ints([[2]])[0], np.ones(1), np.array([[2.0, 0.0]]))
    times = walked(ways, [100, 116])
    assert len(times) == module.WALKS
    assert 0 < times[:, 1].sum() < module.WALKS


def test_the_best_of_few_fitting_steps_is_found_among_many() -> None:
    fits = np.zeros((30, 1200), dtype=np.bool_)
    fits[:, 3::150] = True
    uses = np.full((1200, 1), 2.0)
    uses[[10, 453]] = 1.0
    picks = pick(fits, np.ones((30, 1)), uses, np.full(30, 8), np.random.default_rng(0))
    assert set(picks.tolist()) == {453}
