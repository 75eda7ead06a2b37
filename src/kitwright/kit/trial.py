"""A form with numbers tried: drawn, folded, its layers found, and measured as all that it promises. Lengths in millimetres.

A trial depends on nothing but the form, its numbers and the paper, so one that was made is kept for whoever asks for the same again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType
from typing import Final

from kitwright.catalogue import Form
from kitwright.errors import Mistake
from kitwright.findings import Severity
from kitwright.folding import Folded, LayerModel, MeasuredExtent, fold, layers, measure_extent
from kitwright.paper import Paper
from kitwright.pattern import Axis, Pattern

__all__ = ["Settled", "Trial", "trial_of"]

Settled = Mapping[str, Fraction | str]
"""The parameters of a form: lengths in exact mm, and words that were chosen."""

MOST_KEPT: Final = 256
"""Trials kept: those of some ten kits, or of one kit while fixes are looked for."""


@dataclass(frozen=True, eq=False, slots=True)
class Trial:
    """A form drawn, folded, its layers found, and all that it promises inside and outside measured."""

    form: Form
    folded: Folded
    model: LayerModel
    inside: Mapping[Axis, MeasuredExtent]
    outside: Mapping[Axis, MeasuredExtent]


def trial_of(form: type[Form], settled: Settled, paper: Paper) -> Trial:
    """A trial of a form. Raises `Mistake` with the form's own reason if its rules refuse the numbers."""
    return tried(form, tuple(sorted(settled.items())), paper)  # type: ignore[arg-type]  # a class is hashable


@lru_cache(MOST_KEPT)
def tried(form: type[Form], settled: tuple[tuple[str, Fraction | str], ...], paper: Paper) -> Trial:
    """The trial itself; all that it depends on is what it is called with."""
    made = form(**{name: float(value) if isinstance(value, Fraction) else value for name, value in settled})
    folded = fold(checked_drawing(made))
    model, claims = layers(folded), folded.pattern.claims
    inside, outside = (
        MappingProxyType(
            {each.axis: measure_extent(folded, each, paper, outside=is_outside, model=model) for each in claimed}
        )
        for claimed, is_outside in ((claims.inside, False), (claims.outside, True))
    )
    return Trial(made, folded, model, inside, outside)


def checked_drawing(made: Form) -> Pattern:
    """The form's pattern. Raises `Mistake` with the form's own reason if its rules refuse the numbers."""
    for finding in made.rules():
        if finding.severity is Severity.FAIL:
            raise Mistake(f"{finding.message[:-1]} ({finding.about}).", do=f"Change {finding.about!r} or the size.")
    return made.draw()
