"""From the text of a kit document to a kit. Everything is checked, and all mistakes are told at once, each with its line."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType
from typing import Any, Final

import kitwright.forms  # noqa: F401  (fills the catalogue)
from kitwright.errors import Mistake, Mistakes, Place
from kitwright.kit.bench import Keeping, Machine, OffcutOnHand, Trimmer
from kitwright.kit.entry import Entry, Notes
from kitwright.kit.keys import ACCURACY_KEYS, FIT_KEYS, KIT_KEYS, PURPOSE_KEYS, TABLES
from kitwright.kit.model import FitRules, Kit, Purpose
from kitwright.kit.read_bench import read_keeping, read_machine, read_offcut, read_trimmer
from kitwright.kit.read_extra import read_extra
from kitwright.kit.read_laid import read_laid
from kitwright.kit.read_paper import read_paper
from kitwright.kit.read_part import PartContext, part_as_meant, read_part
from kitwright.kit.relations import check_names, check_papers, check_relations
from kitwright.kit.source import line_numbers
from kitwright.kit.syntax import decode, parse_document
from kitwright.kit.values import length_or_zero_in, number_text, one_of, text, yes_or_no
from kitwright.measure import Ruler, Unit, nearest_word, parse_ruler, suggestion
from kitwright.paper import Paper
from kitwright.proof.tolerance import (
    CUTTERS,
    MOST_OFF,
    SCORERS,
    USUAL_ACCURACY,
    USUAL_CUTTER,
    USUAL_SCORER,
    Accuracy,
    accuracy_with,
)

__all__ = ["read_kit", "read_kit_bytes"]

MOST_TOLD: Final = 100
"""Mistakes told at once; a file with more is most likely not a kit document."""

USUAL_CURRENCY: Final = "USD"
OWN_WORD: Final = "as the kit says"
NO_NAME: Final = "kit"


def read_kit_bytes(data: bytes, *, document: str = "") -> Kit:
    """The kit in the bytes of a document in UTF-8. Raises `Mistakes`, also for another encoding or a file that is far too large."""
    try:
        said = decode(data, document=document)
    except Mistake as mistake:
        raise Mistakes([mistake]) from None
    return read_kit(said, document=document)


def read_kit(text: str, *, document: str = "") -> Kit:
    """The kit in the text of a document; `document` is its name in messages. Raises `Mistakes` with all that is wrong in it."""
    try:
        values = parse_document(text, document=document)
    except Mistake as mistake:
        raise Mistakes([mistake]) from None
    notes = Notes(document, line_numbers(text.removeprefix("\ufeff")))
    kit = read_tables(notes, values)
    if notes.mistakes:
        raise Mistakes(the_first(Mistakes(notes.mistakes).mistakes))
    return kit


def the_first(mistakes: tuple[Mistake, ...]) -> tuple[Mistake, ...]:
    """As many mistakes as a person reads, and how many more there are."""
    if len(mistakes) <= MOST_TOLD:
        return mistakes
    more = len(mistakes) - MOST_TOLD
    last = mistakes[MOST_TOLD - 1].place
    rest = Mistake(
        f"There are {more:,} more mistakes after this.", do="Mend these first.", place=Place(last.document, last.line)
    )
    return (*mistakes[:MOST_TOLD], rest)


@dataclass(frozen=True, slots=True)
class Heading:
    """What the `[kit]` table says. Where the unit has a mistake, `unit` is a stand-in and nothing with numbers is judged."""

    name: str
    unit: Unit
    ruler: Ruler
    currency: str
    fit: FitRules
    accuracy: Accuracy
    trimmer: Trimmer
    keeping: Keeping
    purpose: Purpose
    machine: Machine
    alike: bool
    is_unit_known: bool


def read_tables(notes: Notes, values: Mapping[str, Any]) -> Kit:
    """The kit, with everything that is wrong in `notes`."""
    values = tables_as_meant(notes, values)
    heading = read_heading(notes, values)
    if not heading.is_unit_known:
        return Kit(heading.name, heading.unit, heading.ruler, {}, ())
    paper_entries = dict(papers_in(notes, values))
    papers = {
        word: read_paper(entry, word, unit=heading.unit, currency=heading.currency)
        for word, entry in paper_entries.items()
    }
    laid = {word: sheets for word, entry in paper_entries.items() if (sheets := read_laid(entry, heading.unit))}
    context = PartContext(heading.unit, heading.ruler)
    entries = [part_as_meant(entry) for entry in entries_in(notes, values, "part")]
    parts = [(entry, read_part(entry, context)) for entry in entries]
    extras = [(entry, read_extra(entry, heading.unit)) for entry in entries_in(notes, values, "extra")]
    offcuts = [read_offcut(entry, heading.unit, papers) for entry in entries_in(notes, values, "offcut")]
    if not parts and "part" not in values:
        notes.add(Mistake("There is no part in this kit.", do="Add one under the heading [[part]]."), ("kit",))
    check_names([*parts, *extras])
    check_papers(parts, tuple(papers))
    check_relations(parts, [extra for _, extra in extras])
    return Kit(
        name=heading.name,
        unit=heading.unit,
        ruler=heading.ruler,
        papers=MappingProxyType({word: paper for word, paper in papers.items() if isinstance(paper, Paper)}),
        parts=tuple(part for _, part in parts),
        extras=tuple(extra for _, extra in extras),
        currency=heading.currency,
        fit=heading.fit,
        accuracy=heading.accuracy,
        laid=MappingProxyType(laid),
        trimmer=heading.trimmer,
        keeping=heading.keeping,
        purpose=heading.purpose,
        machine=heading.machine,
        alike=heading.alike,
        offcuts=tuple(offcut for offcut in offcuts if isinstance(offcut, OffcutOnHand)),
    )


def tables_as_meant(notes: Notes, values: Mapping[str, Any]) -> Mapping[str, Any]:
    """The document with its misspelt tables, which are noted, under their right names: so one cause is told as one mistake."""
    meant = {key: value for key, value in values.items() if key in TABLES}
    for key, value in values.items():
        if key in TABLES:
            continue
        notes.add(
            Mistake(f"There is no table or key {key[:60]!r} at this level.", do=suggestion(key[:60], TABLES)), (key,)
        )
        right = nearest_word(key[:60], TABLES)
        match meant.get(right or ""), value:
            case None, _ if right:
                meant[right] = value
                notes.move((key,), (right,))
            case dict() as there, dict() if right == "paper":
                meant[right] = {**value, **there}
                notes.move((key,), (right,))
            case list() as there, list() if right:
                meant[right] = [*there, *value]
                for number in reversed(range(len(value))):
                    notes.move((key, number), (right, len(there) + number))
    return meant


def read_heading(notes: Notes, values: Mapping[str, Any]) -> Heading:
    """The `[kit]` table."""
    table = values.get("kit")
    entry = Entry(notes, ("kit",), table if isinstance(table, dict) else {}, "kit" if "kit" in values else "")
    name: str | None = None
    unit_word: str | None = None
    if not isinstance(table, dict):
        what = "[kit] is no table." if "kit" in values else "There is no table [kit]."
        entry.add(Mistake(what, do='Begin with [kit], name = "…" and units = "in" (or "mm").'))
    else:
        entry = entry.only(KIT_KEYS)
        name = entry.need(KIT_KEYS["name"], text)
        unit_word = entry.need(KIT_KEYS["units"], one_of(Unit), do='Add units = "in", "mm" or "cm".')
    unit = Unit(unit_word) if unit_word else Unit.MILLIMETRE
    notes.is_metric = unit_word is not None and unit is not Unit.INCH
    ruler = entry.read("ruler", lambda value: read_ruler(value, unit)) if unit_word else None
    return Heading(
        name=name or NO_NAME,
        unit=unit,
        ruler=ruler or usual_ruler(unit),
        currency=entry.read("currency", read_currency) or USUAL_CURRENCY,
        fit=read_fit(entry, unit),
        accuracy=read_accuracy(entry, unit),
        trimmer=read_trimmer(entry, unit),
        keeping=read_keeping(entry, unit),
        purpose=read_purpose(entry),
        machine=read_machine(entry, unit),
        alike=entry.read("alike", yes_or_no) or False,
        is_unit_known=unit_word is not None,
    )


def usual_ruler(unit: Unit) -> Ruler:
    """The ruler of a maker who says nothing of it: marks every 1/16 in, or every millimetre."""
    return Ruler(unit, unit.mm / 16 if unit is Unit.INCH else Fraction(1))


def read_ruler(value: object, unit: Unit) -> Ruler:
    """The ruler, which must be of the same system as the kit's unit; it is read in the kit's unit."""
    ruler = parse_ruler(number_text(value), unit)
    if (ruler.unit is Unit.INCH) != (unit is Unit.INCH):
        raise Mistake(
            f"this ruler is in {ruler.unit.value}, and the kit is in {unit.value}.",
            do="Use one system of units in a kit; a kit in the other is another document.",
        )
    return Ruler(unit, ruler.step)


def read_currency(value: object) -> str:
    """Three capitals, as in ISO 4217."""
    said = text(value)
    if not re.fullmatch(r"[A-Z]{3}", said):
        raise Mistake(f"{said!r} is not a currency code.", do="Write three capitals: USD, EUR or GBP.")
    return said


def read_fit(entry: Entry, unit: Unit) -> FitRules:
    """The free play that the maker likes; the usual one for whatever is not said."""
    usual = FitRules.usual(unit)
    table = entry.table("fit")
    if table is None:
        return usual
    table = table.only(FIT_KEYS)
    said = {key: table.read(key, length_or_zero_in(unit)) for key in FIT_KEYS}
    return replace(usual, **{key: length for key, length in said.items() if length is not None})


def read_accuracy(entry: Entry, unit: Unit) -> Accuracy:
    """How accurately the maker works: the usual limits of the tools, and those that were measured."""
    table = entry.table("accuracy")
    if table is None:
        return USUAL_ACCURACY
    table = table.only(ACCURACY_KEYS)
    cutter, scorer = table.read("cutter", one_of(CUTTERS)), table.read("scorer", one_of(SCORERS))
    usual = accuracy_with(cutter=cutter or USUAL_CUTTER, scorer=scorer or USUAL_SCORER)
    said = {key: table.read(key, error_in(unit)) for key in ("cut", "score", "fold", "glue")}
    limits = {key: float(length) for key, length in said.items() if length is not None}
    return replace(usual, **limits, because=OWN_WORD if len(limits) == len(said) else usual.because)  # type: ignore[arg-type]


def read_purpose(entry: Entry) -> Purpose:
    """What the kit is for, as far as it is said."""
    table = entry.table("for")
    if table is None:
        return Purpose()
    table = table.only(PURPOSE_KEYS)
    return Purpose(**{key: table.read(key, yes_or_no) or False for key in PURPOSE_KEYS})


def error_in(unit: Unit) -> Callable[[object], Fraction]:
    """Reads how far something may be off, in mm."""
    length = length_or_zero_in(unit)

    def read(value: object) -> Fraction:
        said = length(value)
        if said > MOST_OFF:
            raise Mistake(
                f"{number_text(value)!r} is more than anything can be off.", do=f"Write at most {MOST_OFF} mm."
            )
        return said

    return read


def papers_in(notes: Notes, values: Mapping[str, Any]) -> Iterator[tuple[str, Entry]]:
    """The tables of the papers, by their words."""
    found = values.get("paper", {})
    if not isinstance(found, dict):
        what = "Papers are written as [[paper]]." if isinstance(found, list) else "paper is no table."
        notes.add(Mistake(what, do="Give each paper a word of its own: [paper.kraft]."), ("paper",))
        return
    for word, table in found.items():
        spot = f'paper "{word[:60]}"'
        if not word.strip() or not word.isprintable() or len(word) > 60:
            notes.add(
                Mistake("The word of this paper cannot be used.", do="Write it like [paper.kraft]."),
                ("paper", word),
                spot,
            )
        elif isinstance(table, dict):
            yield word, Entry(notes, ("paper", word), table, spot)
        else:
            notes.add(
                Mistake(f"{word!r} stands under [paper] but is no paper.", do="Give each paper a word of its own: [paper.kraft]."),
                ("paper", word),
            )  # fmt: skip


def entries_in(notes: Notes, values: Mapping[str, Any], word: str) -> Iterator[Entry]:
    """The tables under `[[part]]`, `[[extra]]` or `[[offcut]]`, in order."""
    found = values.get(word, [])
    if not isinstance(found, list):
        notes.add(
            Mistake(f"{word} is written with single brackets.", do=f"Write [[{word}]] with double brackets."), (word,)
        )
        return
    for place, table in enumerate(found):
        path = (word, place)
        if not isinstance(table, dict):
            notes.add(Mistake(f"This {word} is no table.", do=f"Write each {word} under a heading [[{word}]]."), path)
            continue
        name = table.get("name")
        has_name = isinstance(name, str) and name.strip()
        spot = f'{word} "{name.strip()[:60]}"' if isinstance(name, str) and has_name else f"{word} number {place + 1}"
        yield Entry(notes, path, table, spot)
