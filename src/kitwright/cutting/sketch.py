"""Cut trees as the search handles them by the thousand: light tuples in grid units, turned into the real thing at the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from kitwright.cutting.job import Job
from kitwright.cutting.stock import PieceType
from kitwright.cutting.tree import Axis, Cut, CutTree, Layout, Offcut, Part

__all__ = ["Leaf", "Pattern", "Sketch", "Split", "count_kinds", "freed", "make_layouts"]


class Leaf(NamedTuple):
    """A piece that fills its area: the kind and the pose by their places in the job."""

    kind: int
    pose: int


class Split(NamedTuple):
    """A cut: vertical or not, its position in grid units, and the two sides of it."""

    upright: bool
    at: int
    low: Sketch
    high: Sketch


Sketch = Leaf | Split | None
"""None is left over."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """One way to take a sheet apart: the sheet by its place in the job, how many of each kind it gives, and the sketch."""

    sheet: int
    counts: tuple[int, ...]
    sketch: Sketch


def leaves_of(sketch: Sketch) -> Iterator[Leaf]:
    """The pieces of a sketch, from left to right and from bottom to top."""
    waiting = [sketch]
    while waiting:
        node = waiting.pop()
        if isinstance(node, Split):
            waiting += (node.high, node.low)
        elif node is not None:
            yield node


def count_kinds(sketch: Sketch, kinds: int) -> tuple[int, ...]:
    """How many of each of the `kinds` kinds a sketch gives."""
    counts = [0] * kinds
    for leaf in leaves_of(sketch):
        counts[leaf.kind] += 1
    return tuple(counts)


def freed(sketch: Sketch, own: tuple[int, int], size: tuple[int, int], reach: int) -> Sketch:
    """What fills its `own` size in the lower left corner of an area, freed by at most two cuts no longer than `reach`."""
    sides_first = size[1] <= reach
    if sides_first and own[1] < size[1]:
        sketch = Split(False, own[1], sketch, None)
    if own[0] < size[0]:
        sketch = Split(True, own[0], sketch, None)
    if not sides_first and own[1] < size[1]:
        sketch = Split(False, own[1], sketch, None)
    return sketch


def make_layouts(job: Job, used: Sequence[tuple[Pattern, int]]) -> tuple[Layout, ...]:
    """The layouts of patterns and how often each is cut, with the pieces' own names. Pieces beyond the demand become offcuts.

    Pieces that were alike to the search are told apart here; a pattern is split into several layouts where one name runs out.
    """
    left: list[list[tuple[PieceType | None, int]]] = []
    for index, kind in enumerate(job.kinds):
        made = sum(times * pattern.counts[index] for pattern, times in used)
        names: list[tuple[PieceType | None, int]] = [(piece, piece.count) for piece in kind.pieces]
        left.append([*names, (None, max(0, made - kind.count))])
    layouts = []
    for pattern, times in sorted(used, key=lambda entry: -entry[1]):
        rest = times
        while rest:
            run = longest_run(pattern, left, rest)
            chosen = take_names(pattern, left, run)
            tree = named(pattern.sketch, job, chosen)
            layouts.append(Layout(job.sheets[pattern.sheet].stock, tree, run))
            rest -= run
    return merged(layouts)


def longest_run(pattern: Pattern, left: Sequence[Sequence[tuple[PieceType | None, int]]], most: int) -> int:
    """The most sheets that can be cut with the same name in the same place on all of them."""

    def is_possible(run: int) -> bool:
        return all(
            sum(count // run for _, count in left[kind]) >= wanted
            for kind, wanted in enumerate(pattern.counts)
            if wanted
        )

    low, high = 1, most
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if is_possible(middle) else (low, middle - 1)
    return low


def take_names(
    pattern: Pattern, left: list[list[tuple[PieceType | None, int]]], run: int
) -> list[list[PieceType | None]]:
    """For each kind, the names that fill its places on the next `run` sheets, taken off what is left."""
    chosen: list[list[PieceType | None]] = []
    for kind, wanted in enumerate(pattern.counts):
        places: list[PieceType | None] = []
        for rank, (piece, count) in enumerate(left[kind]):
            taken = min(wanted - len(places), count // run)
            places += [piece] * taken
            left[kind][rank] = (piece, count - taken * run)
        chosen.append(places)
    return chosen


def named(sketch: Sketch, job: Job, chosen: list[list[PieceType | None]]) -> CutTree:
    """The cut tree of a sketch, its places filled with the chosen names in order."""
    if sketch is None:
        return Offcut()
    if isinstance(sketch, Leaf):
        piece = chosen[sketch.kind].pop(0)
        if piece is None:
            return Offcut()
        width, height = (length * job.unit for length in job.kinds[sketch.kind].poses[sketch.pose])
        return Part(piece.name, min(turn for turn in piece.turns if piece.size(turn) == (width, height)))
    low, high = named(sketch.low, job, chosen), named(sketch.high, job, chosen)
    if isinstance(low, Offcut) and isinstance(high, Offcut):
        return low
    return Cut(Axis.VERTICAL if sketch.upright else Axis.HORIZONTAL, sketch.at * job.unit, low, high)


def merged(layouts: Sequence[Layout]) -> tuple[Layout, ...]:
    """Equal layouts put together, empty ones left out, the most frequent first."""
    times: dict[tuple[str, CutTree], int] = {}
    stocks = {layout.stock.name: layout.stock for layout in layouts}
    for layout in layouts:
        if not isinstance(layout.tree, Offcut):
            key = (layout.stock.name, layout.tree)
            times[key] = times.get(key, 0) + layout.times
    found = [Layout(stocks[name], tree, count) for (name, tree), count in times.items()]
    return tuple(sorted(found, key=lambda layout: -layout.times))
