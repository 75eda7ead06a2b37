"""A belly band: a strip wrapped round a box or a stack, its end glued on itself. Lengths in mm."""

from collections.abc import Iterator

from kitwright.catalogue import Form, form, length
from kitwright.findings import Finding, Severity
from kitwright.pattern import Axis, Claims, Draft, Extent, Joint, Pattern, Seam, Shows, Side, Stage, Stance

__all__ = ["BellyBand"]


@form(
    "belly band",
    title="Belly band",
    summary="A strip that goes once round a box or a stack of cards and is glued on itself at the back.",
    size={"width": Axis.WIDTH, "depth": Axis.DEPTH, "height": Axis.HEIGHT},
)
class BellyBand(Form):
    """Front, right side, back, left side and an overlap; width and depth are those of what it goes round."""

    stance = Stance.STANDING
    hangs = ("height",)
    spans = frozenset({Axis.WIDTH, Axis.DEPTH})
    glued = ("overlap",)

    width: float = length("Width of what it goes round", at_least=30, at_most=300)
    depth: float = length("Depth of what it goes round", at_least=1, at_most=150)
    height: float = length("Breadth of the band", at_least=10, at_most=250, default=50.8)
    overlap: float = length("Overlap to glue", at_least=8, at_most=60, default=25.4)

    def rules(self) -> Iterator[Finding]:
        """The overlap stays on the back."""
        if self.overlap > self.width:
            yield Finding(
                "band-overlap-too-long", Severity.FAIL, "overlap", "The overlap is longer than the back is wide."
            )

    def draw(self) -> Pattern:
        """A strip of four panels and the overlap, which lies inside behind the back."""
        draft = Draft("band")
        front = draft.panel("front", self.width, self.height)
        right = front.fold_out("east", "right side", self.depth)
        back = right.fold_out("far", "back", self.width)
        left = front.fold_out("west", "left side", self.depth)
        overlap = left.tab("far", self.overlap, slope=15, name="overlap")
        around = (
            Extent(Axis.WIDTH, left.ref, right.ref),
            Extent(Axis.DEPTH, front.ref, back.ref),
        )
        high = Extent(Axis.HEIGHT, front.edge("south"), front.edge("north"))
        return Pattern(
            (draft.finish(),),
            joints=(Joint(overlap.ref, back.ref, Side.UNDER),),
            stance=self.stance,
            claims=Claims(
                inside=around,
                outside=(*around, high),
                seams=(Seam(back.edge("far"), left.edge("far")),),
                shows=(Shows(front.ref, main=True), Shows(back.ref), Shows(right.ref), Shows(left.ref)),
            ),
            stages=(
                Stage("Fold on all scores, print outside.", folds=("right side", "back", "left side", "overlap")),
                Stage(
                    "Lay the band round, glue the back on the overlap, and keep glue off what is inside.",
                    glues=("overlap",),
                ),
            ),
        )
