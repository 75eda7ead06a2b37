"""Mending a kit document: the fixes that its proof offers are written into it one by one, and each time it is proved again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kitwright.errors import Mistake, Mistakes
from kitwright.findings import Fix, Severity
from kitwright.kit.build import build
from kitwright.kit.edit import apply_changes
from kitwright.kit.prove import prove
from kitwright.kit.read import read_kit
from kitwright.proof import Proof

__all__ = ["Mended", "mend_document"]

MOST_FIXES = 50
"""A document that needs more changes than this is better looked at by its maker."""


MENDED: Final = frozenset({Severity.FAIL, Severity.UNKNOWN})
"""What is always mended."""


@dataclass(frozen=True, slots=True)
class Mended:
    """A document after mending: its text, what was changed in it, in order, and its proof now."""

    text: str
    fixes: tuple[Fix, ...]
    proof: Proof


def mend_document(text: str, *, document: str = "", warnings: bool = False) -> Mended:
    """Apply the proved fixes of a kit document until none is left; `document` is its name in messages.

    `warnings`: not only of what fails, also of what is a warning. Of several fixes the one is taken after which the least fails, and
    then the least is warned of; none makes a part of another form. Comments and order of the document stay. Raises `Mistake` or
    `Mistakes` for a document that cannot be read or built.
    """
    levels = MENDED | {Severity.WARNING} if warnings else MENDED
    now = Mended(text, (), proof_of(text, document))
    while len(now.fixes) < MOST_FIXES:
        offered = (each.fix for each in now.proof.findings if each.fix and each.severity in levels)
        fixes = tuple(dict.fromkeys(fix for fix in offered if not is_another_design(fix)))
        tried = [each for fix in fixes if (each := after(now, fix, document)) is not None]
        if not tried:
            return now
        best = min(tried, key=lambda each: amiss(each.proof))
        is_better = amiss(best.proof) < amiss(now.proof) if warnings else amiss(best.proof)[0] < amiss(now.proof)[0]
        if not is_better:
            return now
        now = best
    return now


def is_another_design(fix: Fix) -> bool:
    """Whether a fix makes something of another form: that is for the maker to choose."""
    return any(change.key == "form" for change in fix.changes)


def after(now: Mended, fix: Fix, document: str) -> Mended | None:
    """The document with one more fix; None where the document is written so that it must be changed by hand."""
    try:
        text = apply_changes(now.text, fix.changes)
        return Mended(text, (*now.fixes, fix), proof_of(text, document))
    except (Mistake, Mistakes):
        return None


def proof_of(text: str, document: str) -> Proof:
    """The proof of a document."""
    return prove(build(read_kit(text, document=document)))


def amiss(proof: Proof) -> tuple[int, int]:
    """How many findings fail or were not decided, and how many warn."""
    return len(proof.of(*MENDED)), len(proof.of(Severity.WARNING))
