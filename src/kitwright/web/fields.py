"""Fields of the page's forms: what stands in them, and what was typed into one that could not be kept, with the reasons beside it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from kitwright.errors import Mistake
from kitwright.findings import Change

__all__ = ["NOTHING_TYPED", "Field", "Typed", "as_typed", "diff", "key_in"]


@dataclass(frozen=True, slots=True)
class Field:
    """One field: its key in the document, label, value as typed (empty: not said), what is used then, and words to choose from."""

    key: str
    label: str
    value: str
    usual: str = ""
    help: str = ""
    choices: tuple[tuple[str, str], ...] = ()

    @property
    def id(self) -> str:
        """The key without signs that a page's id cannot have."""
        return self.key.replace(" ", "-")

    @property
    def room(self) -> int:
        """How many signs the field shows."""
        return {"lengths": 22, "size": 20, "sheet": 16, "label": 20, "name": 20, "weight": 14}.get(self.key, 8)


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed into one form (by its id) and not kept: the texts, what is wrong by key, and what is wrong besides."""

    form: str = ""
    said: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    wrong: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    besides: tuple[str, ...] = ()

    def value(self, form: str, each: Field) -> str:
        """What stands in a field."""
        return self.said.get(each.key, each.value) if form == self.form else each.value

    def fault(self, form: str, key: str) -> str:
        """What is wrong with a field; empty for nothing."""
        return self.wrong.get(key, "") if form == self.form else ""

    def is_ticked(self, form: str, name: str, *, usual: bool) -> bool:
        """Whether a thing is ticked as held."""
        return name in held_in(self.said) if form == self.form else usual


NOTHING_TYPED: Final = Typed()

MISSING: Final = re.compile(r"The ([a-z-]+) is missing")
SIZE_KEYS: Final = frozenset({"size", "inside", "outside"})


def key_in(mistake: Mistake) -> str:
    """The key that a mistake is about, as its sentence begins with it; empty for the thing as a whole."""
    missing = MISSING.match(mistake.what)
    if missing:
        return missing[1]
    key, colon, _ = mistake.what.partition(":")
    return key if colon and " " not in key else ""


def as_typed(form: str, said: Mapping[str, str], mistakes: Iterable[Mistake], keys: Iterable[str]) -> Typed:
    """What was typed, each mistake beside its field where the form has one for it."""
    known, wrong, besides = set(keys), {}, []
    for mistake in mistakes:
        key = key_in(mistake)
        if key in SIZE_KEYS and key not in known:
            key = "lengths"
        words = f"{mistake.what} {mistake.do}".strip()
        if key in known and key not in wrong:
            wrong[key] = words.removeprefix(f"{key}: ") if key != "lengths" else words.partition(": ")[2]
        else:
            besides.append(f"{mistake.place.spot}: {words}" if mistake.place.spot else words)
    return Typed(form, said, wrong, tuple(besides))


def held_in(said: Mapping[str, str]) -> tuple[str, ...]:
    """The names that are ticked as held, in the order of the form."""
    return tuple(value for key, value in said.items() if key.startswith("holds-"))


def diff(name: str, fields: Iterable[Field], form: Mapping[str, str], *, table: str) -> tuple[Change, ...]:
    """What was typed, as changes of a table; fields that were left as they were, or were not asked, change nothing."""
    return tuple(
        Change(name, each.key, said, table=table)
        for each in fields
        if (said := form.get(each.key, each.value).strip()) != each.value
    )
