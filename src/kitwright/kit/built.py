"""A built kit: every part drawn and folded, every size settled. Lengths in millimetres."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction

from kitwright.catalogue import Form
from kitwright.findings import Finding
from kitwright.folding import Folded, MeasuredExtent
from kitwright.kit.model import Kit, Part
from kitwright.kit.things import Thing, flat_layers
from kitwright.paper import Paper, layers_thickness
from kitwright.pattern import Axis, Pattern

__all__ = ["BuiltKit", "BuiltPart"]


@dataclass(frozen=True, eq=False)
class BuiltPart:
    """A part with its form's parameters settled (`lengths` exact), drawn, folded and measured on the folded part.

    `how` says in sentences where the size comes from; `notes` are findings met on the way (numbers off the ruler and the like).
    """

    part: Part
    form: Form
    paper: Paper
    lengths: Mapping[str, Fraction]
    pattern: Pattern
    folded: Folded
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
            layers=self.layers if self.is_flat else 1,
            is_flat=self.is_flat,
        )


@dataclass(frozen=True, eq=False)
class BuiltKit:
    """A kit with all its parts built, in the order of the document."""

    kit: Kit
    parts: tuple[BuiltPart, ...]

    def part(self, name: str) -> BuiltPart:
        """The built part with this name. Raises `KeyError`."""
        for part in self.parts:
            if part.name == name:
                return part
        raise KeyError(name)

    def things_in(self, part: BuiltPart) -> tuple[Thing, ...]:
        """What a part holds, as things, in the quantities of one kit."""
        return tuple(thing_named(self.kit, {each.name: each for each in self.parts}, name) for name in part.part.holds)


def mounted_on(parts: Collection[BuiltPart], name: str) -> float:
    """Thickness of all that lies on a part and goes with it into its envelope, mm."""
    return sum(part.thickness + mounted_on(parts, part.name) for part in parts if part.part.on == name)


def thing_named(kit: Kit, built: Mapping[str, BuiltPart], name: str) -> Thing:
    """A part or an extra as a thing. Raises `KeyError`."""
    if name in built:
        return built[name].thing
    extra = kit.find_extra(name)
    if extra is None:
        raise KeyError(name)
    first, second, third = (float(side) for side in extra.size)
    if extra.packed.value == "flat":
        first, second, third = sorted((first, second, third), reverse=True)
    return Thing(name, first, second, third, extra.quantity, is_flat=extra.packed.value == "flat")
