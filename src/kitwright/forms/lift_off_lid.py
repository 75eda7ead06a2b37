"""A lid that lifts off: a shallow tray upside down over a box. Lengths in mm, score to score."""

from collections.abc import Iterator

from kitwright.catalogue import Form, Least, Share, choice, form, length
from kitwright.findings import Finding, Severity
from kitwright.pattern import Axis, Pattern, Side, Stance, walled_pattern

__all__ = ["LiftOffLid"]


@form(
    "lift-off lid",
    title="Lift-off lid",
    summary="A shallow tray turned over, a little larger than the box that it covers.",
    size={"width": Axis.WIDTH, "depth": Axis.DEPTH, "height": Axis.HEIGHT},
)
class LiftOffLid(Form):
    """A top and four rims; the front and the back rim bear the corner tabs."""

    stance = Stance.LYING
    has_inside = True
    hangs = ("height",)
    spans = frozenset({Axis.WIDTH, Axis.DEPTH})
    glued = ("tab",)

    width: float = length("Width", at_least=20, at_most=400)
    depth: float = length("Depth", at_least=20, at_most=400)
    height: float = length("Height of the rim", at_least=8, at_most=150, default=25.4)
    tab: float = length("Glue tab", at_least=6, at_most=25, default=Least((12.7, Share("depth", 0.4))))
    tabs: str = choice("Where the tabs go", "inside", "outside", help="inside the side rims, or on them")

    def rules(self) -> Iterator[Finding]:
        """The tabs leave each other room."""
        if 2 * self.tab > self.depth:
            yield Finding("lid-tabs-meet", Severity.FAIL, "tab", "The two tabs on a side rim would overlap.")

    def draw(self) -> Pattern:
        """The top with four rims folded down round it."""
        return walled_pattern(
            "lid",
            "top",
            (self.width, self.depth, self.height),
            tab=self.tab,
            side=Side.UNDER if self.tabs == "inside" else Side.OVER,
            stance=self.stance,
            folding="Fold the rims down and the tabs in.",
            gluing="Try the lid on its box before gluing; then glue the tabs, one corner after the other.",
        )
