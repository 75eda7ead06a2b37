"""A flap lid: a strip over the back, the top and the front of a box, glued at the back. Lengths in mm, score to score."""

from collections.abc import Iterator

from kitwright.catalogue import Form, form, length
from kitwright.findings import Finding, Severity
from kitwright.pattern import Axis, Claims, Draft, Extent, GlueArea, Pattern, Shows, Stage, Stance

__all__ = ["FlapLid"]


@form(
    "flap lid",
    title="Flap lid",
    summary="Back, top and front flap in one strip with folded hems; glued to the box's back near its lower edge only.",
    size={"width": Axis.WIDTH, "depth": Axis.DEPTH},
)
class FlapLid(Form):
    """A top, a front flap and a back, the free edges of flap and back hemmed."""

    stance = Stance.LYING
    has_inside = True
    hangs = ("front_flap", "back")
    spans = frozenset({Axis.DEPTH})
    glued = ("hem",)

    width: float = length("Width", at_least=30, at_most=400)
    depth: float = length("Depth of the top", at_least=15, at_most=300)
    front_flap: float = length("Front flap", at_least=15, at_most=200, default=44.45)
    back: float = length("Back", at_least=20, at_most=300, default=63.5)
    hem: float = length("Hem", at_least=5, at_most=25, default=9.525)

    def rules(self) -> Iterator[Finding]:
        """The hems are shorter than what they are folded behind."""
        if self.hem > min(self.front_flap, self.back) * 0.75:
            yield Finding(
                "flap-lid-hem-too-deep", Severity.FAIL, "hem", "The hem nearly fills the flap it is folded behind."
            )

    def draw(self) -> Pattern:
        """A strip: back, top, front flap, with a hem at both ends."""
        draft = Draft("flap lid")
        top = draft.panel("top", self.width, self.depth)
        flap = top.fold_out("south", "front flap", self.front_flap)
        back = top.fold_out("north", "back", self.back)
        flap.hem("far", self.hem, name="front hem")
        foot = back.hem("far", self.hem, name="back hem")
        across = Extent(Axis.DEPTH, flap.ref, back.ref)
        return Pattern(
            (draft.finish(),),
            stance=self.stance,
            claims=Claims(
                inside=(across,),
                outside=(
                    Extent(Axis.WIDTH, top.edge("west"), top.edge("east")),
                    across,
                    Extent(Axis.HEIGHT, back.edge("far"), top.ref),
                ),
                shows=(Shows(top.ref, main=True), Shows(flap.ref, main=True), Shows(back.ref)),
            ),
            stages=(
                Stage("Fold both hems behind and glue them flat.", folds=("front hem", "back hem")),
                Stage(
                    "Fold the front flap and the back down from the top, print outside.", folds=("front flap", "back")
                ),
                Stage("With the box closed, glue only the back hem to the box's back, so that the lid keeps play."),
            ),
            outer_glue=(GlueArea(foot.ref, behind=False),),
        )
