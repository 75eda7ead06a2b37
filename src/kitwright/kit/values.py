"""Reading single values of a kit document. Each function takes a TOML value and gives the thing it stands for, or raises `Mistake`."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake, Unreadable
from kitwright.kit.syntax import Written
from kitwright.measure import Unit, parse_length, parse_size, suggestion

__all__ = [
    "grams",
    "length_in",
    "length_or_zero_in",
    "names",
    "number_text",
    "one_of",
    "place_in",
    "quarter_turns",
    "share",
    "sizes_in",
    "text",
    "whole",
    "yes_or_no",
]

LARGEST: Final = 10**9
"""No number in a kit comes near it; larger ones are not even turned into words, which may take for ever."""

LONGEST_TEXT: Final = 200
"""Signs in one value. Longer names spoil every printout, and longer numbers are slips."""

GRAMS_PER_OUNCE: Final = Fraction("28.349523125")
"""One ounce avoirdupois, a sixteenth of the pound of the yard and pound agreement of 1959 (24 FR 5348)."""

HEAVIEST_EXTRA_G: Final = 20_000


def kind_of(value: object) -> str:
    """What a value is, for a person; never its content, which may be huge."""
    match value:
        case bool():
            return "true or false"
        case str():
            return "words"
        case int() | Written():
            return "a number"
        case list():
            return "a list"
        case dict():
            return "a table"
        case _:
            return "a date or time"


def text(value: object) -> str:
    """Words in quotes, not empty, on one line, without blanks round them."""
    if not isinstance(value, str):
        raise Unreadable(f"This is {kind_of(value)}, and words are needed.", do='Put them in quotes: "like this".')
    said = value.strip()
    if not said:
        raise Mistake("Nothing is written between the quotes.", do="Write it out, or leave the whole line out.")
    if len(said) > LONGEST_TEXT:
        raise Mistake(f"{said[:30]!r}… is longer than {LONGEST_TEXT} signs.", do="Make it shorter.")
    if not said.isprintable():
        raise Mistake(f"{said[:30]!r} holds a line break or a sign that cannot be printed.", do="Write it on one line.")
    return said


def number_text(value: object) -> str:
    """A number or words, as they would be typed; no number in it has more than six digits in a row."""
    said = typed_number(value)
    many = re.search(r"[0-9]{7,}", said)
    if many:
        raise Mistake(f"{many[0][:30]!r} is far too large or far too fine.", do="Check the number and its unit.")
    return said


def typed_number(value: object) -> str:
    """A number or words, as they would be typed."""
    if isinstance(value, Written):
        return text(value.text)
    if isinstance(value, int) and not isinstance(value, bool):
        if abs(value) > LARGEST:
            raise Mistake("This number is far too large.", do="Check it.")
        return str(value)
    if isinstance(value, str):
        return text(value)
    raise Unreadable(f"This is {kind_of(value)}, and a number is needed.", do='Write it like 4.25 or "4 1/4".')


def one_of(known: Iterable[str]) -> Callable[[object], str]:
    """Reads one of a few words; offers the nearest for another."""
    choices = tuple(str(word) for word in known)

    def read(value: object) -> str:
        said = text(value)
        if said not in choices:
            raise Mistake(f"{said!r} is not known here.", do=suggestion(said, choices))
        return said

    return read


def whole(*, least: int, most: int) -> Callable[[object], int]:
    """Reads a whole number within limits."""

    def read(value: object) -> int:
        if isinstance(value, str) and re.fullmatch(r"[0-9]{1,9}", value.strip()):
            value = int(value)
        if isinstance(value, bool) or not isinstance(value, int):
            said = f" ({value.text})" if isinstance(value, Written) else ""
            raise Unreadable(f"A whole number is needed, and this is {kind_of(value)}{said}.", do="Write it like 24.")
        if not least <= value <= most:
            raise Mistake(f"This number should be from {least:,} to {most:,}.", do="Check it.")
        return value

    return read


def yes_or_no(value: object) -> bool:
    """`true` or `false`."""
    if not isinstance(value, bool):
        raise Mistake(f"This is {kind_of(value)}.", do="Write true or false, without quotes.")
    return value


ZERO: Final = re.compile(r"0+(?:[.,]0+)?\s*(?:in|mm|cm|\"|)")


def length_in(unit: Unit) -> Callable[[object], Fraction]:
    """Reads a length above zero, in mm."""
    return lambda value: parse_length(number_text(value), unit).mm


def length_or_zero_in(unit: Unit) -> Callable[[object], Fraction]:
    """Reads a length in mm, or zero."""

    def read(value: object) -> Fraction:
        said = number_text(value)
        if said.startswith("-"):
            raise Mistake(f"{said!r} is below zero.", do="Write 0 or more.")
        return Fraction(0) if ZERO.fullmatch(said) else parse_length(said, unit).mm

    return read


def sizes_in(unit: Unit, *, least: int, names: tuple[str, ...]) -> Callable[[object], tuple[Fraction, ...]]:
    """Reads a size of as many lengths as there are `names` (at least `least`), in mm."""

    def read(value: object) -> tuple[Fraction, ...]:
        said = number_text(value)
        lengths = parse_size(said, unit)
        if not least <= len(lengths) <= len(names):
            count = {1: "one length", 2: "two lengths", 3: "three lengths"}
            needed = count[least] if least == len(names) else f"{count[least]} or {count[len(names)]}"
            has = count.get(len(lengths), f"{len(lengths)} lengths")
            raise Mistake(f"{said!r} has {has}, and {needed} should be here.", do=f"Write {' x '.join(names)}.")
        return tuple(length.mm for length in lengths)

    return read


def place_in(unit: Unit) -> Callable[[object], tuple[Fraction, Fraction]]:
    """Reads a place as two lengths or zeros with an x between them: so far to the right and so far up, in mm."""
    length = length_or_zero_in(unit)

    def read(value: object) -> tuple[Fraction, Fraction]:
        across, sign, up = re.sub("[×X]", "x", number_text(value)).partition("x")
        if not sign or "x" in up:
            raise Unreadable(f"{number_text(value)!r} is no place.", do="Write it like 1 1/2 x 3: to the right x up.")
        return length(across.strip()), length(up.strip())

    return read


def names(value: object) -> tuple[str, ...]:
    """One name or a list of them, each once."""
    listed = value if isinstance(value, list) else [value]
    if not listed:
        raise Mistake("The list is empty.", do="Name something, or leave the line out.")
    found = tuple(text(each) for each in listed)
    twice = next((name for name in found if found.count(name) > 1), None)
    if twice:
        raise Mistake(f"{twice!r} is in the list twice.", do="Name it once; its quantity says how many there are.")
    return found


def share(value: object) -> float:
    """A number from 0 to 1."""
    said = number_text(value)
    if not re.fullmatch(r"[01]|[01]?[.,][0-9]{1,6}", said) or float(said.replace(",", ".")) > 1:
        raise Unreadable(f"{said!r} is not a number from 0 to 1.", do="Write it like 0.5.")
    return float(said.replace(",", "."))


GRAMS: Final = re.compile(r"(?P<number>[0-9]{1,6}(?:[.,][0-9]{1,4})?|[.,][0-9]{1,4})\s*(?P<unit>\S*)")


def grams(value: object) -> float:
    """A weight in grams, from `6 g` or `0.2 oz`."""
    said = number_text(value)
    found = GRAMS.fullmatch(said)
    units = {"g": Fraction(1), "gram": Fraction(1), "grams": Fraction(1), "kg": Fraction(1000), "oz": GRAMS_PER_OUNCE}
    if found is None or found["unit"] not in units:
        raise Unreadable(f"{said!r} is not a weight that can be read.", do="Write it like 6 g or 0.2 oz.")
    weight = Fraction(found["number"].replace(",", ".")) * units[found["unit"]]
    if not 0 < weight <= HEAVIEST_EXTRA_G:
        raise Mistake(f"{said!r} should be above zero and at most 20 kg.", do="Check the number and its unit.")
    return float(weight)


def quarter_turns(value: object) -> int:
    """How many quarters of a turn so many degrees are."""
    degrees = whole(least=0, most=360)(value)
    if degrees % 90 or degrees == 360:
        raise Mistake(f"{degrees} is not a quarter, half or three-quarter turn.", do="Write 0, 90, 180 or 270.")
    return degrees // 90
