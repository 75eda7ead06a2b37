"""The layer model: which panels lie flat on which, and in what order. Derived from the folded part and its joints, never typed in.

Panels that come to lie on each other form stacks. A stack grows as the part is made: folding a panel over, or gluing a tab, lays one
stack upon another whole, so that a hem made early stays with its panel when something is glued on later. Where a joint says *under*
or *over*, that counts; otherwise a panel lies on the side from which its last fold brought it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import numpy as np
from shapely import Polygon, polygonize, unary_union

from kitwright.folding.history import History
from kitwright.folding.planes import flat_shape, overlap, own_shape
from kitwright.folding.poses import Folded
from kitwright.folding.rigid import Matrix
from kitwright.measure import CORNER_GRID, CRAFT_TOLERANCE, LEAST_AREA
from kitwright.pattern import Joint, PanelRef

__all__ = ["LayerModel", "layers"]


@dataclass(frozen=True, eq=False)
class LayerModel:
    """The stacks of panels that lie flat on each other, each listed along its direction in `up`.

    `touching` names for each panel those that lie flat on it on either side, with other layers between them or not. `guessed` lists
    pairs whose order nothing says (the later one was taken to lie outside), `woven` the joints that cannot be kept because others
    already put the same stacks the other way round.
    """

    folded: Folded
    stacks: tuple[tuple[PanelRef, ...], ...]
    up: Mapping[PanelRef, Matrix]
    touching: Mapping[PanelRef, tuple[PanelRef, ...]]
    guessed: tuple[tuple[PanelRef, PanelRef], ...] = ()
    woven: tuple[Joint, ...] = ()

    @cached_property
    def places(self) -> dict[PanelRef, int]:
        """For each panel its place in its stack, counted along the stack's direction."""
        return {ref: place for stack in self.stacks for place, ref in enumerate(stack)}

    def faces_up(self, ref: PanelRef) -> bool:
        """Whether a panel's print side faces along its stack's direction."""
        return float(self.folded.normal(ref) @ self.up[ref]) > 0

    def is_in_front(self, ref: PanelRef, *, of: PanelRef) -> bool:
        """Whether `ref` lies on the print side of panel `of`. The two must lie on each other."""
        return (self.places[ref] > self.places[of]) is self.faces_up(of)

    def lying_on(self, ref: PanelRef, *, front: bool) -> tuple[PanelRef, ...]:
        """All panels that lie on the print side (`front`) or on the back of a panel, the nearest first."""
        found = [other for other in self.touching[ref] if self.is_in_front(other, of=ref) is front]
        return tuple(sorted(found, key=lambda other: abs(self.places[other] - self.places[ref])))

    def thickest(self, ref: PanelRef, *, front: bool, thickness: Callable[[PanelRef], float]) -> tuple[PanelRef, ...]:
        """The panels on one side of a panel where they are thickest together, the nearest first. `thickness` is mm per panel."""
        candidates = self.lying_on(ref, front=front)
        if len(candidates) < 2:
            return candidates
        mine = own_shape(self.folded, ref)
        shapes = [flat_shape(self.folded, other, ref).intersection(mine, grid_size=CORNER_GRID) for other in candidates]
        best: tuple[PanelRef, ...] = ()
        for cell in polygonize([unary_union([shape.boundary for shape in shapes], grid_size=1e-6)]).geoms:
            if cell.area > LEAST_AREA:
                inside = cell.representative_point()
                here = tuple(other for other, shape in zip(candidates, shapes, strict=True) if shape.covers(inside))
                best = max(best, here, key=lambda some: math.fsum(map(thickness, some)))
        return best

    def bare(self, ref: PanelRef, *, front: bool) -> Polygon:
        """What of a panel's print side (`front`) or back no other layer covers; in the coordinates of its blank."""
        covers = [flat_shape(self.folded, other, ref) for other in self.lying_on(ref, front=front)]
        return own_shape(self.folded, ref).difference(unary_union(covers, grid_size=CORNER_GRID), grid_size=CORNER_GRID)


def layers(folded: Folded) -> LayerModel:
    """Work out the layer model of a folded part."""
    pairs = lying_pairs(folded)
    touching: dict[PanelRef, list[PanelRef]] = {ref: [] for ref in folded.refs}
    for one, other in pairs:
        touching[one].append(other)
        touching[other].append(one)
    history = History(folded)
    flat = [(parent, child) for child, (_, parent, _) in history.scores.items() if not history.is_folded(child)]
    up = directions(folded, [*pairs, *flat])
    stack_of = {ref: [ref] for ref in folded.refs}
    for parent, child in flat:  # one sheet still: it goes as a whole
        lay(stack_of, child, on=parent)
    guessed: list[tuple[PanelRef, PanelRef]] = []
    events = [event for event in (history.event(one, other, up[one]) for one, other in pairs) if event is not None]
    events.sort(key=lambda event: event.when)
    amiss = [event for event in events if not lay(stack_of, event.upper, on=event.lower)]
    woven = [event.joint for event in amiss if event.joint is not None]
    for one, other in pairs:
        if stack_of[one] is not stack_of[other]:
            later_is_upper = float(folded.normal(other) @ up[other]) > 0
            lay(stack_of, other if later_is_upper else one, on=one if later_is_upper else other)
            guessed.append((one, other))
    stacks = {id(stack): tuple(stack) for stack in stack_of.values()}
    return LayerModel(
        folded,
        tuple(stacks.values()),
        up,
        {ref: tuple(found) for ref, found in touching.items()},
        tuple(guessed),
        tuple(woven),
    )


def lay(stack_of: dict[PanelRef, list[PanelRef]], upper: PanelRef, *, on: PanelRef) -> bool:
    """Lay the whole stack of `upper` on that of `on`. In one stack already: change nothing and say whether they lie so."""
    high, low = stack_of[upper], stack_of[on]
    if high is low:
        return high.index(upper) > high.index(on)
    low.extend(high)
    for ref in high:
        stack_of[ref] = low
    return True


def lying_pairs(folded: Folded) -> list[tuple[PanelRef, PanelRef]]:
    """All pairs of panels that lie flat on each other, in the order of drawing."""
    refs = folded.refs
    clouds = [folded.points(ref) for ref in refs]
    starts = np.cumsum([0, *(len(cloud) for cloud in clouds[:-1])])
    normals = np.array([folded.normal(ref) for ref in refs])
    offsets = np.array([folded.normal(ref) @ cloud[0] for ref, cloud in zip(refs, clouds, strict=True)])
    heights = np.abs(np.vstack(clouds) @ normals.T - offsets)
    farthest = np.maximum.reduceat(heights, starts, axis=0)  # [i, j]: how far panel i is from the plane of panel j
    low, high = np.array([c.min(axis=0) for c in clouds]), np.array([c.max(axis=0) for c in clouds])
    near = np.all(low[:, None] <= high[None] + CRAFT_TOLERANCE, axis=2)
    is_candidate = (farthest <= CRAFT_TOLERANCE) & near & near.T
    return [
        (refs[i], refs[j])
        for i, j in combinations(range(len(refs)), 2)
        if (is_candidate[i, j] or is_candidate[j, i])
        and (overlap(folded, refs[j], refs[i]) if is_candidate[j, i] else overlap(folded, refs[i], refs[j])) is not None
    ]


def directions(folded: Folded, pairs: Sequence[tuple[PanelRef, PanelRef]]) -> dict[PanelRef, Matrix]:
    """One direction for all panels that hang together by these pairs: the print side of the first drawn."""
    beside: dict[PanelRef, list[PanelRef]] = {ref: [] for ref in folded.refs}
    for one, other in pairs:
        beside[one].append(other)
        beside[other].append(one)
    up: dict[PanelRef, Matrix] = {}
    for first in folded.refs:
        waiting = [first] if first not in up else []
        while waiting:
            ref = waiting.pop()
            if ref not in up:
                up[ref] = folded.normal(first)
                waiting.extend(beside[ref])
    return up
