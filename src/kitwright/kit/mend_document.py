"""Mending a kit document: the changes that mend its kit are written into it."""

from __future__ import annotations

from dataclasses import dataclass

from kitwright.errors import Mistake
from kitwright.findings import Fix
from kitwright.kit.build import build
from kitwright.kit.edit import apply_changes
from kitwright.kit.mend_kit import mend_kit
from kitwright.kit.prove import prove
from kitwright.kit.read import read_kit
from kitwright.proof import Proof

__all__ = ["Mended", "mend_document"]


@dataclass(frozen=True, slots=True)
class Mended:
    """A document after mending: its text, what was changed in it, in order, and its proof now."""

    text: str
    fixes: tuple[Fix, ...]
    proof: Proof


def mend_document(text: str, *, document: str = "", warnings: bool = False) -> Mended:
    """Apply the proved fixes of a kit document until none is left, as `mend_kit` does; `document` is its name in messages.

    Comments and order of the document stay. Where it is written so that a change must be made by hand, that change is left out.
    Raises `Mistake` or `Mistakes` for a document that cannot be read or built.
    """
    built = build(read_kit(text, document=document))
    proof = prove(built)
    by_hand: set[Fix] = set()
    while True:
        mended = mend_kit(built, proof=proof, warnings=warnings, may=lambda fix: fix not in by_hand)
        changed = text
        for fix in mended.fixes:
            try:
                changed = apply_changes(changed, fix.changes)
            except Mistake:
                by_hand.add(fix)
                break
        else:
            again = build(read_kit(changed, document=document))
            return Mended(changed, mended.fixes, prove(again, known=mended.own))
