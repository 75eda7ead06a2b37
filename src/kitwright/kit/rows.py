"""Loose things laid in rows, rows side by side in layers, layers on each other: blocks of several shapes to choose from. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import accumulate, islice
from typing import Final

from kitwright.findings import Placed

__all__ = ["Loose", "in_rows_and_layers"]

Loose = tuple[str, Sequence[float]]
"""One thing: its name, and its sides, the longest first."""

MOST_SHAPES: Final = 16
MOST_LAID: Final = 128_000
"""Lengths of a row that are tried, and for each as many breadths of a layer; fewer where so many things would be laid in all."""

Size = tuple[float, float, float]


def in_rows_and_layers(things: Sequence[Loose]) -> Iterator[tuple[Size, Callable[[], tuple[Placed, ...]]]]:
    """Blocks of all the things, each with its width, depth and height; and, when asked, where the things lie. None for fewer than three.

    Every thing lies on its largest side, its longest along the row; the highest lie in the lowest layers.
    """
    if len(things) < 3:
        return
    most = max(2, min(MOST_SHAPES, math.isqrt(MOST_LAID // len(things))))
    ordered = sorted(things, key=lambda each: (-each[1][2], -each[1][1], -each[1][0]))
    longest = max(sides[0] for _, sides in ordered)
    for length in first_few(accumulate(sides[0] for _, sides in ordered), most, least=longest):
        rows = filled((sides[0] for _, sides in ordered), most=length)
        sizes = [row_size([ordered[place][1] for place in row]) for row in rows]
        breadths = [middle for _, middle, _ in sizes]
        for breadth in first_few(accumulate(breadths), most, least=max(breadths)):
            layers = filled(breadths, most=breadth)
            yield block_size(sizes, layers), partial(laid, ordered, rows, layers)


def first_few(sums: Iterator[float], most: int, *, least: float) -> list[float]:
    """At most so many of the sums, from the smallest that will do."""
    return list(islice((each for each in sums if each >= least), most))


def row_size(things: Sequence[Sequence[float]]) -> Size:
    """The length of a row of things with these sides, and its largest breadth and height."""
    return math.fsum(sides[0] for sides in things), max(sides[1] for sides in things), max(sides[2] for sides in things)


def block_size(rows: Sequence[Size], layers: Sequence[Sequence[int]]) -> Size:
    """The width, depth and height of layers of rows."""
    return (
        max(length for length, _, _ in rows),
        max(math.fsum(rows[row][1] for row in layer) for layer in layers),
        math.fsum(max(rows[row][2] for row in layer) for layer in layers),
    )


def filled(lengths: Iterator[float] | Sequence[float], *, most: float) -> list[list[int]]:
    """The places of the lengths, in order, in groups that each add up to at most so much."""
    groups: list[list[int]] = []
    reached = most + 1
    for place, length in enumerate(lengths):
        if reached + length > most + 1e-9:
            groups.append([])
            reached = 0.0
        groups[-1].append(place)
        reached += length
    return groups


def laid(things: Sequence[Loose], rows: Sequence[Sequence[int]], layers: Sequence[Sequence[int]]) -> tuple[Placed, ...]:
    """The things of one block in their places."""
    placed: list[Placed] = []
    z = 0.0
    for layer in layers:
        y = 0.0
        for row in layer:
            x = 0.0
            for place in rows[row]:
                name, (long, middle, short) = things[place]
                placed.append(Placed(name, 1, (x, y, z), (long, middle, short)))
                x += long
            y += max(things[place][1][1] for place in rows[row])
        z += max(things[place][1][2] for row in layer for place in rows[row])
    return tuple(placed)
