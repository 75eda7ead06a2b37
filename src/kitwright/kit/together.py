"""Folded parts put in their places over and round each other, as solids with thickness. Lengths in mm."""

from __future__ import annotations

from kitwright.folding import Slab, moved, slabs
from kitwright.kit.built import BuiltPart
from kitwright.pattern import Axis

__all__ = ["put_over", "solids"]


def solids(part: BuiltPart) -> tuple[Slab, ...]:
    """A part as it stands by itself."""
    return slabs(part.folded, part.paper, model=part.model)


def put_over(part: BuiltPart, host: BuiltPart, *, is_lid: bool) -> tuple[Slab, ...]:
    """A lid or band in its place on its host: in the middle of it, the lid's top on the host's rim, the band half way up; and what spans
    the height too with as much room above as below.
    """
    mine, its = solids(part), solids(host)
    aside = [
        host.outside[axis].middle - (part.inside[axis] if axis in part.inside else part.outside[axis]).middle
        for axis in (Axis.WIDTH, Axis.DEPTH)
    ]
    if Axis.HEIGHT in part.form.spans:
        up = host.outside[Axis.HEIGHT].middle - part.inside[Axis.HEIGHT].middle
    else:
        up = highest(its) - float(mine[0].solid.bounding_box()[2]) if is_lid else middle(its) - middle(mine)
    return moved(mine, (aside[0], aside[1], up))


def highest(part: tuple[Slab, ...]) -> float:
    """The highest place of a part."""
    return max(float(slab.solid.bounding_box()[5]) for slab in part)


def middle(part: tuple[Slab, ...]) -> float:
    """Half way between the lowest and the highest place of a part."""
    return (min(float(slab.solid.bounding_box()[2]) for slab in part) + highest(part)) / 2
