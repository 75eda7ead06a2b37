"""Search by satisfiability (MiniCard, of python-sat): one yes or no for each fact, a seedless solver, a limit in counted steps.

Two models. Where things can begin at few places, a *cover*: one fact for each thing at each place in each turn, and no point of the grid
of begins is covered twice (two overlapping boxes at such places always share such a point). Otherwise an *order* model: facts "begins at
this place or beyond" for every place on each axis (N. Tamura, A. Taga, S. Kitagawa, M. Banbara, *Compiling finite linear CSP into SAT*,
Constraints 14 (2009) 254-272, from memory), and for each pair of things one of the six sides on which they part.

Where there are too many places, sizes are rounded down to a step, and what is found is tried and mended with the true ones.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, pairwise, product
from typing import TYPE_CHECKING, Final, NamedTuple

from kitwright.proof.packing.build import Laid
from kitwright.proof.packing.job import AXES, Item, Job, round_down
from kitwright.proof.packing.things import Triple

if TYPE_CHECKING:
    from pysat.solvers import Solver

__all__ = ["Searched", "search_packing"]

MOST_COVERED: Final = 250_000
"""Largest size of a cover model: places times the points that each covers."""

MOST_CLAUSES: Final = 100_000
"""Largest size of an order model, counted before it is made."""

MOST_ORDERED: Final = 64
"""Most things in an order model."""

STEPS: Final = 6_000_000
"""Conclusions that the solver may draw for an effort of one: about a second on an ordinary computer."""

STEPS_OF_A_CONFLICT: Final = 100
"""What learning from a contradiction counts."""

STEPS_OF_A_LOOK: Final = 15_000
"""What trying one solution with the true sizes counts."""

Searched = tuple[Laid, ...] | bool | None
"""A packing; False: there is none; None: not decided."""


def search_packing(job: Job, *, effort: float) -> Searched:
    """A packing, False if there is none, None if this was not decided within `effort` times `STEPS` conclusions."""
    if effort <= 0:
        return None
    steps = math.ceil(effort * STEPS)
    places = _places(job)
    if places is not None:
        return _search_cover(job, places, steps)
    rounded = _small(job)
    return None if rounded is None else _search_order(job, rounded, steps)


class _Facts:
    """What must hold, said to a solver: facts are numbers from 1, a negative one is the contrary."""

    def __init__(self) -> None:
        from pysat.solvers import Solver  # noqa: PLC0415  (needed only for hard packings)

        self.solver: Solver = Solver(name="minicard")
        self.count = 0
        self.looks = 0

    def new(self, number: int) -> list[int]:
        """So many facts more."""
        first = self.count + 1
        self.count += number
        return list(range(first, first + number))

    def any_of(self, *facts: int) -> None:
        """At least one of them holds."""
        self.solver.add_clause(facts)

    def at_most(self, facts: Sequence[int], number: int) -> None:
        """No more than so many of them hold."""
        if len(facts) > number:
            self.solver.add_atmost(list(facts), number)

    def exactly(self, facts: Sequence[int], number: int) -> None:
        """So many of them hold."""
        self.at_most(facts, number)
        self.at_most([-fact for fact in facts], len(facts) - number)

    def odd(self, facts: Sequence[int], *, is_odd: bool) -> None:
        """Oddly many of them hold, or evenly many."""
        told = [facts[0], *self.new(len(facts) - 1)]
        for before, fact, after in zip(told, facts[1:], told[1:], strict=False):
            for clause in (
                (before, fact, -after),
                (before, -fact, after),
                (-before, fact, after),
                (-before, -fact, -after),
            ):
                self.any_of(*clause)
        self.any_of(told[-1] if is_odd else -told[-1])

    def solved(self, steps: int) -> set[int] | bool | None:
        """The facts that hold in one solution; False if there is none, None if so many conclusions in all did not show which."""
        done = self.solver.accum_stats()
        left = steps - done["propagations"] - STEPS_OF_A_CONFLICT * done["conflicts"] - STEPS_OF_A_LOOK * self.looks
        self.looks += 1
        if left <= 0:
            return None
        self.solver.prop_budget(left)
        self.solver.conf_budget(left // STEPS_OF_A_CONFLICT + 1)
        is_solved: bool | None = self.solver.solve_limited(expect_interrupt=True)
        return {fact for fact in self.solver.get_model() if fact > 0} if is_solved else is_solved


_Place = tuple[int, Triple, Triple]


def _places(job: Job) -> list[_Place] | None:
    """Every item in every turn at every place, None if there are too many or the places are not listed."""
    if any(sums is None for sums in job.sums):
        return None
    found: list[_Place] = []
    covered = 0
    for item in job.items:
        for way in item.ways:
            begins = [_begins(job, axis, way[axis]) for axis in AXES]
            number = math.prod(len(each) for each in begins)
            points = math.prod(
                max((sum(b <= p < b + way[axis] for p in _sums(job, axis)) for b in begins[axis]), default=0)
                for axis in AXES
            )
            covered += number * points
            if covered > MOST_COVERED:
                return None
            found.extend((item.index, (corner[0], corner[1], corner[2]), way) for corner in product(*begins))
    return found


def _sums(job: Job, axis: int) -> tuple[int, ...]:
    return job.sums[axis] or ()


def _begins(job: Job, axis: int, edge: int) -> list[int]:
    return [start for start in _sums(job, axis) if start + edge <= job.space[axis]]


def _search_cover(job: Job, places: list[_Place], steps: int) -> Searched:
    facts = _Facts()
    taken = facts.new(len(places))
    of_item: dict[int, list[int]] = defaultdict(list)
    at_point: dict[tuple[int, ...], list[int]] = defaultdict(list)
    for fact, (index, corner, way) in zip(taken, places, strict=True):
        of_item[index].append(fact)
        spans = ([p for p in _sums(job, axis) if corner[axis] <= p < corner[axis] + way[axis]] for axis in AXES)
        for point in product(*spans):
            at_point[point].append(fact)
    for item in job.items:
        facts.exactly(of_item[item.index], item.quantity)
    has_no_waste = job.volume == math.prod(job.space)
    for there in at_point.values():
        facts.at_most(there, 1)
        if has_no_waste:
            facts.any_of(*there)
    if has_no_waste:
        for odd, is_odd in _parities(job, places, taken):
            facts.odd(odd, is_odd=is_odd)
    found = facts.solved(steps)
    if isinstance(found, set):
        return tuple(Laid(*place) for fact, place in zip(taken, places, strict=True) if fact in found)
    return found


def _parities(job: Job, places: list[_Place], taken: list[int]) -> Iterator[tuple[list[int], bool]]:
    """Where the space is filled wholly, each layer is: so of the things with an odd section, oddly many meet an odd layer."""
    for axis in AXES:
        first, second = (each for each in AXES if each != axis)
        for layer in _sums(job, axis)[:-1]:
            odd = [
                fact
                for fact, (_, corner, way) in zip(taken, places, strict=True)
                if corner[axis] <= layer < corner[axis] + way[axis] and way[first] * way[second] % 2
            ]
            if odd:
                yield odd, bool(job.space[first] * job.space[second] % 2)


def _small(job: Job) -> Job | None:
    """The job with sizes rounded down to the finest step with which its order model is not too large; None if there is none."""
    smallest = min(edge for item in job.items for way in item.ways for edge in way)
    step, rounded = 1, job
    while job.count <= MOST_ORDERED and not _is_small(rounded):
        step *= 2
        if step > smallest:
            return None
        rounded = round_down(job, step)
    return rounded if job.count <= MOST_ORDERED else None


def _is_small(job: Job) -> bool:
    """Whether the order model of a job is not too large."""
    if any(sums is None for sums in job.sums):
        return False
    sizes = [max(len({way[axis] for way in item.ways}) for item in job.items) * len(_sums(job, axis)) for axis in AXES]
    return job.count * (job.count - 1) * sum(sizes) <= MOST_CLAUSES


class _Thing:
    """One copy of an item in an order model: its turns, its places on each axis, and the facts about both."""

    def __init__(self, facts: _Facts, job: Job, item: Item, ways: tuple[Triple, ...]) -> None:
        self.item = item
        self.ways = ways
        self.turned = facts.new(len(item.ways))
        facts.exactly(self.turned, 1)
        self.places = [_begins(job, axis, min(way[axis] for way in item.ways)) for axis in AXES]
        self.beyond = [[0, *facts.new(len(places) - 1)] for places in self.places]
        for axis, beyond in enumerate(self.beyond):
            for near, far in pairwise(beyond[1:]):
                facts.any_of(-far, near)
            for turned, way in zip(self.turned, item.ways, strict=True):
                last = bisect_left(self.places[axis], job.space[axis] - way[axis] + 1)
                if last < len(beyond):
                    facts.any_of(-turned, -beyond[last])

    def least(self, axis: int) -> int:
        """The smallest size that it can have along an axis."""
        return min(way[axis] for way in self.item.ways)

    def at_least(self, axis: int) -> Iterator[tuple[int, list[int]]]:
        """Each size that it can have along an axis, with the turns in which it is smaller: in none of them it has that size or more."""
        for size in sorted({way[axis] for way in self.item.ways}):
            yield size, self.smaller(self.item.ways, axis, size)

    def smaller(self, ways: Sequence[Triple], axis: int, size: int) -> list[int]:
        """The turns in which, of these sizes, the one along an axis is below `size`."""
        return [turned for turned, way in zip(self.turned, ways, strict=True) if way[axis] < size]

    def way(self, found: set[int]) -> Triple:
        """Its true sizes as turned in a solution."""
        return next(way for turned, way in zip(self.turned, self.ways, strict=True) if turned in found)

    def begin(self, found: set[int], axis: int) -> int:
        """The number of the place where it begins in a solution."""
        return sum(fact in found for fact in self.beyond[axis])


class _Side(NamedTuple):
    """A fact: along the axis, the right thing begins where the left one ends, or beyond."""

    fact: int
    axis: int
    left: int
    right: int


def _search_order(job: Job, rounded: Job, steps: int) -> Searched:
    """By an order model of the rounded job, whose sizes are no larger: there is no packing if that has none.

    In a solution the things are pushed together with their true sizes. Where they then come out of the space, the solver is told which
    row of things is too long, and goes on.
    """
    facts = _Facts()
    items = zip(job.items, rounded.items, strict=True)
    things = [_Thing(facts, rounded, item, true.ways) for true, item in items for _ in range(item.quantity)]
    sides: list[_Side] = []
    for (one, first), (two, second) in combinations(enumerate(things), 2):
        parted = [
            _Side(facts.new(1)[0], axis, left, right)
            for axis, (left, right) in product(AXES, ((one, two), (two, one)))
            if first.least(axis) + second.least(axis) <= rounded.space[axis]
        ]
        for side in parted:
            _part(facts, side, things)
        facts.any_of(*(side.fact for side in parted))
        sides.extend(parted)
        if first.item is second.item:
            for before, after in zip(first.beyond[0][1:], second.beyond[0][1:], strict=True):
                facts.any_of(-before, after)
    while isinstance(found := facts.solved(steps), set):
        pushed = [_Pushed(things, sides, found, axis) for axis in AXES]
        too_long = [row for each in pushed for row in each.rows_beyond(job.space[each.axis])]
        if not too_long:
            x, y, z = (each.begins for each in pushed)
            return tuple(
                Laid(thing.item.index, (left, front, low), thing.way(found))
                for thing, left, front, low in zip(things, x, y, z, strict=True)
            )
        for row in too_long:
            facts.any_of(*row)
    return found


class _Pushed:
    """The things of a solution with their true sizes, each pushed along one axis to the things before it."""

    def __init__(self, things: Sequence[_Thing], sides: Iterable[_Side], found: set[int], axis: int) -> None:
        self.things, self.axis = things, axis
        self.sizes = [thing.way(found)[axis] for thing in things]
        self.begins = [0] * len(things)
        self.before: list[_Side | None] = [None] * len(things)
        of_left = defaultdict(list)
        for side in sides:
            if side.axis == axis and side.fact in found:
                of_left[side.left].append(side)
        for left in sorted(range(len(things)), key=lambda number: things[number].begin(found, axis)):
            for side in of_left[left]:
                if self.end(left) > self.begins[side.right]:
                    self.begins[side.right], self.before[side.right] = self.end(left), side

    def end(self, number: int) -> int:
        """Where a thing ends."""
        return self.begins[number] + self.sizes[number]

    def rows_beyond(self, room: int) -> Iterator[list[int]]:
        """For each thing that ends beyond the room: facts, one of which must hold, for these things in a row are too long."""
        for number in range(len(self.things)):
            if self.end(number) > room:
                yield list(self.otherwise(number))

    def otherwise(self, number: int | None) -> Iterator[int]:
        """What would shorten the row that ends with a thing: another side, or a turn in which one of its things is smaller."""
        while number is not None:
            thing, side = self.things[number], self.before[number]
            yield from thing.smaller(thing.ways, self.axis, self.sizes[number])
            if side is not None:
                yield -side.fact
            number = None if side is None else side.left


def _part(facts: _Facts, side: _Side, things: Sequence[_Thing]) -> None:
    """What the side means for the places of its two things."""
    left, right = (things[number] for number in (side.left, side.right))
    places = right.places[side.axis]
    for size, smaller in left.at_least(side.axis):
        for place, beyond in zip(left.places[side.axis], left.beyond[side.axis], strict=True):
            there = [-side.fact, *smaller, *([-beyond] if beyond else ())]
            number = bisect_left(places, place + size)
            if number == len(places):
                facts.any_of(*there)
                break
            if number:
                facts.any_of(*there, right.beyond[side.axis][number])
