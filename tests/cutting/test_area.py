"""Cut trees that change: however pieces come and go, the parts fill the whole, and nothing of a tree that is copied changes."""

from __future__ import annotations

from collections import Counter
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.cutting import UPRIGHT, PieceType, Stock, TrimmerLimits
from kitwright.cutting.area import Area, can_be_cut, kept_of, pieces_in, put_into, sketch_of
from kitwright.cutting.job import Job, make_job
from kitwright.cutting.sketch import Leaf, Split, count_kinds


def is_whole(area: Area) -> bool:
    """Whether the parts of an area fill it, at most one of them is left over, and no part is cut the same way as the whole."""
    if not area.parts:
        return True
    sides = [(part.width, part.height) if area.upright else (part.height, part.width) for part in area.parts]
    long, high = (area.width, area.height) if area.upright else (area.height, area.width)
    return (
        len(sides) > 1
        and sum(side for side, _ in sides) == long
        and all(side > 0 and across == high for side, across in sides)
        and sum(part.is_left_over for part in area.parts) <= 1
        and all(part.parent is area and is_whole(part) for part in area.parts)
        and not any(part.parts and part.upright is area.upright for part in area.parts)
    )


def leftovers_in(area: Area) -> set[Area]:
    """The areas left over."""
    if area.parts:
        return {rest for part in area.parts for rest in leftovers_in(part)}
    return {area} if area.is_left_over else set()


@given(seed=st.integers(0, 10_000), steps=st.integers(1, 40))
@settings(deadline=None, max_examples=60)
def test_an_area_stays_filled_without_gaps_however_pieces_come_and_go(seed: int, steps: int) -> None:
    random, area = Random(seed), Area(30, 20)
    free: list[Area] = [area]
    lying: Counter[tuple[int, int]] = Counter()
    for _ in range(steps):
        there = [piece for piece, _ in pieces_in(area)]
        if there and random.random() < 0.4:
            gone = set(random.sample(there, random.randint(1, min(3, len(there)))))
            top = gone.pop()
            while top.parent is not None and random.random() < 0.3:
                top = top.parent
            gone.add(top)
            before = sketch_of(area)
            inside = {piece for one in gone for piece, _ in pieces_in(one)}
            lying -= Counter((piece.width, piece.height) for piece in inside)
            made, pieces, free = kept_of(area, gone)
            assert sketch_of(area) == before
            assert set(pieces) == set(pieces_in(made))
            area = made
        elif free:
            one = free.pop(random.randrange(len(free)))
            size = random.randint(1, one.width), random.randint(1, one.height)
            filled, rests = put_into(one, Leaf(0, 0), size, upright=random.random() < 0.5)
            assert (filled.width, filled.height) == size
            free += rests
            lying[size] += 1
        assert is_whole(area)
        assert set(free) == leftovers_in(area)
        assert len(free) == len(set(free))
        assert Counter((piece.width, piece.height) for piece, _ in pieces_in(area)) == lying
        assert count_kinds(sketch_of(area), 1) == (lying.total(),)


def test_a_cut_longer_than_the_trimmer_or_with_nothing_to_hold_cannot_be_made() -> None:
    sketch = Split(True, 3, Leaf(0, 0), Split(False, 8, Leaf(1, 0), None))
    pieces = [PieceType("a", 3, 10, 1, UPRIGHT), PieceType("b", 7, 8, 1, UPRIGHT)]
    limits = ((None, 0, True), (10, 7, True), (10, 8, False), (9, 0, False))
    for reach, strip, can in limits:
        job = make_job(pieces, [Stock("sheet", 10, 10)], TrimmerLimits(None, strip))
        job = Job(job.kinds, job.sheets, reach or job.reach, strip, job.unit)
        assert can_be_cut(job, sketch, 10, 10) is can, (reach, strip)
