"""Read the rules of a service from TOML text. Whatever is missing, unknown, turned round or overlapping is refused with its row."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from typing import Final, TypeVar

from kitwright.errors import Mistake, Mistakes, Place
from kitwright.measure import Unit, parse_length
from kitwright.proof.mailing.coverage import coverage_mistakes
from kitwright.proof.mailing.piece import Feature, Shape
from kitwright.proof.mailing.service import (
    Clause,
    Condition,
    Effect,
    Kind,
    MailClass,
    Quantity,
    Range,
    Service,
    Sides,
    Smallest,
    Status,
)
from kitwright.proof.mailing.weight import GRAMS, parse_weight

__all__ = ["parse_service"]

NUMBER: Final = re.compile(r"\d+(?:\.\d+)?")
ROOT: Final = "√"

REQUIRED: Final = (Quantity.LENGTH, Quantity.HEIGHT, Quantity.THICKNESS, Quantity.WEIGHT)
SERVICE_KEYS: Final = frozenset({"code", "name", "place", "unit", "weight_unit", "source", "date", "status"})
CLAUSE_KEYS: Final = frozenset({"clause", "source", "date", "status"})
SMALLEST_KEYS: Final = CLAUSE_KEYS | {"length", "height", "thickness", "thickness_to", "shapes"}
CLASS_KEYS: Final = CLAUSE_KEYS | {"name", "kind", "sides", "shapes", "condition"} | frozenset(Quantity)
CONDITION_KEYS: Final = (
    CLAUSE_KEYS
    | {"effect", "says", "without", "if_length_over", "if_height_over", "address_along_long_side"}
    | {"corner_radius", "most_unevenness"}
    | frozenset(Quantity)
)

Word = TypeVar("Word", bound=StrEnum)


@dataclass(slots=True)
class _Reader:
    """One table of the document: hands out its entries and notes what is wrong with them, all under the name of its row."""

    table: Mapping[str, object]
    spot: str
    document: str
    unit: Unit
    weight_unit: str
    mistakes: list[Mistake]
    defaults: Mapping[str, str] = field(default_factory=dict)

    def inner(self, table: object, spot: str) -> _Reader:
        """A reader for a table inside of this one."""
        if not isinstance(table, dict):
            self.wrong(f"{spot} is not a table.", do="Look at the rows above it.")
            table = {}
        return _Reader(table, spot, self.document, self.unit, self.weight_unit, self.mistakes, self.defaults)

    def wrong(self, what: str, *, do: str) -> None:
        """Note a mistake in this row."""
        self.mistakes.append(Mistake(what, do=do, place=Place(document=self.document, spot=self.spot)))

    def only(self, keys: frozenset[str]) -> None:
        """Note every key that is not known here."""
        for key in self.table:
            if key not in keys:
                self.wrong(f"{key!r} is not known here.", do=f"Use one of: {', '.join(sorted(keys))}.")

    def text(self, key: str) -> str:
        """A text that must be there (or in the [service] table)."""
        value = self.table.get(key, self.defaults.get(key, ""))
        if not isinstance(value, str) or not value.strip():
            self.wrong(f"{key!r} is missing.", do="Every rule names its clause, source, date and status.")
            return ""
        return value

    def word(self, key: str, words: type[Word]) -> Word:
        """One word of a fixed set; the first of the set after a mistake."""
        value = self.table.get(key, self.defaults.get(key))
        return self.known(value, words, key)

    def known(self, value: object, words: type[Word], key: str) -> Word:
        """`value` as one of the words, noting a mistake where it is not."""
        for word in words:
            if word.value == value:
                return word
        self.wrong(f"{key} = {value!r} is not known.", do=f"Use one of: {', '.join(words)}.")
        return next(iter(words))

    def word_set(self, key: str, words: type[Word]) -> frozenset[Word]:
        """A set of words of a fixed set; empty if the key is not there."""
        value = self.table.get(key, [])
        if not isinstance(value, list):
            self.wrong(f"{key!r} should be a list.", do=f'Write it like {key} = ["{next(iter(words))}"].')
            return frozenset()
        return frozenset(self.known(entry, words, key) for entry in value)

    def length(self, value: object, key: str) -> Fraction:
        """A length in mm; "0" is allowed. Zero after a mistake."""
        if not isinstance(value, str):
            self.wrong(f"{key} = {value!r} should be a length in quotes.", do='Write it like "11-1/2".')
            return Fraction(0)
        if value.strip() == "0":
            return Fraction(0)
        try:
            return parse_length(value, self.unit).mm
        except Mistake as mistake:
            self.wrong(mistake.what, do=mistake.do)
            return Fraction(0)

    def optional_length(self, key: str) -> Fraction | None:
        """A length in mm, None if the key is not there."""
        return self.length(self.table[key], key) if key in self.table else None

    def limit(self, quantity: Quantity, value: object) -> Fraction:
        """One end of a range."""
        if quantity.is_length:
            return self.length(value, quantity)
        if not isinstance(value, str):
            self.wrong(f"{quantity} = {value!r} should be written in quotes.", do='Write it like "3.5".')
            return Fraction(0)
        if quantity is Quantity.WEIGHT:
            try:
                return parse_weight(value, self.weight_unit)
            except Mistake as mistake:
                self.wrong(mistake.what, do=mistake.do)
                return Fraction(0)
        plain = value.removeprefix(ROOT)
        if not NUMBER.fullmatch(plain):
            self.wrong(f"aspect = {value!r} is not a number.", do='Write it like "1.3" or "√2".')
            return Fraction(0)
        return Fraction(plain) if value.startswith(ROOT) else Fraction(plain) ** 2

    def ranges(self) -> tuple[tuple[Quantity, Range], ...]:
        """All the ranges of this table, in the order of the quantities."""
        return tuple((quantity, self.range(quantity)) for quantity in Quantity if quantity.value in self.table)

    def range(self, quantity: Quantity) -> Range:
        """One range with both its ends."""
        ends = self.table[quantity.value]
        if not isinstance(ends, list) or len(ends) != 2:
            self.wrong(f"{quantity} = {ends!r} should be a range.", do='Write both ends, like ["0", "1/4"].')
            return Range(Fraction(0), Fraction(0), ("", ""))
        start, end = (self.limit(quantity, value) for value in ends)
        if start > end:
            self.wrong(
                f"The range of {quantity}, {ends[0]} to {ends[1]}, is turned round.", do="Write the smaller end first."
            )
        return Range(start, end, (self.written(quantity, ends[0]), self.written(quantity, ends[1])))

    def written(self, quantity: Quantity, value: object) -> str:
        """An end of a range as a person reads it, with its unit."""
        words = str(value).strip()
        unit = {Quantity.WEIGHT: self.weight_unit, Quantity.ASPECT: ""}.get(quantity, self.unit.value)
        return words if not unit or words[-1:].isalpha() else f"{words} {unit}"

    def clause(self) -> Clause:
        """The clause of this row, with source, date and status of the service where it has none of its own."""
        return Clause(self.text("clause"), self.text("source"), self.text("date"), self.word("status", Status))


def parse_service(text: str, *, document: str = "") -> Service:
    """Read the rules of one service.

    Raises `Mistakes` with everything that is wrong: unreadable TOML, unknown keys and words, missing clauses, dates or ranges,
    ranges turned round, gaps between the ranges of the classes, and classes that an earlier one covers; each names its row.
    """
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise Mistakes(
            [Mistake(f"This is not TOML: {error}.", do="Mend that place first.", place=Place(document=document))]
        ) from error
    mistakes: list[Mistake] = []
    top = _Reader(tables, "", document, Unit.MILLIMETRE, "g", mistakes)
    top.only(frozenset({"service", "smallest", "class"}))
    head = top.inner(tables.get("service", {}), "[service]")
    head.only(SERVICE_KEYS)
    unit = head.word("unit", Unit)
    weight_unit = head.text("weight_unit")
    if weight_unit and weight_unit not in GRAMS:
        head.wrong(f"weight_unit = {weight_unit!r} is not known.", do=f"Use one of: {', '.join(GRAMS)}.")
    top.unit, top.weight_unit = unit, weight_unit if weight_unit in GRAMS else "g"
    top.defaults = {"source": head.text("source"), "date": head.text("date"), "status": head.word("status", Status)}
    rows = tables.get("class", [])
    service = Service(
        code=head.text("code"),
        name=head.text("name"),
        place=head.text("place"),
        unit=unit,
        smallest=_smallest(top.inner(tables["smallest"], "[smallest]")) if "smallest" in tables else None,
        classes=tuple(_mail_class(top, row, number) for number, row in enumerate(rows, start=1)),
    )
    if not mistakes:
        mistakes.extend(mistake.at(Place(document=document)) for mistake in coverage_mistakes(service))
    if mistakes:
        raise Mistakes(mistakes)
    return service


def _smallest(row: _Reader) -> Smallest:
    row.only(SMALLEST_KEYS)
    sizes = [row.length(row.table.get(key), key) for key in ("length", "height", "thickness")]
    return Smallest(
        length=sizes[0],
        height=sizes[1],
        thickness=sizes[2],
        thickness_to=row.optional_length("thickness_to"),
        shapes=row.word_set("shapes", Shape),
        clause=row.clause(),
    )


def _mail_class(top: _Reader, table: object, number: int) -> MailClass:
    name = table.get("name", "") if isinstance(table, dict) else ""
    row = top.inner(table, f'class {number}, "{name}"')
    row.only(CLASS_KEYS)
    for quantity in REQUIRED:
        if quantity.value not in row.table:
            row.wrong(f"The range of {quantity} is missing.", do=f'Add both ends, like {quantity} = ["0", "1"].')
    if not row.word_set("shapes", Shape):
        row.wrong("It takes no shape.", do='Add shapes = ["card", "envelope"] or others.')
    kind = row.word("kind", Kind)
    if kind.value == row.table.get("kind") and kind not in (Kind.LETTER, Kind.LARGE_LETTER, Kind.PARCEL):
        row.wrong(
            f"A class cannot be {kind}.", do="Use letter, large letter or parcel; the others follow by themselves."
        )
    conditions = row.table.get("condition", [])
    return MailClass(
        name=row.text("name"),
        kind=kind,
        sides=row.word("sides", Sides),
        shapes=row.word_set("shapes", Shape),
        ranges=row.ranges(),
        clause=row.clause(),
        conditions=tuple(
            _condition(row.inner(condition, f"{row.spot}, condition {place}"))
            for place, condition in enumerate(conditions if isinstance(conditions, list) else [conditions], start=1)
        ),
    )


def _condition(row: _Reader) -> Condition:
    row.only(CONDITION_KEYS)
    corners = row.table.get("corner_radius", {})
    if not isinstance(corners, dict):
        row.wrong("corner_radius should name the shapes.", do='Write it like corner_radius = { card = "0.125" }.')
        corners = {}
    condition = Condition(
        effect=row.word("effect", Effect),
        says=row.text("says"),
        clause=row.clause(),
        without=row.word_set("without", Feature),
        ranges=row.ranges(),
        if_length_over=row.optional_length("if_length_over"),
        if_height_over=row.optional_length("if_height_over"),
        address_along_long_side=row.table.get("address_along_long_side") is True,
        corner_radius=tuple(
            (row.known(shape, Shape, "corner_radius"), row.length(radius, "corner_radius"))
            for shape, radius in corners.items()
        ),
        most_unevenness=row.optional_length("most_unevenness"),
    )
    asks = (condition.without, condition.ranges, condition.address_along_long_side, condition.corner_radius)
    if not any(asks) and condition.most_unevenness is None:
        row.wrong("It asks for nothing.", do="Add a range, without = [...], or another demand.")
    return condition
