"""The fits of a kit as stacks of tolerances: which cuts, scores, folds and packs each free play depends on. Millimetres."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property

from kitwright.kit.built import BuiltKit, BuiltPart
from kitwright.kit.closed import held_sums
from kitwright.kit.contents import room_for, stack_of
from kitwright.kit.sums import Term, along, face_sides, goes_between_walls, lined, nominal, reach
from kitwright.kit.things import Thing
from kitwright.measure import NEAR_MARK
from kitwright.paper import Paper, caliper_tolerance, layers_thickness
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
        self.made: Mapping[str, BuiltPart] = built.by_name

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

    def layers(self, paper: Paper, count: float) -> Stack:
        """The thickness of so many layers of a paper, all from one pack."""
        variation = pack_thickness(paper.key, caliper_tolerance(paper))
        return Stack(layers_thickness(1, paper) * count, {variation: count})

    def over(self, part: BuiltPart, host: BuiltPart, axis: Axis, *, most: float) -> Fit:
        """A lid or band along one axis."""
        outer = self.sum(reach(self.built.kit, self.made, host, along(part.part, axis)))
        return self.fit([self.inside(part, axis) - outer], most)

    def mat(self, mat: BuiltPart, host: BuiltPart) -> Fit:
        """The four borders of a mat, and inside a lid what is free between the walls of its box; by hand it is glued a little out of the
        middle.
        """
        borders = []
        for is_closed in (False, True) if goes_between_walls(mat.part, host) else (False,):
            for axis, room in zip(
                (Axis.WIDTH, Axis.HEIGHT), self.face_room(mat, host, is_closed=is_closed), strict=True
            ):
                border = (room - self.outside(mat, axis)) * 0.5
                about = f"{mat.name} on {host.name}: gluing {axis.value}"
                slip = Variation(about, self.accuracy.glue, self.accuracy.shape)
                borders += [border + Stack(0.0, {slip: sign}) for sign in (1.0, -1.0)]
        return self.fit(borders, None)

    def face_room(self, mat: BuiltPart, host: BuiltPart, *, is_closed: bool) -> list[Stack]:
        """Width and height of the face that something is glued on; see `face_sides`."""
        sides = face_sides(self.made, mat.part, host, is_closed=is_closed)
        return [self.lines[each.name].stack(side) for each, side in sides]

    def envelope(self, part: BuiltPart, thing: Thing) -> Fit:
        """A card in an envelope, upright or turned, whichever leaves more; the thickness of all that lies in it is taken off."""
        inside = [self.inside(part, axis) for axis in (Axis.WIDTH, Axis.HEIGHT)]
        card, bulge = self.card(part, thing), self.sum(self.filling(part))
        ways = [[inside[0] - one - bulge, inside[1] - other - bulge] for one, other in (card, card[::-1])]
        return self.fit(max(ways, key=lambda way: min(stack.nominal for stack in way)), None)

    def pocket(self, part: BuiltPart, thing: Thing, *, is_turned: bool) -> Fit:
        """A thing in a pocket, between its sides: at the top it may stick out."""
        wide = self.card(part, thing)[1 if is_turned else 0]
        return self.fit([self.inside(part, Axis.WIDTH) - wide - self.sum(self.filling(part))], None)

    def card(self, part: BuiltPart, thing: Thing) -> list[Stack]:
        """Width and height of a thing as it lies in an envelope or pocket."""
        if thing.name not in self.made:
            return [Stack(thing.width), Stack(thing.height)]
        sums = held_sums(self.built.kit, self.made, part.part, thing.name)
        return [self.sum(sums[axis]) for axis in (Axis.WIDTH, Axis.HEIGHT)]

    def filling(self, part: BuiltPart) -> tuple[Term, ...]:
        """All that lies in one envelope or pocket, each with what is glued on it or lies in it."""
        return tuple(
            term
            for name in part.part.holds
            for term in held_sums(self.built.kit, self.made, part.part, name)[Axis.DEPTH]
        )

    def sum(self, terms: Iterable[Term]) -> Stack:
        """A sum of sizes with all that moves it."""
        found = Stack(0.0)
        for term in terms:
            found = found + self.term(term) * float(term.times)
        return found

    def term(self, term: Term) -> Stack:
        """One term once."""
        part = self.made.get(term.name)
        if part is not None and term.axis is not None:
            return self.outside(part, term.axis)
        if part is not None and (part.is_flat or term.is_one_layer):
            return self.layers(part.paper, 1 if term.is_one_layer else part.layers)
        return Stack(nominal(self.built.kit, self.made, term))

    def contents(self, part: BuiltPart, things: Sequence[Thing], *, standing: bool, is_turned: bool) -> Fit:
        """What a box holds, as one stack with the other things beside it; all of it turned a quarter if it `is_turned`.

        The stack varies with the packs; so wide as the widest of many cards it is as far off as a cut can be, so that is taken off
        for certain.
        """
        room = room_for(things, standing=standing)
        flat = [thing for thing in things if thing.is_flat]
        sides = (Axis.DEPTH, Axis.WIDTH, Axis.HEIGHT) if is_turned else tuple(Axis)
        needed = dict(zip(sides, (room.width, room.depth, room.height), strict=True))
        pile = Axis.DEPTH if standing else Axis.HEIGHT
        inside = lined(self.built.kit, part.name)
        free = []
        for axis, length in needed.items():
            thick = Stack(length)
            if flat and axis is pile:
                thick = thick + self.pile(flat)
            elif any(thing.name in self.made for thing in flat):
                face = stack_of(flat, standing=standing)
                long = dict(zip(sides, (face.width, face.depth, face.height), strict=True))[axis]
                thick = thick + (self.accuracy.cut if long > length - float(NEAR_MARK) else 0.0)
            free.append(self.inside(part, axis) - thick - self.sum(inside.get(axis, ())))
        return self.fit(free, None)

    def pile(self, flat: Sequence[Thing]) -> Stack:
        """How the height of a stack of flat things varies with the packs they come from; its nominal height is left out."""
        found = Stack(0.0)
        for thing in flat:
            part = self.made.get(thing.name)
            if part is not None:
                pieces = stack_height([(thing.count, 1.0)], springback=SPRINGBACK)
                found = found + self.layers(part.paper, part.layers * pieces)
        return Stack(0.0, found.moves)

    def fit(self, free: Sequence[Stack], most: float | None) -> Fit:
        """A fit with the source of this accuracy."""
        return Fit(tuple(free), most, self.accuracy.because)
