"""Folded card with its thickness: panels as thin solids, and the volume by which they get in each other's way. Lengths in mm.

The solid of a panel reaches from its hinge plane outwards and inwards as the crease model says, and is taken back at every folded
score so that neighbours meet without overlap. Layers lie beside the panel that keeps its place, in the order of the layer model.
The intersections are made by the library Manifold, in which solids that merely touch share a volume of zero.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import product
from typing import Any, Final

import numpy as np
from shapely import LineString, get_parts
from shapely.geometry.polygon import orient

from kitwright.folding.extents import Papers, paper_of
from kitwright.folding.layers import LayerModel, layers
from kitwright.folding.planes import own_shape
from kitwright.folding.plates import bend_between
from kitwright.folding.poses import Folded
from kitwright.measure import LEAST_CLASH
from kitwright.paper import inner_loss, layers_thickness, outer_gain
from kitwright.pattern import PanelKind, PanelRef, Score

__all__ = ["Clash", "Slab", "clashes", "moved", "slabs"]

FLAT_FOLD: Final = 150.0
"""Degrees from which a fold lays its panels on each other instead of making a corner."""


@dataclass(frozen=True, slots=True)
class Clash:
    """Two panels whose card is in the same place: the volume of it in mm³, and its least measure along width, depth, height in mm."""

    one: PanelRef
    other: PanelRef
    volume: float
    depth: float


@dataclass(frozen=True, slots=True)
class Slab:
    """A panel as a solid (of the library Manifold) in the world."""

    panel: PanelRef
    solid: Any


def clashes(one: Iterable[Slab], other: Iterable[Slab]) -> tuple[Clash, ...]:
    """Where the card of one part is in the way of another part's, such as a lid that is too tight for its base."""
    return tuple(found for pair in product(one, tuple(other)) if (found := clash(*pair)) is not None)


def clash(one: Slab, other: Slab) -> Clash | None:
    """What two slabs share, if it matters."""
    mine, yours = one.solid.bounding_box(), other.solid.bounding_box()
    if any(mine[i] >= yours[i + 3] or yours[i] >= mine[i + 3] for i in range(3)):
        return None
    shared = one.solid ^ other.solid
    if shared.volume() <= LEAST_CLASH:
        return None
    box = shared.bounding_box()
    return Clash(one.panel, other.panel, float(shared.volume()), min(float(box[i + 3] - box[i]) for i in range(3)))


def moved(part: Iterable[Slab], by: tuple[float, float, float]) -> tuple[Slab, ...]:
    """The same solids moved by width, depth and height."""
    return tuple(replace(slab, solid=slab.solid.translate(by)) for slab in part)


def slabs(folded: Folded, papers: Papers, *, model: LayerModel | None = None) -> tuple[Slab, ...]:
    """The panels of a folded part as solids with the thickness of their papers."""
    from manifold3d import CrossSection, FillRule, Manifold  # noqa: PLC0415 - heavy, only needed here

    known = model or layers(folded)
    floors = slab_floors(folded, papers, known)
    hinges = hinges_of(folded)
    found = []
    for ref in folded.refs:
        shape = own_shape(folded, ref)
        paper = paper_of(papers, folded, ref.blank)
        for other, score in hinges[ref]:
            bend = bend_between(folded, ref, other)
            if 0 < bend < FLAT_FOLD:
                back = inner_loss(paper, angle=bend)
                shape = shape.difference(LineString((score.start, score.end)).buffer(back, cap_style="square"))
        solid = Manifold()
        for part in get_parts(shape):
            ring = orient(part)
            rings = [np.asarray(edge.coords)[:-1] for edge in (ring.exterior, *ring.interiors)]
            section = CrossSection(rings, FillRule.EvenOdd)
            solid += Manifold.extrude(section, layers_thickness(1, paper)).translate((0, 0, floors[ref]))
        placed = solid.transform(folded.poses[ref][:3, :])
        found.append(Slab(ref, placed))
    return tuple(found)


def hinges_of(folded: Folded) -> dict[PanelRef, list[tuple[PanelRef, Score]]]:
    """The panels on the other side of each panel's scores."""
    hinges: dict[PanelRef, list[tuple[PanelRef, Score]]] = {ref: [] for ref in folded.refs}
    for copy, blank in folded.pattern.copies():
        for score in blank.scores:
            parent, child = PanelRef(copy, score.parent), PanelRef(copy, score.child)
            hinges[parent].append((child, score))
            hinges[child].append((parent, score))
    return hinges


def slab_floors(folded: Folded, papers: Papers, model: LayerModel) -> dict[PanelRef, float]:
    """Where the back of each panel's card lies above its hinge plane, along its print side; the card reaches up from there.

    In each stack one panel keeps its place: the first drawn that is a face and not glued on as a tab. The others lie beside it.
    """
    glued = {joint.tab for joint in folded.pattern.joints}
    floors: dict[PanelRef, float] = {}

    def thickness(ref: PanelRef) -> float:
        return layers_thickness(1, paper_of(papers, folded, ref.blank))

    for stack in model.stacks:
        drawn = sorted(stack, key=folded.refs.index)
        faces = [ref for ref in drawn if folded.pattern.panel(ref).kind is PanelKind.FACE and ref not in glued]
        keeper = (faces or drawn)[0]
        own = own_floor(folded, papers, keeper)
        bottom = own if model.faces_up(keeper) else -own - thickness(keeper)
        at = stack.index(keeper)
        bottoms = {keeper: bottom}
        for ref in stack[at + 1 :]:
            below = [bottoms[other] + thickness(other) for other in model.touching[ref] if other in bottoms]
            bottoms[ref] = max(below, default=bottom)
        for ref in reversed(stack[:at]):
            above = [bottoms[other] for other in model.touching[ref] if other in bottoms]
            bottoms[ref] = min(above, default=bottom + thickness(ref)) - thickness(ref)
        for ref, low in bottoms.items():
            floors[ref] = low if model.faces_up(ref) else -low - thickness(ref)
    return floors


def own_floor(folded: Folded, papers: Papers, ref: PanelRef) -> float:
    """Where the back of a panel's card lies above its hinge plane when nothing else lies on it.

    The outer face of a mountain fold is the print, of a valley fold the back; where a panel has both, the more of them count.
    """
    paper = paper_of(papers, folded, ref.blank)
    angles = [score.angle for _, score in hinges_of(folded)[ref]]
    is_print_outside = math.fsum(math.copysign(1, angle) for angle in angles if angle) <= 0
    return -inner_loss(paper) if is_print_outside else -outer_gain(paper)
