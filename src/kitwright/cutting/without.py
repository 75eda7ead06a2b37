"""A search for batches of all-different pieces: do without one sheet, by taking pieces out of a few others and laying them anew.

One sheet of a complete plan is given up. Its pieces wait; again and again a few sheets are partly emptied and filled with what waits,
and a step is kept unless it leaves more area waiting than some steps ago did. When nothing waits, the plan is a sheet cheaper. Now and
then a whole-number programme looks for a cheaper plan among all the sheets met on the way (as M. Monaci and P. Toth do with other sheets,
INFORMS Journal on Computing 18, 2006; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import Final

from kitwright.cutting.area import (
    Area,
    can_be_cut,
    copy_area,
    leftovers_in,
    pieces_in,
    put_into,
    release,
    sketch_of,
)
from kitwright.cutting.job import Job, ranges_of
from kitwright.cutting.question import Question
from kitwright.cutting.sketch import Leaf, Pattern, count_kinds
from kitwright.cutting.watch import Watch

__all__ = ["Met", "choose_among", "do_without"]

SHEETS_AT_ONCE: Final = (2, 2, 2, 3, 3)
"""How many sheets are partly emptied in one step, each as often as it stands here."""

MEMORY: Final = 20
"""A step is kept if it is no worse than the state so many steps ago."""

GIVEN_UP: Final = (1, 1, 1, 2)
"""How many sheets are given up at once, each as often as it stands here."""

EXCHANGED: Final = 0.5
"""How often a sheet that is given up is exchanged for a cheaper one, where there is one."""

BLINK: Final = 0.02
"""How often a good place is overlooked, so that the search does not go in circles."""

PIECES_A_STEP: Final = 12
"""A step that lays many pieces takes longer: it counts once more for so many."""

MOST_MET: Final = 3_000
"""So many of the last sheets are kept."""

NODES: Final = 30
"""How hard the whole-number programme is asked."""

Lying = tuple[int, Area]
"""A sheet by its place in the job, and how it is cut."""


class Met:
    """The last sheets met on the way, each with different pieces. It lives as long as one search."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.patterns: dict[tuple[int, tuple[int, ...]], Pattern] = {}

    def add(self, place: int, area: Area) -> None:
        """Take up a sheet as it is cut now, if nothing like it is there and the trimmer can make its cuts."""
        counts = [0] * len(self.job.kinds)
        for piece in pieces_in(area):
            if piece.leaf is not None:
                counts[piece.leaf.kind] += 1
        key = place, tuple(counts)
        if key in self.patterns:
            return
        sketch = sketch_of(area)
        if sketch is not None and can_be_cut(self.job, sketch, area.width, area.height):
            self.keep(Pattern(*key, sketch))

    def keep(self, pattern: Pattern) -> None:
        """Take up a pattern that can be cut; the one that was met longest ago makes room for it."""
        self.patterns.setdefault((pattern.sheet, pattern.counts), pattern)
        if len(self.patterns) > MOST_MET:
            del self.patterns[next(iter(self.patterns))]


def do_without(job: Job, watch: Watch, met: Met, *, steps: int, random: Random) -> int:
    """Try to do without one sheet of the best plan; tells the watch of a cheaper plan, and ends with it. How many steps were taken."""
    left, value = steps, watch.value
    while left > 0 and watch.best is not None and watch.value == value and watch.goes_on("small batch"):
        sheets = [pattern.sheet for pattern, times in watch.best for _ in range(times)]
        left -= lay_on_these(cheaper_sheets(job, sheets, random), watch, met, left, random)
    return steps - left


def choose_among(job: Job, met: Met, watch: Watch) -> Question:
    """Ask for the cheapest plan of sheets that were met."""
    return Question(ranges_of(job), list(met.patterns.values()), watch, nodes=NODES)


def cheaper_sheets(job: Job, sheets: Sequence[int], random: Random) -> list[int]:
    """The sheets with one given up, or one or two exchanged for one that costs less, if there is such a one."""
    kept = list(sheets)
    given_up = [kept.pop(random.randrange(len(kept))) for _ in range(min(len(kept), random.choice(GIVEN_UP)))]
    price = sum(job.sheets[place].price for place in given_up)
    others = [
        place
        for place, sheet in enumerate(job.sheets)
        if sheet.price < price and (sheet.count is None or kept.count(place) < sheet.count)
    ]
    if others and (len(given_up) > 1 or not kept or random.random() < EXCHANGED):
        kept.append(random.choice(others))
    return kept


def lay_on_these(places: Sequence[int], watch: Watch, met: Met, steps: int, random: Random) -> int:
    """Try to lay everything on these sheets; how many steps that took, long ones counted more than once."""
    job = watch.job
    sheets = [(place, Area(job.sheets[place].width, job.sheets[place].height)) for place in places]
    waiting = lay(job, sheets, [kind for kind, count in enumerate(job.demand) for _ in range(count)], random)
    now = area_of(job, waiting)
    memory = [now] * MEMORY
    turn, spent = 0, 0
    while spent < steps and waiting and watch.goes_on("small batch"):
        chosen = random.sample(range(len(sheets)), min(len(sheets), random.choice(SHEETS_AT_ONCE)))
        fresh = [(sheets[rank][0], copy_area(sheets[rank][1])) for rank in chosen]
        taken = [kind for _, area in fresh for kind in take_out(area, random)]
        spent += 1 + (len(waiting) + len(taken)) // PIECES_A_STEP
        left = lay(job, fresh, waiting + taken, random)
        then = area_of(job, left)
        if then <= now or then <= memory[turn]:
            for rank, sheet in zip(chosen, fresh, strict=True):
                sheets[rank] = sheet
                met.add(*sheet)
            waiting, now = left, then
        memory[turn] = now
        turn = (turn + 1) % MEMORY
    if not waiting:
        tell(job, sheets, watch)
    return max(1, spent)


def take_out(area: Area, random: Random) -> list[int]:
    """Some of the pieces of a sheet, one by one or with all that is cut from the same strip; the rest stays as it lies."""
    taken: list[int] = []
    there = pieces_in(area)
    enough = random.uniform(0.1, 1.0) * len(there)
    for one in random.sample(there, len(there)):
        if len(taken) >= enough:
            break
        if one.leaf is None:  # taken together with another
            continue
        top = one
        while top.parent is not None and random.random() < 0.4:
            top = top.parent
        taken += [leaf.kind for leaf in release(top)]
    return taken


def lay(job: Job, sheets: Sequence[Lying], kinds: Sequence[int], random: Random) -> list[int]:
    """Lay the pieces one by one where each fits best, in a random order that favours large ones; the kinds that found no place."""
    power, noise = random.choice((0.0, 0.5, 1.0, 1.0)), random.choice((0.0, 0.2, 0.5))
    by_side = random.random() < 0.4
    wish = {}
    for kind in sorted(set(kinds)):
        width, height = job.kinds[kind].poses[0]
        size = max(width, height) if by_side else width * height
        wish[kind] = size**power * (1 + noise * random.random()) if power else random.random()
    free = [(place, area, area.width, area.height) for place, sheet in sheets for area in leftovers_in(sheet)]
    by_area = random.random() < 0.5
    none_yet = 1 + max(sheet.width * sheet.height for sheet in job.sheets)
    waiting = []
    for kind in sorted(kinds, key=lambda kind: (-wish[kind], kind)):
        poses, allowed = job.kinds[kind].poses, job.kinds[kind].sheets
        closest, best = none_yet, None
        for rank, (place, _, width, height) in enumerate(free):
            for pose, (own_width, own_height) in enumerate(poses):
                across, up = width - own_width, height - own_height
                if across < 0 or up < 0:
                    continue
                fit = width * height if by_area else across if across < up else up  # a call of min is too slow here
                if fit < closest and place in allowed and (not fit or random.random() >= BLINK):
                    closest, best = fit, (rank, pose)
        if best is None:
            waiting.append(kind)
            continue
        rank, pose = best
        place, area, _, _ = free.pop(rank)
        own = poses[pose]
        upright = first_cut_upright(area, own, random)
        found = put_into(area, Leaf(kind, pose), own, upright=upright)
        free += [(place, rest, rest.width, rest.height) for rest in found]
    return waiting


def first_cut_upright(area: Area, size: tuple[int, int], random: Random) -> bool:
    """Mostly so that the larger of the two leftovers is as large as can be."""
    across, up = area.width - size[0], area.height - size[1]
    is_better = across * area.height >= up * area.width
    return is_better if random.random() < 0.8 else not is_better


def area_of(job: Job, kinds: Sequence[int]) -> int:
    """The area of the pieces."""
    return sum(job.kinds[kind].area for kind in kinds)


def tell(job: Job, sheets: Sequence[Lying], watch: Watch) -> None:
    """Tell the watch of a plan in which every piece lies, if the trimmer can make its cuts."""
    patterns = []
    for place, area in sheets:
        sketch = sketch_of(area)
        if not can_be_cut(job, sketch, area.width, area.height):
            return
        if sketch is not None:
            patterns.append(Pattern(place, count_kinds(sketch, len(job.kinds)), sketch))
    watch.tell_plan([(pattern, 1) for pattern in patterns])
