"""Four walls round a base with glued corners: the drawing that trays and lids share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kitwright.pattern.claims import Axis, End, Extent, Seam
from kitwright.pattern.draft import COMPASS, Sketched
from kitwright.pattern.joint import Joint, Side

__all__ = ["Walls", "raise_walls"]

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
