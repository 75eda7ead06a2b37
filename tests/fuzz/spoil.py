"""Kit documents with something changed in them, as a slip of the hand or a whim of the maker would: in the text, or in one value."""

from __future__ import annotations

import re
from importlib import resources
from random import Random
from typing import Final

from tests.fuzz.values import NAMES, Maker, toml_value

from kitwright.measure import Unit

__all__ = ["EXAMPLES", "spoilt", "spoilt_text", "spoilt_values"]

EXAMPLES: Final = tuple(
    each.read_text(encoding="utf-8")
    for each in sorted(resources.files("kitwright").joinpath("examples").iterdir(), key=lambda each: each.name)
    if each.name.endswith(".toml")
)
"""The kits that come with the program."""

SIGNS: Final = "[]{}=.,\"'\\#\n ab1-_x/:é\t\u202e"
ODD: Final = (
    "0", "-1", "true", "inf", "nan", "1979-05-27", "[]", "{}", '""', "[1, [2]]", '["card", "box"]', "0xffff", "1e400", '"1e9"', '"1/0"',
    '"6 x 4"', '"6 x 4 x 2"', '"1/8"', '"5 1/3"', '"3 2/3 x 4 1/4"', '"5.827 x 4.134"', "2", '"10.8 cm"', '"one-way"', '"standing"', '"A4"',
    "100000", '"0.001"', '"999999"', '"1/3"', '"0.3 mm"',
)  # fmt: skip
"""Values of every kind, such as are taken in some place and refused in others."""


def spoilt(rng: Random, text: str) -> str:
    """A document with a few of its values changed, or its text broken."""
    return spoilt_values(rng, text) if rng.random() < 0.8 else spoilt_text(rng, text)


def spoilt_text(rng: Random, text: str) -> str:
    """Signs lost, put in, or written twice."""
    for _ in range(rng.choice((1, 1, 2, 4))):
        at = rng.randrange(len(text) + 1)
        until = min(len(text), at + rng.choice((0, 1, 1, 2, 12, 80)))
        put = rng.choice(("", rng.choice(SIGNS), text[at:until] * 2, "".join(rng.choices(SIGNS, k=3))))
        text = text[:at] + put + text[until:]
    return text


def spoilt_values(rng: Random, text: str) -> str:
    """Some lines with another value, another key's value, or gone; sometimes a table gone or twice."""
    for _ in range(rng.choice((1, 1, 1, 2, 3))):
        lines = text.split("\n")
        settings = [place for place, line in enumerate(lines) if re.match(r"[\w-]+ = ", line)]
        if not settings:
            return text
        place = rng.choice(settings)
        key, _, value = lines[place].partition(" = ")
        match rng.randrange(10):
            case 0:
                del lines[place]
            case 1:
                lines[place] = f"{key} = {lines[rng.choice(settings)].partition(' = ')[2]}"
            case 2:
                lines[place] = f"{key} = {rng.choice(ODD)}"
            case 3:
                lines.insert(place, lines[rng.choice(settings)])
            case 4:
                return rid_or_doubled(rng, text)
            case 5 if key == "name":
                lines[place] = f"name = {toml_value(rng.choice(NAMES))}"
            case _:
                lines[place] = f"{key} = {other_numbers(rng, value)}"
        text = "\n".join(lines)
    return text


def rid_or_doubled(rng: Random, text: str) -> str:
    """A document with one of its tables gone, or written twice."""
    tables = re.split(r"(?m)^(?=\[)", text)
    place = rng.randrange(len(tables))
    tables[place] *= rng.choice((0, 0, 2))
    return "".join(tables)


def other_numbers(rng: Random, value: str) -> str:
    """The value with one of its numbers a little or much larger or smaller, or written in another way."""
    numbers = list(re.finditer(r"\d+(?:[ -]\d+/\d+|[./]\d+)?", value))
    if not numbers:
        return rng.choice(ODD)
    found = rng.choice(numbers)
    if not value.startswith('"'):
        return value[: found.start()] + str(rng.choice((0, 1, 2, 7, 24, 100, 10_000))) + value[found.end() :]
    maker = Maker(rng, rng.choice((Unit.INCH, Unit.MILLIMETRE)))
    said = maker.number(maker.unit, 0.5, 400.0)
    return value[: found.start()] + said + value[found.end() :]
