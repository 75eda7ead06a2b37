"""A pattern: all blanks of one part, how they are joined, how the part stands, and the order of making it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property

from kitwright.pattern.blank import Blank
from kitwright.pattern.claims import Claims
from kitwright.pattern.joint import GlueArea, Joint, PanelRef, Side
from kitwright.pattern.panel import Panel, PanelKind

__all__ = ["Pattern", "Stage", "Stance"]


class Stance(StrEnum):
    """How the root panel of the first blank lies when the part is finished."""

    LYING = "lying"
    """Flat on the table, print side up; the blank's right is right, its up is away from you."""
    FACE_DOWN = "face down"
    """Flat on the table, print side down (the bottom of a box); the blank's up is away from you."""
    STANDING = "standing"
    """Upright, print side towards you; the blank's right is right, its up is up."""


@dataclass(frozen=True, slots=True)
class Stage:
    """One step of making: what to do in words, the panels folded to their finished angle in it, the tabs glued in it."""

    words: str
    folds: tuple[str, ...] = ()
    glues: tuple[str, ...] = ()


@dataclass(frozen=True)
class Pattern:
    """Blanks with their joints, claims and stages. Poses start from the root panel of the first blank, in the given stance.

    `pictured` gives the angles, in degrees by panel name, at which some panels are drawn where the finished angle would hide what
    matters (a card a little open). `outer_glue` is where the part is glued to another part.
    """

    blanks: tuple[Blank, ...]
    joints: tuple[Joint, ...] = ()
    stance: Stance = Stance.LYING
    claims: Claims = field(default_factory=Claims)
    stages: tuple[Stage, ...] = ()
    pictured: tuple[tuple[str, float], ...] = ()
    outer_glue: tuple[GlueArea, ...] = ()

    def copies(self) -> Iterator[tuple[str, Blank]]:
        """Every piece of card that makes up the part, by its copy's name: "half", "half 2"."""
        for blank in self.blanks:
            for number in range(1, blank.copies + 1):
                yield (blank.name if number == 1 else f"{blank.name} {number}"), blank

    def panels(self) -> Iterator[tuple[PanelRef, Panel]]:
        """Every panel of every copy."""
        for name, blank in self.copies():
            for panel in blank.panels:
                yield PanelRef(name, panel.name), panel

    @cached_property
    def by_copy(self) -> dict[str, Blank]:
        """The blank of each copy, by the copy's name."""
        return dict(self.copies())

    def blank_of(self, copy: str) -> Blank:
        """The blank of which `copy` is a copy. Raises `KeyError`."""
        return self.by_copy[copy]

    def panel(self, ref: PanelRef) -> Panel:
        """The panel referred to. Raises `KeyError`."""
        return self.blank_of(ref.blank).panel(ref.panel)

    @property
    def glue_areas(self) -> tuple[GlueArea, ...]:
        """Every place that gets glue: the tabs of the joints, the backs of hems, and what is glued to another part."""
        joints = (GlueArea(joint.tab, joint.side is Side.OVER) for joint in self.joints if joint.glued)
        hems = (GlueArea(ref, behind=True) for ref, panel in self.panels() if panel.kind is PanelKind.HEM)
        return (*joints, *hems, *self.outer_glue)

    @property
    def area(self) -> float:
        """Paper in the whole part, mm²."""
        return math.fsum(blank.area for _, blank in self.copies())
