"""What is worked out of a kit document from nothing, to compare with what is worked out while much is known already."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache

from kitwright.errors import Mistakes
from kitwright.findings import Finding
from kitwright.kit import BuiltKit, PartProof, build, part_proofs, read_kit
from kitwright.kit.fits import KitFits
from kitwright.kit.prove import checked
from kitwright.kit.trial import tried
from kitwright.proof.tolerance import Makes
from kitwright.proof.tolerance.fit import KEPT

__all__ = ["FromNothing", "from_nothing", "nothing_known", "told"]

Told = list[tuple[object, ...]]
MAKES = 200
"""Makes of every fit: enough to tell two apart."""


@dataclass(frozen=True)
class FromNothing:
    """All that a document gives: the parts, or the mistakes, and what is found of them."""

    built: Told
    findings: tuple[Finding, ...]
    mistakes: str
    motion: bool

    def findings_with(self, built: BuiltKit, own: Mapping[str, PartProof]) -> tuple[Finding, ...]:
        """The same checks of a kit of which the parts are known by themselves."""
        return findings(built, own, motion=self.motion)


def told(kit: BuiltKit) -> Told:
    """Everything that is worked out of the parts of a kit."""
    return [
        (
            each.part,
            each.paper,
            dict(each.lengths),
            each.form,
            each.pattern,
            [blank.size for blank in each.pattern.blanks],
            {axis: found.net for axis, found in each.outside.items()},
            dict(each.inside),
            dict(each.outside),
            each.thing,
            kit.things_in(each),
            each.model.stacks,
            each.how,
            each.notes,
            each.turns_on_sheet,
        )
        for each in kit.parts
    ]


def from_nothing(text: str, *, motion: bool = True) -> FromNothing:
    """A document read, built and proved with nothing known. `motion`: also look at folding on the way, which takes longest."""
    with nothing_known():
        try:
            made = build(read_kit(text))
        except Mistakes as mistakes:
            return FromNothing([], (), str(mistakes), motion)
        return FromNothing(told(made), findings(made, part_proofs(made), motion=motion), "", motion)


def findings(made: BuiltKit, own: Mapping[str, PartProof], *, motion: bool) -> tuple[Finding, ...]:
    """Every check of a kit."""
    return tuple(checked(KitFits(made, made.kit.accuracy, Makes(MAKES)), own, motion=motion))


@contextmanager
def nothing_known(*, keeping: bool = False) -> Iterator[None]:
    """Nothing is known of trials and fits that were made before; meanwhile each is worked out anew, or kept as ever (`keeping`).

    Afterwards what was known of fits is known again.
    """
    module, fits = sys.modules[tried.__module__], KEPT.copy()
    KEPT.clear()
    module.tried = lru_cache(256)(tried.__wrapped__) if keeping else tried.__wrapped__  # type: ignore[attr-defined]
    try:
        yield
    finally:
        module.tried = tried  # type: ignore[attr-defined]
        KEPT.clear()
        KEPT.update(fits)
