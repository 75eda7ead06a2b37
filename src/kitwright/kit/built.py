"""A built kit: every part drawn and folded, every size settled. Lengths in millimetres."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from kitwright.catalogue import Form
from kitwright.findings import Finding
from kitwright.folding import Folded, MeasuredExtent
from kitwright.kit.model import Kit, Part
from kitwright.kit.things import Thing, flat_layers
from kitwright.paper import Paper, layers_thickness, turns_on_sheet
from kitwright.pattern import Axis, Pattern, Stance

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
    def up_the_face(self) -> Axis:
        """Along which axis the height of something glued on its face runs: a lid's face lies, so there it is the depth."""
        lies = Axis.DEPTH in self.outside and self.pattern.stance is not Stance.STANDING
        return Axis.DEPTH if lies else Axis.HEIGHT

    @property
    def turns_on_sheet(self) -> tuple[int, ...]:
        """The quarter turns, anticlockwise, with which its blanks may lie on a sheet."""
        has_up = self.pattern.claims.has_up
        return turns_on_sheet(self.paper, print_turn=self.part.turn, has_up=has_up, fibres=self.part.fibres)

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
        built = {each.name: each for each in self.parts}
        return things_held(self.kit, built, part.part.holds)

    def pile(self, part: BuiltPart) -> float:
        """Thickness of all the pieces of a flat part that one kit has, with what is glued on them and lies in them, mm."""
        built = {each.name: each for each in self.parts}
        return (part.thickness + carried(self.kit, built, part.name)) * part.part.quantity


def things_held(kit: Kit, built: Mapping[str, BuiltPart], names: Collection[str]) -> tuple[Thing, ...]:
    """Things that lie together in one holder, each as thick as it is with what it carries."""
    things = (thing_named(kit, built, name) for name in names)
    return tuple(
        replace(each, thickness=each.thickness + carried(kit, built, each.name, apart=names)) for each in things
    )


def carried(kit: Kit, built: Mapping[str, BuiltPart], name: str, *, apart: Collection[str] = ()) -> float:
    """How much thicker one piece of a flat part is for what is glued on it and what it holds (one of each), mm.

    What is named in `apart` lies in the same box on its own: a card beside its empty envelope.
    """
    if name not in built or not built[name].is_flat:
        return 0.0
    glued = [part.name for part in built.values() if part.part.on == name]
    inside = [each for each in (*glued, *built[name].part.holds) if each not in apart]
    return sum(thinnest_side(thing_named(kit, built, each)) + carried(kit, built, each, apart=apart) for each in inside)


def thinnest_side(thing: Thing) -> float:
    """The least of a thing's three sides: how much it adds to what it lies in, mm."""
    return thing.thickness if thing.is_flat else min(thing.width, thing.height, thing.thickness)


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
