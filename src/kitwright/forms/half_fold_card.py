"""A card folded in half, at its side or at its top. Lengths in mm; the size is that of the closed card."""

from kitwright.catalogue import Form, choice, form, length
from kitwright.pattern import Axis, Claims, Draft, Extent, Pattern, Seam, Shows, Stage, Stance, Up

__all__ = ["HalfFoldCard"]


@form(
    "half-fold card",
    title="Half-fold card",
    summary="A card base folded once in the middle: at the side like a book, or at the top like a tent.",
    size={"width": Axis.WIDTH, "height": Axis.HEIGHT},
)
class HalfFoldCard(Form):
    """Two equal panels and one score; the print is outside."""

    stance = Stance.STANDING

    width: float = length("Width, closed", at_least=30, at_most=300)
    height: float = length("Height, closed", at_least=30, at_most=300)
    fold: str = choice("Where the fold is", "side", "top", help="side: opens like a book; top: opens like a tent")

    def draw(self) -> Pattern:
        """The front, and the back folded out of its left or its top edge."""
        draft = Draft("card base")
        front = draft.panel("front", self.width, self.height)
        at_side = self.fold == "side"
        spine = "west" if at_side else "north"
        back = front.fold_out(spine, "back", self.width if at_side else self.height, angle=-180)
        meeting = ("east", "north", "south") if at_side else ("south", "east", "west")
        sides = (
            Extent(Axis.WIDTH, front.edge("west"), front.edge("east")),
            Extent(Axis.HEIGHT, front.edge("south"), front.edge("north")),
        )
        seams = tuple(
            Seam(back.edge(mine), front.edge(its)) for mine, its in zip(("far", "right", "left"), meeting, strict=True)
        )
        return Pattern(
            (draft.finish(),),
            stance=self.stance,
            claims=Claims(
                outside=sides,
                seams=seams,
                shows=(Shows(front.ref, main=True), Shows(back.ref, Up.UPRIGHT if at_side else Up.ANY)),
            ),
            stages=(
                Stage(
                    "Score the middle line on the side that will be outside, then fold away from you.", folds=("back",)
                ),
                Stage("Burnish the fold with a bone folder."),
            ),
            pictured=(("back", -140.0),),
        )
