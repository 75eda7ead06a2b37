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

    def extents(self, base: Sketched) -> tuple[Extent, ...]:
        """Width, depth and height of the box that base and walls make."""
        ends: tuple[tuple[Axis, End, End], ...] = (
            (Axis.WIDTH, self.panels["west"].ref, self.panels["east"].ref),
            (Axis.DEPTH, self.panels["south"].ref, self.panels["north"].ref),
            (Axis.HEIGHT, base.ref, self.panels["south"].edge("far")),
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
