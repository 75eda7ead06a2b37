"""Quick and exact: reasons why there can be no packing, found without a search.

* Volume.
* Conservative scales (S. P. Fekete and J. Schepers, *A general framework for bounds for higher-dimensional orthogonal packing
  problems*, Math. Methods of Operations Research 60 (2004) 311-329, from memory): each axis is rounded by a function under which
  whatever lay side by side still does; then volumes are compared. Of a thing that may turn, the turn with the least volume counts.
* Colourings (after N. G. de Bruijn, *Filling boxes with bricks*, Amer. Math. Monthly 76 (1969) 37-40): cells in blocks of two colours.
  A thing whose length along an axis is a whole number of periods covers both colours alike wherever it lies. If the space has more
  of one colour than the empty cells and the other things can make up for, there is no packing.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import product
from typing import Final

from kitwright.proof.packing.job import AXES, Item, Job
from kitwright.proof.packing.things import DoesNotFit, Proof

__all__ = ["find_obstacle"]

MOST_SCALES: Final = 14
"""Scales tried on an axis; the triples of them are all tried."""

MOST_CELLS: Final = 64
"""Colourings are tried in spaces of at most this many units each way."""

Scale = tuple[Fraction, ...]


def find_obstacle(job: Job) -> DoesNotFit | None:
    """A proof that the job has no packing, None if none of these quick ones is found."""
    room = math.prod(job.space)
    if job.volume > room:
        share = 100 * job.volume / room
        return DoesNotFit(
            Proof.VOLUME,
            f"The things take up {share:.1f} % of the part of the space that they can reach by any arrangement.",
        )
    return _scaled(job) or _coloured(job)


def _scaled(job: Job) -> DoesNotFit | None:
    tables = [_scale_tables(job, axis) for axis in AXES]
    for first, second, third in product(*tables):
        need = sum(
            item.quantity * min(first[way[0]] * second[way[1]] * third[way[2]] for way in item.ways)
            for item in job.items
        )
        if need > 1:
            return DoesNotFit(
                Proof.SCALES,
                "Each way, only so many things go side by side; reckoned with that, the things need "
                f"{100 * float(need):.1f} % of the space.",
            )
    return None


def _scale_tables(job: Job, axis: int) -> list[dict[int, Fraction]]:
    """The different roundings of the sizes that occur along an axis, as parts of the room; sizes as they are come first."""
    room = job.space[axis]
    edges = sorted({way[axis] for item in job.items for way in item.ways})
    tables: list[dict[int, Fraction]] = []
    for scale in _scales(edges, room):
        table = {edge: scale(edge) for edge in edges}
        if table not in tables:
            tables.append(table)
    return tables[:MOST_SCALES]


def _scales(edges: list[int], room: int) -> Iterator[Callable[[int], Fraction]]:
    yield lambda edge: Fraction(edge, room)
    for parts in range(1, 6):
        yield lambda edge, k=parts: _in_parts(edge, room, k)  # type: ignore[misc]
    for least in edges:
        if 2 * least <= room:
            yield lambda edge, e=least: _large_fills(edge, room, e)  # type: ignore[misc]
            yield lambda edge, e=least: _in_steps(edge, room, e)  # type: ignore[misc]


def _in_parts(edge: int, room: int, parts: int) -> Fraction:
    """`parts + 1` things of a size above an exact share do not lie side by side; so each counts a whole share of `parts`."""
    whole, rest = divmod((parts + 1) * edge, room)
    return Fraction(edge, room) if rest == 0 else Fraction(whole, parts)


def _large_fills(edge: int, room: int, least: int) -> Fraction:
    """What leaves less than `least` beside it counts as filling the room, what is smaller than that counts nothing."""
    if edge > room - least:
        return Fraction(1)
    return Fraction(0) if edge < least else Fraction(edge, room)


def _in_steps(edge: int, room: int, step: int) -> Fraction:
    """Small sizes count in whole steps, rounded down; large ones what they leave of the room in whole steps."""
    steps = room // step
    if 2 * edge > room:
        return 1 - Fraction((room - edge) // step, steps)
    return Fraction(1, 2) if 2 * edge == room else Fraction(edge // step, steps)


def _coloured(job: Job) -> DoesNotFit | None:
    if max(job.space) > MOST_CELLS:
        return None
    empty = math.prod(job.space) - job.volume
    blocks = [(0, *range(1, edge // 2 + 1)) for edge in job.space]
    for pattern in product(*blocks):
        if not any(pattern):
            continue
        surplus = math.prod(_most_surplus(edge, block) for edge, block in zip(job.space, pattern, strict=True))
        if surplus <= empty:
            continue
        made_up = sum(item.quantity * _most_of_item(item, pattern) for item in job.items)
        if surplus > empty + made_up:
            words = " × ".join(str(block) if block else "whole" for block in pattern)
            return DoesNotFit(
                Proof.COLOURING,
                f"Coloured in two colours by blocks ({words}), the space has {surplus} cells more of one colour, "
                f"but the things and the empty cells can make up for at most {empty + made_up}.",
            )
    return None


def _most_of_item(item: Item, pattern: tuple[int, ...]) -> int:
    return max(
        math.prod(_most_surplus(edge, block) for edge, block in zip(way, pattern, strict=True)) for way in item.ways
    )


def _most_surplus(cells: int, block: int) -> int:
    """The largest surplus of one colour in a row of cells coloured by blocks, wherever the row begins; block 0: one colour only."""
    if block == 0:
        return cells
    rest = cells % (2 * block)
    return min(rest, 2 * block - rest)
