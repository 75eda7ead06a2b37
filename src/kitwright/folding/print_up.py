"""Which way up the print stands on the faces that show. Angles in degrees, anticlockwise as the viewer sees the face.

What is right: on an upright or slanting face the print's up is up. On a face that lies on top, up is away from the person in front.
On a face seen from below, up is towards the person in front: tip the part over backwards, and its print stands upright.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from shapely import Point as ShapelyPoint

from kitwright.folding.layers import LayerModel, layers
from kitwright.folding.planes import own_shape
from kitwright.folding.poses import Folded
from kitwright.folding.rigid import Matrix
from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern import PanelRef, Shows

__all__ = ["PrintUp", "print_up", "print_ups", "wanted_up"]

LEVEL: Final = 1e-3
"""A face whose normal is this near to plumb (sine of the angle; 0.06 degrees) lies level and has no up of its own."""


@dataclass(frozen=True, slots=True)
class PrintUp:
    """How the print lies on a face that shows.

    `angle` is how far the print's up is turned from where it should be, −180 < angle ≤ 180; `is_open` says whether the face looks
    outwards, with nothing in front of it.
    """

    shows: Shows
    angle: float
    is_open: bool

    @property
    def is_upright(self) -> bool:
        """Whether the print's up is where it should be, to half a degree."""
        return abs(self.angle) <= 0.5


def print_ups(
    folded: Folded, *, turns: int | Mapping[str, int] = 0, model: LayerModel | None = None
) -> tuple[PrintUp, ...]:
    """How the print lies on every face that the pattern claims to show. For `turns` see `print_up`."""
    known = model or layers(folded)
    return tuple(print_up(folded, shows, turns=turns, model=known) for shows in folded.pattern.claims.shows)


def print_up(
    folded: Folded, shows: Shows, *, turns: int | Mapping[str, int] = 0, model: LayerModel | None = None
) -> PrintUp:
    """How the print lies on one face.

    `turns` are the quarter turns, anticlockwise seen on the print, by which the artwork's up is turned from the up of the blank as
    drawn: one number, or one for each copy (or blank) by name, 0 where not named.
    """
    ref = shows.panel
    known = model or layers(folded)
    normal = -folded.normal(ref) if shows.back else folded.normal(ref)
    wanted = wanted_up(normal)
    up = folded.print_up(ref, turns=turns_of(folded, ref, turns))
    bare = known.bare(ref, front=not shows.back)
    return PrintUp(
        shows=shows,
        angle=math.degrees(math.atan2(float(np.cross(wanted, up) @ normal), float(wanted @ up))),
        is_open=not bare.is_empty and looks_out(folded, ref, bare.representative_point(), normal),
    )


def turns_of(folded: Folded, ref: PanelRef, turns: int | Mapping[str, int]) -> int:
    """The quarter turns of the artwork on one copy."""
    if isinstance(turns, int):
        return turns
    return turns.get(ref.blank, turns.get(folded.pattern.blank_of(ref.blank).name, 0))


def wanted_up(normal: Matrix) -> Matrix:
    """Where up should be on a face that looks along `normal` (length 1): a direction in the face, length 1."""
    if math.hypot(float(normal[0]), float(normal[1])) <= LEVEL:
        return np.array((0.0, 1.0 if normal[2] > 0 else -1.0, 0.0))
    rise = np.array((0.0, 0.0, 1.0)) - normal[2] * normal
    upward: Matrix = rise / np.linalg.norm(rise)
    return upward


def looks_out(folded: Folded, ref: PanelRef, at: ShapelyPoint, normal: Matrix) -> bool:
    """Whether nothing of the part is in front of a place on a panel, looking straight away from it."""
    eye = folded.to_world(ref, [(at.x, at.y)])[0]
    for other in folded.refs:
        height, towards = folded.to_panel(other, eye)[0], folded.poses[other][:3, :3].T @ normal
        if abs(towards[2]) <= NUMERIC_TOLERANCE:
            continue
        distance = -height[2] / towards[2]
        hit = height + distance * towards
        if distance > NUMERIC_TOLERANCE and own_shape(folded, other).covers(ShapelyPoint(hit[0], hit[1])):
            return False
    return True
