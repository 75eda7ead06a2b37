"""What is another in one of two builds of a kit: sizes, lengths and what was said of each part, in words and on the maker's ruler."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kitwright.catalogue import parameters
from kitwright.kit.built import BuiltKit
from kitwright.kit.built_part import BuiltPart
from kitwright.measure import Ruler

__all__ = ["Difference", "differences"]


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that is another: of which part, what, before and after."""

    about: str
    what: str
    before: str
    after: str


def differences(before: BuiltKit, after: BuiltKit) -> Iterator[Difference]:
    """All that differs between two builds of a kit with the same parts, part by part; also what follows and was not said."""
    ruler = before.kit.ruler
    for old in before.parts:
        new = after.part(old.name)
        if type(new.form) is not type(old.form):
            yield Difference(old.name, "form", old.form.title, new.form.title)
        else:
            yield from other_lengths(old, new, ruler)
        for what, was, now in (
            ("paper", old.paper.label, new.paper.label),
            ("print turned to the left", f"{90 * old.part.turn}°", f"{90 * new.part.turn}°"),
            ("grain along the", old.part.fibres or "as it comes", new.part.fibres or "as it comes"),
            ("goes round", old.part.wraps or "", new.part.wraps or ""),
            ("goes", old.part.goes.value, new.part.goes.value),
        ):
            if was != now:
                yield Difference(old.name, what, was, now)


def other_lengths(old: BuiltPart, new: BuiltPart, ruler: Ruler) -> Iterator[Difference]:
    """The size of a part as one, and its other lengths, where they differ."""
    sides = tuple(old.form.size)
    was, now = (tuple(part.lengths[name] for name in sides) for part in (old, new))
    if was != now:
        order = " × ".join(name.replace("_", " ") for name in sides)
        yield Difference(old.name, f"{order}, score to score", ruler.size(*was), ruler.size(*now))
    for parameter in parameters(type(old.form)):
        name = parameter.name
        if name not in sides and name in old.lengths and old.lengths[name] != new.lengths[name]:
            yield Difference(
                old.name, parameter.word, ruler.with_unit(old.lengths[name]), ruler.with_unit(new.lengths[name])
            )
