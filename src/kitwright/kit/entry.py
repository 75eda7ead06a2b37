"""One table of a kit document while it is read, and the notes of everything that is wrong in the document."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, TypeVar

from kitwright.errors import Mistake, Place, Unreadable
from kitwright.kit.keys import Key
from kitwright.kit.source import Path
from kitwright.measure import nearest_word, suggestion

__all__ = ["Entry", "Notes"]

T = TypeVar("T")


@dataclass(slots=True)
class Notes:
    """The mistakes found so far in one document, where its tables and keys stand, and whether its maker measures in millimetres."""

    document: str
    lines: Mapping[Path, int]
    is_metric: bool = False
    mistakes: list[Mistake] = field(default_factory=list)

    def place(self, path: Path, spot: str = "") -> Place:
        """The place of a table or key; where it has no line of its own, of the table it is in."""
        while path and path not in self.lines:
            path = path[:-1]
        return Place(self.document, self.lines.get(path), spot)

    def add(self, mistake: Mistake, path: Path, spot: str = "") -> None:
        """Note a mistake at a table or key."""
        self.mistakes.append(mistake.at(self.place(path, spot)))

    def move(self, old: Path, new: Path) -> None:
        """Let the places of a table and all in it be found under another path."""
        here = len(old)
        self.lines = {(*new, *path[here:]) if path[:here] == old else path: line for path, line in self.lines.items()}


@dataclass(frozen=True, slots=True)
class Entry:
    """One table: its values by key, its path, and the words that name it for a person, such as `part "lid"`.

    `guessed` are keys that stand in the document misspelt. That was noted, and nothing more is noted of them: one cause, one mistake.
    `keys` describe what may stand in it, as `only` was told.
    """

    notes: Notes
    path: Path
    values: Mapping[str, Any]
    spot: str
    guessed: frozenset[str] = frozenset()
    keys: Mapping[str, Key] = field(default_factory=dict)

    @property
    def place(self) -> Place:
        """Where the table begins."""
        return self.notes.place(self.path, self.spot)

    def line(self, key: str) -> int | None:
        """The line of a key."""
        return self.notes.place((*self.path, key)).line

    def add(self, mistake: Mistake, key: str = "") -> None:
        """Note a mistake at a key, or at the table as a whole."""
        if key in self.guessed:
            return
        self.notes.add(mistake, (*self.path, key) if key else self.path, self.spot)

    def read(self, key: str, reader: Callable[[object], T]) -> T | None:
        """The value of a key as `reader` gives it; None where the key is not there or its mistake has been noted."""
        if key not in self.values:
            return None
        try:
            return reader(self.values[key])
        except Unreadable as mistake:
            self.add(Mistake(f"{key}: {mistake.what}", do=self.like(key) or mistake.do), key)
        except Mistake as mistake:
            self.add(Mistake(f"{key}: {mistake.what}", do=mistake.do), key)
        return None

    def example(self, key: Key) -> str:
        """An example of a key as the maker of this document would type it."""
        return key.metric if key.metric and self.notes.is_metric else key.example

    def like(self, key: str) -> str:
        """What to do about a key that cannot be read at all; nothing where it was not said what may stand here."""
        return f"Write it like {self.example(self.keys[key])}." if key in self.keys else ""

    def need(self, key: Key, reader: Callable[[object], T], *, do: str = "") -> T | None:
        """The value of a key that must be there; notes it where it is not."""
        if key.name not in self.values:
            verb = "are" if key.name.endswith("s") else "is"
            self.add(Mistake(f"The {key.name} {verb} missing.", do=do or f"Add {key.name} = {self.example(key)}."))
        return self.read(key.name, reader)

    def only(self, known: Mapping[str, Key]) -> Entry:
        """Note every key that is not known. Gives the table as it was probably meant: misspelt keys under their right names too."""
        words = tuple(known)
        meant: dict[str, Any] = {}
        for key, value in self.values.items():
            if key in words:
                continue
            self.add(Mistake(f"There is no key {key[:60]!r} here.", do=suggestion(key[:60], words)), key)
            right = nearest_word(key[:60], words)
            if right and right not in self.values:
                meant.setdefault(right, value)
        return replace(self, values={**self.values, **meant}, guessed=self.guessed | meant.keys(), keys=known)

    def table(self, key: str) -> Entry | None:
        """A table inside this one; None where it is not there or is no table (which has been noted)."""
        values = None if key in self.guessed else self.values.get(key)
        if isinstance(values, dict):
            return Entry(self.notes, (*self.path, key), values, self.spot)
        if values is not None:
            self.add(Mistake(f"{key} should be a table.", do=self.like(key) or f"Write it like {key} = {{ … }}."), key)
        return None
