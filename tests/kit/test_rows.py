"""Loose things in rows and layers: nothing overlaps, nothing is left out, and a heap of bricks makes a compact block."""

from __future__ import annotations

import math
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.findings import Placed
from kitwright.kit.contents import arranged
from kitwright.kit.things import Thing

SIDES = st.integers(3, 60).map(float)
THINGS = st.lists(
    st.builds(Thing, st.just("x"), SIDES, SIDES, SIDES, count=st.integers(1, 4), is_flat=st.booleans()),
    min_size=1,
    max_size=6,
)


def overlap(one: Placed, other: Placed) -> bool:
    return all(
        a < b + other.size[axis] - 1e-9 and b < a + one.size[axis] - 1e-9
        for axis, (a, b) in enumerate(zip(one.corner, other.corner, strict=True))
    )


@settings(deadline=None, max_examples=60)
@given(THINGS, st.booleans())
def test_everything_lies_in_its_room_and_nothing_in_the_place_of_another(things: list[Thing], standing: bool) -> None:
    named = [Thing(f"thing {n}", t.width, t.height, t.thickness, t.count, t.is_flat) for n, t in enumerate(things)]
    found = arranged(named, standing=standing)
    room = (found.room.width, found.room.depth, found.room.height)
    assert sorted((each.name, each.count) for each in found.placed) == sorted(
        (thing.name, thing.count if thing.is_flat else 1)
        for thing in named
        for _ in range(1 if thing.is_flat else thing.count)
    )
    for each in found.placed:
        assert all(
            at >= 0 and at + side <= all_ + 1e-9 for at, side, all_ in zip(each.corner, each.size, room, strict=True)
        )
    loose = {thing.name: sorted((thing.width, thing.height, thing.thickness)) for thing in named if not thing.is_flat}
    assert all(sorted(each.size) == loose[each.name] for each in found.placed if each.name in loose)
    assert not any(overlap(one, other) for one, other in combinations(found.placed, 2))


def test_twenty_seven_bricks_make_a_full_block_and_no_long_row() -> None:
    room = arranged([Thing("brick", 40.0, 20.0, 10.0, 27, is_flat=False)], standing=False).room
    assert math.isclose(room.volume, 27 * 40 * 20 * 10)
    assert max(room.width, room.depth, room.height) <= 120


def test_two_pencils_lie_where_they_lay_before_beside_the_cards() -> None:
    things = [Thing("card", 150.0, 105.0, 0.3, 20), Thing("pencil", 175.0, 7.0, 7.0, 2, is_flat=False)]
    room = arranged(things, standing=False).room
    assert (room.width, room.depth) == (175.0, 105.0 + 7.0 + 7.0)
