"""An open tray with glued corners: the base of a box with a lift-off lid. Lengths in mm, score to score."""

from collections.abc import Iterator

from kitwright.catalogue import Form, Least, Share, choice, form, length
from kitwright.findings import Finding, Severity
from kitwright.pattern import Axis, Pattern, Side, Stance, walled_pattern

__all__ = ["Tray"]


@form(
    "tray",
    title="Tray",
    summary="An open box from one square-cornered blank: four walls, four glued corners.",
    size={"width": Axis.WIDTH, "depth": Axis.DEPTH, "height": Axis.HEIGHT},
)
class Tray(Form):
    """A bottom and four walls; the front and the back wall bear the corner tabs."""

    stance = Stance.FACE_DOWN
    has_inside = True
    halves = "two-half wrap box"
    glued = ("tab",)

    width: float = length("Width", at_least=20, at_most=400)
    depth: float = length("Depth", at_least=20, at_most=400)
    height: float = length("Height of the walls", at_least=8, at_most=150)
    tab: float = length("Glue tab", at_least=6, at_most=25, default=Least((12.7, Share("depth", 0.4))))
    tabs: str = choice("Where the tabs go", "inside", "outside", help="inside the side walls, or on them")

    def rules(self) -> Iterator[Finding]:
        """The tabs leave each other room."""
        if 2 * self.tab > self.depth:
            yield Finding("tray-tabs-meet", Severity.FAIL, "tab", "The two tabs on a side wall would overlap.")

    def draw(self) -> Pattern:
        """The bottom with four walls round it."""
        return walled_pattern(
            "tray",
            "bottom",
            (self.width, self.depth, self.height),
            tab=self.tab,
            side=Side.UNDER if self.tabs == "inside" else Side.OVER,
            stance=self.stance,
            folding="Raise the walls and fold the tabs in.",
            gluing="Glue the tabs to the side walls, one corner after the other; hold each until it sticks.",
        )
