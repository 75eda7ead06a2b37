"""Whether a folded net closes: its free edges matched, its corners, edges and faces counted, its volume. Lengths in mm."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from kitwright.folding import Folded
from kitwright.folding.rigid import Matrix
from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern import PanelKind, PanelRef


@dataclass(frozen=True, slots=True)
class FreeEdge:
    """A straight piece of a panel's outline where no other face hangs on."""

    panel: PanelRef
    start: tuple[float, float, float]
    end: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Closure:
    """Which free edges meet exactly one other that runs the other way, which meet none, which meet several."""

    pairs: tuple[tuple[FreeEdge, FreeEdge], ...]
    unmatched: tuple[FreeEdge, ...]
    overmatched: tuple[FreeEdge, ...]

    @property
    def is_closed(self) -> bool:
        """Whether every free edge found its one partner."""
        return not self.unmatched and not self.overmatched


def close_edges(folded: Folded, *, tolerance: float = NUMERIC_TOLERANCE) -> Closure:
    """Match each free edge of the faces (tabs and hems apart) with the edges that run the other way between the same two points.

    For shapes whose faces meet edge to edge, such as unfolded solids; boxes with overlaps promise their seams one by one.
    """
    edges = free_edges(folded)
    partners = [
        [other for other in edges if other is not edge and reversed_match(edge, other, tolerance)] for edge in edges
    ]
    pairs = [
        (edge, found[0])
        for edge, found in zip(edges, partners, strict=True)
        if len(found) == 1 and edge_key(edge) < edge_key(found[0])
    ]
    return Closure(
        pairs=tuple(pairs),
        unmatched=tuple(edge for edge, found in zip(edges, partners, strict=True) if not found),
        overmatched=tuple(edge for edge, found in zip(edges, partners, strict=True) if len(found) > 1),
    )


def edge_key(edge: FreeEdge) -> tuple[PanelRef, tuple[float, float, float]]:
    """What puts the edges in order."""
    return edge.panel, edge.start


def reversed_match(one: FreeEdge, other: FreeEdge, tolerance: float) -> bool:
    """Whether two edges join the same two points, in opposite directions."""
    return math.dist(one.start, other.end) <= tolerance and math.dist(one.end, other.start) <= tolerance


def solid_faces(folded: Folded) -> list[PanelRef]:
    """The panels that bound the solid: tabs and hems apart."""
    return [ref for ref in folded.refs if folded.pattern.panel(ref).kind not in {PanelKind.TAB, PanelKind.HEM}]


def free_edges(folded: Folded) -> list[FreeEdge]:
    """All edges of the faces on which no other face hangs; an edge with a tab on it is free."""
    faces = set(solid_faces(folded))
    inner = set()
    for copy, blank in folded.pattern.copies():
        for score in blank.scores:
            parent, child = PanelRef(copy, score.parent), PanelRef(copy, score.child)
            if {parent, child} <= faces:
                inner.add((parent, score.start, score.end))
                inner.add((child, score.end, score.start))
    found = []
    for ref in solid_faces(folded):
        outline = folded.pattern.panel(ref).outline
        world = [(float(x), float(y), float(z)) for x, y, z in folded.points(ref)]
        for i, start in enumerate(outline):
            following = (i + 1) % len(outline)
            if (ref, start, outline[following]) not in inner:
                found.append(FreeEdge(ref, world[i], world[following]))
    return found


def signed_volume(folded: Folded) -> float:
    """Volume enclosed by the faces, mm³; above zero where the print is outside.

    Sum of the cones over every triangle (divergence theorem); it means something only if the faces close.
    """
    chosen = solid_faces(folded)
    middle = np.vstack([folded.points(ref) for ref in chosen]).mean(axis=0)
    return math.fsum(cone(folded.points(ref) - middle) for ref in chosen)


def cone(ring: Matrix) -> float:
    """Signed volume between the origin and a flat ring."""
    return float(np.sum(np.cross(ring[1:-1], ring[2:]) @ ring[0]) / 6)


def euler_number(folded: Folded) -> int:
    """Corners − edges + faces of the folded solid: 2 for anything that closes to a ball (Euler's polyhedron formula)."""
    corners: list[Matrix] = []
    edges: set[tuple[int, int]] = set()
    faces = solid_faces(folded)
    for ref in faces:
        numbers = [number_of(point, corners) for point in folded.points(ref)]
        edges |= {(min(a, b), max(a, b)) for a, b in around(numbers)}
    return len(corners) - len(edges) + len(faces)


def number_of(point: Matrix, known: list[Matrix]) -> int:
    """The number of a corner, taken up as a new one if it is none of the known."""
    for i, other in enumerate(known):
        if float(np.linalg.norm(point - other)) <= NUMERIC_TOLERANCE:
            return i
    known.append(point)
    return len(known) - 1


def around(numbers: Sequence[int]) -> Iterable[tuple[int, int]]:
    """The pairs of neighbours of a closed ring."""
    return pairwise([*numbers, numbers[0]])
