"""A thing as it goes into a box, an envelope or the post: with its lid on, its band round it and what is glued on it. Millimetres.

Its sizes are sums of terms, as those in `sums` are.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from kitwright.kit.model import Kit, Part
from kitwright.kit.sums import (
    ALONG,
    Built,
    Term,
    along,
    carried,
    is_box,
    mounted,
    pieces_in,
    quantity_of,
    reach,
    thing_named,
    total,
)
from kitwright.kit.things import Thing
from kitwright.pattern import Axis

__all__ = ["closed", "held_sums", "things_held"]

Lying = Mapping[Axis, Axis]
"""Along which of a part's own axes each axis of another lies."""


def going_along(kit: Kit, name: str) -> Iterator[tuple[Part, Lying]]:
    """A part, the lids and bands that are on it wherever it goes, and what it is itself on; each with how it lies to the part.

    What something holds by its own name lies there apart, not on the part.
    """
    held = {each for part in kit.parts for each in part.holds}
    waiting: list[tuple[Part, Lying]] = [(kit.part(name), {axis: axis for axis in Axis})]
    seen = {name}
    for here, lying in waiting:  # grows while it is gone through
        yield here, lying
        for other in kit.parts:
            if other.name in seen | held:
                continue
            if here.name in (other.covers, other.wraps):
                its = {side: axis for axis, side in ALONG[other.goes].items()}
            elif other.name in (here.covers, here.wraps):
                its = {axis: along(here, axis) for axis in Axis}
            else:
                continue
            seen.add(other.name)
            waiting.append((other, {axis: its[mine] for axis, mine in lying.items()}))


def sums_along(kit: Kit, built: Built, name: str, axis: Axis, *, besides: bool = False) -> Iterator[tuple[Term, ...]]:
    """How far each of the parts that go along with a part reaches along an axis of it; only those `besides` the part itself."""
    along_with = list(going_along(kit, name))
    names = {part.name for part, _ in along_with}
    for part, lying in along_with:
        made, mine = built[part.name], lying[axis]
        if besides and part.name == name:
            continue
        if mine in made.outside:
            yield (Term(part.name, mine), *(() if made.is_flat else mounted(kit, part, mine)))
        if (mine is Axis.DEPTH and made.is_flat) or (mine is Axis.HEIGHT and part.covers in names):
            yield reach(kit, built, made, mine)  # a pile, or a box with its lid on


def closed(kit: Kit, built: Built, name: str, axis: Axis) -> tuple[Term, ...]:
    """What adds up to the length over all, along an axis, of a part with all that is on it: of a flat one the pile that a kit has."""
    return longest(kit, built, *sums_along(kit, built, name, axis))


def longest(kit: Kit, built: Built, *sums: tuple[Term, ...]) -> tuple[Term, ...]:
    """The sum that comes to most, the first of several."""
    return max(sums, key=lambda terms: total(kit, built, terms))


def held_sums(kit: Kit, built: Built, holder: Part, name: str) -> Mapping[Axis, tuple[Term, ...]]:
    """What adds up to the width and the height of a thing as it lies in a holder, and as its depth to the thickness of all pieces there,
    with what they carry. Of a thing that is bought only the thickness is a sum.

    In an envelope or a pocket it lies on its largest side. A band is round a pile where the whole pile lies there.
    """
    count = pieces_held(kit, holder, name)
    pile = times(count, (Term(name), *carried(kit, name, apart=holder.holds)))
    if kit.find_extra(name) is not None:
        return {Axis.DEPTH: pile}
    if built[name].is_flat:
        is_whole = count == quantity_of(kit, name)
        own = {Axis.WIDTH: (Term(name, Axis.WIDTH),), Axis.DEPTH: pile, Axis.HEIGHT: (Term(name, Axis.HEIGHT),)}
        return {
            axis: longest(kit, built, terms, *(sums_along(kit, built, name, axis, besides=True) if is_whole else ()))
            for axis, terms in own.items()
        }
    sums = {axis: closed(kit, built, name, axis) for axis in (Axis.DEPTH, Axis.HEIGHT, Axis.WIDTH)}
    if is_box(holder):
        return {**sums, Axis.DEPTH: times(count, sums[Axis.DEPTH])}
    thinnest = min(sums, key=lambda axis: total(kit, built, sums[axis]))
    high = Axis.DEPTH if thinnest is Axis.HEIGHT else Axis.HEIGHT
    wide = Axis.DEPTH if thinnest is Axis.WIDTH else Axis.WIDTH
    return {Axis.WIDTH: sums[wide], Axis.HEIGHT: sums[high], Axis.DEPTH: times(count, sums[thinnest])}


def times(count: int, terms: tuple[Term, ...]) -> tuple[Term, ...]:
    """A sum so many times."""
    return tuple(replace(term, times=term.times * count) for term in terms)


def pieces_held(kit: Kit, holder: Part, name: str) -> int:
    """How many pieces of a thing lie together in one holder: all of them in a box, in an envelope its own."""
    return quantity_of(kit, name) if is_box(holder) else pieces_in(kit, holder, name)


def things_held(kit: Kit, built: Built, holder: Part) -> tuple[Thing, ...]:
    """Things that lie together in one holder, each with all that is on it and as thick as it is with what it carries."""
    return tuple(thing_held(kit, built, holder, name) for name in holder.holds)


def thing_held(kit: Kit, built: Built, holder: Part, name: str) -> Thing:
    """One thing as it lies in a holder."""
    count = pieces_held(kit, holder, name)
    thing = replace(thing_named(kit, built, name), count=count)
    if kit.find_extra(name) is not None:
        return thing if is_box(holder) else laid_flat(thing)
    found = {axis: total(kit, built, terms) for axis, terms in held_sums(kit, built, holder, name).items()}
    return replace(thing, width=found[Axis.WIDTH], height=found[Axis.HEIGHT], thickness=found[Axis.DEPTH] / count)


def laid_flat(thing: Thing) -> Thing:
    """A thing on its largest side, its other two sides in the order in which they were said."""
    sides = [thing.width, thing.height, thing.thickness]
    thickness = min(sides)
    sides.remove(thickness)
    return replace(thing, width=sides[0], height=sides[1], thickness=thickness)
