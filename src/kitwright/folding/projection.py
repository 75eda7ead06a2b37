"""Looking at plates: shadows on the picture plane and distances from the viewer. Millimetres; picture x right, y up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from kitwright.folding.plates import Plate
from kitwright.folding.rigid import Matrix, cosine_sine

__all__ = ["ISOMETRIC", "Projection", "Viewpoint", "project"]

EDGE_ON: Final = 1e-3
"""A plate whose normal is this near to square to the line of sight (cosine; 0.06 degrees) is seen as a line: 100 mm of it would look a
tenth of a millimetre wide."""


DECIMALS: Final = 9
"""Decimals of a millimetre that are kept in the picture: numbers that are zero but for rounding become zero."""


@dataclass(frozen=True, slots=True)
class Viewpoint:
    """From where a part is looked at: `turn` degrees to the right of straight in front, `rise` degrees above the table."""

    turn: float
    rise: float

    @property
    def axes(self) -> Matrix:
        """Rows: the picture's right, its up, and the direction towards the viewer, in the world."""
        cos_turn, sin_turn = cosine_sine(self.turn)
        cos_rise, sin_rise = cosine_sine(self.rise)
        return np.array(
            (
                (cos_turn, sin_turn, 0.0),
                (-sin_turn * sin_rise, cos_turn * sin_rise, cos_rise),
                (sin_turn * cos_rise, -cos_turn * cos_rise, sin_rise),
            )
        )


ISOMETRIC: Final = Viewpoint(turn=45.0, rise=float(np.degrees(np.arctan(np.sqrt(0.5)))))
"""The three axes equally foreshortened (ISO 5456-3): front, right side and top are seen."""


@dataclass(frozen=True, eq=False)
class Projection:
    """Plates as seen by a viewer.

    `rings` are their outlines in the picture with the distance towards the viewer as third column, `shadows` their polygons in the
    picture (empty for plates seen edge on), `slopes` the rows (a, b, c) with distance = a·x + b·y + c, `facing` the cosine between
    normal and line of sight.
    """

    plates: tuple[Plate, ...]
    axes: Matrix
    rings: tuple[Matrix, ...]
    shadows: NDArray[np.object_]
    slopes: Matrix
    facing: Matrix

    @property
    def is_edge_on(self) -> NDArray[np.bool_]:
        """Which plates are seen as mere lines."""
        return np.abs(self.facing) <= EDGE_ON


def project(plates: Sequence[Plate], viewpoint: Viewpoint) -> Projection:
    """Drop plates onto the picture plane of a viewpoint."""
    axes = viewpoint.axes
    rings = tuple(np.round(plate.ring @ axes.T, DECIMALS) + 0.0 for plate in plates)
    normals = np.array([plate.normal for plate in plates]).reshape(-1, 3) @ axes.T
    facing = normals[:, 2]
    slopes, shadows = np.zeros((len(plates), 3)), np.empty(len(plates), dtype=object)
    for i, (plate, ring) in enumerate(zip(plates, rings, strict=True)):
        if abs(facing[i]) <= EDGE_ON:
            shadows[i] = Polygon()
            continue
        shadows[i] = Polygon(ring[:, :2], [np.round((hole @ axes.T)[:, :2], DECIMALS) + 0.0 for hole in plate.holes])
        a, b = -normals[i, 0] / facing[i], -normals[i, 1] / facing[i]
        slopes[i] = (a, b, np.mean(ring[:, 2] - a * ring[:, 0] - b * ring[:, 1]))
    shapely.prepare(shadows)
    return Projection(tuple(plates), axes, rings, shadows, slopes, facing)
