"""Fields of the page's forms: what stands in them, and what was typed into one that could not be kept, with the reasons beside it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby
from types import MappingProxyType
from typing import Final

from kitwright.errors import Mistake
from kitwright.findings import Change
from kitwright.kit import quoted

__all__ = [
    "NOTHING_TYPED",
    "Field",
    "Typed",
    "Within",
    "as_said",
    "as_typed",
    "diff",
    "grouped",
    "held_in",
    "in_words",
    "key_in",
]


@dataclass(frozen=True, slots=True)
class Within:
    """A table inside a thing's own, whose keys have fields of their own: its key, what it is called, and what that means."""

    key: str
    legend: str
    help: str = ""


@dataclass(frozen=True, slots=True)
class Field:
    """One field: its key in the document, label, value as typed (empty: not said), what is used then, and words to choose from.

    `within` is the table inside the thing's own in which the key stands; None for most.
    """

    key: str
    label: str
    value: str
    usual: str = ""
    help: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    within: Within | None = None

    @property
    def id(self) -> str:
        """The key without signs that a page's id cannot have."""
        return self.key.replace(" ", "-")

    @property
    def room(self) -> int:
        """How many signs the field shows."""
        return {"lengths": 22, "size": 20, "sheet": 16, "mat": 14, "label": 20, "name": 20, "weight": 14}.get(
            self.key, 8
        )


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


def grouped(fields: Iterable[Field]) -> list[tuple[Within | None, tuple[Field, ...]]]:
    """Fields in their order, those of a table inside the thing's own together."""
    return [(within, tuple(some)) for within, some in groupby(fields, key=lambda each: each.within)]


def as_said(fields: Iterable[Field], form: Mapping[str, str]) -> dict[str, str]:
    """What stands in a form, by the keys of the document; what was not asked stays as it was. Fields of a table come as its one value."""
    said: dict[str, str] = {}
    for within, some in grouped(fields):
        values = {each.key: form.get(each.key, each.value).strip() for each in some}
        said |= values if within is None else {within.key: table_text(values)}
    return said


def table_text(values: Mapping[str, str]) -> str:
    """Several values as one table of a document; empty for none."""
    typed = [f"{key} = {quoted(value)}" for key, value in values.items() if value]
    return f"{{ {', '.join(typed)} }}" if typed else ""


def in_words(value: str) -> str:
    """A value of a change for people: a table without the signs that make it one."""
    return re.sub(r"[{}\"']|= ", "", value).strip() if value.startswith("{") else value


def diff(name: str, fields: Sequence[Field], form: Mapping[str, str], *, table: str) -> tuple[Change, ...]:
    """What was typed, as changes of a table; fields that were left as they were, or were not asked, change nothing."""
    before = as_said(fields, {})
    return tuple(
        Change(name, key, said, table=table) for key, said in as_said(fields, form).items() if said != before[key]
    )
