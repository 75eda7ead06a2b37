"""An envelope with seams at both sides. Lengths in mm; the size is that of the finished envelope."""

from collections.abc import Iterator

from kitwright.catalogue import Form, Greatest, Share, form, length
from kitwright.findings import Finding, Severity
from kitwright.pattern import (
    Axis,
    Claims,
    Draft,
    Extent,
    Joint,
    PanelKind,
    Pattern,
    Shows,
    Side,
    Stage,
    Stance,
    Up,
)

__all__ = ["SideSeamEnvelope"]

LEAST_CLOSING = 10.0
"""Least overlap of the closing flap on the back, mm: room for a line of glue. Common practice, no source."""


@form(
    "side-seam envelope",
    title="Side-seam envelope",
    summary="The back folds up over two side tabs; a flap closes it from the top.",
    size={"width": Axis.WIDTH, "height": Axis.HEIGHT},
)
class SideSeamEnvelope(Form):
    """Front, back, two side tabs behind the front, closing flap with slanted sides."""

    stance = Stance.STANDING
    lies_across = True
    glued = ("side_tab",)

    width: float = length("Width", at_least=50, at_most=400)
    height: float = length("Height", at_least=40, at_most=300)
    side_tab: float = length("Side tab", at_least=8, at_most=30, default=15.875)
    back: float = length("Height of the back", at_least=20, at_most=300, default=Share("height", 0.85))
    flap: float = length(
        "Closing flap",
        at_least=15,
        at_most=200,
        default=Greatest((Share("height", 0.4), Share("height", 0.15, more=13.5))),
    )

    def rules(self) -> Iterator[Finding]:
        """The back ends below the top fold, the flap reaches it, the side tabs do not meet."""
        if self.back > self.height:
            yield Finding("envelope-back-too-high", Severity.FAIL, "back", "The back is higher than the envelope.")
        if self.flap > self.height:
            yield Finding(
                "envelope-flap-too-long", Severity.FAIL, "flap", "The closing flap is longer than the envelope."
            )
        closing = self.back + self.flap - self.height
        if closing < LEAST_CLOSING:
            yield Finding(
                "envelope-flap-too-short",
                Severity.FAIL,
                "flap",
                "The closing flap hardly reaches the back, so the envelope cannot be closed.",
                measured=closing,
                required=LEAST_CLOSING,
                margin=closing - LEAST_CLOSING,
                because="common practice",
            )
        if 3 * self.side_tab > self.width:
            yield Finding(
                "envelope-tabs-too-deep", Severity.FAIL, "side tab", "The side tabs nearly meet in the middle."
            )

    def draw(self) -> Pattern:
        """Everything hangs on the front; print outside."""
        draft = Draft("envelope")
        front = draft.panel("front", self.width, self.height)
        back = front.fold_out("south", "back", self.back, angle=-180)
        free_top = self.height - self.back
        # seen from the score, the right tab's right end is at the bottom, the left tab's at the top
        right = front.tab("east", self.side_tab, angle=-180, inset=(0, free_top), slope=15, name="right tab")
        left = front.tab("west", self.side_tab, angle=-180, inset=(free_top, 0), slope=15, name="left tab")
        lean = min(self.flap / 3, self.width / 8)
        flap = front.fold_out("north", "closing flap", self.flap, angle=-180, taper=(lean, lean), kind=PanelKind.FLAP)
        sides = (
            Extent(Axis.WIDTH, front.edge("west"), front.edge("east")),
            Extent(Axis.HEIGHT, front.edge("south"), front.edge("north")),
        )
        return Pattern(
            (draft.finish(),),
            joints=(Joint(right.ref, back.ref, Side.UNDER), Joint(left.ref, back.ref, Side.UNDER)),
            stance=self.stance,
            claims=Claims(
                inside=sides,
                outside=sides,
                shows=(Shows(front.ref, main=True), Shows(back.ref, Up.ANY), Shows(flap.ref, Up.ANY)),
            ),
            stages=(
                Stage("Cut the blank and take away its corners."),
                Stage("Fold the two side tabs behind the front and burnish.", folds=("right tab", "left tab")),
                Stage(
                    "Fold the back up over the tabs; glue it down on the tabs only.",
                    folds=("back",),
                    glues=("right tab", "left tab"),
                ),
                Stage(
                    "Fold the closing flap over; leave it unglued until the card is inside.", folds=("closing flap",)
                ),
            ),
            pictured=(("closing flap", -35.0),),
        )
