"""What goes into boxes and envelopes, as plain sizes: flat things with their thickness, and things with three sides. Millimetres."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from shapely import Polygon, polygonize, unary_union

from kitwright.folding import Folded

__all__ = ["Thing", "flat_layers"]


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that is packed: `count` pieces, each `width` × `height` and `thickness` thick, lying flat or not.

    For a flat thing width and height are as it is looked at. `is_flat` things go onto the stack, others beside it.
    """

    name: str
    width: float
    height: float
    thickness: float
    count: int = 1
    is_flat: bool = True


def flat_layers(folded: Folded) -> int:
    """The most layers of card that lie on each other anywhere on a part that is folded flat.

    Looked at along the front (x and z); panels that stand on edge in that view are not counted.
    """
    shadows = [Polygon([(x, z) for x, _, z in folded.points(ref)]) for ref in folded.refs]
    faces = [shadow for shadow in shadows if shadow.area > 1e-6]
    cells: Iterable[Polygon] = polygonize([unary_union([face.exterior for face in faces])]).geoms
    spots = [cell.representative_point() for cell in cells if cell.area > 1e-3]
    return max((sum(face.contains(spot) for face in faces) for spot in spots), default=1)
