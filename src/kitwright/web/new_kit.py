"""The document of a new kit from the answers to "what goes in?"."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from kitwright.errors import Mistake
from kitwright.kit.edit import quoted
from kitwright.measure import Unit, parse_length, parse_size

__all__ = ["HINTS", "MOST_THINGS", "USUAL", "Answers", "documents_of", "mistakes_in", "read_answers"]

MOST_THINGS = 3
"""Other things that the form has lines for."""


USUAL: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        "in": MappingProxyType({"card_width": "5 1/2", "card_height": "4 1/4", "sheet": "letter"}),
        "mm": MappingProxyType({"card_width": "148", "card_height": "105", "sheet": "a4"}),
    }
)
"""What stands in the fields of sizes before anything is answered, by the units: a card of a quarter of a US Letter sheet, and one of
A6 (ISO 216)."""

HINTS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        "in": MappingProxyType({"card_width": "4 1/4, 4.25 or 108 mm", "thing_size_1": "like 5 x 1/2 x 1/2"}),
        "mm": MappingProxyType({"card_width": "108, 10.8 cm or 4 1/4 in", "thing_size_1": "like 130 x 12 x 12"}),
        "cm": MappingProxyType({"card_width": "10.8, 108 mm or 4 1/4 in", "thing_size_1": "like 13 x 1.2 x 1.2"}),
    }
)
"""What is said beneath the fields of sizes, by the units."""


@dataclass(frozen=True, slots=True)
class Answers:
    """What was answered, as it was typed."""

    said: Mapping[str, str] = field(default_factory=dict)

    def get(self, name: str, usual: str = "") -> str:
        """An answer without blanks round it."""
        return self.said.get(name, usual).strip()

    @property
    def unit(self) -> Unit:
        """The units."""
        return Unit.MILLIMETRE if self.get("units") == "mm" else Unit.INCH


def read_answers(form: Mapping[str, str]) -> Answers:
    """The answers in a form."""
    return Answers({name: value[:200] for name, value in form.items()})


def mistakes_in(answers: Answers) -> dict[str, str]:
    """What is wrong, by the field it stands beside."""
    found: dict[str, str] = {}
    if not answers.get("name"):
        found["name"] = "The kit needs a name."
    for name in ("cards", *(f"thing_count_{n}" for n in range(1, MOST_THINGS + 1) if answers.get(f"thing_name_{n}"))):
        said = answers.get(name, "1") or "1"
        if not (said.isascii() and said.isdigit() and 1 <= int(said) <= 1000):
            found[name] = "Write a whole number from 1 to 1000."
    for name in ("card_width", "card_height"):
        try:
            parse_length(answers.get(name), answers.unit)
        except Mistake as mistake:
            found[name] = str(mistake)
    for n in range(1, MOST_THINGS + 1):
        if answers.get(f"thing_name_{n}"):
            try:
                if len(parse_size(answers.get(f"thing_size_{n}"), answers.unit)) != 3:
                    found[f"thing_size_{n}"] = f"Write three sides, {HINTS[answers.unit.value]['thing_size_1']}."
            except Mistake as mistake:
                found[f"thing_size_{n}"] = str(mistake)
    names = [answers.get(f"thing_name_{n}") for n in range(1, MOST_THINGS + 1) if answers.get(f"thing_name_{n}")]
    taken = {"card", "envelope", "tray", "lid"}
    for n in range(1, MOST_THINGS + 1):
        name = answers.get(f"thing_name_{n}")
        if name and (name in taken or names.count(name) > 1):
            found[f"thing_name_{n}"] = "This name is taken; each is used once."
    return found


def documents_of(answers: Answers) -> Iterator[str]:
    """Documents of a kit with these answers, which are without mistakes: the first that can be proved is the kit.

    In the first all is cut from the sheets that were chosen, then the box, the envelopes, or both come from sheets of 12 × 12 in.
    """
    has_box, has_envelopes = (
        bool(answers.get("box")) and answers.get("sheet") != "square",
        bool(answers.get("envelopes")),
    )
    for large in ((), ("box",), ("envelopes",), ("box", "envelopes")):
        if ("box" not in large or has_box) and ("envelopes" not in large or has_envelopes):
            yield "\n".join(lines(answers, large)) + "\n"


def lines(answers: Answers, large: Collection[str]) -> Iterator[str]:
    """The document, a line at a time, with large sheets for these."""
    is_inch = answers.unit is Unit.INCH
    sheet = {"letter": "8 1/2 x 11 in", "square": "12 x 12 in", "a4": "210 x 297 mm"}.get(answers.get("sheet"))
    sheet = sheet or ("8 1/2 x 11 in" if is_inch else "210 x 297 mm")
    yield "# Begun on the workbench. Lines that begin with # are for you; the program passes over them."
    yield ""
    yield "[kit]"
    yield f"name = {quoted(answers.get('name'))}"
    yield f'units = "{answers.unit.value}"'
    yield f'ruler = "{"1/16" if is_inch else "1"}"'
    yield ""
    yield "[paper.card]"
    yield 'label = "Cardstock"'
    yield f'sheet = "{sheet}"'
    yield f'weight = "{"100 lb cover" if is_inch else "250 gsm"}"'
    yield "two-sided = true"
    square = "12 x 12 in" if is_inch else "305 x 305 mm"
    if "box" in large:
        yield ""
        yield "[paper.large]"
        yield 'label = "Cardstock in large sheets"'
        yield f'sheet = "{square}"  # the box does not fit on a smaller sheet'
        yield f'weight = "{"100 lb cover" if is_inch else "250 gsm"}"'
        yield "two-sided = true"
    if answers.get("print") in {"all-over", "one-way"}:
        yield ""
        yield "[paper.print]"
        yield 'label = "Printed cardstock"'
        yield f'sheet = "{square}"'
        yield f'weight = "{"80 lb cover" if is_inch else "220 gsm"}"'
        yield f'print = "{answers.get("print")}"'
    if answers.get("envelopes"):
        yield ""
        yield "[paper.plain]"
        yield 'label = "Plain paper for envelopes"'
        usual = "8 1/2 x 11 in" if is_inch else "210 x 297 mm"
        yield f'sheet = "{square if "envelopes" in large else usual}"'
        yield f'weight = "{"80 lb text" if is_inch else "120 gsm"}"'
        yield "two-sided = true"
    yield from parts(answers, of_the_box="large" if "box" in large else "card")


def parts(answers: Answers, *, of_the_box: str) -> Iterator[str]:
    """The parts and the extras; the paper `of_the_box` where no print was asked for."""
    count = answers.get("cards") or "1"
    is_folded = answers.get("card_form") == "folded"
    yield ""
    yield "[[part]]"
    yield 'name = "card"'
    yield f'form = "{"half-fold card" if is_folded else "flat card"}"'
    yield f"size = {quoted(answers.get('card_width') + ' x ' + answers.get('card_height'))}"
    yield 'paper = "card"'
    yield f"quantity = {int(count)}"
    if answers.get("envelopes"):
        yield ""
        yield "[[part]]"
        yield 'name = "envelope"'
        yield 'form = "side-seam envelope"'
        yield 'holds = ["card"]'
        yield 'paper = "plain"'
        yield f"quantity = {int(count)}"
    things = [answers.get(f"thing_name_{n}") for n in range(1, MOST_THINGS + 1) if answers.get(f"thing_name_{n}")]
    if answers.get("box"):
        paper = "print" if answers.get("print") in {"all-over", "one-way"} else of_the_box
        held = ["card", *(["envelope"] if answers.get("envelopes") else []), *things]
        yield ""
        yield "[[part]]"
        yield 'name = "tray"'
        yield 'form = "tray"'
        yield f"holds = [{', '.join(quoted(name) for name in held)}]"
        yield f'paper = "{of_the_box}"'
        yield ""
        yield "[[part]]"
        yield 'name = "lid"'
        yield 'form = "lift-off lid"'
        yield 'covers = "tray"'
        yield f'height = "{"1/2" if answers.unit is Unit.INCH else "12"}"'
        yield f'paper = "{paper}"'
    for n in range(1, MOST_THINGS + 1):
        if answers.get(f"thing_name_{n}"):
            yield ""
            yield "[[extra]]"
            yield f"name = {quoted(answers.get(f'thing_name_{n}'))}"
            yield f"size = {quoted(answers.get(f'thing_size_{n}'))}"
            yield f"quantity = {int(answers.get(f'thing_count_{n}') or '1')}"
            yield 'packed = "beside"'
