"""The fits of a kit as stacks of tolerances: which cuts, scores, folds and packs each free play depends on. Millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from kitwright.kit.built import BuiltKit, BuiltPart, thing_named, thinnest_side
from kitwright.kit.contents import room_for, stack_of
from kitwright.kit.things import Thing
from kitwright.measure import NEAR_MARK
from kitwright.paper import caliper_tolerance, layers_thickness
from kitwright.pattern import Axis
from kitwright.proof.packing import SPRINGBACK, stack_height
from kitwright.proof.tolerance import Accuracy, Fit, Lines, Makes, Stack, Variation, pack_thickness

__all__ = ["KitFits"]


class KitFits:
    """All fits of a built kit, made in numbers with one accuracy. `makes` are shared: every fit of a kit sees the same errors."""

    def __init__(self, built: BuiltKit, accuracy: Accuracy, makes: Makes) -> None:
        self.built = built
        self.accuracy = accuracy
        self.makes = makes

    @cached_property
    def lines(self) -> dict[str, Lines]:
        """The errors of every part, by its name."""
        return {part.name: Lines(part.name, part.folded, part.paper, self.accuracy) for part in self.built.parts}

    def inside(self, part: BuiltPart, axis: Axis) -> Stack:
        """An inside size of a part."""
        return self.lines[part.name].stack(part.inside[axis])

    def outside(self, part: BuiltPart, axis: Axis) -> Stack:
        """An outside size of a part."""
        return self.lines[part.name].stack(part.outside[axis])

    def thickness(self, part: BuiltPart, *, times: float = 1.0) -> Stack:
        """The thickness of a part, so many times: of a flat one that of its layers, all from one pack."""
        if not part.is_flat:
            return self.outside(part, Axis.DEPTH) * times
        paper, each = part.paper, part.thickness / layers_thickness(1, part.paper)
        variation = pack_thickness(paper.key, caliper_tolerance(paper))
        return Stack(part.thickness * times, {variation: each * times})

    def over(self, part: BuiltPart, host: BuiltPart, axis: Axis, *, most: float) -> Fit:
        """A lid or band along one axis."""
        is_pile = axis is Axis.DEPTH and host.is_flat
        count = host.part.quantity
        outer = (
            self.thickness(host, times=count) + self.mounted(host.name) * count if is_pile else self.outside(host, axis)
        )
        return self.fit([self.inside(part, axis) - outer], most)

    def mat(self, mat: BuiltPart, host: BuiltPart) -> Fit:
        """The four borders of a mat; by hand it is glued a little out of the middle."""
        borders = []
        for axis, across in ((Axis.WIDTH, Axis.WIDTH), (Axis.HEIGHT, host.up_the_face)):
            border = (self.outside(host, across) - self.outside(mat, axis)) * 0.5
            slip = Variation(f"{mat.name} on {host.name}: gluing {axis.value}", self.accuracy.glue, self.accuracy.shape)
            borders += [border + Stack(0.0, {slip: sign}) for sign in (1.0, -1.0)]
        return self.fit(borders, None)

    def envelope(self, part: BuiltPart, thing: Thing) -> Fit:
        """A card in an envelope or pocket, upright or turned, whichever leaves more; its thickness with what lies on it is taken off."""
        inside = [self.inside(part, axis) for axis in (Axis.WIDTH, Axis.HEIGHT)]
        card, bulge = self.card(thing)
        ways = [[inside[0] - one - bulge, inside[1] - other - bulge] for one, other in (card, card[::-1])]
        return self.fit(max(ways, key=lambda way: min(stack.nominal for stack in way)), None)

    def card(self, thing: Thing) -> tuple[list[Stack], Stack]:
        """Width and height of a thing, and how thick it is with all that lies on it."""
        part = next((each for each in self.built.parts if each.name == thing.name), None)
        if part is None:
            return [Stack(thing.width), Stack(thing.height)], Stack(thing.thickness) + self.mounted(thing.name)
        sides = [self.outside(part, axis) for axis in (Axis.WIDTH, Axis.HEIGHT)]
        return sides, self.thickness(part) + self.mounted(thing.name)

    def mounted(self, name: str) -> Stack:
        """How thick all is that is glued on a part or lies in it, one of each."""
        found = Stack(0.0)
        made = {part.name: part for part in self.built.parts}
        glued = [part.name for part in self.built.parts if part.part.on == name]
        held = made[name].part.holds if name in made and made[name].is_flat else ()
        for each in (*glued, *held):
            own = (
                self.thickness(made[each])
                if each in made
                else Stack(thinnest_side(thing_named(self.built.kit, made, each)))
            )
            found = found + own + self.mounted(each)
        return found

    def contents(self, part: BuiltPart, things: Sequence[Thing], *, standing: bool) -> Fit:
        """What a box holds, as one stack with the other things beside it.

        The stack varies with the packs; so wide as the widest of many cards it is as far off as a cut can be, so that is taken off
        for certain.
        """
        room = room_for(things, standing=standing)
        flat = [thing for thing in things if thing.is_flat]
        needed = {Axis.WIDTH: room.width, Axis.DEPTH: room.depth, Axis.HEIGHT: room.height}
        pile = Axis.DEPTH if standing else Axis.HEIGHT
        made = {each.name for each in self.built.parts}
        free = []
        for axis, length in needed.items():
            thick = Stack(length)
            if flat and axis is pile:
                thick = thick + self.pile(flat)
            elif any(thing.name in made for thing in flat):
                face = stack_of(flat, standing=standing)
                along = {Axis.WIDTH: face.width, Axis.DEPTH: face.depth, Axis.HEIGHT: face.height}[axis]
                thick = thick + (self.accuracy.cut if along > length - float(NEAR_MARK) else 0.0)
            free.append(self.inside(part, axis) - thick)
        return self.fit(free, None)

    def pile(self, flat: Sequence[Thing]) -> Stack:
        """How the height of a stack of flat things varies with the packs they come from; its nominal height is left out."""
        found = Stack(0.0)
        for thing in flat:
            part = next((each for each in self.built.parts if each.name == thing.name), None)
            if part is not None:
                found = found + self.thickness(part, times=stack_height([(thing.count, 1.0)], springback=SPRINGBACK))
        return Stack(0.0, found.moves)

    def fit(self, free: Sequence[Stack], most: float | None) -> Fit:
        """A fit with the source of this accuracy."""
        return Fit(tuple(free), most, self.accuracy.because)
