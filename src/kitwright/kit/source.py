"""Where things stand in the text of a TOML document: the line of every table and key, counted from 1.

`tomllib` gives values without places. This reads a text that `tomllib` has accepted a second time, for places only, so it need not
check anything. A place is found by its path: keys, and numbers from 0 for the entries of arrays:

    [[part]]                    ("part",) and ("part", 0)
    name = "lid"                ("part", 0, "name")
    margins = { left = 1 }      ("part", 0, "margins") and ("part", 0, "margins", "left")
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

__all__ = ["DEEPEST", "Header", "Path", "Setting", "find_settings", "line_numbers"]

Path = tuple[str | int, ...]
"""The way from the top of a document to a table, a key or an entry of an array."""

DEEPEST: Final = 5
"""Paths longer than this are not noted: a kit document has none, and a hostile one could fill the memory with them."""

KEY: Final = re.compile(r"""[A-Za-z0-9_-]+|"(?:\\.|[^"\\])*"|'[^']*'""")
STRING: Final = re.compile(
    r'''"""(?:\\.|[^\\])*?"""(?:"{0,2})|\'\'\'.*?\'\'\'(?:'{0,2})|"(?:\\.|[^"\\])*"|'[^']*\'''', re.DOTALL
)
BLANKS: Final = re.compile(r"[ \t]*")
EMPTY: Final = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
BARE: Final = re.compile(r"[^\s,\]}#]+(?: [0-9][^\s,\]}#]*)?")
"""A number, a date (which may hold one blank before the time) or a word such as `true`."""

ESCAPES: Final = MappingProxyType(
    {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r", "e": "\x1b", '"': '"', "\\": "\\"}
)
ESCAPE: Final = re.compile(r"\\(?:x([0-9A-Fa-f]{2})|u([0-9A-Fa-f]{4})|U([0-9A-Fa-f]{8})|(.))")


def line_numbers(text: str) -> Mapping[Path, int]:
    """The line of every table, key and array entry of a text that `tomllib` accepts; of a table, that of its first header or key."""
    reading = Reading(text)
    reading.read()
    return MappingProxyType(reading.lines)


@dataclass(frozen=True, slots=True)
class Setting:
    """Where `key = value` stands: the path of the table whose header it is under, and offsets into the text."""

    table: Path
    begin: int
    value_begin: int
    end: int


@dataclass(frozen=True, slots=True)
class Header:
    """Where the header of a table stands: offsets into the text."""

    begin: int
    end: int


def find_settings(text: str) -> tuple[Mapping[Path, Setting], Mapping[Path, Header]]:
    """Every `key = value` on a line of its own, and every header of a table, by path, in a text that `tomllib` accepts."""
    reading = Reading(text)
    reading.read()
    return MappingProxyType(reading.settings), MappingProxyType(reading.headers)


@dataclass(slots=True)
class Open:
    """An array or inline table that is being read: its path, and the number of the entry in an array (None in a table)."""

    path: Path
    entry: int | None


class Reading:
    """One pass over a document. Not recursive, so that no depth of nesting can exhaust the stack."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.counted_to = 0
        self.line = 1
        self.lines: dict[Path, int] = {}
        self.entries: dict[Path, int] = {}
        """How many tables each array of tables has so far."""
        self.settings: dict[Path, Setting] = {}
        self.headers: dict[Path, Header] = {}

    def read(self) -> None:
        """Read the whole document."""
        table: Path = ()
        while True:
            self.skip(EMPTY)
            if self.at >= len(self.text):
                return
            begin = self.at
            if self.text[begin] == "[":
                table = self.header()
                self.headers[table] = Header(begin, self.at)
            else:
                path = self.key(table)
                self.skip(BLANKS)
                value_begin = self.at
                self.value(path)
                self.settings[path] = Setting(table, begin, value_begin, self.at)

    def skip(self, pattern: re.Pattern[str]) -> str:
        """Go past whatever the pattern matches here; gives what that was."""
        found = pattern.match(self.text, self.at)
        if found is None:
            return ""
        self.at = found.end()
        return found[0]

    def note(self, path: Path) -> None:
        """Note that a path stands on the present line, unless it was met before."""
        if len(path) <= DEEPEST:
            self.line += self.text.count("\n", self.counted_to, self.at)
            self.counted_to = self.at
            self.lines.setdefault(path, self.line)

    def header(self) -> Path:
        """Read `[table]` or `[[array of tables]]`; gives the path of the keys that follow."""
        is_array = self.text.startswith("[[", self.at)
        self.at += 2 if is_array else 1
        names = self.names()
        self.skip(BLANKS)
        path: Path = ()
        for name in names[:-1]:
            path = self.inside((*path, name))
        path = (*path, names[-1])
        self.note(path)
        if is_array:
            number = self.entries.get(path, 0)
            self.entries[path] = number + 1
            path = (*path, number)
            self.note(path)
        self.at += 2 if is_array else 1
        return path

    def inside(self, path: Path) -> Path:
        """The path of a table on the way; in an array of tables, that of its last one."""
        self.note(path)
        if path in self.entries:
            path = (*path, self.entries[path] - 1)
        return path

    def names(self) -> list[str]:
        """Read a key with its dots."""
        names = []
        while True:
            self.skip(BLANKS)
            names.append(plain(self.skip(KEY)))
            self.skip(BLANKS)
            if not self.text.startswith(".", self.at):
                return names
            self.at += 1

    def key(self, table: Path) -> Path:
        """Read a key and its equals sign; gives its path."""
        path = table
        for name in self.names():
            path = (*path, name)
            self.note(path)
        self.at += 1  # the equals sign
        return path

    def value(self, path: Path) -> None:
        """Read one value with all that is in it."""
        opened: list[Open] = []
        self.begin(path, opened)
        while opened:
            inner = opened[-1]
            self.skip(EMPTY)
            sign = self.text[self.at] if self.at < len(self.text) else "]"
            if sign in "]}":
                self.at += 1
                opened.pop()
            elif sign == ",":
                self.at += 1
            elif inner.entry is None:
                path = self.key(inner.path)
                self.skip(BLANKS)
                self.begin(path, opened)
            else:
                path = (*inner.path, inner.entry)
                inner.entry += 1
                self.note(path)
                self.begin(path, opened)

    def begin(self, path: Path, opened: list[Open]) -> None:
        """Go past a plain value, or into an array or inline table."""
        sign = self.text[self.at]
        if sign in "[{":
            self.at += 1
            opened.append(Open(path[: DEEPEST + 1], 0 if sign == "[" else None))
        elif sign in "\"'":
            self.skip(STRING)
        elif not self.skip(BARE):
            self.at += 1  # no text that tomllib accepts comes here; never stand still


def plain(key: str) -> str:
    """A key without its quotes and escapes."""
    if key.startswith('"'):
        return ESCAPE.sub(unescaped, key[1:-1])
    return key.strip("'") if key.startswith("'") else key


def unescaped(found: re.Match[str]) -> str:
    """The sign that an escape stands for."""
    code = found[1] or found[2] or found[3]
    return chr(int(code, 16)) if code else ESCAPES[found[4]]
