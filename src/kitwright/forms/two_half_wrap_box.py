"""A box from two equal halves whose sides and bottoms overlap: a one-way print stands upright front and back. Lengths in mm."""

from collections.abc import Iterator

from kitwright.catalogue import Form, form, length
from kitwright.findings import Finding, Severity
from kitwright.pattern import (
    Axis,
    Claims,
    Draft,
    End,
    Extent,
    Joint,
    Mate,
    Pattern,
    Seam,
    Shows,
    Side,
    Stage,
    Stance,
    Up,
)

__all__ = ["TwoHalfWrapBox"]


@form(
    "two-half wrap box",
    title="Two-half wrap box",
    summary="Two equal blanks, each with a face, two sides and a bottom; sides and bottoms overlap, the top edge is hemmed.",
    size={"width": Axis.WIDTH, "depth": Axis.DEPTH, "height": Axis.HEIGHT},
)
class TwoHalfWrapBox(Form):
    """An open box; each half's left side goes over the other half's right side."""

    stance = Stance.STANDING
    has_inside = True
    stands_contents = True
    glued = ("hem",)

    width: float = length("Width", at_least=30, at_most=400)
    depth: float = length("Depth", at_least=15, at_most=200)
    height: float = length("Height", at_least=30, at_most=300)
    hem: float = length("Top hem", at_least=5, at_most=30, default=12.7)

    def rules(self) -> Iterator[Finding]:
        """The hem's slanted ends leave something of it, and it is shorter than the walls."""
        if 2 * self.nick >= self.depth or self.hem > self.height / 2:
            yield Finding("wrap-box-hem-too-deep", Severity.FAIL, "hem", "The hem is too deep for so small a box.")

    @property
    def nick(self) -> float:
        """How far the hem's ends are taken back so that they do not jam in the corners."""
        return self.hem / 4

    def draw(self) -> Pattern:
        """One blank, cut twice: the second half stands behind, turned round."""
        draft = Draft("half", copies=2)
        face = draft.panel("face", self.width, self.height)
        left = face.fold_out("west", "left side", self.depth)
        right = face.fold_out("east", "right side", self.depth)
        bottom = face.fold_out("south", "bottom", self.depth)
        face.hem("north", self.hem, nick=self.nick, name="face hem")
        left.hem("right", self.hem, nick=self.nick, name="left hem")
        right.hem("left", self.hem, nick=self.nick, name="right hem")
        ends: tuple[tuple[Axis, End, End], ...] = (
            (Axis.WIDTH, right.on(2), right.on(1)),
            (Axis.DEPTH, face.on(1), face.on(2)),
            (Axis.HEIGHT, bottom.on(1), face.edge("north")),
        )
        extents = tuple(Extent(axis, low, high) for axis, low, high in ends)
        return Pattern(
            (draft.finish(),),
            joints=(
                Joint(left.on(2), right.on(1), Side.OVER, Mate("hinge", "far", along=True)),
                Joint(left.on(1), right.on(2), Side.OVER),
                Joint(bottom.on(2), bottom.on(1), Side.OVER),
            ),
            stance=self.stance,
            claims=Claims(
                inside=extents,
                outside=extents,
                seams=(
                    Seam(right.edge("far"), face.edge("west", copy=2)),
                    Seam(right.edge("far", copy=2), face.edge("west")),
                    Seam(bottom.edge("far"), face.edge("south", copy=2)),
                    Seam(bottom.edge("left"), right.edge("right")),
                ),
                shows=(
                    Shows(face.on(1), main=True),
                    Shows(face.on(2), main=True),
                    Shows(left.on(1)),
                    Shows(left.on(2)),
                    Shows(bottom.on(2), Up.ANY),
                ),
            ),
            stages=(
                Stage("Cut two halves alike; cut the two lower corners away and slant the ends of the hems."),
                Stage("Fold the hems behind and glue them flat.", folds=("face hem", "left hem", "right hem")),
                Stage(
                    "Fold sides and bottom of both halves away from the print.",
                    folds=("left side", "right side", "bottom"),
                ),
                Stage(
                    "Set the halves face to face: each left side goes outside the other half's right side. Glue the sides, then "
                    "the bottoms.",
                    glues=("left side", "bottom"),
                ),
            ),
        )
