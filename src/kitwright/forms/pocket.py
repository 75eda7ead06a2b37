"""A pocket: a panel with three tabs that is glued to a card or page and open at the top. Lengths in mm."""

from collections.abc import Iterator

from kitwright.catalogue import Form, Least, Share, form, length
from kitwright.findings import Finding, Severity
from kitwright.pattern import Axis, Claims, Draft, Extent, GlueArea, PanelRef, Pattern, Shows, Stage, Stance

__all__ = ["Pocket"]


@form(
    "pocket",
    title="Pocket",
    summary="A panel with three tabs folded behind it, glued down on a card or in a lid; things slip in from the top.",
    size={"width": Axis.WIDTH, "height": Axis.HEIGHT},
)
class Pocket(Form):
    """One panel, a tab at the left, at the right and at the bottom, a half-round notch for the thumb at the top."""

    stance = Stance.STANDING
    is_open = True
    glued = ("tab",)

    width: float = length("Width", at_least=30, at_most=300)
    height: float = length("Height", at_least=30, at_most=300)
    tab: float = length("Glue tab", at_least=6, at_most=25, default=9.525)
    notch: float = length(
        "Thumb notch, radius", at_least=3, at_most=30, default=Least((Share("width", 0.125), Share("height", 0.4)))
    )

    def rules(self) -> Iterator[Finding]:
        """Tabs and notch leave enough of the panel."""
        if 3 * self.tab > min(self.width, self.height):
            yield Finding(
                "pocket-tabs-too-deep", Severity.FAIL, "tab", "The tabs would take more than half of the pocket."
            )
        if 3 * self.notch > self.width or self.notch > self.height / 2:
            yield Finding(
                "pocket-notch-too-wide", Severity.FAIL, "notch", "The thumb notch is too wide for the pocket."
            )

    def draw(self) -> Pattern:
        """The panel with its tabs folded behind."""
        draft = Draft("pocket")
        front = draft.panel("front", self.width, self.height)
        for side, name in (("south", "bottom tab"), ("east", "right tab"), ("west", "left tab")):
            front.tab(side, self.tab, angle=-180, name=name)
        front.thumb_notch("north", self.notch)
        sides = (
            Extent(Axis.WIDTH, front.edge("west"), front.edge("east")),
            Extent(Axis.HEIGHT, front.edge("south"), front.edge("north")),
        )
        tabs = ("left tab", "right tab", "bottom tab")
        return Pattern(
            (draft.finish(),),
            stance=self.stance,
            claims=Claims(inside=sides, outside=sides, shows=(Shows(front.ref, main=True),)),
            stages=(
                Stage("Cut the tabs' slanted ends and the thumb notch."),
                Stage("Fold the three tabs behind the pocket and burnish.", folds=tabs),
                Stage("Put glue on the tabs only and press the pocket down; the top stays open."),
            ),
            outer_glue=tuple(GlueArea(PanelRef(draft.name, tab), behind=False) for tab in tabs),
            pictured=(("left tab", -60.0), ("right tab", -60.0), ("bottom tab", -60.0)),
        )
