"""Kit documents by chance, most of them such as can be built. Forms, parameters and keys are read off the catalogue and the tables
of keys, so that a new one is written about as soon as it is there."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from random import Random
from typing import Any, Final

from tests.fuzz.values import Maker, toml_text, value_for
from tests.strategies import follow_shares, is_accepted

import kitwright.forms  # noqa: F401  # fills the catalogue
from kitwright.catalogue import CATALOGUE, Following, Form, Parameter, parameters
from kitwright.kit.keys import EXTRA_KEYS, KIT_KEYS, OFFCUT_KEYS, PAPER_KEYS, PART_KEYS
from kitwright.kit.read_extra import OF_ONE_KIND
from kitwright.kit.read_part import COMPANY, key_of
from kitwright.measure import Unit, parse_length, parse_size
from kitwright.pattern import Axis

__all__ = ["kit_document", "kit_table"]

RULERS: Final[Mapping[Unit, tuple[str, ...]]] = {
    Unit.INCH: ("1/16", "1/16", "1/8", "1/32", "1/64", "1/4", "1/3", "1/10", "0.02", "1"),
    Unit.MILLIMETRE: ("0.5", "1", "1", "0.3", "0.1", "2", "1/3", "5", "0.7"),
    Unit.CENTIMETRE: ("0.1", "0.05", "0.03", "0.5", "1/7"),
}
"""Marks that makers have, and odd ones."""

PARTS: Final = (1, 1, 2, 2, 3, 3, 4, 5, 8)
QUANTITIES: Final = (1, 1, 1, 2, 3, 4, 6, 8, 12, 24, 60, 150)
GIVEN: Final = frozenset(
    {"name", "form", "paper", "quantity", "size", "inside", "outside", "on", "holds", "covers", "wraps"}
)
"""Keys of a part that only the whole document can fill in."""


def kit_document(rng: Random) -> str:
    """A kit document as text."""
    return toml_text(kit_table(rng))


def kit_table(rng: Random) -> dict[str, Any]:
    """A kit document as tables."""
    unit = rng.choices(tuple(Unit), [5, 4, 1])[0]
    ruler = rng.choice(RULERS[unit])
    maker = Maker(rng, unit, Fraction(ruler) * unit.mm)
    kit = {"name": maker.name("a kit"), "units": unit.value, "ruler": ruler}
    kit |= {key.name: value_for(maker, key) for key in KIT_KEYS.values() if key.name not in kit and maker.some(0.12)}
    papers = {word: paper(maker) for word in rng.sample(("kraft", "plain", "thin", "ü 1"), rng.choice((1, 1, 2, 3)))}
    extras = [extra(maker) for _ in range(rng.choice((0, 0, 1, 2, 3)))]
    parts: list[dict[str, Any]] = []
    for _ in range(rng.choice(PARTS)):
        parts.append(part(maker, tuple(papers), parts, extras))
    offcuts = [offcut(maker, tuple(papers)) for _ in range(rng.choice((0, 0, 0, 0, 1, 2, 3)))]
    lay_some(maker, papers, parts)
    tables = {"kit": kit, "paper": papers, "part": parts, "extra": extras, "offcut": offcuts}
    return {name: found for name, found in tables.items() if found}


def paper(maker: Maker) -> dict[str, Any]:
    """A paper: what it needs, and some of what it may have."""
    left_out = ("laid", "scan") if maker.some(0.95) else ("laid",)
    chosen = [key for key in PAPER_KEYS.values() if key.is_needed or (key.name not in left_out and maker.some(0.3))]
    return {key.name: value_for(maker, key) for key in chosen}


def extra(maker: Maker) -> dict[str, Any]:
    """A thing that is bought."""
    table: dict[str, Any] = {"name": maker.name("pencil", "seeds", "twine", "dots")}
    for key in EXTRA_KEYS.values():
        only = next((kinds for name, kinds, _ in OF_ONE_KIND if name == key.name), None)
        if key.name == "quantity":
            table[key.name] = maker.rng.choice(QUANTITIES)
        elif key.name == "weight":
            table |= {"weight": "6 g"} if maker.some(0.5) else {}
        elif key.name not in table and (
            key.is_needed or (maker.some(0.4) and (only is None or table.get("kind") in only))
        ):
            table[key.name] = value_for(maker, key)
    return table


def offcut(maker: Maker, papers: tuple[str, ...]) -> dict[str, Any]:
    """What lies there of a paper."""
    chosen = [key for key in OFFCUT_KEYS.values() if key.is_needed or maker.some(0.4)]
    return {key.name: maker.rng.choice(papers) if key.name == "paper" else value_for(maker, key) for key in chosen}


def part(
    maker: Maker, papers: tuple[str, ...], parts: list[dict[str, Any]], extras: list[dict[str, Any]]
) -> dict[str, Any]:
    """One part of any form: its relations go to what is there already."""
    form = CATALOGUE[maker.rng.choice(sorted(CATALOGUE))]
    table: dict[str, Any] = {"name": maker.name(form.key), "form": form.key, "paper": maker.rng.choice(papers)}
    if maker.some(0.6):
        table["quantity"] = maker.rng.choice(QUANTITIES) if maker.some(0.98) else maker.rng.choice((1000, 10_000))
    table |= relations(maker, form, parts, extras)
    follows = any(key in table for key in ("on", "holds", "covers", "wraps"))
    shape = shaped(maker, form, has_size=not follows or maker.some(0.3))
    for _ in range(5):
        if maker.some(0.03) or can_be_drawn(maker, form, shape):
            break
        shape = shaped(maker, form, has_size=not follows)
    table |= shape
    needs = {key: other for key, other, *_ in COMPANY}
    for key in PART_KEYS.values():
        is_taken = key.name in GIVEN or key.name in table
        if not is_taken and maker.some(0.12) and needs.get(key.name, "name") in table:
            table[key.name] = value_for(maker, key)
    return table


def shaped(maker: Maker, form: type[Form], *, has_size: bool) -> dict[str, Any]:
    """Some of a form's numbers and choices, with its size in one of the three ways or without it."""
    table: dict[str, Any] = {}
    by_name = {each.name: each for each in parameters(form)}
    sides = [by_name[name] for name in form.size] if has_size else []
    while len(sides) > 1 and sides[-1].default is not None and maker.some(0.3):
        sides.pop()
    if sides:
        way = maker.rng.choice(("size", "size", "inside", "outside")) if is_hollow(form) else "size"
        table[way] = maker.lengths(*((each.at_least, each.at_most) for each in sides))
    for parameter in parameters(form):
        share = 0.08 if parameter.name in form.size else 0.2 if has_size else 0.12
        if parameter not in sides and maker.some(share):
            table[key_of(parameter)] = said(maker, parameter)
    return table


def said(maker: Maker, parameter: Parameter) -> str:
    """A value of a parameter within its limits."""
    if parameter.choices:
        return maker.rng.choice(parameter.choices)
    return maker.lengths((parameter.at_least, parameter.at_most))


def is_hollow(form: type[Form]) -> bool:
    """Whether things go into it."""
    return Axis.DEPTH in form.size.values() or form.is_open or form.lies_across


def can_be_drawn(maker: Maker, form: type[Form], shape: Mapping[str, Any]) -> bool:
    """Whether the form's own rules take these numbers; yes where some of them follow from other parts."""
    said_there = next((shape[way] for way in ("size", "inside", "outside") if way in shape), "")
    values: dict[str, float | str | None] = {
        each.name: None if isinstance(each.default, Following) else each.default for each in parameters(form)
    }
    if said_there:
        values |= {
            name: float(length.mm) for name, length in zip(form.size, parse_size(said_there, maker.unit), strict=False)
        }
    for each in parameters(form):
        if key_of(each) in shape:
            said_value = shape[key_of(each)]
            values[each.name] = said_value if each.choices else float(parse_length(said_value, maker.unit).mm)
    if any(values[name] is None for name in form.size):
        return True
    return is_accepted(form(**follow_shares(form, values)))


def relations(
    maker: Maker, form: type[Form], parts: list[dict[str, Any]], extras: list[dict[str, Any]]
) -> dict[str, Any]:
    """What a part is to those before it: mostly such as its form is made for, sometimes any, sometimes several."""
    names = [each["name"] for each in parts]
    things = [*names, *(each["name"] for each in extras)]
    likely = ("covers", "wraps") if form.spans else ("holds",) if is_hollow(form) else ("on",)
    keys = [maker.rng.choice(likely)] if maker.some(0.65) else []
    keys += ["on"] if form.is_open and maker.some(0.7) else []
    keys += [maker.rng.choice(("on", "holds", "covers", "wraps"))] if maker.some(0.07) else []
    found: dict[str, Any] = {}
    for key in keys:
        if key == "holds" and things:
            held = maker.rng.sample(things, min(len(things), maker.rng.choice((1, 1, 2, 3, 9))))
            found[key] = held[0] if len(held) == 1 and maker.some(0.5) else held
        elif key != "holds" and names:
            hosts = [each["name"] for each in parts if suits(key, CATALOGUE[each["form"]])]
            found[key] = maker.rng.choice(hosts if hosts and maker.some(0.9) else names)
    return found


def suits(key: str, host: type[Form]) -> bool:
    """Whether a part of a form is likely to have something on it, over it or round it."""
    has_depth = Axis.DEPTH in host.size.values()
    return has_depth and not host.spans if key in ("covers", "wraps") else True


def lay_some(maker: Maker, papers: Mapping[str, dict[str, Any]], parts: list[dict[str, Any]]) -> None:
    """Now and then sheets that were laid by hand, well or badly."""
    for word, table in papers.items():
        own = [each["name"] for each in parts if each["paper"] == word]
        if not own or maker.some(0.93):
            continue
        sheets = []
        for _ in range(maker.rng.choice((1, 1, 2))):
            chosen = [maker.rng.choice(own) for _ in range(maker.rng.choice((1, 1, 2, 4)))]
            places = [
                "0 x 0",
                *(f"{maker.rng.randint(1, 60) / 8} x {maker.rng.randint(1, 80) / 8}" for _ in chosen[1:]),
            ]
            turned = [maker.rng.choice(("", "", ", turned 90", ", turned 180")) for _ in chosen]
            sheets.append([f"{name} at {at}{turn}" for name, at, turn in zip(chosen, places, turned, strict=True)])
        table["laid"] = sheets
