"""A mat: a rectangle glued on a card, leaving an even border. Lengths in mm."""

from kitwright.catalogue import Form, form, length
from kitwright.pattern import Axis, Claims, Draft, Extent, GlueArea, Pattern, Shows, Stage, Stance

__all__ = ["Mat"]


@form(
    "mat",
    title="Mat",
    summary="A rectangle that is glued on a card (or on a larger mat) so that an even border shows.",
    size={"width": Axis.WIDTH, "height": Axis.HEIGHT},
)
class Mat(Form):
    """A rectangle of card or paper, seen upright on its card."""

    stance = Stance.STANDING

    width: float = length("Width", at_least=10, at_most=600)
    height: float = length("Height", at_least=10, at_most=600)

    def draw(self) -> Pattern:
        """One panel, glued all over its back."""
        draft = Draft("mat")
        mat = draft.panel("front", self.width, self.height)
        sides = (
            Extent(Axis.WIDTH, mat.edge("west"), mat.edge("east")),
            Extent(Axis.HEIGHT, mat.edge("south"), mat.edge("north")),
        )
        return Pattern(
            (draft.finish(),),
            stance=self.stance,
            claims=Claims(outside=sides, shows=(Shows(mat.ref, main=True),)),
            stages=(Stage("Cut the mat."), Stage("Put glue all over its back and press it down.")),
            outer_glue=(GlueArea(mat.ref, behind=True),),
        )
