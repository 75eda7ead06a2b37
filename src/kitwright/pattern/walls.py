"""Four walls round a base with glued corners: the drawing, the promises and the steps that trays and lids share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kitwright.pattern.claims import Axis, Claims, End, Extent, Seam, Shows, Up
from kitwright.pattern.draft import COMPASS, Draft, Sketched
from kitwright.pattern.joint import Joint, Side
from kitwright.pattern.pattern import Pattern, Stage, Stance

__all__ = ["walled_pattern"]

LEAST_LEFT: Final = 0.05
"""Of a corner less than this (mm) beside its tab nobody can cut away, nor of a wall."""

WORDS: Final = {"south": "front", "east": "right", "north": "back", "west": "left"}
"""What the walls are called, as the blank lies on the bench with its print up."""


@dataclass(frozen=True, slots=True)
class Walls:
    """The walls by the side of the base that they stand on, the joints of their tabs and the seams of their corners."""

    panels: dict[str, Sketched]
    joints: tuple[Joint, ...]
    seams: tuple[Seam, ...]

    def extents(self, base: Sketched, *, hanging: bool) -> tuple[Extent, ...]:
        """Width, depth and height of the box that base and walls make; the walls hang down from a lid, they stand on a bottom.

        A bottom lies face down, so the wall on the right of its blank is the left one of the box.
        """
        left, right = ("west", "east") if hanging else ("east", "west")
        rim = self.panels["south"].edge("far")
        ends: tuple[tuple[Axis, End, End], ...] = (
            (Axis.WIDTH, self.panels[left].ref, self.panels[right].ref),
            (Axis.DEPTH, self.panels["south"].ref, self.panels["north"].ref),
            (Axis.HEIGHT, rim, base.ref) if hanging else (Axis.HEIGHT, base.ref, rim),
        )
        return tuple(Extent(axis, low, high) for axis, low, high in ends)


def raise_walls(base: Sketched, height: float, *, tab: float, side: Side) -> Walls:
    """Walls on all four sides of a rectangular base; the south and north walls bear the tabs that close the corners.

    `side` says whether the tabs lie behind the west and east walls (`UNDER`, inside the box) or on them (`OVER`).
    """
    walls = {side: base.fold_out(side, f"{WORDS[side]} wall", height) for side in COMPASS}
    joints: list[Joint] = []
    for name, (left, right) in {"south": ("east", "west"), "north": ("west", "east")}.items():
        for end, target in (("left", left), ("right", right)):
            tab_panel = walls[name].tab(end, tab, slope=15, name=f"tab {len(joints) + 1}")
            joints.append(Joint(tab_panel.ref, walls[target].ref, side))
    around = zip(COMPASS, (*COMPASS[1:], COMPASS[0]), strict=True)
    seams = tuple(Seam(walls[one].edge("left"), walls[following].edge("right")) for one, following in around)
    return Walls(walls, tuple(joints), seams)


def walled_pattern(
    name: str,
    base: str,
    size: tuple[float, float, float],
    *,
    tab: float,
    side: Side,
    stance: Stance,
    folding: str,
    gluing: str,
) -> Pattern:
    """A whole part of a base and four walls: `name` is its blank's, `base` that of the panel in the middle.

    `size` is width and depth of the base and the height of the walls, score to score. One that lies print side up is a lid, whose base
    shows on top; one that lies face down is a tray, which stands on its base. `folding` and `gluing` say the last two steps in words.
    """
    width, depth, height = size
    hanging = stance is Stance.LYING
    draft = Draft(name)
    middle = draft.panel(base, width, depth)
    walls = raise_walls(middle, height, tab=tab, side=side)
    front, *others = walls.panels.values()
    sides = (Shows(front.ref, main=True), *(Shows(wall.ref) for wall in others))
    shows = (Shows(middle.ref, main=True), *sides) if hanging else (*sides, Shows(middle.ref, Up.ANY))
    extents = walls.extents(middle, hanging=hanging)
    tabs = tuple(joint.tab.panel for joint in walls.joints)
    return Pattern(
        (draft.finish(),),
        joints=walls.joints,
        stance=stance,
        claims=Claims(inside=extents, outside=extents, seams=walls.seams, shows=shows),
        stages=(
            Stage(f"{corner_words(height - tab)} and slant the ends of the tabs."),
            Stage("Fold all scores away from the print and burnish them; open them again to a right angle."),
            Stage(folding, folds=(*(wall.name for wall in walls.panels.values()), *tabs)),
            Stage(gluing, glues=tabs),
        ),
    )


def corner_words(beside: float) -> str:
    """What is done to the corners, by how much of them is left beside the tabs; less than nothing where the tabs reach beyond the walls."""
    if beside >= LEAST_LEFT:
        return "Cut the four corners away"
    into = "Cut along the scores into the four corners, between the tabs and the walls beside them,"
    return f"{into} take a strip off each of those walls" if beside <= -LEAST_LEFT else into
