"""A kit with one thing changed, as a fix would change it: for trying a fix before it is offered."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from kitwright.catalogue import CATALOGUE
from kitwright.errors import Mistake
from kitwright.findings import Change
from kitwright.kit.model import Goes, Kit, Part, Sizing, SizingKind
from kitwright.measure import parse_length, parse_size
from kitwright.paper import Fibres

__all__ = ["changed"]


def changed(kit: Kit, changes: Iterable[Change]) -> Kit:
    """The kit with changes made to its parts. Raises `Mistake` for a change that no fix makes."""
    parts = {part.name: part for part in kit.parts}
    for change in changes:
        if change.table != "part" or change.name not in parts:
            raise Mistake(f"{change.name!r} is no part of the kit.", do="Name a part.")
        parts[change.name] = changed_part(kit, parts[change.name], change)
    for part in parts.values():
        check_said_once(part)
    return replace(kit, parts=tuple(parts.values()))


def check_said_once(part: Part) -> None:
    """Raise `Mistake` for a part whose size says a length that a key of its own says as well; no document can say that."""
    for name in tuple(CATALOGUE[part.form].size)[: len(part.sizing.lengths)]:
        if name in part.settings:
            raise Mistake(
                f"{name}: the {part.sizing.kind.value} of {part.name} says it already.", do="Keep one of them."
            )


def changed_part(kit: Kit, part: Part, change: Change) -> Part:
    """One part with one key changed."""
    match change.key:
        case "size" | "inside" | "outside":
            if not change.value:
                return replace(part, sizing=Sizing(SizingKind.DERIVED))
            lengths = tuple(length.mm for length in parse_size(change.value, kit.unit))
            return replace(part, sizing=Sizing(SizingKind(change.key), lengths))
        case "turn":
            return replace(part, turn=int(change.value) // 90 % 4)
        case "quantity":
            return replace(part, quantity=int(change.value))
        case "paper":
            return replace(part, paper=change.value)
        case "grain":
            return replace(part, fibres=Fibres(change.value) if change.value else None)
        case "wraps":
            return replace(part, wraps=change.value)
        case "goes":
            return replace(part, goes=Goes(change.value))
        case "contents":
            return replace(part, standing=change.value == "standing" if change.value else None)
        case "form":
            return replace(part, form=change.value)
        case _:
            name = change.key.replace("-", "_")
            if not change.value:
                return replace(part, settings={key: value for key, value in part.settings.items() if key != name})
            return replace(part, settings={**part.settings, name: parse_length(change.value, kit.unit).mm})
