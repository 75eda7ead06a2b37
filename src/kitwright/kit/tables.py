"""Whole tables of a kit document: a part, paper or extra added or taken out, and everything else left as it stands, sign for sign."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Final

from kitwright.errors import Mistake
from kitwright.findings import Change
from kitwright.kit.edit import check_key, find_table, quoted, reads_as, typed
from kitwright.kit.source import Path, find_settings
from kitwright.kit.syntax import Written, parse_document

__all__ = ["free_paper_word", "said_in", "with_table", "without_table"]

BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")
BY_HAND: Final = "Change it in the kit's text."


def said_in(text: str, table: str, name: str, *, inside: str = "") -> Mapping[str, str]:
    """What a table of the document says, by key, as it would be typed into a field; lists and tables inside it are left out.

    With `inside`, what a table in it says, which its key names; nothing where there is no such table. Raises `Mistake` for a table
    that is not there.
    """
    found, _ = find_table(parse_document(text), Change(name, "name", "", table=table))
    if inside:
        inner = found.get(inside)
        found = inner if isinstance(inner, dict) else {}
    return {key: said for key, value in found.items() if (said := plain(value)) is not None}


def plain(value: object) -> str | None:
    """A single value as it would be typed."""
    match value:
        case bool():
            return "true" if value else "false"
        case Written():
            return value.text
        case int() | str():
            return str(value)
        case _:
            return None


def with_table(text: str, table: str, said: Mapping[str, str], *, word: str = "") -> str:
    """The document with one more part, extra or (under its `word`) paper that says this; empty values are not said.

    It stands after the last table of its kind. Raises `Mistake` for a document that cannot be read, or written so that this must be
    done by hand. Whether the kit is a good one is for `read_kit` to say.
    """
    for key in said:
        check_key(Change("", key, "", table=table))
    wanted = parse_document(text)
    lines = {key: typed(key, value) for key, value in said.items() if value}
    values = {key: parse_document(f"value = {value}")["value"] for key, value in lines.items()}
    if table == "paper":
        heading = f"[paper.{word if BARE_KEY.fullmatch(word) else quoted(word)}]"
        wanted.setdefault("paper", {})  # type: ignore[attr-defined]  # it was read a moment ago and is nobody else's
        wanted["paper"][word] = values
    else:
        heading = f"[[{table}]]"
        wanted.setdefault(table, []).append(values)  # type: ignore[attr-defined]
    end = "\r\n" if "\r\n" in text else "\n"
    block = end.join([heading, *(f"{key} = {value}" for key, value in lines.items())])
    edited = put_in(text, block, place_for(text, table), end)
    if not reads_as(edited, wanted):
        raise Mistake(f"No {table} can be added to this document here.", do=BY_HAND)
    return edited


def put_in(text: str, block: str, at: int, end: str) -> str:
    """The text with a block of lines put in at the end of a line, an empty line before it."""
    before, after = text[:at].rstrip("\r\n"), text[at:]
    return f"{before}{end}{end}{block}{end if not after.strip() else ''}{after if after.strip() else ''}"


def place_for(text: str, table: str) -> int:
    """Where the next table of a kind stands best: at the end of the last line of its kind; without one, at the end of the text."""
    settings, headers = find_settings(text)
    ends = [setting.end for path, setting in settings.items() if path[:1] == (table,)]
    ends += [header.end for path, header in headers.items() if path[:1] == (table,)]
    if not ends:
        return len(text)
    line_end = text.find("\n", max(ends))
    return len(text) if line_end < 0 else line_end - (text[line_end - 1] == "\r")


def without_table(text: str, table: str, name: str) -> str:
    """The document without a part, extra or paper. Remarks that stand before the next heading stay. Raises `Mistake`."""
    wanted = parse_document(text)
    _, path = find_table(wanted, Change(name, "name", "", table=table))
    take_away(wanted, path)
    pieces = lines_of(text, path)
    edited = text
    for begin, end in reversed(pieces):
        edited = edited[:begin] + edited[end:]
    if not pieces or not reads_as(edited, wanted):
        raise Mistake(f"{name} cannot be taken out of this document here.", do=BY_HAND)
    return edited


def take_away(values: Any, path: Path) -> None:
    """Take a table out of what was read; a list or table that becomes empty goes with it."""
    kind, which = path
    del values[kind][which]
    if not values[kind]:
        del values[kind]


def lines_of(text: str, path: Path) -> list[tuple[int, int]]:
    """Where the lines of a table and of the tables in it begin and end, with the empty lines after them."""
    settings, headers = find_settings(text)
    found = []
    for own, header in sorted(headers.items(), key=lambda each: each[1].begin):
        if own[: len(path)] == path:
            last = max([header.end, *(each.end for each in settings.values() if each.table == own)])
            line_end = text.find("\n", last)
            end = len(text) if line_end < 0 else line_end + 1
            while (blank := re.compile(r"[ \t]*\r?\n").match(text, end)) is not None:
                end = blank.end()
            found.append((text.rfind("\n", 0, header.begin) + 1, end))
    return found


def free_paper_word(text: str, wish: str) -> str:
    """A word for a new paper, made from its label, that the document does not have yet."""
    taken = parse_document(text).get("paper", {})
    base = "-".join("".join(s if s.isascii() and s.isalnum() else " " for s in wish.lower()).split())[:30] or "paper"
    word, number = base, 2
    while word in taken:
        word, number = f"{base}-{number}", number + 1
    return word
