"""Search by constraint solving (OR-Tools CP-SAT): one worker, a fixed seed and a limit in the solver's own deterministic seconds.

Two models. Where things can begin at few places, a *cover* model: one yes or no for each thing at each place in each turn, and no
point of the grid of begins is covered twice (two overlapping boxes at such places always share such a point). Otherwise an *interval*
model: whole-number corners, and for each pair of things one of the six sides on which they part.
"""

from __future__ import annotations

import math
from collections import defaultdict
from itertools import combinations, product
from typing import TYPE_CHECKING, Final

from kitwright.proof.packing.build import Laid
from kitwright.proof.packing.job import AXES, Job
from kitwright.proof.packing.things import Triple

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

__all__ = ["Searched", "search_packing"]

MOST_COVERED: Final = 250_000
"""Largest size of a cover model: places times the points that each covers."""

MOST_INTERVALS: Final = 24
"""Most things in an interval model."""

MOST_LISTED: Final = 60
"""Most places on an axis that an interval model lists one by one; more only slow the search."""

SEED: Final = 7

Searched = tuple[Laid, ...] | bool | None
"""A packing; False: there is none; None: not decided."""


def search_packing(job: Job, *, effort: float) -> Searched:
    """A packing, False if there is none, None if this was not decided within `effort` deterministic seconds of the solver."""
    if effort <= 0:
        return None
    places = _places(job)
    if places is not None:
        return _search_cover(job, places, effort)
    if job.count <= MOST_INTERVALS:
        return _search_intervals(job, effort)
    return None


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


def _search_cover(job: Job, places: list[_Place], effort: float) -> Searched:
    from ortools.sat.python import cp_model  # noqa: PLC0415  (a large library, needed only for hard packings)

    model = cp_model.CpModel()
    taken = [model.new_bool_var("") for _ in places]
    of_item: dict[int, list[cp_model.IntVar]] = defaultdict(list)
    at_point: dict[tuple[int, ...], list[cp_model.IntVar]] = defaultdict(list)
    for variable, (index, corner, way) in zip(taken, places, strict=True):
        of_item[index].append(variable)
        spans = ([p for p in _sums(job, axis) if corner[axis] <= p < corner[axis] + way[axis]] for axis in AXES)
        for point in product(*spans):
            at_point[point].append(variable)
    for item in job.items:
        model.add(sum(of_item[item.index]) == item.quantity)
    has_no_waste = job.volume == math.prod(job.space)
    for literals in at_point.values():
        if has_no_waste:
            model.add_exactly_one(literals)
        else:
            model.add_at_most_one(literals)
    if has_no_waste:
        _add_parities(model, job, places, taken)
    solver, found = _solve(model, effort)
    if found is None:
        return None
    if not found:
        return False
    return tuple(Laid(*place) for variable, place in zip(taken, places, strict=True) if solver.boolean_value(variable))


def _add_parities(model: cp_model.CpModel, job: Job, places: list[_Place], taken: list[cp_model.IntVar]) -> None:
    """Where the space is filled wholly, each layer is: so of the things with an odd section, oddly many meet an odd layer."""
    for axis in AXES:
        others = [each for each in AXES if each != axis]
        area = job.space[others[0]] * job.space[others[1]]
        for layer in _sums(job, axis):
            if layer == job.space[axis]:
                continue
            odd = [
                variable
                for variable, (_, corner, way) in zip(taken, places, strict=True)
                if corner[axis] <= layer < corner[axis] + way[axis] and way[others[0]] * way[others[1]] % 2
            ]
            if odd or area % 2:
                pairs = model.new_int_var(0, len(odd) // 2, "")
                model.add(sum(odd) == 2 * pairs + area % 2)


def _search_intervals(job: Job, effort: float) -> Searched:
    from ortools.sat.python import cp_model  # noqa: PLC0415  (a large library, needed only for hard packings)

    model = cp_model.CpModel()
    copies = [item for item in job.items for _ in range(item.quantity)]
    corners = []
    sizes = []
    turns = []
    for item in copies:
        chosen = [model.new_bool_var("") for _ in item.ways]
        model.add_exactly_one(chosen)
        size = [sum(way[axis] * literal for way, literal in zip(item.ways, chosen, strict=True)) for axis in AXES]
        corner = [_corner(model, job, axis, min(way[axis] for way in item.ways)) for axis in AXES]
        for axis in AXES:
            model.add(corner[axis] + size[axis] <= job.space[axis])
        corners.append(corner)
        sizes.append(size)
        turns.append(chosen)
    for (one, first), (two, second) in combinations(enumerate(copies), 2):
        sides = []
        for axis in AXES:
            for left, right in ((one, two), (two, one)):
                least = min(way[axis] for way in first.ways) + min(way[axis] for way in second.ways)
                if least > job.space[axis]:
                    continue
                parted = model.new_bool_var("")
                model.add(corners[left][axis] + sizes[left][axis] <= corners[right][axis]).only_enforce_if(parted)
                sides.append(parted)
        model.add_at_least_one(sides)
        if first.index == second.index and two == one + 1:
            model.add(corners[one][0] <= corners[two][0])
    solver, found = _solve(model, effort)
    if found is None:
        return None
    if not found:
        return False
    laid = []
    for item, corner, chosen in zip(copies, corners, turns, strict=True):
        way = next(way for way, literal in zip(item.ways, chosen, strict=True) if solver.boolean_value(literal))
        place = [solver.value(coordinate) for coordinate in corner]
        laid.append(Laid(item.index, (place[0], place[1], place[2]), way))
    return tuple(laid)


def _corner(model: cp_model.CpModel, job: Job, axis: int, edge: int) -> cp_model.IntVar:
    from ortools.sat.python import cp_model  # noqa: PLC0415  (a large library, needed only for hard packings)

    if len(_sums(job, axis)) not in range(1, MOST_LISTED + 1):
        return model.new_int_var(0, job.space[axis] - edge, "")
    return model.new_int_var_from_domain(cp_model.Domain.from_values(_begins(job, axis, edge)), "")


def _solve(model: cp_model.CpModel, effort: float) -> tuple[cp_model.CpSolver, bool | None]:
    from ortools.sat.python import cp_model  # noqa: PLC0415  (a large library, needed only for hard packings)

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.linearization_level = 0  # fractions of things tell nothing here and cost much
    solver.parameters.max_deterministic_time = effort
    status = solver.solve(model)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return solver, True
    return solver, False if status == cp_model.INFEASIBLE else None
