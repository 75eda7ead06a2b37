"""Values as a maker might type them: lengths in every way of writing, names of every kind, and one for whatever a key says it takes."""

from __future__ import annotations

import json
import math
import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from random import Random
from types import MappingProxyType
from typing import Any, Final

from kitwright.kit.cautions import EXTRA_KINDS
from kitwright.kit.keys import (
    ACCURACY_KEYS,
    FIT_KEYS,
    KEEP_KEYS,
    MACHINE_KEYS,
    MARGIN_KEYS,
    PURPOSE_KEYS,
    SCAN_KEYS,
    TRIMMER_KEYS,
    Key,
)
from kitwright.kit.read_part import ODDITIES
from kitwright.kit.sheet_names import SHEET_NAMES
from kitwright.measure import Unit
from kitwright.paper.weight import Grade
from kitwright.proof.tolerance import CUTTERS, SCORERS

__all__ = ["NAMES", "Maker", "choices_in", "toml_value", "value_for"]

NAMES: Final = (
    "card", "box", "Grüße vom Garten", "カード", "بطاقة", "carte à déplier", "e\u0301tui", "🎁 gift", "x", "7", "<b>bold</b>",
    "<script>alert(1)</script>", "&amp; so on", "a \"quoted\" one", "back\\slash", "#set page(width: 1pt)", "$x^2$", "*star* _line_",
    "=SUM(A1:A9)", "../../up", "con", "tag.", "half at 1 x 2", "box: front", "{{ 7 * 7 }}", "%s %d", "[red]loud[/red]", "O'Neill",
    "a name that is as long as anybody would ever write it, and a little longer still, so that it takes two lines",
    "Donaudampfschifffahrtsgesellschaftskapitänsmützenkarton", "m" * 45, "W" * 200, "two  blanks", "-", "0", "true",
)  # fmt: skip
"""Words for parts and papers: plain ones, long ones, other scripts, and what means something to a browser, a typesetter or a table."""

ODD_STEPS: Final = (3, 5, 6, 7, 9, 11, 12)
"""Parts of a unit that no ruler and no decimal has."""

RANGES: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {
        "lid": (0.1, 6), "envelope": (0.5, 20), "contents": (0.5, 20), "band": (0.1, 6), "border": (0.5, 25), "cut": (0.01, 2),
        "score": (0.01, 2), "fold": (0.01, 1), "glue": (0.01, 2), "longest-cut": (150, 900), "narrowest": (1, 45), "stack": (0.2, 8),
        "edge": (0.5, 15), "gap": (0.2, 8), "side": (10, 200), "film": (0.01, 0.3), "length": (20, 1500), "loop": (20, 900),
        "left": (0.5, 25), "right": (0.5, 25), "bottom": (0.5, 25), "top": (0.5, 25), "margins": (0.5, 20), "caliper": (0.05, 1.2),
    }
)  # fmt: skip
"""Likely lengths of a key, mm."""

ANY_LENGTH: Final = (1.0, 300.0)
SHEETS: Final = ("8 1/2 x 11 in", "12 x 12 in", "12 x 18 in", "210 x 297 mm", "297 x 420 mm", "24 x 36 in")
SUB_TABLES: Final[Mapping[str, Mapping[str, Key]]] = MappingProxyType(
    {
        "fit": FIT_KEYS,
        "accuracy": ACCURACY_KEYS,
        "trimmer": TRIMMER_KEYS,
        "machine": MACHINE_KEYS,
        "keep": KEEP_KEYS,
        "for": PURPOSE_KEYS,
        "scan": SCAN_KEYS,
        "margins": MARGIN_KEYS,
    }
)


@dataclass
class Maker:
    """Somebody who writes a kit: a source of chance, the unit they write in and how fine their ruler is (mm)."""

    rng: Random
    unit: Unit = Unit.INCH
    step: Fraction = Fraction(127, 80)
    used: set[str] = field(default_factory=set)

    def some(self, share: float) -> bool:
        """Whether something happens that does so in this share of cases."""
        return self.rng.random() < share

    def name(self, *usual: str) -> str:
        """A name that was not used yet."""
        plain = self.rng.choice(usual or NAMES[:2])
        said = self.rng.choice(NAMES) if self.some(0.25) else plain
        number = 2
        while said in self.used:
            said, number = f"{plain} {number}", number + 1
        self.used.add(said)
        return said

    def mm(self, least: float, most: float) -> float:
        """A length between limits (mm): mostly of an everyday size, sometimes a limit."""
        usual = min(most, max(2 * least, 130.0))
        way = self.rng.random()
        if way < 0.04:
            return least
        if way < 0.06:
            return most
        if way < 0.9:
            return math.exp(self.rng.uniform(math.log(max(least, 1e-3)), math.log(max(usual, 1e-3))))
        return self.rng.uniform(least, most)

    def number(self, unit: Unit, least: float, most: float) -> str:
        """A length between limits (mm) in a unit, without it: on a mark, in thirds, with fine decimals."""
        inch = unit is Unit.INCH
        ways: list[tuple[float, Fraction]] = [
            (5, self.step),
            (4 if inch else 1, unit.mm / self.rng.choice((2, 4, 8, 16, 32, 64))),
            (1.2, unit.mm / self.rng.choice(ODD_STEPS)),
            (1, unit.mm / 10),
            (1, unit.mm / 100),
            (1, unit.mm / 1000),
        ]
        step = self.rng.choices([step for _, step in ways], [weight for weight, _ in ways])[0]
        low, high = Fraction(least), Fraction(most)
        for tried in (step, unit.mm / 1000, unit.mm / 100_000):
            first, last = math.ceil(low / tried), math.floor(high / tried)
            if first <= last:
                mark = min(max(round(Fraction(self.mm(least, most)) / tried), first), last)
                return self.written(mark * tried / unit.mm)
        return self.written(Fraction(round(low / unit.mm * 10**5), 10**5))

    def written(self, value: Fraction) -> str:
        """A number as a decimal where it is one, else or often as a whole and a fraction."""
        whole, rest = divmod(value, 1)
        is_decimal = 10**5 % value.denominator == 0
        if not rest:
            return str(whole)
        if is_decimal and (value.denominator not in (2, 4, 8, 16, 32) or self.some(0.2)):
            return f"{float(value):.5f}".rstrip("0")
        fraction = f"{rest.numerator}/{rest.denominator}"
        small = {"1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "2/3": "⅔"}.get(fraction)
        if not whole:
            return fraction
        if small and self.some(0.1):
            return f"{whole}{small}"
        return f"{whole}{'-' if self.some(0.1) else ' '}{fraction}"

    def lengths(self, *limits: tuple[float, float]) -> str:
        """One or more lengths within limits (mm), with an x between them; the unit is said where it is not the kit's."""
        unit = self.rng.choice(tuple(Unit)) if self.some(0.08) else self.unit
        said = " x ".join(self.number(unit, *each) for each in limits)
        return said if unit is self.unit and not self.some(0.03) else f"{said} {unit.value}"

    def sheet(self) -> str:
        """The size of a sheet."""
        way = self.rng.random()
        if way < 0.75:
            return self.rng.choice(SHEETS)
        if way < 0.9:
            return self.rng.choice(tuple(SHEET_NAMES)) + (" lying" if self.some(0.2) else "")
        return self.lengths((90, 700), (90, 900))


def value_for(maker: Maker, key: Key) -> Any:
    """Something that a key takes, by what it says of itself; the example that it gives where nothing better is known.

    Not for names of other things, which only a whole document knows.
    """
    if key.name in OWN:
        return OWN[key.name](maker)
    if key.name in SUB_TABLES and (key.takes.startswith("a table") or maker.some(0.5)):
        return some_of(maker, SUB_TABLES[key.name])
    if key.takes in TAKES:
        return TAKES[key.takes](maker, key)
    words = choices_in(key.takes)
    if words:
        said = maker.rng.choice(words)
        return int(said) if said.isdigit() else said
    return tomllib.loads(f"x = {key.example}")["x"]


def some_of(maker: Maker, keys: Mapping[str, Key]) -> dict[str, Any]:
    """A table with some of these keys, all that are needed and one at least."""
    chosen = [key for key in keys.values() if key.is_needed or maker.some(0.4)]
    return {key.name: value_for(maker, key) for key in chosen or [maker.rng.choice(tuple(keys.values()))]}


def choices_in(takes: str) -> tuple[str, ...]:
    """The words between which a key lets one choose: `a, b or c`; none where it says something else."""
    if re.match(r"(?:a|an|two|three|one|names?|grams|pounds|true) ", takes) or " or " not in takes or ", or" in takes:
        return ()
    before, last = takes.rsplit(" or ", 1)
    return (*before.split(", "), last)


def a_length(maker: Maker, key: Key) -> str:
    return maker.lengths(RANGES.get(key.name, ANY_LENGTH))


def weight(maker: Maker) -> str:
    """How heavy a paper is."""
    if maker.some(0.4):
        return f"{maker.rng.randint(60, 420)} gsm"
    return f"{maker.rng.choice((20, 24, 60, 65, 80, 90, 100, 110, 130))} lb {maker.rng.choice(tuple(Grade))}"


def caliper(maker: Maker) -> str:
    """How thick a paper is."""
    way = maker.rng.random()
    if way < 0.2:
        return f"{maker.rng.randint(3, 40)} pt"
    if way < 0.4:
        return f"{maker.rng.randint(60, 900)} µm"
    return f"{maker.rng.uniform(0.06, 0.9):.3f} mm" if way < 0.8 else maker.lengths((0.05, 1.5))


TAKES: Final[Mapping[str, Callable[[Maker, Key], Any]]] = MappingProxyType(
    {
        "words": lambda maker, _: maker.rng.choice(NAMES),
        "a length": a_length,
        "a length or 0": lambda maker, key: maker.rng.choice((0, "0")) if maker.some(0.1) else a_length(maker, key),
        "two lengths": lambda maker, _: maker.lengths((60, 500), (60, 700)),
        "two lengths or 0": lambda maker, _: "0 x 0" if maker.some(0.5) else maker.lengths((1, 20), (1, 20)),
        "three lengths": lambda maker, _: maker.lengths((2, 200), (2, 150), (0.3, 60)),
        "true or false": lambda maker, _: maker.some(0.6),
        "an amount": lambda maker, _: f"{maker.rng.choice((0, 7, 24, 85, 110, 99999)) / 100:.2f}",
        "a whole number": lambda maker, _: maker.rng.choice((0, 1, 2, 3, 5, 12, 20, 100, 1_000_000)),
        "a number from 0 to 1": lambda maker, _: maker.rng.choice((0, 1, "0.5", 0.25, "0.37", 0.999)),
        "grams or ounces": lambda maker, _: maker.rng.choice(("1 g", "0.2 oz", "12.5 g", "1 kg", "20 kg", "0.01 g")),
        "a length, or a table of left, right, bottom, top": a_length,
    }
)
"""What a key takes, in its own words, and how to write one."""

OWN: Final[Mapping[str, Callable[[Maker], Any]]] = MappingProxyType(
    {
        "weight": weight,
        "caliper": caliper,
        "sheet": Maker.sheet,
        "cutter": lambda maker: maker.rng.choice(tuple(CUTTERS)),
        "scorer": lambda maker: maker.rng.choice(tuple(SCORERS)),
        "currency": lambda maker: maker.rng.choice(("USD", "EUR", "GBP", "JPY", "XXX")),
        "picture": lambda maker: maker.rng.choice(("gingham", "a-1", "x")),
        "kind": lambda maker: maker.rng.choice(EXTRA_KINDS),
        "post": lambda maker: maker.rng.sample(ODDITIES, maker.rng.randint(1, 3)),
    }
)
"""Keys whose words do not say enough."""


def toml_value(value: Any) -> str:
    """A value as TOML writes it, on one line."""
    match value:
        case bool():
            return "true" if value else "false"
        case int() | float():
            return repr(value)
        case list() | tuple():
            return "[" + ", ".join(map(toml_value, value)) + "]"
        case dict():
            return "{ " + ", ".join(f"{bare(key)} = {toml_value(each)}" for key, each in value.items()) + " }"
        case _:
            return json.dumps(str(value), ensure_ascii=False)


def bare(key: str) -> str:
    """A key as TOML writes it."""
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else json.dumps(key, ensure_ascii=False)


def toml_text(document: Mapping[str, Any]) -> str:
    """A whole document as text: `[kit]`, `[paper.WORD]`, then the lists of tables."""
    return "\n".join(toml_lines(document)) + "\n"


def toml_lines(document: Mapping[str, Any]) -> Iterator[str]:
    """The lines of a document."""
    for name, found in document.items():
        tables: list[tuple[str, Mapping[str, Any]]]
        if isinstance(found, list):
            tables = [(f"[[{name}]]", each) for each in found]
        elif name == "paper":
            tables = [(f"[paper.{bare(word)}]", each) for word, each in found.items()]
        else:
            tables = [(f"[{name}]", found)]
        for heading, table in tables:
            yield heading
            yield from (f"{bare(key)} = {toml_value(value)}" for key, value in table.items())
