"""A built part: drawn, folded and measured, every size settled. Lengths in millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from kitwright.catalogue import Form
from kitwright.findings import Finding
from kitwright.folding import Folded, LayerModel, MeasuredExtent
from kitwright.kit.model import Part
from kitwright.kit.things import Thing, flat_layers
from kitwright.paper import Paper, layers_thickness, turns_on_mat, turns_on_sheet
from kitwright.pattern import Axis, Pattern, Stance

__all__ = ["BuiltPart"]


@dataclass(frozen=True, eq=False)
class BuiltPart:
    """A part with its form's parameters settled (`lengths` exact), drawn, folded and measured on the folded part with its layers, `model`.

    `how` says in sentences where the size comes from; `notes` are findings met on the way (numbers off the ruler and the like).
    """

    part: Part
    form: Form
    paper: Paper
    lengths: Mapping[str, Fraction]
    pattern: Pattern
    folded: Folded
    model: LayerModel
    inside: Mapping[Axis, MeasuredExtent]
    outside: Mapping[Axis, MeasuredExtent]
    how: tuple[str, ...] = ()
    notes: tuple[Finding, ...] = ()

    @property
    def name(self) -> str:
        """The part's name."""
        return self.part.name

    @property
    def is_flat(self) -> bool:
        """Whether the finished part is flat: it has no measured depth of its own."""
        return Axis.DEPTH not in self.outside

    @property
    def flat_room(self) -> tuple[float, float]:
        """Width and height of the room inside a flat part, mm: of one that is open at the top up to its edge, beside the thumb notch."""
        high = self.outside if self.form.is_open else self.inside
        return self.inside[Axis.WIDTH].net, high[Axis.HEIGHT].net

    @property
    def up_the_face(self) -> Axis:
        """Along which axis the height of something glued on its face runs: a lid's face lies, so there it is the depth."""
        lies = not self.is_flat and self.form.stance is not Stance.STANDING
        return Axis.DEPTH if lies else Axis.HEIGHT

    @property
    def turns_on_sheet(self) -> tuple[int, ...]:
        """The quarter turns, anticlockwise, with which its blanks may lie on a sheet."""
        has_up = self.pattern.claims.has_up
        return turns_on_sheet(self.paper, print_turn=self.part.turn, has_up=has_up, fibres=self.part.fibres)

    @property
    def turns_on_mat(self) -> tuple[int, ...]:
        """The same for the mat of a cutting machine."""
        has_up = self.pattern.claims.has_up
        return turns_on_mat(self.paper, print_turn=self.part.turn, has_up=has_up, fibres=self.part.fibres)

    @cached_property
    def layers(self) -> int:
        """The most layers of card that lie on each other in a flat part."""
        return flat_layers(self.folded)

    @property
    def thickness(self) -> float:
        """Depth of a folded part that is not flat; thickness of the layers of one that is."""
        if not self.is_flat:
            return self.outside[Axis.DEPTH].net
        return layers_thickness(self.layers, self.paper)

    @property
    def thing(self) -> Thing:
        """The part as something to be packed, in the quantity of one kit."""
        return Thing(
            name=self.name,
            width=self.outside[Axis.WIDTH].net,
            height=self.outside[Axis.HEIGHT].net,
            thickness=self.thickness,
            count=self.part.quantity,
            is_flat=self.is_flat,
        )
