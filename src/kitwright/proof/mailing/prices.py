"""The maker's own price table: what a class costs, in steps of weight without gaps or overlaps. The program brings no prices."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from kitwright.errors import Mistake, Mistakes, Place
from kitwright.measure import Money, parse_money
from kitwright.proof.mailing.judge import Verdict
from kitwright.proof.mailing.piece import exact
from kitwright.proof.mailing.service import Kind
from kitwright.proof.mailing.weight import parse_weight

__all__ = ["PriceStep", "PriceTable", "parse_prices"]

KEYS: Final = frozenset({"service", "class", "kind", "over", "up_to", "price"})


@dataclass(frozen=True, slots=True)
class PriceStep:
    """One row: the price of a class (by its service's name) for weights above `over` and up to `up_to` grams."""

    service: str
    class_name: str
    kind: Kind
    over: Fraction
    up_to: Fraction
    price: Money


@dataclass(frozen=True, slots=True)
class PriceTable:
    """The maker's prices, and the date that the maker wrote beside them."""

    date: str
    steps: tuple[PriceStep, ...]

    def find_price(self, verdict: Verdict, weight: float | Fraction) -> Money | None:
        """The price of one piece of this verdict and weight in grams, None if the table has no row for it."""
        grams = exact(weight)
        key = (verdict.service, verdict.class_name, verdict.kind)
        return next((step.price for step in self.steps if _key(step) == key and step.over < grams <= step.up_to), None)


def parse_prices(text: str, *, document: str = "") -> PriceTable:
    """Read a price table: `date` and `currency`, then rows `[[price]]` with service, class, kind, over, up_to and price.

    `service` is a service's name as in its rules, `kind` may be left out for a letter. Raises `Mistakes` for everything
    unreadable and for steps of one class that leave a gap or overlap; each names its row.
    """
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise Mistakes(
            [Mistake(f"This is not TOML: {error}.", do="Mend that place first.", place=Place(document=document))]
        ) from error
    mistakes = [
        Mistake(f"{key!r} is missing.", do=f'Write it at the top, like {key} = "{example}".')
        for key, example in (("date", "9 Jul 2023"), ("currency", "USD"))
        if not isinstance(tables.get(key), str) or not tables[key].strip()
    ]
    steps: list[tuple[int, PriceStep]] = []
    for number, row in enumerate(tables.get("price", []), start=1):
        try:
            steps.append((number, _step(row, str(tables.get("currency", "")))))
        except Mistake as mistake:
            mistakes.append(mistake.at(Place(spot=f"price {number}")))
    if not mistakes:
        mistakes.extend(_ladder_mistakes(steps))
    if mistakes:
        raise Mistakes(mistake.at(Place(document=document)) for mistake in mistakes)
    return PriceTable(date=tables["date"], steps=tuple(step for _, step in steps))


def _step(row: object, currency: str) -> PriceStep:
    if not isinstance(row, dict) or not all(isinstance(value, str) for value in row.values()):
        raise Mistake("A price row holds texts in quotes only.", do='Write it like price = "1.10".')
    unknown = sorted(set(row) - KEYS)
    missing = sorted(KEYS - {"kind"} - set(row))
    if unknown or missing:
        raise Mistake(
            f"Not known: {', '.join(unknown) or 'nothing'}; missing: {', '.join(missing) or 'nothing'}.",
            do=f"A row has {', '.join(sorted(KEYS))}.",
        )
    words: Mapping[str, str] = row
    kind = next((kind for kind in Kind if kind.value == words.get("kind", Kind.LETTER.value)), None)
    if kind is None or kind in (Kind.TOO_SMALL, Kind.TOO_BIG):
        raise Mistake(
            f"kind = {words['kind']!r} cannot have a price.", do=f"Use one of: {', '.join(list(Kind)[1:-1])}."
        )
    step = PriceStep(
        service=words["service"],
        class_name=words["class"],
        kind=kind,
        over=parse_weight(words["over"], "g"),
        up_to=parse_weight(words["up_to"], "g"),
        price=parse_money(words["price"], currency),
    )
    if step.over >= step.up_to:
        raise Mistake(
            f"The step from {words['over']} to {words['up_to']} is empty or turned round.",
            do="Write the smaller one first.",
        )
    return step


def _ladder_mistakes(steps: Iterable[tuple[int, PriceStep]]) -> Iterable[Mistake]:
    ordered = sorted(steps, key=lambda entry: (*map(str, _key(entry[1])), entry[1].over, entry[1].up_to))
    for (_, lower), (number, upper) in pairwise(ordered):
        if _key(lower) != _key(upper) or lower.up_to == upper.over:
            continue
        word = "overlaps the step below it" if upper.over < lower.up_to else "leaves a gap above the step below it"
        yield Mistake(
            f"{upper.service}, {upper.class_name}: the step over {float(upper.over):g} g {word}, "
            f"which goes up to {float(lower.up_to):g} g.",
            do="Let each step begin where the one before it ends.",
            place=Place(spot=f"price {number}"),
        )


def _key(step: PriceStep) -> tuple[str, str, Kind]:
    return step.service, step.class_name, step.kind
