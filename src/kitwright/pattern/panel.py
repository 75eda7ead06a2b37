"""A panel: one flat piece of a blank, with named edges. Lengths in mm, drawn print side up."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from shapely import Polygon

from kitwright.pattern.geometry import Point, Ring, signed_area

__all__ = ["Panel", "PanelKind"]


class PanelKind(StrEnum):
    """What a panel is for."""

    FACE = "face"
    TAB = "tab"
    HEM = "hem"
    FLAP = "flap"


@dataclass(frozen=True)
class Panel:
    """A flat piece with its outline counter-clockwise; `edge_names[i]` names the edge from point i to the next.

    Neighbouring edges may bear one name (a notched edge is several pieces of one edge); `edge` gives the whole chain.
    """

    name: str
    outline: Ring
    edge_names: tuple[str, ...]
    kind: PanelKind = PanelKind.FACE
    holes: tuple[Ring, ...] = ()

    @cached_property
    def shape(self) -> Polygon:
        """The panel as one polygon with its holes (shapely)."""
        return Polygon(self.outline, self.holes)

    @property
    def area(self) -> float:
        """Area without the holes, mm²."""
        return signed_area(self.outline) - math.fsum(abs(signed_area(hole)) for hole in self.holes)

    def edge(self, name: str) -> Ring:
        """The chain of points of the named edge, in the direction of the outline. Raises `KeyError` if there is none."""
        count = len(self.outline)
        mine = [i for i in range(count) if self.edge_names[i] == name]
        if not mine:
            raise KeyError(f"panel {self.name!r} has no edge {name!r}, only {sorted(set(self.edge_names))}")
        first = next((i for i in mine if self.edge_names[i - 1] != name), mine[0])
        chain = [self.outline[first]]
        i = first
        while self.edge_names[i % count] == name and len(chain) <= len(mine):
            chain.append(self.outline[(i + 1) % count])
            i += 1
        return tuple(chain)

    def ends(self, name: str) -> tuple[Point, Point]:
        """First and last point of the named edge."""
        chain = self.edge(name)
        return chain[0], chain[-1]
