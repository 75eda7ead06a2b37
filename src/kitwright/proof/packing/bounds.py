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
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import product
from typing import Final

from kitwright.proof.packing.job import AXES, Item, Job
from kitwright.proof.packing.things import DoesNotFit, Proof, Triple

__all__ = ["find_obstacle"]

MOST_SCALES: Final = 14
"""Scales tried on an axis; the triples of them are all tried."""

MOST_CELLS: Final = 64
"""Colourings are tried in spaces of at most this many units each way."""

MOST_LOOKS: Final = 40_000
"""Turns of things looked at over all triples of scales; where there are very many things, fewer triples are tried."""


@dataclass(frozen=True, slots=True)
class _Scale:
    """Rounded sizes along one axis in whole parts of a room of `room` parts."""

    sizes: dict[int, int]
    room: int


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
    kinds = Counter[tuple[Triple, ...]]()
    for item in job.items:
        kinds[item.ways] += item.quantity
    looks = sum(len(ways) for ways in kinds)
    most = max(2, min(MOST_SCALES, math.floor((MOST_LOOKS / looks) ** (1 / 3))))
    for first, second, third in product(*(_scales(job, axis)[:most] for axis in AXES)):
        need = sum(
            quantity * min(first.sizes[way[0]] * second.sizes[way[1]] * third.sizes[way[2]] for way in ways)
            for ways, quantity in kinds.items()
        )
        room = first.room * second.room * third.room
        if need > room:
            return DoesNotFit(
                Proof.SCALES,
                "Each way, only so many things go side by side; reckoned with that, the things need "
                f"{100 * need / room:.1f} % of the space.",
            )
    return None


def _scales(job: Job, axis: int) -> list[_Scale]:
    """The different roundings of the sizes that occur along an axis; sizes as they are come first."""
    room = job.space[axis]
    edges = sorted({way[axis] for item in job.items for way in item.ways})
    found = [_Scale({edge: edge for edge in edges}, room)]
    found.extend(_in_parts(edges, room, parts) for parts in range(1, 6))
    for least in edges:
        if 2 * least <= room:
            found.extend((_large_fills(edges, room, least), _in_steps(edges, room, least)))
    different: list[_Scale] = []
    for scale in found:
        if scale not in different:
            different.append(scale)
    return different


def _in_parts(edges: Iterable[int], room: int, parts: int) -> _Scale:
    """`parts + 1` things of a size above an exact share do not lie side by side; so each counts a whole share of `parts`."""
    sizes = {}
    for edge in edges:
        whole, rest = divmod((parts + 1) * edge, room)
        sizes[edge] = parts * edge if rest == 0 else whole * room
    return _Scale(sizes, parts * room)


def _large_fills(edges: Iterable[int], room: int, least: int) -> _Scale:
    """What leaves less than `least` beside it counts as filling the room, what is smaller than that counts nothing."""
    return _Scale({edge: room if edge > room - least else 0 if edge < least else edge for edge in edges}, room)


def _in_steps(edges: Iterable[int], room: int, step: int) -> _Scale:
    """Small sizes count in whole steps, rounded down; large ones what they leave of the room in whole steps; in half steps."""
    steps = room // step
    sizes = {}
    for edge in edges:
        if 2 * edge > room:
            sizes[edge] = 2 * (steps - (room - edge) // step)
        else:
            sizes[edge] = steps if 2 * edge == room else 2 * (edge // step)
    return _Scale(sizes, 2 * steps)


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
