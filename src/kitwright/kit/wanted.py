"""Which sizes a part must have because of what was said and what it lies on, holds, covers or wraps. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from kitwright.errors import Mistake
from kitwright.kit.built import BuiltPart
from kitwright.kit.contents import room_for
from kitwright.kit.model import Kit, Part, SizingKind
from kitwright.kit.sums import along, face_sides, lined, reach, total
from kitwright.kit.things import Thing
from kitwright.measure import exact_length
from kitwright.pattern import Axis

if TYPE_CHECKING:
    from kitwright.catalogue import Form

__all__ = ["Wanted", "wanted_sizes"]


@dataclass(frozen=True, slots=True)
class Wanted:
    """One size parameter and what it must measure at least (at most, where it `rounds_down`), inside or outside, and why.

    `may_grow`: more does no harm, so that it grows to the least that the form can have.
    """

    parameter: str
    axis: Axis
    least: Fraction
    is_outside: bool
    rounds_down: bool
    because: str = ""
    may_grow: bool = False


def wanted_sizes(
    kit: Kit, part: Part, form: type[Form], hosts: Mapping[str, BuiltPart], things: Sequence[Thing]
) -> tuple[Wanted, ...]:
    """What each size parameter of the part must measure; one that was said by its own key stays as it was said."""
    said = part.sizing
    if said.kind is not SizingKind.DERIVED:
        pairs = zip(form.size.items(), said.lengths, strict=False)
        down = said.kind is SizingKind.OUTSIDE
        return tuple(
            Wanted(name, axis, length, is_outside=said.kind is not SizingKind.INSIDE, rounds_down=down)
            for (name, axis), length in pairs
        )
    found: dict[str, Wanted] = {}
    for each in (
        *from_on(kit, part, form, hosts),
        *from_holds(kit, part, form, hosts, things),
        *from_host(kit, part, form, hosts),
    ):
        if each.parameter in part.settings:
            continue
        if each.parameter not in found or each.least > found[each.parameter].least:
            found[each.parameter] = each
    return tuple(found.values())


def from_on(kit: Kit, part: Part, form: type[Form], hosts: Mapping[str, BuiltPart]) -> Iterator[Wanted]:
    """A mat: the size of what it lies on, less the border on both sides."""
    if part.on is None or part.holds:
        return
    host = hosts[part.on]
    border = kit.fit.border if part.border is None else part.border
    face, closed = (
        dict(zip((Axis.WIDTH, Axis.HEIGHT), face_sides(hosts, part, host, is_closed=each), strict=True))
        for each in (False, True)
    )
    for name, axis in form.size.items():
        if axis not in face:
            raise Mistake(f"{part.on!r} has no flat face to lie on.", do="Give the part a size.")
        room, most = (exact_length(sides[axis][1].net) for sides in (face, closed))
        least = min(room - 2 * border, most)
        if least <= 0:
            raise Mistake(
                f"A border of {kit.ruler.with_unit(border)} leaves nothing of a part on {part.on!r}.",
                do="Make the border smaller.",
            )
        yield Wanted(
            name,
            axis,
            least,
            is_outside=True,
            rounds_down=True,
            because=f"{name}: {part.on} less {kit.ruler.with_unit(border)} border on both sides, rounded down",
        )


def from_holds(
    kit: Kit, part: Part, form: type[Form], hosts: Mapping[str, BuiltPart], things: Sequence[Thing]
) -> Iterator[Wanted]:
    """An envelope or pocket: its largest card with free play. A box: the room that its contents need."""
    if not things:
        return
    axes = set(form.size.values())
    names = ", ".join(thing.name for thing in things)
    if Axis.DEPTH not in axes:
        play, sides = kit.fit.envelope, [(t.width, t.height) for t in things]
        if form.lies_across:
            sides = [(max(side), min(side)) for side in sides]
        room = {Axis.WIDTH: max(wide for wide, _ in sides), Axis.HEIGHT: max(high for _, high in sides)}
        plays = {Axis.WIDTH: play, Axis.HEIGHT: play / 2 if form.lies_across else play}
        bulge = exact_length(math.fsum(thing.count * thing.thickness for thing in things))
        plays = {axis: max(least, bulge + play / 4) for axis, least in plays.items()}
        if form.is_open:  # it lies so high that the thumb reaches it through the notch
            plays[Axis.HEIGHT] = play / 4
    else:
        stands = form.stands_contents if part.standing is None else part.standing
        needed = room_for(things, standing=stands)
        play = kit.fit.contents
        room = {Axis.WIDTH: needed.width, Axis.DEPTH: needed.depth, Axis.HEIGHT: needed.height}
        for axis, terms in lined(kit, part.name, ahead=True).items():
            room[axis] += total(kit, hosts, terms)
        plays = dict.fromkeys(room, play)
    for name, axis in form.size.items():
        need = exact_length(room[axis])
        yield Wanted(
            name,
            axis,
            need + plays[axis],
            is_outside=form.is_open and axis is Axis.HEIGHT,
            rounds_down=False,
            because=f"{name}: {kit.ruler.near(need)} for {names}, with {kit.ruler.near(plays[axis])} free play, rounded up",
            may_grow=True,
        )


def from_host(kit: Kit, part: Part, form: type[Form], hosts: Mapping[str, BuiltPart]) -> Iterator[Wanted]:
    """A lid or a band: the outside of what it goes over or round, with free play."""
    name_of_host = part.covers or part.wraps
    if name_of_host is None:
        return
    host, play = hosts[name_of_host], kit.fit.lid if part.covers else kit.fit.band
    for name, axis in form.size.items():
        if axis is Axis.HEIGHT and axis not in form.spans:
            continue
        over = exact_length(total(kit, hosts, reach(kit, hosts, host, along(part, axis))))
        spans = axis in form.spans
        yield Wanted(
            name,
            axis,
            over + (play if spans else 0),
            is_outside=not spans,
            rounds_down=False,
            because=f"{name}: {name_of_host} measures {kit.ruler.near(over)} outside"
            + (f", with {kit.ruler.with_unit(play)} free play, rounded up" if spans else ", rounded up"),
        )
