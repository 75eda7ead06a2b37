"""How panels are glued to panels, within a blank or between blanks."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["EdgeRef", "GlueArea", "Joint", "Mate", "PanelRef", "Side"]


@dataclass(frozen=True, slots=True, order=True)
class PanelRef:
    """A panel of a pattern: the copy of a blank it is on, and its name. A blank's copies are "half", "half 2" and so on."""

    blank: str
    panel: str

    def __str__(self) -> str:
        return f"{self.panel} of {self.blank}"


@dataclass(frozen=True, slots=True, order=True)
class EdgeRef:
    """A named edge of a panel."""

    panel: PanelRef
    edge: str

    def __str__(self) -> str:
        return f"{self.edge} edge of {self.panel}"


class Side(StrEnum):
    """On which side of the target a tab lies."""

    UNDER = "under"
    """Behind the target, on its back; the glue is on the tab's print face."""
    OVER = "over"
    """On the target's print face; the glue is on the tab's back."""


@dataclass(frozen=True, slots=True)
class Mate:
    """How the tab's panel is laid on the target: this edge of the tab comes to lie on that edge of the target.

    The panels face the same way and the edges run the same way where `along` is true (one sheet laid on another, shifted);
    otherwise the edges run against each other (a continuation of the target beyond that edge, as across a seam).
    """

    tab_edge: str
    target_edge: str
    along: bool = False


@dataclass(frozen=True, slots=True)
class Joint:
    """A tab (or any panel) glued to a target. `mate` is needed where the joint is what puts another blank in its place."""

    tab: PanelRef
    target: PanelRef
    side: Side
    mate: Mate | None = None
    glued: bool = True


@dataclass(frozen=True, slots=True)
class GlueArea:
    """A panel that gets glue all over one of its sides: the print side, or its back where `behind` is true."""

    panel: PanelRef
    behind: bool
