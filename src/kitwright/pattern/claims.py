"""What a form promises of its folded pattern; the folding layer measures, the proof checks.

Axes of a folded part: *width* runs left to right, *depth* from the front to the back, *height* upwards.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from kitwright.pattern.joint import EdgeRef, PanelRef

__all__ = ["Axis", "Claims", "End", "Extent", "Seam", "Shows", "Up"]

End = PanelRef | EdgeRef
"""Where an extent ends: at a panel (its thickness and layers count) or at an edge (they do not)."""


class Axis(StrEnum):
    """The three directions of a folded part."""

    WIDTH = "width"
    DEPTH = "depth"
    HEIGHT = "height"

    @property
    def place(self) -> int:
        """Its place among the coordinates of a folded part: 0, 1 or 2."""
        return tuple(Axis).index(self)


@dataclass(frozen=True, slots=True)
class Extent:
    """A size of the folded part along one axis, between two ends."""

    axis: Axis
    low: End
    high: End


class Up(StrEnum):
    """How a one-way print must lie on a face that shows."""

    UPRIGHT = "upright"
    """Up on the print is up in the world (on a lying face: away from the person in front)."""
    ANY = "any"
    """It shows, but no way up is wrong there (a bottom, a side flap's edge)."""


@dataclass(frozen=True, slots=True)
class Shows:
    """A face that can be seen on the finished part, and how a one-way print must lie on it.

    A `main` face is looked at first (the front, the top): there a wrong way up spoils the part. `back`: the unprinted side shows.
    """

    panel: PanelRef
    up: Up = Up.UPRIGHT
    main: bool = False
    back: bool = False


@dataclass(frozen=True, slots=True)
class Seam:
    """Two edges that meet when the part is folded."""

    one: EdgeRef
    other: EdgeRef


@dataclass(frozen=True, slots=True)
class Claims:
    """All promises of a form: what fits inside, what it measures outside, which edges meet, which faces show."""

    inside: tuple[Extent, ...] = ()
    outside: tuple[Extent, ...] = ()
    seams: tuple[Seam, ...] = ()
    shows: tuple[Shows, ...] = ()

    @property
    def has_up(self) -> bool:
        """Whether a print shows on some face where a way up could be wrong."""
        return any(each.up is Up.UPRIGHT and not each.back for each in self.shows)
