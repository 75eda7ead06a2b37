"""Folding step by step: whether panels bump into each other on the way. Angles in degrees, lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np

from kitwright.folding.collision import Crossing, crossings_in
from kitwright.folding.poses import Sweep, sweep
from kitwright.folding.stages import State, state_after
from kitwright.pattern import PanelRef, Pattern

__all__ = ["STEP", "Bump", "Way", "bumps", "way_to"]

STEP: Final = 3.0
"""Degrees from one sampled state of a fold to the next. Between two, a point r mm from its score moves at most r × 0.053 mm."""


@dataclass(frozen=True, slots=True)
class Bump:
    """Two panels that pass through each other on the way: the stage (from 0), how much of its fold is done, and the crossing.

    Real card gives way, so this is a warning; a crossing in the finished state is not.
    """

    stage: int
    share: float
    crossing: Crossing


class Way(StrEnum):
    """In which order the panels of one stage turn; a person does whichever goes."""

    TOGETHER = "together"
    OUTER_FIRST = "outer first"
    INNER_FIRST = "inner first"


def way_to(pattern: Pattern, stage: int, way: Way, *, step: float = STEP) -> tuple[list[float], Sweep]:
    """The states on the way to the end of a stage, start and end apart, and the share of it that is done in each."""
    before, after = state_after(pattern, stage - 1), state_after(pattern, stage)
    turning = [ref for ref, angle in after.angles.items() if angle != before.angles[ref]]
    depths = score_depths(pattern)
    groups = sorted({depths[ref] for ref in turning}, reverse=way is Way.OUTER_FIRST)
    phases = [[ref for ref in turning if depths[ref] == depth] for depth in groups]
    if way is Way.TOGETHER:
        phases = [turning] if turning else []
    angles, shares = dict(before.angles), []
    rows: dict[PanelRef, list[float]] = {ref: [] for ref in turning}
    for number, phase in enumerate(phases):
        steps = math.ceil(max(abs(after.angles[ref] - before.angles[ref]) for ref in phase) / step)
        for n in range(1, steps + 1):
            angles |= {ref: before.angles[ref] + n / steps * (after.angles[ref] - before.angles[ref]) for ref in phase}
            share = (number + n / steps) / len(phases)
            if share < 1:
                shares.append(share)
                for ref, row in rows.items():
                    row.append(angles[ref])
    return shares, sweep(
        pattern, {**before.angles, **{ref: np.array(row) for ref, row in rows.items()}}, glued=before.glued
    )


def score_depths(pattern: Pattern) -> dict[PanelRef, int]:
    """How many scores lie between each panel and the root of its piece."""
    depths: dict[PanelRef, int] = {}
    for copy, blank in pattern.copies():
        depths[PanelRef(copy, blank.root.name)] = 0
        for score in blank.scores:
            depths[PanelRef(copy, score.child)] = depths[PanelRef(copy, score.parent)] + 1
    return depths


def bumps(pattern: Pattern, *, step: float = STEP) -> tuple[Bump, ...]:
    """The first bump of each pair of panels in each stage, on the way of folding on which the fewest pairs bump."""
    found: list[Bump] = []
    for stage in range(len(pattern.stages)):
        best: list[Bump] | None = None
        for way in Way:
            on_this = bumps_on(pattern, stage, way, step)
            best = on_this if best is None or len(on_this) < len(best) else best
            if not best:
                break
        found.extend(best or [])
    return tuple(found)


def bumps_on(pattern: Pattern, stage: int, way: Way, step: float) -> list[Bump]:
    """The first bump of each pair of panels in one stage, folded in one way."""
    movers = moving(state_after(pattern, stage - 1), state_after(pattern, stage), pattern)
    known: set[tuple[PanelRef, PanelRef]] = set()
    found = []
    shares, states = way_to(pattern, stage, way, step=step)
    for number, crossed in crossings_in(states, moving=movers) if shares else ():
        for crossing in crossed:
            if (crossing.one, crossing.other) not in known:
                known.add((crossing.one, crossing.other))
                found.append(Bump(stage, shares[number], crossing))
    return found


def moving(before: State, after: State, pattern: Pattern) -> frozenset[PanelRef]:
    """The panels that move in a stage: those that are folded in it and all that hang on them."""
    moved = {ref for ref, angle in after.angles.items() if angle != before.angles[ref]}
    waiting = [
        (PanelRef(copy, score.parent), PanelRef(copy, score.child))
        for copy, blank in pattern.copies()
        for score in blank.scores
    ]
    while True:
        carried = {child for parent, child in waiting if parent in moved} - moved
        if not carried:
            return frozenset(moved)
        moved |= carried
