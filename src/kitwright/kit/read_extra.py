"""Reading `[[extra]]`: one thing that is bought and goes into the kit."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from kitwright.errors import Mistake
from kitwright.kit.cautions import EXTRA_KINDS, SUPPLY_KINDS
from kitwright.kit.entry import Entry
from kitwright.kit.keys import EXTRA_KEYS
from kitwright.kit.model import Extra, Packed
from kitwright.kit.read_part import MOST_OF_ONE
from kitwright.kit.values import grams, length_in, one_of, sizes_in, text, whole, yes_or_no
from kitwright.measure import Unit, with_article

__all__ = ["read_extra"]

OF_ONE_KIND: Final = (
    ("length", ("ribbon",), 'Add kind = "ribbon"'),
    ("loop", ("ribbon",), 'Add kind = "ribbon"'),
    ("film", ("bag",), 'Add kind = "bag"'),
    ("label-kept", tuple(SUPPLY_KINDS), "Say which kind it is"),
)
"""Keys of an extra that only some kinds have: the key, the kinds, what to do."""


def listed(kinds: tuple[str, ...]) -> str:
    """`a glue, ink, paint or spray`."""
    *most, last = kinds
    return with_article(f"{', '.join(most)} or {last}" if most else last)


def read_extra(entry: Entry, unit: Unit) -> Extra:
    """One extra. What has a mistake (which has been noted) is left at a stand-in, so that the relations can still be checked."""
    entry = entry.only(EXTRA_KEYS)
    size = entry.need(EXTRA_KEYS["size"], sizes_in(unit, least=3, names=("length", "width", "height")))
    first, second, third = size or (Fraction(1), Fraction(1), Fraction(1))
    kind = entry.read("kind", one_of(EXTRA_KINDS)) or ""
    for key, kinds, do in OF_ONE_KIND:
        if key in entry.values and kind not in kinds:
            entry.add(Mistake(f"{key}: only {listed(kinds)} has one.", do=f"{do}, or leave this line out."), key)
    return Extra(
        name=entry.need(EXTRA_KEYS["name"], text) or "",
        size=(first, second, third),
        quantity=entry.read("quantity", whole(least=1, most=MOST_OF_ONE)) or 1,
        packed=Packed(entry.read("packed", one_of(Packed)) or Packed.BESIDE),
        weight_g=entry.read("weight", grams),
        kind=kind,
        length=entry.read("length", length_in(unit)),
        loop=entry.read("loop", length_in(unit)),
        film=entry.read("film", length_in(unit)),
        has_label=entry.read("label-kept", yes_or_no) or False,
    )
