"""A search for batches of all-different pieces: do without one sheet, by taking pieces out of a few others and laying them anew.

One sheet of a complete plan is given up. Its pieces wait; again and again a few sheets are partly emptied and filled with what waits,
and a step is kept unless it leaves more waiting than some steps ago did. When nothing waits, the plan is a sheet cheaper. Now and then a
whole-number programme looks for a cheaper plan among all the sheets met on the way (as M. Monaci and P. Toth do with other sheets,
INFORMS Journal on Computing 18, 2006; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import isqrt
from random import Random
from typing import Final

from kitwright.cutting.job import Job
from kitwright.cutting.lying import Lying, empty_sheet, free_on, lay, some_out
from kitwright.cutting.met import Met
from kitwright.cutting.watch import Watch

__all__ = ["do_without"]

SHEETS_AT_ONCE: Final = (2, 2, 2, 3, 3)
"""How many sheets are partly emptied in one step, each as often as it stands here."""

DRAWS: Final = 2
"""So many times they are drawn; those with the most waste are taken."""

MEMORY: Final = 20
"""A step is kept if it is no worse than the state so many steps ago."""

GIVEN_UP: Final = (1, 1, 1, 2)
"""How many sheets are given up at once, each as often as it stands here."""

EXCHANGED: Final = 0.5
"""How often a sheet that is given up is exchanged for a cheaper one, where there is one."""

PIECES_A_STEP: Final = 12
"""A step that lays many pieces takes longer: it counts once more for so many."""


def do_without(job: Job, watch: Watch, met: Met, *, steps: int, random: Random) -> int:
    """Try to do without one sheet of the best plan; tells the watch of a cheaper plan, and ends with it. How many steps were taken."""
    left, value = steps, watch.value
    while left > 0 and watch.best is not None and watch.value == value and watch.goes_on("small batch"):
        sheets = [pattern.sheet for pattern, times in watch.best for _ in range(times)]
        left -= lay_on_these(cheaper_sheets(job, sheets, random), watch, met, left, random)
    return steps - left


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
    burdens = [burden(kind.area) for kind in job.kinds]
    sheets = [empty_sheet(job, place) for place in places]
    free = [one for sheet in sheets for one in free_on(sheet, [sheet.area])]
    waiting = lay(job, free, [kind for kind, count in enumerate(job.demand) for _ in range(count)], random)
    now = sum(burdens[kind] for kind in waiting)
    wastes = [sheet.waste(job) for sheet in sheets]
    memory = [now] * MEMORY
    turn, spent = 0, 0
    while spent < steps and waiting and watch.goes_on("small batch"):
        chosen = choose_sheets(wastes, random)
        fresh: list[Lying] = []
        free, taken = [], list(waiting)
        for rank in chosen:
            sheet, rest, lost = some_out(sheets[rank], random)
            fresh.append(sheet)
            free += rest
            taken += lost
        spent += 1 + len(taken) // PIECES_A_STEP
        left = lay(job, free, taken, random)
        then = sum(burdens[kind] for kind in left)
        if then <= now or then <= memory[turn]:
            for rank, sheet in zip(chosen, fresh, strict=True):
                sheets[rank], wastes[rank] = sheet, sheet.waste(job)
                met.add(sheet)
            waiting, now = left, then
        memory[turn] = now
        turn = (turn + 1) % MEMORY
    if not waiting:
        tell(sheets, watch)
    return max(1, spent)


def choose_sheets(wastes: Sequence[int], random: Random) -> list[int]:
    """A few of the sheets with these wastes, for a step: of some draws the one with most waste, where there is most to gain."""
    count = min(len(wastes), random.choice(SHEETS_AT_ONCE))
    draws = [random.sample(range(len(wastes)), count) for _ in range(DRAWS)]
    return max(draws, key=lambda draw: sum(wastes[rank] for rank in draw))


def burden(area: int) -> int:
    """How much a piece of this area counts while it waits: more than its area if it is large, for it finds a place less easily.

    It is the power 5/4 of the area, rounded down.
    """
    return isqrt(isqrt(area**5))


def tell(sheets: Sequence[Lying], watch: Watch) -> None:
    """Tell the watch of a plan in which every piece lies, if the trimmer can make its cuts."""
    patterns = [sheet.pattern(watch.job) for sheet in sheets if sheet.pieces]
    used = [(pattern, 1) for pattern in patterns if pattern is not None]
    if len(used) == len(patterns):
        watch.tell_plan(used)
