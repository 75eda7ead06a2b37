"""Random sets: parts of any form over the whole range of its limits, on the marks of any ruler, with short and long names."""

from __future__ import annotations

import random
from fractions import Fraction
from math import ceil, floor
from typing import Final

import kitwright.forms  # noqa: F401  # fills the catalogue
from kitwright.catalogue import CATALOGUE, Form, parameters
from kitwright.measure import MM_PER_INCH, Ruler, Unit

__all__ = ["RULERS", "random_set"]

RULERS: Final = {
    "1/8 in": Ruler(Unit.INCH, MM_PER_INCH / 8),
    "1/16 in": Ruler(Unit.INCH, MM_PER_INCH / 16),
    "1/32 in": Ruler(Unit.INCH, MM_PER_INCH / 32),
    "1 mm": Ruler(Unit.MILLIMETRE, Fraction(1)),
    "0.5 mm": Ruler(Unit.MILLIMETRE, Fraction(1, 2)),
    "0.1 cm": Ruler(Unit.CENTIMETRE, Fraction(1)),
}

WORDS: Final = (
    "card",
    "envelope",
    "lid",
    "present",
    "Größe",
    "berries",
    "for",
    "everybody",
    "Schachtel",
    "with",
    "a",
    "ribbon",
    "Ärmel",
)
UNBROKEN: Final = "Geburtstagskartenumschlagschachteldeckelverzierungsbandhalterungsstreifenzuschnitt"
LONGEST_NAME: Final = 80

SHEETS: Final = ((12, 12), (12, 18), (24, 36), (64, 64))
"""Sheets in inches, for metric rulers in pieces of 25 mm; the last takes the largest blank there is."""


def random_set(ruler: Ruler, seed: int, *, forms: tuple[str, ...] = tuple(CATALOGUE), most: int = 3) -> str:
    """A kit document: up to `most` parts that stand alone, of these forms, in numbers, and things to go with them."""
    draw = random.Random(f"{ruler.name} {seed}")
    parts = [part(draw, ruler, draw.choice(forms), number) for number in range(draw.randint(1, most))]
    inch = 1 if ruler.unit is Unit.INCH else 25 / float(ruler.unit.mm)
    sheet = " x ".join(f"{side * inch:g}" for side in draw.choice(SHEETS))
    paper = [
        "[paper.card]",
        f'label = "{name(draw, "paper")}"',
        f'sheet = "{sheet} {ruler.unit.value}"',
        f'weight = "{draw.choice((90, 120, 220, 300))} gsm"',
        f'print = "{draw.choice(("none", "all-over", "one-way"))}"',
        "two-sided = true",
    ]
    extras = [
        f'[[extra]]\nname = "{name(draw, f"thing {number}")}"\nsize = "50 x 40 x 3 mm"\nquantity = {draw.randint(1, 12)}'
        for number in range(draw.choice((0, 1, 3)))
    ]
    kit = ["[kit]", f'name = "{name(draw, "kit")}"', f'units = "{ruler.unit.value}"', f'ruler = "{ruler.name}"']
    return "\n".join([*kit, *paper, *parts, *extras]) + "\n"


def part(draw: random.Random, ruler: Ruler, form: str, number: int) -> str:
    """A part with random sizes; what is not said follows as usual."""
    cls: type[Form] = CATALOGUE[form]
    sides = set(cls.size)
    lines = [f'[[part]]\nname = "{name(draw, f"{form} {number}")}"\nform = "{form}"\npaper = "card"']
    sizes = [length(draw, ruler, each.at_least, each.at_most) for each in parameters(cls) if each.name in sides]
    lines.append(f'size = "{" x ".join(sizes)} {ruler.unit.value}"')
    for each in parameters(cls):
        if each.name not in sides and draw.random() < 0.4:
            value = (
                draw.choice(each.choices)
                if each.choices
                else f"{length(draw, ruler, each.at_least, each.at_most)} {ruler.unit.value}"
            )
            lines.append(f'{each.name.replace("_", "-")} = "{value}"')
    lines.append(f"quantity = {draw.choice((1, 1, 2, 7, 12))}")
    return "\n".join(lines)


def length(draw: random.Random, ruler: Ruler, least: float, most: float) -> str:
    """A length on a mark of the ruler, as it is written in a kit: any, small ones as often as large ones, or a limit."""
    step = float(ruler.step)
    low, high = ceil(least / step - 1e-9), floor(most / step + 1e-9)
    way = draw.random()
    if way < 0.05:
        marks = draw.choice((low, high))
    elif way < 0.5:
        marks = round(low * (max(high, 1) / max(low, 1)) ** draw.random())
    else:
        marks = draw.randint(low, high)
    return ruler.format(max(min(marks, high), low) * ruler.step)


def name(draw: random.Random, about: str) -> str:
    """A name that begins with what it is about, so that no two are the same; some are very long, some without a space."""
    way = draw.random()
    if way < 0.5:
        return about
    if way < 0.75:
        words = [about, *(draw.choice(WORDS) for _ in range(draw.randint(2, 16)))]
        return " ".join(words)[:LONGEST_NAME].strip()
    return (about.replace(" ", "-") + UNBROKEN)[: draw.randint(42, LONGEST_NAME)]
