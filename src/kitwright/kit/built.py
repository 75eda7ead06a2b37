"""A built kit: every part drawn and folded, every size settled. Lengths in millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kitwright.kit.built_part import BuiltPart
from kitwright.kit.closed import things_held
from kitwright.kit.model import Kit
from kitwright.kit.things import Thing

__all__ = ["BuiltKit", "BuiltPart"]


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
        """What one piece of a part holds, as things: of a box all that one kit has of them."""
        return things_held(self.kit, self.by_name, part.part)

    @property
    def by_name(self) -> Mapping[str, BuiltPart]:
        """The built parts by name."""
        return {part.name: part for part in self.parts}
