"""Where a piece may lie on a mat among others: a bit for each point of a lattice, in one whole number.

A piece lies with its lower left corner on the lattice. For two pieces, the places of one that come too near the other are the Minkowski sum
of the other, grown by the gap, and the one turned by half; a point of the lattice is tried against its convex parts exactly, in whole
nanometres. So what the lattice allows is right, and only places between its points are missed. As far as blanks have their edges on the
marks of one ruler, its lattice misses none of the places where they touch.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Final

from kitwright.cutting.nest import Mat, Outlined
from kitwright.cutting.nest_parts import NM, Flat, Points, convex_parts, grown, turned, whole_ring

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Kind", "Lattice", "Shadows", "Way", "pitch_for"]

SLACK: Final = 1000
"""Nanometres that are given away everywhere, so that what was rounded still lies close."""

FINEST: Final = 300_000
WIDEST: Final = 850_000
"""How far points of a lattice are apart (nm), where its mat is not too large for that."""

MOST_POINTS: Final = 260_000
"""Of a lattice; on a larger mat they lie farther apart."""

MOST_REMEMBERED: Final = 300_000_000
"""Bits of shadows that are remembered; beyond that all are forgotten and worked out again."""

CAST: Final = 1_000_000
"""What a shadow takes, in nanoseconds of an ordinary computer, but for what its parts make of it; all work is counted so, not measured."""

LONG: Final = 3 * NM
"""Edges as long as this are those that pieces touch with."""


@dataclass(frozen=True)
class Kind:
    """A kind of piece in whole nanometres: its ring with the lower left corner at zero, and its ways to lie."""

    name: str
    ring: Points
    turns: tuple[int, ...]
    low: tuple[float, float]

    @classmethod
    def of(cls, piece: Outlined) -> Kind:
        """The kind of a piece; of turns that look the same, the first."""
        ring = whole_ring(piece.outline)
        left, down = min(x for x, _ in ring), min(y for _, y in ring)
        ring = tuple((x - left, y - down) for x, y in ring)
        seen: dict[frozenset[tuple[int, int]], int] = {}
        for turn in dict.fromkeys(turn % 4 for turn in piece.turns):
            corners = turned((ring,), turn)[0]
            left_now, down_now = min(x for x, _ in corners), min(y for _, y in corners)
            seen.setdefault(frozenset((x - left_now, y - down_now) for x, y in corners), turn)
        return cls(piece.name, ring, tuple(seen.values()), (left / NM, down / NM))

    @cached_property
    def parts(self) -> Flat:
        """Its convex parts."""
        return convex_parts(self.ring)

    @cached_property
    def area(self) -> float:
        """Its area, mm²."""
        ends = (*self.ring[1:], self.ring[0])
        return sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(self.ring, ends, strict=True)) / 2 / NM**2

    def box(self, turn: int) -> tuple[int, int, int, int]:
        """Left, low, right and high of the ring turned about its zero point."""
        corners = turned((self.ring,), turn)[0]
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        return min(xs), min(ys), max(xs), max(ys)

    def marks(self) -> Iterator[int]:
        """How far its size and its long upright and level edges are from its corner."""
        yield from (max(x for x, _ in self.ring), max(y for _, y in self.ring))
        for a, b in zip(self.ring, (*self.ring[1:], self.ring[0]), strict=True):
            for along, across in ((0, 1), (1, 0)):
                if a[across] == b[across] and abs(a[along] - b[along]) >= LONG:
                    yield a[across]


def pitch_for(kinds: Sequence[Kind], mat: Mat) -> int:
    """How far the points of a lattice are apart (nm): a mark of the ruler that all edges and the gap are on, or a part of it.

    Where there is none, the length that the kinds, each with the gap beside it, come nearest to being so many times as long as.
    """
    gap = round(mat.gap * NM)
    common = gap
    for mark in sorted({mark for kind in kinds for mark in kind.marks()}):
        common = common_measure(common, mark)
    least = max(FINEST, math.isqrt(round(mat.width * mat.height / MOST_POINTS * NM**2)))
    if common >= least:
        return round(common / max(1, min(math.ceil(common / WIDEST), common // least)))
    sides = sorted({side + gap for kind in kinds for side in kind.box(0)[2:]})
    tried = (
        round(side / count) for side in sides for count in range(max(1, side * 2 // (3 * least)), side // least + 1)
    )
    return min(tried, key=lambda pitch: (sum(-(side - SLACK) % pitch for side in sides), pitch), default=least)


def common_measure(one: int, other: int) -> int:
    """The greatest length that measures both, but for some nanometres from rounding."""
    while other > SLACK // 20:
        one, other = other, one % other
        if one - other <= SLACK // 20:
            other = 0
    return one


@dataclass(frozen=True, slots=True)
class Shadow:
    """Places of one piece, told from another, where they come too near each other: from which column and row on, and a grid of them."""

    column: int
    row: int
    grid: NDArray[np.bool_]

    def turned(self, quarters: int) -> Shadow:
        """With both pieces turned so many quarters to the left."""
        column, row, grid = self.column, self.row, self.grid
        for _ in range(quarters):
            column, row, grid = -(row + grid.shape[1] - 1), column, grid.T[::-1]
        return Shadow(column, row, grid)


class Shadows:
    """The shadows of all pairs of kinds, each worked out when it is asked for."""

    def __init__(self, kinds: Sequence[Kind], gap: float, pitch: int, does: Callable[[int], object]) -> None:
        self.kinds = kinds
        self.gap = round(gap * NM)
        self.pitch = pitch
        self.does = does
        """Hears of work."""
        self.known: dict[tuple[int, int, int, tuple[int, int]], Shadow] = {}
        self.around: dict[int, Flat] = {}
        self.points = 0

    def shadow(self, one: int, turn: int, other: int, other_turn: int) -> Shadow:
        """Where the other kind must not lie, seen from the one. Both are turned; the corners of their boxes lie on the lattice."""
        (x, y), (there_x, there_y) = self.off(one, turn), self.off(other, other_turn)
        off = turned((((there_x - x, there_y - y),),), -turn % 4)[0][0]
        key = one, other, (other_turn - turn) % 4, off
        if key not in self.known:
            if self.points > MOST_REMEMBERED // 8:
                self.known.clear()
                self.points = 0
            self.known[key] = self.cast(*key)
            self.points += self.known[key].grid.size
        return self.known[key].turned(turn)

    def off(self, kind: int, turn: int) -> tuple[int, int]:
        """How far the zero point of a turned kind is from a point of the lattice, right and up."""
        left, low, _, _ = self.kinds[kind].box(turn)
        x, y = -left % self.pitch, -low % self.pitch
        return (0 if min(x, self.pitch - x) <= SLACK // 5 else x), (0 if min(y, self.pitch - y) <= SLACK // 5 else y)

    def cast(self, one: int, other: int, turn: int, off: tuple[int, int]) -> Shadow:
        """The shadow for the one kind as it is drawn; column by column, what is strictly inside of each convex part."""
        import numpy as np  # noqa: PLC0415  (large, needed only here)

        if one not in self.around:
            self.around[one] = grown(self.kinds[one].parts, self.gap)
        there = [[(-x - off[0], -y - off[1]) for x, y in part] for part in turned(self.kinds[other].parts, turn)]
        here = self.around[one]
        normals = sorted({normal for part in (*here, *there) for normal in normals_of(part)})
        across = np.array(normals, dtype=np.int64)
        reach = np.stack([(np.array(part, dtype=np.int64) @ across.T).max(axis=0) for part in here])
        more = np.stack([(np.array(part, dtype=np.int64) @ across.T).max(axis=0) for part in there])
        less = np.array([math.isqrt((x * x + y * y) * SLACK * SLACK) for x, y in normals], dtype=np.int64)
        ends = (reach[:, None, :] + more[None, :, :]).reshape(-1, len(normals)) - less
        pitch = self.pitch
        xs, ys = [
            (
                min(p[axis] for q in here for p in q) + min(p[axis] for q in there for p in q),
                max(p[axis] for q in here for p in q) + max(p[axis] for q in there for p in q),
            )
            for axis in (0, 1)
        ]
        column, row = -(-xs[0] // pitch), -(-ys[0] // pitch)
        columns, rows = xs[1] // pitch - column + 1, ys[1] // pitch - row + 1
        at = np.arange(column, column + columns, dtype=np.int64) * pitch
        low = np.full((len(ends), columns), row, dtype=np.int64)
        high = np.full((len(ends), columns), row + rows - 1, dtype=np.int64)
        for number, (x, y) in enumerate(normals):
            rest = ends[:, number, None] - x * at
            if y > 0:
                np.minimum(high, (rest - 1) // (y * pitch), out=high)
            elif y < 0:
                np.maximum(low, rest // (y * pitch) + 1, out=low)
            else:
                high[rest <= 0] = row - 1
        parts, where = np.nonzero(high >= low)
        edges = np.zeros((columns, rows + 1), dtype=np.int32)
        np.add.at(edges, (where, low[parts, where] - row), 1)
        np.add.at(edges, (where, high[parts, where] - row + 1), -1)
        self.does(CAST + 4 * ends.size * columns)
        return Shadow(column, row, np.cumsum(edges, axis=1)[:, :rows] > 0)


def normals_of(part: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """The outward directions of a part's edges, as small as whole numbers can tell them."""
    for (x, y), (to_x, to_y) in zip(part, (*part[1:], part[0]), strict=True):
        across, up = to_y - y, x - to_x
        by = math.gcd(across, up)
        yield across // by, up // by


@dataclass(frozen=True, slots=True)
class Way:
    """A kind in one of its turns on a lattice, with all its places as bits: the highest bit is the place to be taken first.

    `first` and `last` are the columns and the rows of its places, `off` how far its zero point is from the lattice's points (nm), `box` its
    box round that.
    """

    kind: int
    turn: int
    first: tuple[int, int]
    last: tuple[int, int]
    places: int
    off: tuple[int, int]
    box: tuple[int, int, int, int]


class Lattice:
    """A mat as a lattice: for each kind its ways to lie, and what a piece that lies there takes from another.

    The first place is the one farthest to the left, then the lowest; where the mat stands on its side (`is_turned`: a quarter to the right,
    with all that lies on it), the one that is lowest on the mat as it is, then the one farthest to the left.
    """

    def __init__(self, shadows: Shadows, mat: Mat, *, is_turned: bool) -> None:
        self.shadows = shadows
        self.is_turned = is_turned
        self.mat = mat
        width, height = (mat.height, mat.width) if is_turned else (mat.width, mat.height)
        self.room = round(width * NM) + SLACK, round(height * NM) + SLACK
        self.stride = self.room[1] // shadows.pitch + shadows.gap // shadows.pitch + 5
        """Bits of a column: so many that what a piece takes above the mat or below it falls on no place of another column."""
        self.ways = [
            [way for turn in kind.turns if (way := self.way(number, (turn - is_turned) % 4)) is not None]
            for number, kind in enumerate(shadows.kinds)
        ]
        self.taken: dict[tuple[int, int, int, int], tuple[int, int]] = {}
        self.bits = 0

    def way(self, kind: int, turn: int) -> Way | None:
        """A kind with one turn; None where it has no place so."""
        pitch, box, off = self.shadows.pitch, self.shadows.kinds[kind].box(turn), self.shadows.off(kind, turn)
        left, low = (-((box[axis] + off[axis] + SLACK) // pitch) for axis in (0, 1))
        right, high = ((self.room[axis] - box[axis + 2] - off[axis]) // pitch for axis in (0, 1))
        if left > right or low > high:
            return None
        places, columns = (1 << (high - low + 1)) - 1, 1
        while columns < right - left + 1:
            more = min(columns, right - left + 1 - columns)
            places |= places << self.stride * more
            columns += more
        return Way(kind, turn, (left, low), (right, high), places, off, box)

    def place(self, way: Way, places: int) -> tuple[int, int]:
        """The first of some places: column and row."""
        column, row = divmod(places.bit_length() - 1, self.stride)
        return way.last[0] - column, (way.first[1] + row if self.is_turned else way.last[1] - row)

    def taken_by(self, way: Way, column: int, row: int, other: Way) -> tuple[int, int]:
        """The bits of the other's places that a piece at a place takes: a number, and how far it is to be pushed up (down, if below 0)."""
        key = way.kind, way.turn, other.kind, other.turn
        if key not in self.taken:
            if self.bits > MOST_REMEMBERED:
                self.taken.clear()
                self.bits = 0
            self.taken[key] = self.bits_of(self.shadows.shadow(*key))
            self.bits += self.taken[key][0].bit_length()
        bits, first = self.taken[key]
        up = row - other.first[1] if self.is_turned else other.last[1] - row
        return bits, first + (other.last[0] - column) * self.stride + up

    def holds_both(self, one: int, other: int) -> bool:
        """Whether a piece of one kind and one of the other lie on the mat together."""
        return any(self.is_room(way, beside) for way in self.ways[one] for beside in self.ways[other])

    def is_room(self, way: Way, beside: Way) -> bool:
        """Whether two pieces lie on the mat together in these ways."""
        pitch, window = self.shadows.pitch, []
        shadow = self.shadows.shadow(way.kind, way.turn, beside.kind, beside.turn)
        for axis, first in ((0, shadow.column), (1, shadow.row)):
            low, high = way.off[axis] + way.box[axis], way.off[axis] + way.box[axis + 2]
            low_there, high_there = beside.off[axis] + beside.box[axis], beside.off[axis] + beside.box[axis + 2]
            at, to = -((self.room[axis] + low_there - high) // pitch), (self.room[axis] + low - high_there) // pitch
            if at < first or to >= first + shadow.grid.shape[axis]:
                return True
            window.append(slice(at - first, to - first + 1))
        return not shadow.grid[window[0], window[1]].all()

    def bits_of(self, shadow: Shadow) -> tuple[int, int]:
        """A shadow as bits, and where its lowest bit is, seen from the place of the piece that casts it."""
        import numpy as np  # noqa: PLC0415  (large, needed only here)

        columns, rows = shadow.grid.shape
        grid = shadow.grid[::-1, :: 1 if self.is_turned else -1]
        flat = np.zeros(columns * self.stride + rows, dtype=np.bool_)
        for number in range(columns):
            flat[number * self.stride : number * self.stride + rows] |= grid[number]
        bits = int.from_bytes(np.packbits(flat, bitorder="little").tobytes(), "little")
        self.shadows.does(CAST)
        row = shadow.row if self.is_turned else -(shadow.row + rows - 1)
        return bits, -(shadow.column + columns - 1) * self.stride + row

    def at(self, way: Way, column: int, row: int) -> tuple[int, float, float]:
        """The turn of a piece on the mat as it is, and where its zero point lies there (mm)."""
        pitch = self.shadows.pitch
        x, y = column * pitch + way.off[0], row * pitch + way.off[1]
        turn = way.turn
        if self.is_turned:  # back by a quarter to the left
            x, y, turn = self.room[1] - SLACK - y, x, (turn + 1) % 4
        left, down = self.shadows.kinds[way.kind].low
        zero_x, zero_y = turned_point(left, down, turn)
        return turn, x / NM - zero_x, y / NM - zero_y


def turned_point(x: float, y: float, quarters: int) -> tuple[float, float]:
    """A point turned to the left about zero."""
    for _ in range(quarters % 4):
        x, y = -y, x
    return x, y
