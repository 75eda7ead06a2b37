"""Parts, papers and extras renamed, added and taken out, with every relation of the others kept true."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from kitwright.errors import Mistake
from kitwright.findings import Change
from kitwright.kit import read_part
from kitwright.kit.built import BuiltKit, BuiltPart
from kitwright.kit.edit import apply_changes, quoted
from kitwright.kit.model import Kit, Part, SizingKind
from kitwright.kit.tables import without_table
from kitwright.kit.write import size_text

__all__ = ["COMPANY", "list_text", "rename_changes", "take_out"]


COMPANY: Final = MappingProxyType({key: other for key, other, *_ in read_part.COMPANY})
"""Keys of a part that may stand only beside another, and that other: they go with it."""


def list_text(names: Collection[str]) -> str:
    """Names as the list of a document; empty for none, so that the key goes."""
    return f"[{', '.join(map(quoted, names))}]" if names else ""


def rename_changes(kit: Kit, old: str, new: str, *, table: str) -> tuple[Change, ...]:
    """What must be changed so that a part or extra bears another name and everything still belongs to it."""
    found = [Change(old, "name", new, table=table)]
    for part in kit.parts:
        its = new if part.name == old else part.name
        found += [Change(its, key, new) for key in ("on", "covers", "wraps") if getattr(part, key) == old]
        if old in part.holds:
            found.append(Change(its, "holds", list_text([new if name == old else name for name in part.holds])))
    return tuple(found)


def take_out(document: str, built: BuiltKit, name: str, *, table: str) -> str:
    """The document without a part, extra, paper or (by its place, counted from 0) offcut.

    Nothing is left that names it; a part whose size followed from it alone keeps the size it has now. Raises `Mistake` for a paper
    that something is cut from, and for the last part.
    """
    kit = built.kit
    if table == "paper":
        users = [part.name for part in kit.parts if part.paper == name]
        if users:
            raise Mistake(f"{', '.join(users)} is cut from this paper.", do="Choose another paper for it first.")
        return without_table(document, table, name)
    if table == "offcut":
        return without_table(document, table, name)
    if table == "part" and len(kit.parts) == 1:
        raise Mistake("This is the only part of the kit.", do="Add another part first.")
    changes = [change for part in built.parts if part.name != name for change in parting(built, part, name)]
    return without_table(apply_changes(document, changes), table, name)


def parting(built: BuiltKit, part: BuiltPart, name: str) -> Iterator[Change]:
    """What must be changed in a part that belongs to something, once that is gone."""
    said = part.part
    alone = without(said, name)
    if alone == said:
        return
    for key in ("on", "covers", "wraps"):
        if getattr(alone, key) != getattr(said, key):
            yield Change(part.name, key, "")
    if alone.holds != said.holds:
        yield Change(part.name, "holds", list_text(alone.holds))
    for key, other in COMPANY.items():
        if not getattr(alone, other):
            yield Change(part.name, key, "")
    if said.sizing.kind is SizingKind.DERIVED and not (alone.on or alone.holds or alone.covers or alone.wraps):
        for parameter in part.form.size:
            if parameter in said.settings:
                yield Change(part.name, parameter.replace("_", "-"), "")
        yield Change(
            part.name, "size", size_text([part.lengths[each] for each in part.form.size], built.kit.ruler.unit)
        )


def without(part: Part, name: str) -> Part:
    """A part without its relations to one name."""
    return replace(
        part,
        on=None if part.on == name else part.on,
        covers=None if part.covers == name else part.covers,
        wraps=None if part.wraps == name else part.wraps,
        holds=tuple(each for each in part.holds if each != name),
    )
