"""Sheets that a search empties in part and fills anew: which pieces come out, and where each of those that wait fits best."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from random import Random
from typing import Final

from kitwright.cutting.area import Area, Piece, can_be_cut, kept_of, pieces_in, put_into, sketch_of
from kitwright.cutting.job import Job
from kitwright.cutting.sketch import Leaf, Pattern, count_kinds

__all__ = ["Free", "Lying", "empty_sheet", "free_on", "lay", "some_out"]

BLINK: Final = 0.02
"""How often a good place is overlooked, so that the search does not go in circles."""

POWERS: Final = (0.5, 1.0, 1.0)
NOISES: Final = (0.0, 0.2, 0.5)
"""Pieces are laid in the order of their size to one of these powers, each as often as it stands here, made larger by up to so much."""

BY_SIDE: Final = 0.4
"""How often the size of a piece is its longer side and not its area."""

WITH_MORE: Final = 0.4
"""How often a piece is taken out with the strip that it is cut from, and how often that one with the strip it is cut from."""

BETTER_CUT: Final = 0.8
"""How often the first cut beside a piece leaves the larger of the two leftovers as large as can be."""


class Lying:
    """A sheet by its place in the job, how it is cut, and its pieces."""

    __slots__ = ("area", "pieces", "place")

    def __init__(self, place: int, area: Area, pieces: list[Piece]) -> None:
        self.place = place
        self.area = area
        self.pieces = pieces

    def waste(self, job: Job) -> int:
        """The area that no piece covers."""
        return self.area.width * self.area.height - sum(job.kinds[leaf.kind].area for _, leaf in self.pieces)

    def pattern(self, job: Job) -> Pattern | None:
        """The sheet as a pattern, if there is anything on it and the trimmer can make its cuts."""
        sketch = sketch_of(self.area)
        if sketch is None or not can_be_cut(job, sketch, self.area.width, self.area.height):
            return None
        return Pattern(self.place, count_kinds(sketch, len(job.kinds)), sketch)


Free = tuple[Lying, Area, int, int]
"""A leftover of a sheet, its width and its height: asked for so often that looking them up takes too long."""


def empty_sheet(job: Job, place: int) -> Lying:
    """A sheet of which nothing is cut yet."""
    sheet = job.sheets[place]
    return Lying(place, Area(sheet.width, sheet.height), [])


def free_on(sheet: Lying, areas: Sequence[Area]) -> list[Free]:
    """These leftovers of a sheet with their sizes."""
    return [(sheet, area, area.width, area.height) for area in areas]


def some_out(sheet: Lying, random: Random) -> tuple[Lying, list[Free], list[int]]:
    """The sheet without some of its pieces, what is left over on it then, and the kinds taken out. The sheet itself stays as it is.

    They are taken one by one or with all that is cut from the same strip; the rest stays as it lies.
    """
    gone: set[Area] = set()
    lost: dict[Area, int] = {}
    enough = random.uniform(0.1, 1.0) * len(sheet.pieces)
    order = list(sheet.pieces)
    while order and len(lost) < enough:
        rank = int(random.random() * len(order))
        one, leaf = order[rank]
        order[rank] = order[-1]
        order.pop()
        if one in lost:  # taken out together with another
            continue
        top = one
        while top.parent is not None and random.random() < WITH_MORE:
            top = top.parent
        gone.add(top)
        if top is one:
            lost[one] = leaf.kind
        else:
            lost.update((area, inside.kind) for area, inside in pieces_in(top))
    area, pieces, rest = kept_of(sheet.area, gone)
    made = Lying(sheet.place, area, pieces)
    return made, free_on(made, rest), list(lost.values())


def lay(job: Job, free: Sequence[Free], kinds: Sequence[int], random: Random) -> list[int]:
    """Lay the pieces one by one where each fits best, in a random order that favours large ones; the kinds that found no place."""
    draw, types = random.random, job.kinds
    wish = wishes(job, kinds, random)
    narrowest, lowest = least_sides(job, wish)
    places = [one for one in free if one[2] >= narrowest and one[3] >= lowest]  # the others are of no use to any piece
    by_area = draw() < 0.5
    waiting = []
    for kind in sorted(kinds, key=lambda kind: (-wish[kind], kind)):
        own_poses, allowed = types[kind].poses, types[kind].sheets
        closest, best = math.inf, None
        for rank, (sheet, _, width, height) in enumerate(places):
            for pose, (own_width, own_height) in enumerate(own_poses):
                if width < own_width or height < own_height:
                    continue
                if by_area:
                    fit = width * height
                else:
                    across, up = width - own_width, height - own_height
                    fit = across if across < up else up  # a call of min is too slow here
                if fit < closest and sheet.place in allowed and (not fit or draw() >= BLINK):
                    closest, best = fit, (rank, pose)
        if best is None:
            waiting.append(kind)
            continue
        rank, pose = best
        sheet, area, _, _ = places.pop(rank)
        leaf, own = Leaf(kind, pose), own_poses[pose]
        filled, found = put_into(area, leaf, own, upright=first_cut_upright(area, own, random))
        sheet.pieces.append((filled, leaf))
        places += [
            (sheet, rest, rest.width, rest.height)
            for rest in found
            if rest.width >= narrowest and rest.height >= lowest
        ]
    return waiting


def wishes(job: Job, kinds: Sequence[int], random: Random) -> dict[int, float]:
    """How much each kind wants to be laid before the others."""
    power, noise, by_side = random.choice(POWERS), random.choice(NOISES), random.random() < BY_SIDE
    wish = {}
    for kind in sorted(set(kinds)):
        width, height = job.kinds[kind].poses[0]
        size = max(width, height) if by_side else width * height
        wish[kind] = size**power * (1 + noise * random.random())
    return wish


def least_sides(job: Job, kinds: Iterable[int]) -> tuple[int, int]:
    """The least width and the least height of any of these kinds, as it may lie."""
    narrowest = lowest = max(max(sheet.width, sheet.height) for sheet in job.sheets)
    for kind in kinds:
        for width, height in job.kinds[kind].poses:
            narrowest, lowest = min(narrowest, width), min(lowest, height)
    return narrowest, lowest


def first_cut_upright(area: Area, size: tuple[int, int], random: Random) -> bool:
    """Mostly so that the larger of the two leftovers is as large as can be."""
    across, up = area.width - size[0], area.height - size[1]
    is_better = across * area.height >= up * area.width
    return is_better if random.random() < BETTER_CUT else not is_better
