"""A tag: a small card with two corners cut off and a hole for a ribbon. Lengths in mm."""

from collections.abc import Iterator

from kitwright.catalogue import Form, Least, Share, form, length
from kitwright.findings import Finding, Severity
from kitwright.pattern import Axis, Claims, Draft, Extent, Pattern, Shows, Stage, Stance

__all__ = ["Tag"]

RIM = 3.0
"""Least card between a punched hole and an edge, mm; a narrower rim tears. Common practice, no source."""


@form(
    "tag",
    title="Tag",
    summary="A small card with its two upper corners cut off and a hole for a ribbon.",
    size={"width": Axis.WIDTH, "height": Axis.HEIGHT},
)
class Tag(Form):
    """A rectangle with cut corners and one round hole near the top."""

    stance = Stance.STANDING

    width: float = length("Width", at_least=20, at_most=150)
    height: float = length("Height", at_least=25, at_most=250)
    corner: float = length(
        "Corner cut off",
        at_least=2,
        at_most=40,
        default=Least((9.525, Share("width", 0.25))),
        help="along each edge, at 45 degrees",
    )
    hole: float = length("Hole across", at_least=2, at_most=12, default=4.7625)
    hole_below_top: float = length("Middle of the hole below the top", at_least=5, at_most=40, default=9.525)

    def rules(self) -> Iterator[Finding]:
        """The corners leave a top edge, and the hole keeps a rim."""
        if 2 * self.corner > self.width - 2 * RIM or self.corner > self.height / 2:
            yield Finding("tag-corners-meet", Severity.FAIL, "corner", "The two cut corners leave hardly any top edge.")
        to_middle = {
            "top edge": self.hole_below_top,
            "foot": self.height - self.hole_below_top,
            "sides": self.width / 2,
            "cut corners": (self.width / 2 + self.hole_below_top - self.corner) / 2**0.5,  # cut at 45 degrees
        }
        where = min(to_middle, key=to_middle.__getitem__)
        rim = to_middle[where] - self.hole / 2
        if rim < RIM:
            yield Finding(
                "tag-hole-near-edge",
                Severity.FAIL,
                "hole",
                f"The hole is so near to the {where} that the card would tear.",
                measured=rim,
                required=RIM,
                margin=rim - RIM,
                because="common practice",
            )

    def draw(self) -> Pattern:
        """One panel."""
        draft = Draft("tag")
        tag = draft.panel("front", self.width, self.height)
        tag.round_hole("north", diameter=self.hole, inwards=self.hole_below_top)
        tag.chamfer("north", self.corner)
        sides = (
            Extent(Axis.WIDTH, tag.edge("west"), tag.edge("east")),
            Extent(Axis.HEIGHT, tag.edge("south"), tag.edge("north")),
        )
        return Pattern(
            (draft.finish(),),
            stance=self.stance,
            claims=Claims(outside=sides, shows=(Shows(tag.ref, main=True),)),
            stages=(
                Stage("Cut the rectangle, then cut its two upper corners off."),
                Stage("Punch the hole in the middle below the top edge."),
            ),
        )
