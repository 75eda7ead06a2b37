"""Reading `[[part]]`: one part of a kit document, with the parameters that its form has."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import Final

from kitwright.catalogue import CATALOGUE, Form, Parameter, parameters
from kitwright.errors import Mistake
from kitwright.kit.entry import Entry
from kitwright.kit.keys import PART_KEYS, Key
from kitwright.kit.limits import limits_on
from kitwright.kit.model import Face, Goes, Part, Sizing, SizingKind
from kitwright.kit.values import length_in, names, one_of, quarter_turns, sizes_in, text, whole
from kitwright.measure import MM_PER_INCH, Ruler, Unit, suggestion, with_article
from kitwright.paper import Fibres
from kitwright.proof.mailing import Feature

__all__ = ["MOST_OF_ONE", "ODDITIES", "PartContext", "key_of", "part_as_meant", "read_part"]

MOST_OF_ONE = 10_000
"""More than this of one thing in one kit is a slip of the keyboard."""

SIZINGS = (SizingKind.SIZE, SizingKind.INSIDE, SizingKind.OUTSIDE)
ODDITIES: Final = tuple(each.value for each in Feature if each not in (Feature.FOLDED, Feature.ATTACHMENT))
"""What the post may be told of an envelope or box; the others are about cards without one."""

STANDING, LYING = "standing", "lying"


@dataclass(frozen=True, slots=True)
class PartContext:
    """What a part is read against: the kit's unit and ruler."""

    unit: Unit
    ruler: Ruler


def key_of(parameter: Parameter) -> str:
    """A parameter of a form as a key of a kit document: `front-flap`."""
    return parameter.word.replace(" ", "-")


def part_as_meant(entry: Entry) -> Entry:
    """The table of a part with its misspelt keys, which are noted, under their right names."""
    said = entry.values.get("form")
    form = CATALOGUE.get(said.strip()) if isinstance(said, str) else None
    return entry.only({**PART_KEYS, **(size_keys(form) if form else {}), **form_keys(form)})


def read_part(entry: Entry, context: PartContext) -> Part:
    """One part. What has a mistake (which has been noted) is left at its default, so that the relations can still be checked."""
    form = CATALOGUE.get(entry.need(PART_KEYS["form"], read_form) or "")
    sizing = read_sizing(entry, form, context)
    settings = read_settings(entry, form, sizing, context) if form else {}
    check_company(entry)
    standing = entry.read("contents", one_of((STANDING, LYING)))
    fibres = entry.read("grain", one_of(Fibres))
    return Part(
        name=entry.need(PART_KEYS["name"], text) or "",
        form=form.key if form else "",
        paper=entry.need(PART_KEYS["paper"], text) or "",
        quantity=entry.read("quantity", whole(least=1, most=MOST_OF_ONE)) or 1,
        sizing=sizing,
        settings=MappingProxyType(settings),
        on=entry.read("on", text),
        border=entry.read("border", length_in(context.unit)),
        face=Face(entry.read("face", one_of(tuple(Face))) or Face.OUTSIDE),
        holds=entry.read("holds", names) or (),
        covers=entry.read("covers", text),
        wraps=entry.read("wraps", text),
        goes=Goes(entry.read("goes", one_of(tuple(Goes))) or Goes.WALLS),
        turn=entry.read("turn", quarter_turns) or 0,
        fibres=None if fibres is None else Fibres(fibres),
        standing=None if standing is None else standing == STANDING,
        oddities=entry.read("post", read_oddities) or frozenset(),
        place=entry.place,
    )


def read_oddities(value: object) -> frozenset[Feature]:
    """What the post should know of a piece."""
    one = one_of(ODDITIES)
    return frozenset(Feature(one(each)) for each in names(value))


def read_form(value: object) -> str:
    """The key of a form."""
    said = text(value)
    if said not in CATALOGUE:
        raise Mistake(f"there is no form {said!r}.", do=suggestion(said, CATALOGUE))
    return said


def form_keys(form: type[Form] | None) -> dict[str, Key]:
    """The keys of a form's parameters; of all forms where the form is not known, so that nothing is called wrong that may be right."""
    forms = [form] if form else list(CATALOGUE.values())
    return {key_of(parameter): parameter_key(parameter) for each in forms for parameter in parameters(each)}


@cache
def parameter_key(parameter: Parameter) -> Key:
    """A parameter as a key, with an example that the form can be drawn with."""
    if parameter.choices:
        return Key(key_of(parameter), "a word", parameter.help, f'"{parameter.choices[0]}"')
    inch, mm = (f'"{usual_length(parameter, ruler)}"' for ruler in (SIXTEENTHS, HALVES))
    return Key(key_of(parameter), "a length", parameter.help, inch, metric=mm)


SIXTEENTHS: Final = Ruler(Unit.INCH, MM_PER_INCH / 16)
HALVES: Final = Ruler(Unit.MILLIMETRE, Fraction(1, 2))


def usual_length(parameter: Parameter, ruler: Ruler) -> str:
    """A length that a parameter can have, on a mark, with its unit: its default, or one well above the least."""
    default = parameter.default
    wished = (
        default
        if isinstance(default, float)
        else max(parameter.at_least, (parameter.at_least * parameter.at_most) ** 0.5)
    )
    length = ruler.nearest(wished)
    if not Fraction(parameter.at_least) <= length <= Fraction(parameter.at_most):
        length = ruler.up(parameter.at_least)
    return ruler.with_unit(length)


SIDES: Final = ("5", "4", "2"), ("125", "100", "50")
"""A size in inches and in millimetres, as far as a form has sides."""


def size_keys(form: type[Form]) -> dict[str, Key]:
    """The keys of a size, with an example that has as many lengths as the form has sides."""
    inch, mm = (" x ".join(sides[: len(form.size)]) for sides in SIDES)
    return {kind.value: replace(PART_KEYS[kind.value], example=f'"{inch}"', metric=f'"{mm} mm"') for kind in SIZINGS}


COMPANY: Final = (
    ("border", "on", "it lies on nothing, so no border shows", 'Add what it lies on: on = "card".'),
    ("face", "on", "it is glued on nothing", 'Add what it is glued on: on = "lid".'),
    ("goes", "wraps", "it goes round nothing", 'Add what it goes round: wraps = "box".'),
    ("contents", "holds", "it holds nothing", 'Add what it holds: holds = ["card"].'),
    ("post", "holds", "it holds nothing, so it is not posted", 'Add what it holds: holds = ["card"].'),
)
"""Keys that say nothing without another: the key, the other, why, what to do."""


def check_company(entry: Entry) -> None:
    """Note keys that say nothing without another: a border round nothing, a way of packing nothing."""
    for key, other, why, do in COMPANY:
        if key in entry.values and other not in entry.values:
            entry.add(Mistake(f"{key}: {why}.", do=do), key)


def read_sizing(entry: Entry, form: type[Form] | None, context: PartContext) -> Sizing:
    """The size as it was said, or that it follows from something else."""
    said = [kind for kind in SIZINGS if kind.value in entry.values]
    if len(said) > 1:
        both = " and ".join(kind.value for kind in said)
        entry.add(Mistake(f"The size is said more than once, as {both}.", do="Keep one of them."), said[1].value)
        return Sizing(SizingKind.DERIVED)
    if not said or form is None:
        return Sizing(SizingKind.DERIVED)
    kind = said[0]
    by_name = {parameter.name: parameter for parameter in parameters(form)}
    sides = [by_name[name] for name in form.size]
    while_needed = [place for place, side in enumerate(sides, 1) if side.default is None]
    least = max(while_needed, default=1)
    labels = tuple(side.word for side in sides)
    lengths = entry.read(kind.value, sizes_in(context.unit, least=least, names=labels))
    if lengths is None:
        return Sizing(SizingKind.DERIVED)
    for side, length in zip(sides, lengths, strict=False):
        note_limits(entry, kind.value, side, length, context.ruler)
    return Sizing(kind, lengths)


def read_settings(entry: Entry, form: type[Form], sizing: Sizing, context: PartContext) -> dict[str, Fraction | str]:
    """The form's own parameters that were said."""
    found: dict[str, Fraction | str] = {}
    in_size = tuple(form.size)[: len(sizing.lengths)]
    for parameter in parameters(form):
        key = key_of(parameter)
        value = entry.read(key, parameter_reader(parameter, context.unit))
        if value is None:
            continue
        if parameter.name in in_size:
            entry.add(Mistake(f"{key}: the {sizing.kind.value} says it already.", do="Keep one of them."), key)
        if isinstance(value, Fraction):
            note_limits(entry, key, parameter, value, context.ruler)
        found[parameter.name] = value
    return found


def parameter_reader(parameter: Parameter, unit: Unit) -> Callable[[object], Fraction | str]:
    """Reads a parameter: one of its choices, or a length in mm."""
    return one_of(parameter.choices) if parameter.choices else length_in(unit)


def note_limits(entry: Entry, key: str, parameter: Parameter, length: Fraction, ruler: Ruler) -> None:
    """Note a length that the form cannot be drawn with; limits are told on the ruler's marks, inwards."""
    if Fraction(parameter.at_least) <= length <= Fraction(parameter.at_most):
        return
    which = "small" if length < Fraction(parameter.at_least) else "large"
    entry.add(
        Mistake(
            f"{key}: {with_article(parameter.word)} of {ruler.with_unit(length)} is too {which} for this form.",
            do=f"It can be from {limits_on(parameter, ruler)}.",
        ),
        key,
    )
