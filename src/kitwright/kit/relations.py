"""How the parts of a kit document belong together: every name is known, nothing goes in a circle or contradicts itself, every size is
said or follows."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import pairwise

from kitwright.catalogue import CATALOGUE
from kitwright.errors import Mistake, Mistakes
from kitwright.kit.entry import Entry
from kitwright.kit.model import Extra, Face, Kit, Part, SizingKind
from kitwright.measure import suggestion

__all__ = ["check_names", "check_papers", "check_relations", "check_together", "faces_of"]

Said = tuple[Entry, str]
"""Where something is named: the table and the key."""


def check_names(entries: Sequence[tuple[Entry, Part | Extra]]) -> None:
    """Note every name that an earlier part or extra has already."""
    first: dict[str, Entry] = {}
    for entry, thing in entries:
        if not thing.name:
            continue
        if thing.name in first:
            line = first[thing.name].place.line
            entry.add(
                Mistake(
                    f"There is something called {thing.name!r} already (line {line}).",
                    do="Give one of them another name.",
                ),
                "name",
            )
        first.setdefault(thing.name, entry)


def check_relations(entries: Sequence[tuple[Entry, Part]], extras: Sequence[Extra]) -> None:
    """Note relations to things that are not there, that no hands could make so, and sizes that follow from nothing."""
    parts = {part.name: part for _, part in entries if part.name}
    bought = {extra.name for extra in extras if extra.name}
    unknown: dict[str, list[Said]] = {}
    for entry, part in entries:
        for key, name in relations(part):
            if name not in parts and name not in bought:
                unknown.setdefault(name, []).append((entry, key))
        for key, mistake in against_one(part, parts, bought):
            entry.add(mistake, key)
        check_derived(entry, part)
    for name, said in unknown.items():
        self_name = said[0][0].values.get("name")
        others = [other for other in (*parts, *(bought if said[0][1] == "holds" else ())) if other != self_name]
        do = suggestion(name, others) if others else "Add a [[part]] with this name."
        note_unknown(said, f"there is nothing called {name!r} in this kit", do)
    by_name = {part.name: entry for entry, part in entries}
    for name, key, mistake in against_all(parts):
        by_name[name].add(mistake, key)


def check_together(kit: Kit) -> None:
    """Raise `Mistakes` for relations to things that are not there, or that no hands could make so."""
    parts, bought = {part.name: part for part in kit.parts}, {extra.name for extra in kit.extras}
    found = [
        Mistake(
            f"{key}: there is nothing called {name!r} in this kit.", do="Add it or change the name.", place=part.place
        )
        for part in kit.parts
        for key, name in relations(part)
        if name not in parts and name not in bought
    ]
    found += [mistake.at(part.place) for part in kit.parts for _, mistake in against_one(part, parts, bought)]
    found += [mistake.at(parts[name].place) for name, _, mistake in against_all(parts)]
    if found:
        raise Mistakes(found)


def against_one(part: Part, parts: Mapping[str, Part], bought: Collection[str]) -> Iterator[tuple[str, Mistake]]:
    """What is wrong with the relations of a part, each by its key: to itself, to an extra where only a part will do, to a face that is
    not there, over one thing and round another.
    """
    for key, name in relations(part):
        if name == part.name:
            yield key, Mistake(f"{key}: {name!r} is the part itself.", do="Name another part.")
        elif name in bought and key != "holds":
            yield (
                key,
                Mistake(f"{key}: {name!r} is an extra, and only parts are drawn.", do="Name a part, or give a size."),
            )
    if part.covers and part.wraps:
        yield (
            "wraps",
            Mistake(f"wraps: it covers {part.covers!r} already.", do="Keep covers for a lid, or wraps for a band."),
        )
    if part.on and part.on in (part.covers, part.wraps):
        does = "covers" if part.on == part.covers else "wraps"
        yield (
            "on",
            Mistake(f"on: it {does} {part.on!r} already.", do=f"Take on out: what {does} something is not laid on it."),
        )
    host = parts.get(part.on or "")
    if host is not None and host is not part and host.form in CATALOGUE and part.face not in faces_of(host):
        yield (
            "face",
            Mistake(
                f"face: {host.name!r} has no {part.face.value} to glue on, as a box or its lid has.",
                do="Take face out: what is glued on it lies outside.",
            ),
        )


def faces_of(host: Part) -> tuple[Face, ...]:
    """The faces of a part on which something can be glued, as its form offers them."""
    return tuple(Face) if CATALOGUE[host.form].has_inside else (Face.OUTSIDE,)


def against_all(parts: Mapping[str, Part]) -> Iterator[tuple[str, str, Mistake]]:
    """Relations that go in a circle, by the part and the key where they are told: of parts that need each other, then of parts that would
    lie in or on themselves. One circle is told once, and none that goes through another.
    """
    told: list[set[str]] = []
    needs = {name: [other for _, other in relations(part)] for name, part in parts.items()}
    for name in parts:
        circle = find_way(name, name, needs)
        if len(circle) > 2 and not any(each <= set(circle) for each in told):
            told.append(set(circle))
            needed = ", which needs ".join(repr(each) for each in circle)
            yield name, "", Mistake(f"These go in a circle: {needed}.", do="Take one of these relations out.")
    goes_with = {name: list(carriers(parts, name)) for name in parts}
    for holder in parts.values():
        for name in holder.holds:
            way = find_way(holder.name, name, goes_with) if name in parts and name != holder.name else ()
            if way and not any(each <= set(way) for each in told):
                told.append(set(way))
                links = ", and ".join(link(parts, *pair) for pair in pairwise((name, *way)))
                mistake = Mistake(f"This cannot be put together: {links}.", do="Take one of these relations out.")
                yield holder.name, "holds", mistake


def carriers(parts: Mapping[str, Part], name: str) -> Iterator[str]:
    """The parts with which a part goes wherever they go: what it is glued on, what holds it, its lid and its band, and what it covers
    or goes round itself.
    """
    part = parts[name]
    yield from (other for other in (part.on, part.covers, part.wraps) if other and other in parts)
    yield from (each.name for each in parts.values() if name in (*each.holds, each.covers, each.wraps))


def link(parts: Mapping[str, Part], name: str, carrier: str) -> str:
    """In words why a part goes where another goes."""
    one, other = parts[name], parts[carrier]
    if one.on == carrier:
        return f"{name!r} lies on {carrier!r}"
    if name in other.holds:
        return f"{carrier!r} holds {name!r}"
    outer, inner = (one, carrier) if carrier in (one.covers, one.wraps) else (other, name)
    return f"{outer.name!r} {'covers' if outer.covers == inner else 'goes round'} {inner!r}"


def relations(part: Part) -> Iterator[tuple[str, str]]:
    """Every relation of a part, as its key and the name in it."""
    for key in ("on", "covers", "wraps"):
        name = getattr(part, key)
        if name:
            yield key, name
    for name in part.holds:
        yield "holds", name


def check_papers(entries: Sequence[tuple[Entry, Part]], papers: Sequence[str]) -> None:
    """Note papers that the kit does not have."""
    unknown: dict[str, list[Said]] = {}
    for entry, part in entries:
        if part.paper and part.paper not in papers:
            unknown.setdefault(part.paper, []).append((entry, "paper"))
    for word, said in unknown.items():
        do = suggestion(word, papers) if papers else f"Add a table [paper.{word}]."
        note_unknown(said, f"there is no paper {word!r} in this kit", do)


def note_unknown(said: Sequence[Said], what: str, do: str) -> None:
    """Note something that is not there once, where it is first named, with the lines where it is named again."""
    (first, key), *more = said
    lines = sorted({str(line) for entry, at in more if (line := entry.line(at)) is not None}, key=int)
    also = f" (named in line{'s' if len(lines) > 1 else ''} {', '.join(lines)} too)" if lines else ""
    first.add(Mistake(f"{key}: {what}{also}.", do=do), key)


def check_derived(entry: Entry, part: Part) -> None:
    """Note a part whose size is not said and follows from nothing."""
    said = {"size", "inside", "outside", "on", "holds", "covers", "wraps"} & entry.values.keys()
    if part.sizing.kind is SizingKind.DERIVED and not said and part.form in CATALOGUE:
        form = CATALOGUE[part.form]
        lengths = " x ".join(name.replace("_", " ") for name in form.size)
        entry.add(
            Mistake(
                "It has no size, and nothing that a size could follow from.",
                do=f'Add size = "{lengths}" in numbers, or what it lies on, holds, covers or wraps.',
            )
        )


def find_way(start: str, end: str, steps: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """The names on a shortest way of at least one step, both ends included; empty if there is none."""
    came_from: dict[str, str] = {}
    waiting = [start] if start in steps else []
    for name in waiting:  # grows while it is gone through
        for other in steps[name]:
            if other == end:
                way = [end, name]
                while way[-1] != start:
                    way.append(came_from[way[-1]])
                return tuple(reversed(way))
            if other in steps and other not in came_from and other != start:
                came_from[other] = name
                waiting.append(other)
    return ()
