"""A flat card: one rectangle, no fold. Lengths in mm."""

from kitwright.catalogue import Form, form, length
from kitwright.pattern import Axis, Claims, Draft, Extent, Pattern, Shows, Stage, Stance

__all__ = ["FlatCard"]


@form(
    "flat card",
    title="Flat card",
    summary="One rectangle: a recipe card, a divider, a note card without a fold.",
    size={"width": Axis.WIDTH, "height": Axis.HEIGHT},
)
class FlatCard(Form):
    """A rectangle of card, seen upright."""

    stance = Stance.STANDING

    width: float = length("Width", at_least=20, at_most=600)
    height: float = length("Height", at_least=20, at_most=600)

    def draw(self) -> Pattern:
        """One panel."""
        draft = Draft("card")
        card = draft.panel("front", self.width, self.height)
        sides = (
            Extent(Axis.WIDTH, card.edge("west"), card.edge("east")),
            Extent(Axis.HEIGHT, card.edge("south"), card.edge("north")),
        )
        return Pattern(
            (draft.finish(),),
            stance=self.stance,
            claims=Claims(outside=sides, shows=(Shows(card.ref, main=True),)),
            stages=(Stage("Cut the card."),),
        )
