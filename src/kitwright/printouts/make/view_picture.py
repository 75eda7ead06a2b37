"""Folded parts as drawings: one part after each step, a finished part, the whole kit with its lid lifted."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot

from kitwright.folding import (
    ISOMETRIC,
    EdgeKind,
    Folded,
    Plate,
    View,
    Viewpoint,
    fold_after,
    fold_pictured,
    look,
    plates,
    seen_areas,
    shift,
)
from kitwright.kit import BuiltKit, BuiltPart, as_used
from kitwright.paper import Print
from kitwright.pattern import Axis, Pattern
from kitwright.printouts.compose import fitted, print_up_arrow
from kitwright.printouts.drawing import Drawing, Line, Mark, Polygon, Role

__all__ = ["StagePicture", "kit_drawing", "part_drawing", "stage_picture", "view_marks"]

FLAT_BEND = 1.0
"""A score folded by less than this (degrees) is drawn as a score, otherwise as an edge."""

AJAR = 0.8
"""How far a panel that is folded flat is drawn folded in the picture of that step, as a share of its finished angle."""

TURNED = (
    (Viewpoint(turn=ISOMETRIC.turn + 180, rise=ISOMETRIC.rise), "Seen from behind."),
    (Viewpoint(turn=ISOMETRIC.turn, rise=-ISOMETRIC.rise), "Seen from below."),
)
"""The other sides from which a step may be pictured."""

CLEARLY_BETTER = 2.5
"""How much more of the panels that matter must show before a step is pictured from another side."""

LIFT = 0.45
"""How far a lid is lifted off its box in the picture of a kit, as a share of the box's height."""


def view_marks(view: View) -> Iterator[Mark]:
    """A view as marks: faces first, then the lines that can be seen, then the up of a one-way print on faces that have room."""
    for face in view.faces:
        role = Role.PRINT_FACE if face.is_print else Role.BACK_FACE
        for ring, holes in face.pieces:
            yield Polygon(ring, role, holes=holes)
    for edge in view.edges:
        is_score = edge.kind is EdgeKind.SCORE and abs(edge.bend) < FLAT_BEND
        yield Line(edge.start, edge.end, Role.CREASE if is_score else Role.OUTLINE)
    for face in view.faces:
        if face.arrow is not None and face.area > 600:
            yield from slanting_arrow(face.arrow.at, face.arrow.direction, min(14.0, face.area**0.5 / 3))


def slanting_arrow(at: tuple[float, float], direction: tuple[float, float], length: float) -> Iterator[Mark]:
    """The print-up sign lying on a face."""
    seen = hypot(*direction) * length
    if seen > 4:
        yield print_up_arrow(at, angle=degrees(atan2(direction[1], direction[0])), length=seen)


def drawn(scene: Sequence[Plate], *, width: float, height: float, viewpoint: Viewpoint = ISOMETRIC) -> Drawing:
    """Plates seen from a viewpoint, as large as fits."""
    return fitted(view_marks(look(scene, viewpoint)), width=width, height=height, largest=3.0).drawing


def part_plates(part: BuiltPart, folded: Folded) -> tuple[Plate, ...]:
    """A part at some state of folding, with the up of its print as it lies on the blank."""
    return plates(folded, turns=part.part.turn if part.paper.print_ is Print.ONE_WAY else None)


@dataclass(frozen=True, slots=True)
class StagePicture:
    """A part after a stage, and from where it is seen, in words; empty where that is the usual corner."""

    drawing: Drawing
    seen: str


def stage_picture(part: BuiltPart, stage: int, *, width: float, height: float) -> StagePicture:
    """A part after a stage, seen from where the panels that matter in it show best; those folded flat are drawn not quite closed."""
    matter = panels_that_matter(part.pattern, stage)
    scene = part_plates(
        part, as_used(part, fold_after(part.pattern, stage, moving=matter, ajar=AJAR), turn=part.part.turn)
    )
    viewpoint, seen = stage_viewpoint(part.pattern, stage, scene)
    return StagePicture(drawn(scene, width=width, height=height, viewpoint=viewpoint), seen)


def stage_viewpoint(pattern: Pattern, stage: int, scene: Sequence[Plate]) -> tuple[Viewpoint, str]:
    """From where a stage is best seen, and that in words: from the usual corner, unless another side shows far more."""
    matter = panels_that_matter(pattern, stage)

    def shown(viewpoint: Viewpoint) -> float:
        areas = seen_areas(scene, viewpoint)
        return math.fsum(area for ref, area in areas if ref.panel in matter)

    most, best = max(((shown(each[0]), each) for each in TURNED), key=lambda pair: pair[0])
    return best if most > CLEARLY_BETTER * shown(ISOMETRIC) else (ISOMETRIC, "")


def panels_that_matter(pattern: Pattern, stage: int) -> frozenset[str]:
    """The panels that are folded or glued in a stage; in the last one, failing those, what is glued to another part; or else those
    folded last."""
    here = pattern.stages[stage]
    if here.folds or here.glues:
        return frozenset((*here.folds, *here.glues))
    if stage == len(pattern.stages) - 1 and pattern.outer_glue:
        return frozenset(area.panel.panel for area in pattern.outer_glue)
    return next((frozenset(each.folds) for each in reversed(pattern.stages[:stage]) if each.folds), frozenset())


def part_drawing(part: BuiltPart, *, width: float, height: float) -> Drawing:
    """A finished part."""
    return drawn(
        part_plates(part, as_used(part, fold_pictured(part.pattern), turn=part.part.turn)), width=width, height=height
    )


def kit_drawing(built: BuiltKit, *, width: float, height: float) -> Drawing:
    """The kit's main piece with its lid lifted: the largest part that holds something, or else the largest part."""
    main = max(built.parts, key=lambda part: (bool(part.part.holds), volume(part)))
    scene = list(part_plates(main, standing(main)))
    for part in built.parts:
        if part.part.covers == main.name:
            scene += part_plates(part, lifted(part, main))
    return drawn(scene, width=width, height=height)


def volume(part: BuiltPart) -> float:
    """A measure of how large a part is."""
    size = part.thing
    return size.width * size.height * max(size.thickness, 1.0)


def standing(part: BuiltPart) -> Folded:
    """A finished part standing on the table, its left front corner at the origin."""
    return fold_pictured(part.pattern).standing()


def lifted(part: BuiltPart, host: BuiltPart) -> Folded:
    """A lid above its box, in the middle of it."""
    lid = standing(part)
    (_, _, _), (wide, deep, high) = lid.bounds()
    _, (host_wide, host_deep, host_high) = standing(host).bounds()
    rise = host_high * (1 + LIFT) - (high if Axis.HEIGHT in part.outside else 0.0) + high * 0.6
    return lid.moved(shift((host_wide - wide) / 2, (host_deep - deep) / 2, max(rise, host_high + 8.0)))
