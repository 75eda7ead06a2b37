"""A form that is drawn wrong in one way after the other, for findings that no form of the catalogue ever gives cause for."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from kitwright import catalogue
from kitwright.catalogue import Form, choice, length
from kitwright.pattern import Axis, Claims, Draft, Joint, PanelKind, Pattern, Seam, Shows, Side, Stage, Stance

__all__ = ["misdrawn_form"]


@catalogue.form("trial piece", title="Trial piece", summary="Drawn wrong.", size={"width": Axis.WIDTH})
class TrialPiece(Form):
    """A band of four sides with a tab, a strip of three, or a card with flaps; `slip` says what is wrong with it."""

    width: float = length("Width", at_least=30, at_most=200)
    slip: str = choice("Slip", "none", "short side", "long tab", "crossed", "woven", "covered", "hook in the way")

    def draw(self) -> Pattern:
        """One of the drawings."""
        return {
            "crossed": self.crossed,
            "woven": self.woven,
            "covered": self.covered,
            "hook in the way": self.hooked,
        }.get(self.slip, self.band)()

    def band(self) -> Pattern:
        """Right; or with a side too short, so that the seam gapes; or with a tab longer than what it is glued to."""
        draft = Draft("band")
        one = draft.panel("front", self.width, 30)
        two = one.fold_out("east", "right", 40)
        three = two.fold_out("far", "back", self.width)
        four = three.fold_out("far", "left", 38 if self.slip == "short side" else 40)
        end = four.tab("far", self.width + 2 if self.slip == "long tab" else 10, slope=0, name="tab")
        return Pattern(
            (draft.finish(),),
            joints=(Joint(end.ref, one.ref, Side.UNDER),),
            stance=Stance.STANDING,
            claims=Claims(seams=(Seam(four.edge("far"), one.edge("west")),), shows=(Shows(one.ref, main=True),)),
            stages=(Stage("Fold.", folds=("right", "back", "left", "tab")),),
        )

    def crossed(self) -> Pattern:
        """Two flaps that pass through each other."""
        draft = Draft("cross")
        base = draft.panel("base", self.width, 60)
        base.fold_out("east", "right", self.width, angle=-135)
        base.fold_out("west", "left", self.width, angle=-135)
        return Pattern((draft.finish(),), stages=(Stage("Fold.", folds=("right", "left")),))

    def woven(self) -> Pattern:
        """Four flaps, each over the next all the way round."""
        draft = Draft("base")
        bottom = draft.panel("bottom", self.width, self.width)
        flaps = [
            bottom.fold_out(side, side, self.width * 0.75, angle=-180, kind=PanelKind.FLAP)
            for side in ("south", "east", "north", "west")
        ]
        pairs = zip(flaps, flaps[1:] + flaps[:1], strict=True)
        joints = tuple(Joint(one.ref, other.ref, Side.OVER, glued=False) for one, other in pairs)
        return Pattern(
            (draft.finish(),), joints=joints, stages=(Stage("Fold.", folds=("south", "east", "north", "west")),)
        )

    def covered(self) -> Pattern:
        """A face that should show, under a flap."""
        draft = Draft("double")
        face = draft.panel("face", self.width, 30)
        face.fold_out("north", "cover", 30, angle=180)
        shows = Claims(shows=(Shows(face.ref, main=True),))
        return Pattern(
            (draft.finish(),), stance=Stance.STANDING, claims=shows, stages=(Stage("Fold.", folds=("cover",)),)
        )

    def hooked(self) -> Pattern:
        """An arm whose hook swings through a post."""
        draft = Draft("strip")
        body = draft.panel("body", 40, 30)
        body.fold_out("west", "post", 30)
        body.fold_out("east", "arm", 30).fold_out("far", "hook", 45, angle=-100)
        return Pattern(
            (draft.finish(),), stages=(Stage("Fold.", folds=("post", "hook")), Stage("Swing.", folds=("arm",)))
        )


catalogue._FORMS.pop("trial piece")


@contextmanager
def misdrawn_form() -> Iterator[None]:
    """The form "trial piece" is in the catalogue for as long as this lasts."""
    catalogue._FORMS["trial piece"] = TrialPiece
    try:
        yield
    finally:
        catalogue._FORMS.pop("trial piece")
