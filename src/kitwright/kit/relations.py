"""How the parts of a kit document belong together: every name is known, nothing goes in a circle, every size is said or follows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from kitwright.catalogue import CATALOGUE
from kitwright.errors import Mistake
from kitwright.kit.entry import Entry
from kitwright.kit.model import Extra, Part, SizingKind
from kitwright.measure import suggestion

__all__ = ["check_names", "check_papers", "check_relations"]

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
    """Note relations to things that are not there, to itself or in a circle, and sizes that follow from nothing."""
    parts = {part.name: part for _, part in entries if part.name}
    bought = {extra.name for extra in extras if extra.name}
    unknown: dict[str, list[Said]] = {}
    for entry, part in entries:
        for key, name in relations(part):
            if name in parts or name in bought:
                check_relation(entry, part, key, name, extras=bought)
            else:
                unknown.setdefault(name, []).append((entry, key))
        check_derived(entry, part)
    for name, said in unknown.items():
        self_name = said[0][0].values.get("name")
        others = [other for other in (*parts, *(bought if said[0][1] == "holds" else ())) if other != self_name]
        do = suggestion(name, others) if others else "Add a [[part]] with this name."
        note_unknown(said, f"there is nothing called {name!r} in this kit", do)
    seen: set[frozenset[str]] = set()
    for entry, part in entries:
        circle = find_circle(part.name, parts)
        if len(circle) > 1 and frozenset(circle) not in seen:
            seen.add(frozenset(circle))
            way = ", which needs ".join(repr(name) for name in (*circle, circle[0]))
            entry.add(Mistake(f"These go in a circle: {way}.", do="Take one of these relations out."))


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


def check_relation(entry: Entry, part: Part, key: str, name: str, *, extras: set[str]) -> None:
    """Note a relation to the part itself, or to an extra where only a part will do."""
    if name == part.name:
        entry.add(Mistake(f"{key}: {name!r} is the part itself.", do="Name another part."), key)
    elif name in extras and key != "holds":
        entry.add(
            Mistake(f"{key}: {name!r} is an extra, and only parts are drawn.", do="Name a part, or give a size."), key
        )


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


def find_circle(start: str, parts: Mapping[str, Part]) -> tuple[str, ...]:
    """The names on a shortest way from a part through its relations back to itself; empty if there is none."""
    came_from: dict[str, str] = {}
    waiting = [start] if start in parts else []
    for name in waiting:  # grows while it is gone through
        for _, needed in relations(parts[name]):
            if needed == start:
                way = [name]
                while way[-1] != start:
                    way.append(came_from[way[-1]])
                return tuple(reversed(way))
            if needed in parts and needed not in came_from:
                came_from[needed] = name
                waiting.append(needed)
    return ()
