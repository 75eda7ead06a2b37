"""An open tray with glued corners: the base of a box with a lift-off lid. Lengths in mm, score to score."""

from collections.abc import Iterator

from kitwright.catalogue import Form, choice, form, length
from kitwright.findings import Finding, Severity
from kitwright.pattern import Axis, Claims, Draft, Pattern, Shows, Side, Stage, Stance, Up, raise_walls

__all__ = ["Tray"]


@form(
    "tray",
    title="Tray",
    summary="An open box from one square-cornered blank: four walls, four glued corners.",
    size={"width": Axis.WIDTH, "depth": Axis.DEPTH, "height": Axis.HEIGHT},
)
class Tray(Form):
    """A bottom and four walls; the front and the back wall bear the corner tabs."""

    width: float = length("Width", at_least=20, at_most=400)
    depth: float = length("Depth", at_least=20, at_most=400)
    height: float = length("Height of the walls", at_least=8, at_most=150)
    tab: float = length("Glue tab", at_least=6, at_most=25, default=12.7)
    tabs: str = choice("Where the tabs go", "inside", "outside", help="inside the side walls, or on them")

    def rules(self) -> Iterator[Finding]:
        """The tabs leave each other room."""
        if 2 * self.tab > self.depth:
            yield Finding("tray-tabs-meet", Severity.FAIL, "tab", "The two tabs on a side wall would overlap.")

    def draw(self) -> Pattern:
        """The bottom with four walls round it."""
        draft = Draft("tray")
        bottom = draft.panel("bottom", self.width, self.depth)
        walls = raise_walls(bottom, self.height, tab=self.tab, side=Side.UNDER if self.tabs == "inside" else Side.OVER)
        front, east, back, west = walls.panels.values()
        return Pattern(
            (draft.finish(),),
            joints=walls.joints,
            stance=Stance.FACE_DOWN,
            claims=Claims(
                inside=walls.extents(bottom, hanging=False),
                outside=walls.extents(bottom, hanging=False),
                seams=walls.seams,
                shows=(
                    Shows(front.ref, main=True),
                    Shows(east.ref),
                    Shows(back.ref),
                    Shows(west.ref),
                    Shows(bottom.ref, Up.ANY),
                ),
            ),
            stages=(
                Stage("Cut the four corners away and slant the ends of the tabs."),
                Stage("Fold all scores away from the print and burnish them; open them again to a right angle."),
                Stage(
                    "Raise the walls and fold the tabs in.",
                    folds=(
                        *(wall.name for wall in walls.panels.values()),
                        *(joint.tab.panel for joint in walls.joints),
                    ),
                ),
                Stage(
                    "Glue the tabs to the side walls, one corner after the other; hold each until it sticks.",
                    glues=tuple(joint.tab.panel for joint in walls.joints),
                ),
            ),
        )
