"""Changing a kit document: one value is written in place of another, and every comment, blank line and order stays as it was."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from kitwright.errors import Mistake
from kitwright.findings import Change
from kitwright.kit.keys import EXTRA_KEYS, KIT_KEYS, OFFCUT_KEYS, PAPER_KEYS, PART_KEYS
from kitwright.kit.read_part import form_keys
from kitwright.kit.source import Path, find_settings
from kitwright.kit.syntax import Written, parse_document
from kitwright.measure import suggestion

__all__ = ["apply_changes", "quoted"]

BARE: Final = (
    ("a whole number", r"\d+"),
    ("a number", r"\d+(\.\d+)?"),
    ("0, 90", r"\d+"),
    ("true or false", r"true|false"),
    ("a list", r"\[.*\]"),
    ("names of parts", r"\[.*\]"),
    ("a table", r"\{.*\}"),
)
"""What is written without quotes: what the words hold that say what a key takes, and what such a value looks like."""


def apply_changes(text: str, changes: Sequence[Change]) -> str:
    """The document with all changes made, one after the other; everything else stays as it is, sign for sign.

    Raises `Mistake` for a document that cannot be read, a part, paper or key that is not there, or a document written so that the
    change must be made by hand. Whether the changed document makes a good kit is for `read_kit` to say.
    """
    for change in changes:
        text = apply_change(text, change)
    return text


def apply_change(text: str, change: Change) -> str:
    """The document with one change made; it is read back, and must differ in just this."""
    wanted = parse_document(text)
    table, path = find_table(wanted, change)
    check_key(change)
    value = typed(change.key, change.value) if change.value else ""
    said = parse_document(f"value = {value}")["value"] if value else {}
    old = table.get(change.key)
    if isinstance(old, dict) and isinstance(said, dict) and (*path, change.key) in find_settings(text)[1]:
        edited = with_entries(text, (*path, change.key), old, said)
        table[change.key] = said
    elif change.value:
        edited = with_value(text, path, change.key, value)
        table[change.key] = said
    elif change.key in table:
        edited = without(text, path, change.key)
        del table[change.key]
    else:
        return text
    if edited is None or not reads_as(edited, wanted):
        raise Mistake(
            f"The {change.key} of {change.name or 'the kit'} cannot be changed here.",
            do="Change it by hand, and write one key to a line under the heading of its table.",
        )
    return edited


def reads_as(text: str, values: Mapping[str, Any]) -> bool:
    """Whether a document has just these values."""
    try:
        return parse_document(text) == values
    except Mistake:
        return False


def find_table(values: Mapping[str, Any], change: Change) -> tuple[dict[str, Any], Path]:
    """The table that a change is about, and its path. Raises `Mistake` if there is none."""
    found: dict[str, tuple[object, Path]] = {}
    tables = values.get(change.table)
    match change.table:
        case "kit":
            found[""] = (tables, ("kit",))
        case "paper" if isinstance(tables, dict):
            found.update({word: (table, ("paper", word)) for word, table in tables.items()})
        case "offcut" if isinstance(tables, list):
            found.update({str(place): (table, ("offcut", place)) for place, table in enumerate(tables)})
        case "part" | "extra" if isinstance(tables, list):
            for place, table in enumerate(tables):
                name = table.get("name") if isinstance(table, dict) else None
                if isinstance(name, str):
                    found.setdefault(name.strip(), (table, (change.table, place)))
        case _:
            raise Mistake(f"There is no {change.table} in this document.", do="Name a part or a paper that it has.")
    table, path = found.get(change.name.strip(), (None, ()))
    if not isinstance(table, dict):
        raise Mistake(f"There is no {change.table} called {change.name!r}.", do=suggestion(change.name, found))
    return table, path


def check_key(change: Change) -> None:
    """Raise `Mistake` for a key that such a table never has."""
    known = {
        "kit": tuple(KIT_KEYS),
        "paper": tuple(PAPER_KEYS),
        "extra": tuple(EXTRA_KEYS),
        "offcut": tuple(OFFCUT_KEYS),
        "part": (*PART_KEYS, *form_keys(None)),
    }[change.table]
    if change.key not in known:
        raise Mistake(f"A {change.table} has no key {change.key!r}.", do=suggestion(change.key, known))


def typed(key: str, value: str) -> str:
    """A value as it is typed in a document: most in quotes, whole numbers and lists without."""
    is_bare = any(re.fullmatch(looks, value) for looks in looks_of(key))
    return value if is_bare else quoted(value)


def looks_of(key: str) -> Iterator[str]:
    """What the values of a key look like that are written without quotes."""
    for keys in (KIT_KEYS, PAPER_KEYS, EXTRA_KEYS, PART_KEYS, OFFCUT_KEYS):
        if key in keys:
            yield from (looks for takes, looks in BARE if takes in keys[key].takes)


def quoted(words: str) -> str:
    """Words in the quotes of TOML: plain ones where the words hold no sign that needs more."""
    if '"' in words and "'" not in words and words.isprintable():
        return f"'{words}'"
    signs = {"\\": "\\\\", '"': '\\"'}
    return '"' + "".join(signs.get(s, s if s.isprintable() else f"\\U{ord(s):08x}") for s in words) + '"'


def with_value(text: str, path: Path, key: str, value: str) -> str | None:
    """The text with a new value for a key, in its old place or after the last key of its table; None where it has no such place."""
    settings, headers = find_settings(text)
    old = settings.get((*path, key))
    if old is not None:
        return text[: old.value_begin] + value + text[old.end :]
    if path not in headers:
        return None
    own = [setting for setting in settings.values() if setting.table == path]
    last = max(own, key=lambda setting: setting.end) if own else headers[path]
    start = text.rfind("\n", 0, last.begin) + 1
    indent = text[start : last.begin]
    end = text.find("\n", last.end)
    rest = "" if end < 0 else text[end:]
    line_end = "\r\n" if "\r\n" in text else "\n"
    before = text if end < 0 else text[:end].removesuffix("\r")
    return f"{before}{line_end}{indent}{key} = {value}" + (f"\r{rest}" if line_end == "\r\n" and rest else rest)


def with_entries(text: str, path: Path, before: Mapping[str, Any], after: Mapping[str, Any]) -> str | None:
    """The text with other values in a table that has a heading of its own; the heading and its remarks stay, even over nothing."""
    edited: str | None = text
    for key in dict.fromkeys((*before, *after)):
        if edited is not None and before.get(key) != after.get(key):
            value = after.get(key)
            edited = without(edited, path, key) if value is None else with_value(edited, path, key, in_signs(value))
    return edited


def in_signs(value: object) -> str:
    """A single value as it stands in a document."""
    return quoted(value) if isinstance(value, str) else value.text if isinstance(value, Written) else str(value).lower()


def without(text: str, path: Path, key: str) -> str | None:
    """The text without the whole line or lines of a key; None where it has no line of its own."""
    old = find_settings(text)[0].get((*path, key))
    if old is None:
        return None
    start = text.rfind("\n", 0, old.begin) + 1
    end = text.find("\n", old.end)
    return text[:start] + ("" if end < 0 else text[end + 1 :])
