"""Where glued tabs land: in the plane of their target, facing its way, inside its outline. Lengths in mm, areas in mm²."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from kitwright.folding.planes import flat_shape, own_shape
from kitwright.folding.poses import Folded
from kitwright.measure import CORNER_GRID
from kitwright.pattern import Joint

__all__ = ["Landing", "land", "landings"]


@dataclass(frozen=True, slots=True)
class Landing:
    """How a tab lies on its target.

    `off_plane` is how far its farthest corner is from the target's plane (mm), `turned` the angle between the two print sides
    (degrees; 0 when they face the same way), `off_panel` the area of the tab beyond the target (mm²).
    """

    joint: Joint
    off_plane: float
    turned: float
    off_panel: float


def land(folded: Folded, joint: Joint) -> Landing:
    """How the tab of one joint lies on its target."""
    local = folded.to_panel(joint.target, folded.points(joint.tab))
    tab, target = flat_shape(folded, joint.tab, joint.target), own_shape(folded, joint.target)
    one, other = folded.normal(joint.tab), folded.normal(joint.target)
    return Landing(
        joint=joint,
        off_plane=float(np.abs(local[:, 2]).max()),
        turned=math.degrees(math.atan2(float(np.linalg.norm(np.cross(one, other))), float(one @ other))),
        off_panel=tab.area - tab.intersection(target, grid_size=CORNER_GRID).area,
    )


def landings(folded: Folded) -> tuple[Landing, ...]:
    """How every tab of the pattern lies on its target, joint by joint."""
    return tuple(land(folded, joint) for joint in folded.pattern.joints)
