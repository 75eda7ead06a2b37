"""Pack things into a space: quick proofs that it cannot be done, then construction, then search; or honestly *unknown*."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake
from kitwright.proof.packing.bounds import find_obstacle
from kitwright.proof.packing.build import SHUFFLED, Laid, build_packing, push_together
from kitwright.proof.packing.job import Job, make_job
from kitwright.proof.packing.solve import search_packing
from kitwright.proof.packing.things import (
    NANOMETRES,
    AnyAnswer,
    Clearance,
    DoesNotFit,
    Packed,
    PackedThing,
    Placement,
    Proof,
    Space,
    Unknown,
)
from kitwright.proof.packing.verify import verify_packing

__all__ = ["EFFORT", "answer", "check_names", "checked_clearance", "pack"]

EFFORT: Final = 1.0
"""Usual limit of the search, counted and not timed: about a second on an ordinary computer."""


def pack(
    things: Sequence[PackedThing],
    space: Space,
    *,
    clearance: float | Fraction | Clearance = 0,
    effort: float = EFFORT,
) -> AnyAnswer:
    """Pack all the things into the space less the clearance: `Packed`, `DoesNotFit` or `Unknown`, always the same for the same question.

    The clearance is free play in all, in mm, one for each way or one for all. Sides stay parallel to the walls. `effort` bounds the
    search; at 0 only the quick proofs and the construction are tried. Every packing is checked before it is given.

    Raises `Mistake` for a negative clearance, two things of one name, or no things at all.
    """
    free = checked_clearance(clearance)
    check_names(things)
    return answer(things, space, free, effort=effort, shuffled=SHUFFLED)


def answer(things: Sequence[PackedThing], space: Space, free: Clearance, *, effort: float, shuffled: int) -> AnyAnswer:
    """As `pack`, for things and a clearance that were checked; `shuffled` says how many shuffled orders the construction tries."""
    inner = space.inner(free)
    if min(inner) <= 0:
        return DoesNotFit(Proof.TOO_LONG, "The clearance leaves no space at all.")
    job, too_long = make_job(things, inner)
    if job is None:
        name = things[too_long or 0].name
        return DoesNotFit(Proof.TOO_LONG, f"{name} alone is too large for it, whichever way it may be turned.")
    obstacle = find_obstacle(job)
    if obstacle is not None:
        return obstacle
    laid = build_packing(job, shuffled=shuffled)
    if laid is None:
        found = search_packing(job, effort=effort)
        if found is False:
            return DoesNotFit(Proof.SEARCH, "All ways of placing and turning the things were searched; none fits.")
        if found is None or found is True:
            return Unknown(tuple(_established(job)))
        laid = push_together(found)
    placements = tuple(_placements(job, things, laid))
    faults = verify_packing(things, space, placements, clearance=free)
    if faults:
        raise RuntimeError(f"a packing was found that does not hold: {faults}")
    return Packed(placements)


def checked_clearance(clearance: float | Fraction | Clearance) -> Clearance:
    """The clearance for each of the three ways. Raises `Mistake` if one is below zero."""
    free: Clearance = clearance if isinstance(clearance, tuple) else (clearance, clearance, clearance)
    if any(play < 0 for play in free):
        raise Mistake("A clearance cannot be below zero.", do="Ask for zero or more free play.")
    return free


def check_names(things: Iterable[PackedThing]) -> None:
    """Raise `Mistake` if there are no things, or two share a name."""
    names = Counter(thing.name for thing in things)
    if not names:
        raise Mistake("There is nothing to pack.", do="Name at least one thing.")
    twice = next((name for name, number in names.items() if number > 1), None)
    if twice is not None:
        raise Mistake(f"Two things are called {twice!r}.", do="Give each its own name, or raise its quantity.")


def _placements(job: Job, things: Sequence[PackedThing], laid: Iterable[Laid]) -> Iterable[Placement]:
    copies: Counter[str] = Counter()
    for each in sorted(laid, key=lambda one: (one.item, one.corner[::-1])):
        name = things[each.item].name
        copies[name] += 1
        corner, size = (
            tuple(Fraction(value * job.unit, NANOMETRES) for value in triple) for triple in (each.corner, each.size)
        )
        yield Placement(name, copies[name], (corner[0], corner[1], corner[2]), (size[0], size[1], size[2]))


def _established(job: Job) -> Iterable[str]:
    share = 100 * job.volume / math.prod(job.space)
    yield "Each thing alone goes in."
    yield f"Together the things take up {share:.1f} % of the space, so that their volume does not rule it out."
    yield "No packing was found, and no proof that there is none."
