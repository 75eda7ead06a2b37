"""Few mats for pieces of any outline: mats are filled in many ways, and plans are put together of the fillings.

How long is searched is counted in work, never by the clock: the same pieces come to the same mats on every computer. Every layout is
checked by `verify_nested`. There is no proof that fewer mats are impossible; `fewest_by_area` is a bound.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from itertools import product
from random import Random
from typing import Final

from shapely import Polygon

from kitwright.cutting.nest import Mat, MatLayout, NestedPlan, Nestling, Outlined
from kitwright.cutting.nest_fill import Filling, Lying, Preference, filled, kept_of, settled
from kitwright.cutting.nest_lattice import Kind, Lattice, Shadows, pitch_for
from kitwright.cutting.work import Stopped, Work
from kitwright.measure import MACHINE_TOLERANCE

__all__ = ["fewest_by_area", "nest"]

WORK: Final = 2_000_000_000
"""Nanoseconds of an ordinary computer for all papers of a kit. They are counted, not measured."""

MOST_KEPT: Final = 240
"""Fillings that plans are put together of."""

LOOK: Final = 40_000
LOOK_AT_ONE: Final = 400
"""What it takes to look for the worthiest of them."""

SCALE: Final = 1000
"""Worth of a square millimetre: values are whole numbers, so that no computer rounds them otherwise."""

SEED: Final = 20261130

Told = Callable[[int, float], bool]
"""Called with the fewest mats so far (0 before there is a plan) and how much of the work is done; answers whether to go on."""

Counts = tuple[int, ...]


def nest(
    pieces: Sequence[Outlined], mat: Mat, *, tell: Told | None = None, papers: int = 1, work: int = WORK
) -> NestedPlan:
    """Mats for all the pieces; the work is shared among so many papers.

    What goes onto no mat by itself is `unplaced`. Where `tell` said stop there is the best plan so far; what it did not come to is
    `unreached`.
    """
    wanted = [piece for piece in pieces if piece.count > 0]
    unplaced = {piece.name: piece.count for piece in wanted if not fits_alone(piece, mat)}
    wanted = [piece for piece in wanted if piece.name not in unplaced]
    if not wanted:
        return NestedPlan(mat, (), unplaced)
    search = Search(wanted, mat, max(1, work // papers), tell)
    layouts = search.layouts()
    laid: Counter[str] = Counter()
    for layout in layouts:
        for name, count in layout.counts.items():
            laid[name] += count * layout.times
    unreached = {piece.name: piece.count - laid[piece.name] for piece in wanted if piece.count > laid[piece.name]}
    return NestedPlan(mat, layouts, unplaced, unreached)


def fewest_by_area(pieces: Sequence[Outlined], mat: Mat) -> int:
    """A number of mats that cannot be undercut: all the paper of the pieces, as if it could lie without a gap."""
    return math.ceil(sum(piece.area * piece.count for piece in pieces) / (mat.width * mat.height) - 1e-9)


def fits_alone(piece: Outlined, mat: Mat) -> bool:
    """Whether one piece lies on a mat in one of its turns."""
    return any(
        width <= mat.width + MACHINE_TOLERANCE and high <= mat.height + MACHINE_TOLERANCE
        for width, high in sizes(piece)
    )


def sizes(piece: Outlined) -> list[tuple[float, float]]:
    """Width and height in each of its turns."""
    left, low, right, high = Polygon(piece.outline).bounds
    return [(high - low, right - left) if turn % 2 else (right - left, high - low) for turn in piece.turns]


def alone(piece: Outlined, mat: Mat) -> Nestling:
    """One piece in the corner of a mat, in the first of its turns that fits."""
    for turn, (width, high) in zip(piece.turns, sizes(piece), strict=True):
        if width <= mat.width + MACHINE_TOLERANCE and high <= mat.height + MACHINE_TOLERANCE:
            left, low, _, _ = Nestling(piece.name, turn, 0.0, 0.0).shape(piece.outline).bounds
            return Nestling(piece.name, turn, -left, -low)
    raise ValueError(f"{piece.name} fits no mat")


@dataclass(frozen=True)
class Full:
    """A mat that was filled, and how many of each kind lie on it."""

    lattice: Lattice
    lying: tuple[Lying, ...]
    counts: Counts

    def within(self, left: Counts) -> Full:
        """The same mat without what is more than is left."""
        if all(count <= most for count, most in zip(self.counts, left, strict=True)):
            return self
        room, kept = list(left), []
        for each in self.lying:
            if room[each[0].kind]:
                room[each[0].kind] -= 1
                kept.append(each)
        counts = tuple(min(count, most) for count, most in zip(self.counts, left, strict=True))
        return Full(self.lattice, tuple(kept), counts)


@dataclass(frozen=True)
class Plan:
    """Mats with how often each is cut; `rank` is the number of them, then how unevenly they are filled (the more so, the better)."""

    mats: tuple[tuple[Full, int], ...]
    rank: tuple[int, float]


def most_times(left: Counts, full: Full) -> int:
    """How often a mat can be cut until one of its kinds is used up."""
    return min(have // count for have, count in zip(left, full.counts, strict=True) if count)


def cut(left: Counts, full: Full, times: int, mats: list[tuple[Full, int]]) -> Counts:
    """What is left when a mat was cut so often; it is noted among the others."""
    mats.append((full, times))
    return tuple(have - times * count for have, count in zip(left, full.counts, strict=True))


@dataclass
class Search:
    """The search for one paper. Pieces whose only place is between the points of the lattice lie alone."""

    pieces: Sequence[Outlined]
    mat: Mat
    most_work: int
    tell: Told | None
    kept: dict[Counts, Full] = field(default_factory=dict)
    best: Plan | None = None

    def __post_init__(self) -> None:
        self.chance = Random(SEED)
        self.kinds = [Kind.of(piece) for piece in self.pieces]
        self.work = Work(self.most_work, self.goes_on)
        self.shadows = Shadows(self.kinds, self.mat.gap, pitch_for(self.kinds, self.mat), self.work.does)
        self.lattices = [Lattice(self.shadows, self.mat, is_turned=is_turned) for is_turned in (False, True)]
        self.areas = [kind.area for kind in self.kinds]
        self.values = [round(SCALE * area) for area in self.areas]
        """What each kind is worth in the next plan; at first its area."""
        self.demand = tuple(
            piece.count if self.lattices[0].ways[number] else 0 for number, piece in enumerate(self.pieces)
        )
        self.room = self.mat.width * self.mat.height
        self.caps = [int(self.room / area) + 1 for area in self.areas]

    def lonely(self) -> int:
        """How many pieces there are of kinds of which no two lie on one mat, as far as the lattice can tell."""
        apart: list[int] = []
        for kind in sorted(range(len(self.kinds)), key=lambda kind: -self.demand[kind]):
            if self.demand[kind] and not any(self.lattices[0].holds_both(kind, other) for other in (kind, *apart)):
                apart.append(kind)
        return sum(self.demand[kind] for kind in apart)

    def goes_on(self) -> bool:
        """Tell how far it is, and hear whether to go on."""
        share = min(1.0, self.work.done / self.most_work)
        return self.tell is None or self.tell(self.best.rank[0] if self.best else 0, share)

    def layouts(self) -> tuple[MatLayout, ...]:
        """The mats of the best plan, and of what lies alone."""
        found = [
            MatLayout((alone(piece, self.mat),), piece.count)
            for piece, count in zip(self.pieces, self.demand, strict=True)
            if not count
        ]
        if any(self.demand):
            with suppress(Stopped):
                self.look()
        self.work.goes_on = lambda: True  # what was found is finished even where somebody said stop
        for full, times in self.best.mats if self.best else ():
            lying = (
                Nestling(self.kinds[way.kind].name, *full.lattice.at(way, column, row))
                for way, column, row in settled(full.lattice, full.lying)
            )
            found.append(MatLayout(tuple(lying), times))
        return tuple(found)

    def look(self) -> None:
        """Put plans together until the work is done, or no mat can be saved. Raises `Stopped`."""
        self.work.does(0)  # who said stop before is heard
        for lattice, preference in product(self.lattices, (Preference.BEGINS_NEAR, Preference.ENDS_NEAR)):
            if self.best is None or self.work.is_left:
                self.take(self.plain_plan(lattice, preference))
        assert self.best is not None
        fewest = max(math.ceil(self.share(self.demand) - 1e-9), self.lonely())
        while self.best.rank[0] > fewest and self.work.is_left:
            self.take(self.plan(tries=2 if self.chance.random() < 0.5 else 0))

    def take(self, mats: Sequence[tuple[Full, int]]) -> None:
        """Take a plan up if it is better than the best, and learn from it."""
        uneven = math.fsum(times * self.share(full.counts) ** 2 for full, times in mats)
        plan = Plan(tuple(mats), (sum(times for _, times in mats), -round(uneven, 9)))
        if self.best is None or plan.rank < self.best.rank:
            self.best = plan
        self.learn(plan)

    def plain_plan(self, lattice: Lattice, preference: Preference) -> list[tuple[Full, int]]:
        """Mat after mat filled with the largest pieces first."""
        order = sorted(range(len(self.kinds)), key=lambda kind: -self.areas[kind])
        left = self.demand
        mats: list[tuple[Full, int]] = []
        while any(left):
            full = self.full(lattice, (), left, order, preference)
            self.keep(full)
            left = cut(left, full, most_times(left, full), mats)
        return mats

    def full(
        self,
        lattice: Lattice,
        lying: Sequence[Lying],
        left: Counts,
        order: Sequence[int],
        preference: Preference,
        *,
        in_runs: bool = False,
    ) -> Full:
        """A mat filled on from what lies there."""
        caps = [min(count, most) for count, most in zip(left, self.caps, strict=True)]
        found = filled(Filling(lattice, self.work, lying), caps, order, preference, self.chance, in_runs=in_runs)
        counts = Counter(way.kind for way, _, _ in found)
        return Full(lattice, found, tuple(counts[kind] for kind in range(len(self.kinds))))

    def keep(self, full: Full) -> None:
        """Keep a filling unless another holds as much."""
        if full.counts in self.kept or not any(full.counts):
            return
        if any(all(map(int.__le__, full.counts, other)) for other in self.kept):
            return
        for counts in [each for each in self.kept if all(map(int.__le__, each, full.counts))]:
            del self.kept[counts]
        self.kept[full.counts] = full
        if len(self.kept) > MOST_KEPT:
            del self.kept[min(self.kept, key=self.share)]

    def plan(self, *, tries: int) -> list[tuple[Full, int]]:
        """Mat after mat the filling that is worth most of what is left, tried to make better so many times."""
        left = self.demand
        mats: list[tuple[Full, int]] = []
        while any(left):
            full = self.worthiest(left)
            for _ in range(tries):
                if full.counts == left or not self.work.is_left:
                    break
                full = self.better(full, left)
            times = most_times(left, full)
            if times > 1 and self.chance.random() < 0.3:
                times = 1 + int(self.chance.random() * times)
            left = cut(left, full, times, mats)
        return mats

    def share(self, counts: Counts) -> float:
        """How much of a mat so many pieces cover."""
        return math.fsum(area * count for area, count in zip(self.areas, counts, strict=True)) / self.room

    def worth(self, counts: Counts) -> int:
        """What so many pieces are worth."""
        return sum(value * count for value, count in zip(self.values, counts, strict=True))

    def worthiest(self, left: Counts) -> Full:
        """Of what is kept, the filling that is worth most when it holds no more than is left."""
        import numpy as np  # noqa: PLC0415  (large, needed only here)

        kept = tuple(self.kept)
        worth = np.minimum(np.array(kept, dtype=np.int64), np.array(left)) @ np.array(self.values, dtype=np.int64)
        self.work.does(LOOK + LOOK_AT_ONE * len(kept))
        if worth.max() > 0:
            return self.kept[kept[int(worth.argmax())]].within(left)
        return self.full(self.lattices[0], (), left, range(len(left)), Preference.BEGINS_NEAR)

    def better(self, full: Full, left: Counts) -> Full:
        """The filling with some taken out and laid anew, or as it was if it is worth less then."""
        order = sorted(
            (kind for kind, count in enumerate(left) if count),
            key=lambda kind: -self.values[kind] * (0.3 + self.chance.random()),
        )
        kept = tuple(kept_of(full.lying, self.chance))
        lattice = full.lattice if kept else self.lattices[int(self.chance.random() * 2)]
        preference = tuple(Preference)[int(self.chance.random() * 3)]
        found = self.full(lattice, kept, left, order, preference, in_runs=self.chance.random() < 0.4)
        self.keep(found)
        return found if self.worth(found.counts) >= self.worth(full.counts) else full

    def learn(self, plan: Plan) -> None:
        """Give more worth to kinds that lay on poorly filled mats, so that they are laid sooner; with some chance in it."""
        values = []
        shares = [self.share(full.counts) for full, _ in plan.mats]
        for kind, area in enumerate(self.areas):
            on_each = [full.counts[kind] * times for full, times in plan.mats]
            asked = SCALE * area * math.fsum(map(float.__truediv__, map(float, on_each), shares)) / max(1, sum(on_each))
            values.append((0.6 * self.values[kind] + 0.4 * asked) * (0.9 + 0.2 * self.chance.random()))
        scale = SCALE * math.fsum(self.areas) / math.fsum(values)
        self.values = [round(value * scale) for value in values]
