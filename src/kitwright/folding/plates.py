"""Plates: what a view draws. The panels of a folded part as flat pieces in space, with the kinds of their edges. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from kitwright.folding.layers import LayerModel, layers
from kitwright.folding.poses import Folded
from kitwright.folding.rigid import Matrix
from kitwright.pattern import PanelRef, Point

__all__ = ["EdgeKind", "Plate", "PlateEdge", "plates"]


class EdgeKind(StrEnum):
    """What a line of a view is."""

    CUT = "cut"
    """An edge of the card."""
    SCORE = "score"
    """A score, folded or not yet."""


@dataclass(frozen=True, slots=True)
class PlateEdge:
    """An edge of a plate: its kind and, for a score, by how many degrees it is folded at the moment."""

    kind: EdgeKind
    bend: float = 0.0


@dataclass(frozen=True, eq=False)
class Plate:
    """A flat piece in space: outer ring and holes (rows of points; the ring counter-clockwise seen from where `normal` points).

    `edges[i]` runs from point i of the ring to the next; edges of holes are cut. `stack` and `place` order plates that lie flat on each
    other: in one stack, the greater place is farther along `stack_up`. `print_up` is the direction of the print's up, if it has one.
    """

    panel: PanelRef
    ring: Matrix
    edges: tuple[PlateEdge, ...]
    normal: Matrix
    holes: tuple[Matrix, ...] = ()
    print_up: Matrix | None = None
    stack: object = None
    place: int = 0
    stack_up: Matrix | None = None


def plates(folded: Folded, *, turns: int | None = 0, model: LayerModel | None = None) -> tuple[Plate, ...]:
    """The panels of a folded part as plates.

    `turns`: by how many quarters, anticlockwise seen on the print, its up is turned from the up of the blank; None if it has no up.
    """
    known = model or layers(folded)
    hinges: dict[tuple[PanelRef, Point, Point], PlateEdge] = {}
    for copy, blank in folded.pattern.copies():
        for score in blank.scores:
            parent, child = PanelRef(copy, score.parent), PanelRef(copy, score.child)
            edge = PlateEdge(EdgeKind.SCORE, bend_between(folded, parent, child))
            hinges[parent, score.start, score.end] = hinges[child, score.end, score.start] = edge
    cut = PlateEdge(EdgeKind.CUT)
    found = []
    for stack in known.stacks:
        for place, ref in enumerate(stack):
            outline = folded.pattern.panel(ref).outline
            sides = zip(outline, (*outline[1:], outline[0]), strict=True)
            found.append(
                Plate(
                    panel=ref,
                    ring=folded.points(ref),
                    edges=tuple(hinges.get((ref, start, end), cut) for start, end in sides),
                    normal=folded.normal(ref),
                    holes=folded.holes(ref),
                    print_up=None if turns is None else folded.print_up(ref, turns=turns),
                    stack=stack if len(stack) > 1 else None,
                    place=place,
                    stack_up=known.up[ref],
                )
            )
    return tuple(found)


def bend_between(folded: Folded, parent: PanelRef, child: PanelRef) -> float:
    """The angle between the normals of two panels, degrees, 0 to 180."""
    one, other = folded.normal(parent), folded.normal(child)
    return float(np.degrees(np.arctan2(np.linalg.norm(np.cross(one, other)), one @ other)))
