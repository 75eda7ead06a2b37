"""From the bytes or the text of a kit document to plain TOML values; every fault of writing becomes one plain sentence with its line."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from kitwright.errors import Mistake, Place

__all__ = ["LARGEST_DOCUMENT", "Written", "decode", "parse_document"]

LARGEST_DOCUMENT: Final = 1_000_000
"""Bytes, in UTF-8. A kit of a hundred parts takes twenty thousand; a larger file is something else."""

LONGEST_LINE: Final = 5_000
"""Signs. Nobody writes longer lines by hand, and reading very long ones takes very long."""

SAVE_AS_UTF_8: Final = "Save it as UTF-8: most editors offer the encoding when saving."


@dataclass(frozen=True, slots=True)
class Written:
    """A number with decimals exactly as it is written in the document, so that nothing is lost in binary."""

    text: str


def written(text: str) -> Written:
    """Keep a number with decimals as text."""
    return Written(text.replace("_", "").removeprefix("+"))


def decode(data: bytes, *, document: str = "") -> str:
    """The text of a document. Raises `Mistake` if it is too large, in another encoding, or not a text at all."""
    place = Place(document)
    if len(data) > LARGEST_DOCUMENT:
        raise Mistake(
            "This file is larger than 1 MB, and a kit document is a short text.",
            do="Choose the kit document (a .toml file).",
            place=place,
        )
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise Mistake("This file is saved as UTF-16, not as UTF-8.", do=SAVE_AS_UTF_8, place=place)
    if b"\x00" in data:
        raise Mistake("This file is not a text.", do="Choose the kit document (a .toml file).", place=place)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise Mistake("This file is not saved as UTF-8.", do=SAVE_AS_UTF_8, place=Place(document, line)) from None


def parse_document(text: str, *, document: str = "") -> Mapping[str, Any]:
    """The values of a kit document as TOML has them; numbers with decimals as `Written`. Raises `Mistake`."""
    text = text.removeprefix("\ufeff")
    length = len(text.encode("utf-8", "surrogatepass"))
    if length > LARGEST_DOCUMENT:
        raise Mistake(
            f"This document is {length:,} bytes long, and a kit document may be {LARGEST_DOCUMENT:,} bytes long.",
            do="Take out what does not belong to the kit.",
            place=Place(document),
        )
    if not text.strip():
        raise Mistake(
            "This document is empty.",
            do='Begin with [kit], a name and the units, or start one with "kitwright new".',
            place=Place(document),
        )
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            raise Mistake(
                f"This line has more than {LONGEST_LINE:,} signs, and a kit document has short ones.",
                do="Check that this is the right file, and break the line.",
                place=Place(document, number),
            )
    try:
        return tomllib.loads(text, parse_float=written)
    except tomllib.TOMLDecodeError as error:
        raise plain_mistake(str(error), text, document) from None
    except RecursionError:
        raise Mistake(
            "Lists and tables are nested too deeply.", do="Use plain keys and values.", place=Place(document)
        ) from None
    except ValueError:  # the interpreter refuses whole numbers of thousands of digits
        raise Mistake(
            "A number in this document has too many digits.", do="Check the numbers.", place=Place(document)
        ) from None


LINE: Final = re.compile(r" \(at (?:line (?P<line>\d+), column \d+|end of document)\)$")

QUOTES: Final = 'Put words and sizes in quotes: size = "4 1/4 x 5 1/2".'
PLAIN: Final = (
    ("Expected newline or end of document", "Something stands after the value.", f"{QUOTES} One key to a line."),
    ("Invalid value", "The value cannot be read.", QUOTES),
    ("Expected '=' after a key", "There is no equals sign after the key.", "Write a key, = and a value: quantity = 24."),
    ("Invalid initial character for a key", "A key should stand here.", "Write a key, = and a value: quantity = 24."),
    ("Illegal character '\\n'", "The quote is not closed on this line.", "Add the closing quote."),
    ("Unterminated string", "A quote is not closed.", "Add the closing quote."),
    ("Expected \"'\"", "A quote is not closed.", "Add the closing quote."),
    ("Expected '\"", "A quote is not closed.", "Add the closing quote."),
    ("Unescaped '\\'", "A backslash stands in quotes.", "Leave it out, or write it twice."),
    ("Cannot declare ('part',)", "There is one [part] already.", "Write each part under its own [[part]], in double brackets."),
    ("Cannot declare ('extra',)", "There is one [extra] already.", "Write each under its own [[extra]], in double brackets."),
    ("Cannot declare", "This table is written twice.", "Put all its keys under one heading."),
    ("Cannot overwrite", "This key is written twice.", "Keep one of the two lines."),
    ("Duplicate inline table key", "This key is written twice.", "Keep one of the two."),
    ("Cannot mutate immutable namespace", "This table was written before in braces.", "Put all its keys in one place."),
    ("Expected ']' at the end of a table", "The heading is not closed.", "Write it like [kit] or [paper.kraft]."),
    ("Expected ']]' at the end of an array", "The heading is not closed.", "Write it like [[part]]."),
    ("Unclosed array", "A list is not closed.", "Add a comma between its entries and ] at its end."),
    ("Unclosed inline table", "A brace is not closed.", "Add a comma between its keys and } at its end."),
    ("Illegal character", "There is a sign here that cannot stand in a document.", "Delete it and type the line again."),
    ("Found invalid character", "There is a sign here that cannot stand in a document.", "Delete it and type the line again."),
    ("Invalid date", "This looks like a date, and there is no such day or time.", QUOTES),
)  # fmt: skip
"""What the reader of TOML says, what that means to a maker, and what to do."""


def plain_mistake(message: str, text: str, document: str) -> Mistake:
    """What the reader of TOML found wrong, in plain words; its own words where there are none."""
    found = LINE.search(message)
    words = message[: found.start()] if found else message
    ends = len(text.rstrip().split("\n"))
    line = int(found["line"]) if found and found["line"] else ends
    for said, what, do in PLAIN:
        if words.startswith(said):
            return Mistake(what, do=do, place=Place(document, line))
    return Mistake(
        f"This line cannot be read: {words[:1].lower()}{words[1:]}.",
        do="Look at the quotes, brackets and equals signs of this line and the one before.",
        place=Place(document, line),
    )
