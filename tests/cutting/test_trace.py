"""Cut trees behind a table: the best of a sheet, and others that begin with another cut."""

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.cutting.tables import small_table

from kitwright.cutting import PieceType, Stock, TrimmerLimits
from kitwright.cutting.area import can_be_cut
from kitwright.cutting.job import make_job
from kitwright.cutting.knapsack import solve_table
from kitwright.cutting.sketch import Leaf, Sketch, Split, count_kinds
from kitwright.cutting.trace import best_sketch, sketches_from_best

Poses = tuple[tuple[tuple[int, int], ...], ...]


def fits(sketch: Sketch, width: int, height: int, sizes: Poses) -> bool:
    """Whether every piece fills exactly the area that the cuts leave for it, and every cut lies inside its area."""
    if sketch is None:
        return True
    if isinstance(sketch, Leaf):
        return sizes[sketch.kind][sketch.pose] == (width, height)
    if not 0 < sketch.at < (width if sketch.upright else height):
        return False
    if sketch.upright:
        return fits(sketch.low, sketch.at, height, sizes) and fits(sketch.high, width - sketch.at, height, sizes)
    return fits(sketch.low, width, sketch.at, sizes) and fits(sketch.high, width, height - sketch.at, sizes)


@given(data=st.data())
@settings(deadline=None, max_examples=60)
def test_sketches_come_by_falling_worth_and_are_worth_at_least_what_they_say(data: st.DataObject) -> None:
    width, height = data.draw(st.integers(6, 24)), data.draw(st.integers(6, 24))
    sizes = data.draw(st.lists(st.tuples(st.integers(1, width), st.integers(1, height)), min_size=1, max_size=5))
    turns = data.draw(st.sampled_from([(0,), (0, 1)]))
    limits = TrimmerLimits(
        data.draw(st.sampled_from([None, max(width, height), min(width, height)])),
        data.draw(st.sampled_from([0, 0, 2])),
    )
    pieces = [PieceType(str(i), w, h, 1, turns) for i, (w, h) in enumerate(sizes)]
    job = make_job(pieces, [Stock("sheet", width, height)], limits)
    assume(job.kinds and job.sheets)
    worth = [data.draw(st.integers(0, 50)) for _ in job.kinds]
    table = small_table(job, range(len(job.kinds)), [0], strip=job.strip)
    size = job.sheets[0].width, job.sheets[0].height
    values = solve_table(table, worth)
    found = list(sketches_from_best(table, values, worth, size))
    assert found[0][1] == best_sketch(table, values, worth, size)
    told = [value for value, _ in found]
    assert told == sorted(told, reverse=True)
    for value, sketch in found:
        counts = count_kinds(sketch, len(job.kinds))
        assert sum(count * each for count, each in zip(counts, worth, strict=True)) == value
        assert fits(sketch, *size, tuple(kind.poses for kind in job.kinds))
        assert can_be_cut(job, sketch, *size)


def test_other_first_cuts_give_other_pieces() -> None:
    pieces = [PieceType("long", 10, 4, 1, (0,)), PieceType("short", 4, 5, 1, (0,))]
    job = make_job(pieces, [Stock("sheet", 10, 10)], TrimmerLimits())
    table = small_table(job, range(2), [0], strip=0)
    worth = [kind.area for kind in job.kinds]
    sketches = [sketch for _, sketch in sketches_from_best(table, solve_table(table, worth), worth, (10, 10))]
    assert {count_kinds(sketch, 2) for sketch in sketches} == {(0, 4), (1, 2)}
    assert all(isinstance(sketch, Split) for sketch in sketches)
