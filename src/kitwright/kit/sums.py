"""What is glued on or lies in a thing, and how far a lid or a band has to reach: sizes that add up. Millimetres.

A sum is told as its terms, so that it can be reckoned as a number and, term by term, as a stack of tolerances.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from kitwright.catalogue import CATALOGUE
from kitwright.folding import MeasuredExtent
from kitwright.kit.built_part import BuiltPart
from kitwright.kit.model import Face, Goes, Kit, Part, SizingKind
from kitwright.kit.things import Thing
from kitwright.paper import inner_loss, layers_thickness
from kitwright.pattern import Axis, Stance

__all__ = [
    "ALONG",
    "Built",
    "Term",
    "along",
    "belonging_together",
    "carried",
    "clear_inside",
    "face_sides",
    "follows_its_host",
    "glued_on",
    "goes_between_walls",
    "hanging",
    "is_box",
    "length_over",
    "lids_of",
    "lined",
    "lining",
    "mounted",
    "pieces_in",
    "quantity_of",
    "reach",
    "room_for_band",
    "thing_named",
    "total",
]

Built = Mapping[str, BuiltPart]

ALONG: Final[Mapping[Goes, Mapping[Axis, Axis]]] = MappingProxyType(
    {
        Goes.WALLS: {axis: axis for axis in Axis},
        Goes.OVER: {Axis.WIDTH: Axis.DEPTH, Axis.DEPTH: Axis.HEIGHT, Axis.HEIGHT: Axis.WIDTH},
        Goes.ENDS: {Axis.WIDTH: Axis.WIDTH, Axis.DEPTH: Axis.HEIGHT, Axis.HEIGHT: Axis.DEPTH},
    }
)
"""Along which side of what it goes round each side of a band lies; its height is its breadth."""


@dataclass(frozen=True, slots=True)
class Term:
    """A size of a thing, so many `times`: outside along an `axis`, or without one its thickness.

    `is_one_layer`: only one layer of the paper that it is made of.
    """

    name: str
    axis: Axis | None = None
    times: int = 1
    is_one_layer: bool = False


def along(part: Part, axis: Axis) -> Axis:
    """The side of what a part covers or wraps along which an axis of the part lies."""
    return ALONG[part.goes][axis]


def lids_of(kit: Kit, name: str) -> tuple[Part, ...]:
    """The lids that cover a part."""
    return tuple(part for part in kit.parts if part.covers == name)


def belonging_together(kit: Kit, names: Iterable[str]) -> Collection[str]:
    """The parts with these names, all that lies on, goes into, over or round them or they into it, and so on from each of those.

    Nothing that is found out about other parts depends on them. A thing that is bought holds together all that it is in.
    """
    pairs = [
        (part.name, other) for part in kit.parts for other in (part.on, *part.holds, part.covers, part.wraps) if other
    ]
    found, grown = set[str](), set(names)
    while grown:
        found |= grown
        grown = {other for pair in pairs if found & set(pair) for other in pair} - found
    return found


def carried(kit: Kit, name: str, *, apart: Collection[str] = (), ahead: bool = False) -> tuple[Term, ...]:
    """What makes one piece of a flat part thicker: what is glued on it and what it holds, with all that those carry.

    What is named in `apart` lies in the same box on its own: a card beside its empty envelope. `ahead`: see `lined`.
    """
    said, found = {part.name: part for part in kit.parts}, list[Term]()
    waiting = [(name, 1)]
    while waiting:
        here, pieces = waiting.pop()
        if here != name:
            found.append(Term(here, times=pieces, is_one_layer=ahead and follows_its_host(said.get(here))))
        if here in said and not is_box(said[here]):
            on_it = [*glued_on(kit, here), *((each, pieces_in(kit, said[here], each)) for each in said[here].holds)]
            waiting += [(each, times * pieces) for each, times in reversed(on_it) if each not in apart]
    return tuple(found)


def follows_its_host(part: Part | None) -> bool:
    """Whether the size of a part follows from what it is glued on."""
    return part is not None and part.on is not None and part.sizing.kind is SizingKind.DERIVED and not part.holds


def glued_on(kit: Kit, name: str) -> tuple[tuple[str, int], ...]:
    """The parts glued on a part, and how many of each on one piece of it."""
    count = kit.part(name).quantity
    return tuple((each.name, math.ceil(each.quantity / count)) for each in kit.parts if each.on == name)


def pieces_in(kit: Kit, holder: Part, name: str) -> int:
    """How many pieces of a thing lie in one envelope or pocket.

    All there are, shared out evenly; but one if the thing lies in a box on its own, so that the envelope is for later.
    """
    others = [part for part in kit.parts if name in part.holds]
    if any(is_box(part) for part in others):
        return 1
    return math.ceil(quantity_of(kit, name) / sum(part.quantity for part in (others or [holder])))


def quantity_of(kit: Kit, name: str) -> int:
    """How many of a part or a thing that is bought one kit has. Raises `KeyError`."""
    extra = kit.find_extra(name)
    return kit.part(name).quantity if extra is None else extra.quantity


def is_box(part: Part) -> bool:
    """Whether a part has a depth of its own, so that things lie in it side by side."""
    return Axis.DEPTH in CATALOGUE[part.form].size.values()


def through_face(host: Part) -> Axis:
    """The axis across the face of a box or lid on which something is glued: of a lid its top, of a tray its bottom, else the front."""
    return Axis.DEPTH if CATALOGUE[host.form].stance is Stance.STANDING else Axis.HEIGHT


def face_sides(
    built: Built, part: Part, host: BuiltPart, *, is_closed: bool
) -> tuple[tuple[BuiltPart, MeasuredExtent], ...]:
    """Width and height of the face of its host on which a part is glued, each with the part that it is measured on.

    Inside a lid that `is_closed` it is as much as goes between the walls of its box; where no wall bounds it, it ends with the host.
    """
    found = []
    for axis in (Axis.WIDTH, host.up_the_face):
        box = host.part.covers if is_closed and goes_between_walls(part, host) else None
        walls = (built[box], host) if box else (host,)
        inside = [(each, each.inside) for each in walls] if part.face is Face.INSIDE else []
        found.append(next((each, sides[axis]) for each, sides in (*inside, (host, host.outside)) if axis in sides))
    return tuple(found)


def goes_between_walls(part: Part, host: BuiltPart) -> bool:
    """Whether the walls of a box stand round a part that is glued inside its lid when the lid is on."""
    return part.face is Face.INSIDE and host.part.covers is not None


def lining(kit: Kit, host: Part, *, ahead: bool = False) -> Mapping[Axis, tuple[Term, ...]]:
    """What is glued inside a box, or inside a lid, and takes room along an axis. `ahead`: see `lined`."""
    found: dict[Axis, tuple[Term, ...]] = {}
    for part in kit.parts:
        if part.on == host.name and part.face is Face.INSIDE:
            axis = through_face(host)
            own = Term(part.name, is_one_layer=ahead and follows_its_host(part))
            layers = layered(kit, host, part, (own, *carried(kit, part.name, ahead=ahead)))
            found[axis] = (*found.get(axis, ()), *layers)
    return found


def lined(kit: Kit, name: str, *, ahead: bool = False) -> Mapping[Axis, tuple[Term, ...]]:
    """What is glued inside a box, or inside the lid over it, and so takes room from its contents, along each axis.

    `ahead`: before the box has a size. What follows from what it is glued on has none either then, and counts as one layer of its paper.
    """
    found: dict[Axis, tuple[Term, ...]] = {}
    for host in (kit.part(name), *lids_of(kit, name)):
        for axis, terms in lining(kit, host, ahead=ahead).items():
            found[axis] = (*found.get(axis, ()), *terms)
    return found


def clear_inside(kit: Kit, built: Built, part: BuiltPart) -> dict[Axis, float]:
    """How much room a box has for its contents along each axis, mm: its inside less what is glued there."""
    glued = lined(kit, part.name)
    return {
        axis: part.inside[axis].net - total(kit, built, glued.get(axis, ()))
        for axis in (Axis.WIDTH, Axis.DEPTH, Axis.HEIGHT)
    }


def mounted(kit: Kit, host: Part, axis: Axis) -> tuple[Term, ...]:
    """What is glued outside on a part that is not flat and makes it larger along an axis."""
    if axis is not through_face(host):
        return ()
    outside = [part for part in kit.parts if part.on == host.name and part.face is Face.OUTSIDE]
    layers = [layered(kit, host, part, (Term(part.name), *carried(kit, part.name))) for part in outside]
    return tuple(term for each in layers for term in each)


def layered(kit: Kit, host: Part, part: Part, terms: tuple[Term, ...]) -> tuple[Term, ...]:
    """What several of a part on one face of a box or lid add up to: they lie on each other, but pockets side by side."""
    pieces = 1 if CATALOGUE[part.form].is_open else dict(glued_on(kit, host.name))[part.name]
    return tuple(replace(term, times=term.times * pieces) for term in terms)


def reach(kit: Kit, built: Built, host: BuiltPart, axis: Axis) -> tuple[Term, ...]:
    """What adds up to the length that a lid or a band must go over or round: of flat things the whole pile that one kit has.

    A lid is as high as the box with the lid's card on it, and with what is glued below the box and on the lid.
    """
    if axis is Axis.DEPTH and host.is_flat:
        own = (Term(host.name), *carried(kit, host.name))
        return tuple(replace(term, times=term.times * host.part.quantity) for term in own)
    if axis is Axis.HEIGHT and host.part.covers:
        box = reach(kit, built, built[host.part.covers], axis)
        return (*box, Term(host.name, is_one_layer=True), *mounted(kit, host.part, axis))
    return (Term(host.name, axis), *(() if host.is_flat else mounted(kit, host.part, axis)))


def length_over(kit: Kit, built: Built, host: BuiltPart, axis: Axis) -> float:
    """How far a lid or a band must reach over or round a thing along one of its axes, mm."""
    return total(kit, built, reach(kit, built, host, axis))


def hanging(lid: BuiltPart, name: str) -> float:
    """How far a rim or flap, a length from score to edge, reaches down from the rim of its box, mm.

    The lid's top lies there with its inner face, which is nearer to the edge than the score is.
    """
    return float(lid.lengths[name]) - inner_loss(lid.paper)


def room_for_band(kit: Kit, built: Built, band: Part) -> float:
    """How broad a band may be where it lies: as far as that side reaches, less what a lid hangs over; none where a lid lies."""
    host = built[band.wraps or ""]
    room = total(kit, built, reach(kit, built, host, along(band, Axis.HEIGHT)))
    lids = [built[lid.name] for lid in lids_of(kit, host.name)]
    if lids and band.goes is not Goes.WALLS:
        return 0.0
    return room - max((hanging(lid, name) for lid in lids for name in lid.form.hangs), default=0.0)


def total(kit: Kit, built: Built, terms: Iterable[Term]) -> float:
    """The sum as a number, mm."""
    return math.fsum(term.times * nominal(kit, built, term) for term in terms)


def nominal(kit: Kit, built: Built, term: Term) -> float:
    """One term once, mm."""
    if term.is_one_layer:
        return layers_thickness(1, kit.papers[kit.part(term.name).paper])
    if term.axis is not None:
        return built[term.name].outside[term.axis].net
    return thinnest_side(thing_named(kit, built, term.name))


def thinnest_side(thing: Thing) -> float:
    """The least of a thing's three sides: how much it adds to what it lies in, mm."""
    return thing.thickness if thing.is_flat else min(thing.width, thing.height, thing.thickness)


def thing_named(kit: Kit, built: Built, name: str) -> Thing:
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
