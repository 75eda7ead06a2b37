"""One document, one result: random kits edited again and again, and how long it takes from an edit to the whole proof."""

from __future__ import annotations

import time
from collections.abc import Iterator
from random import Random

from tests.kit.again import from_nothing, nothing_known, told
from tests.kit.random_kits import edited, sensible, wild

from benchmarks.proof import document
from kitwright.errors import Mistakes
from kitwright.kit import build, part_proofs, prove, read_kit

__all__ = ["BENCHMARKS"]

EDITS = 500
EDITS_OF_ONE = 5

TYPED = {
    "size of a tag": ('"1 3/4 x 3"', '"1 3/4 x 3 1/4"'),
    "breadth of the band": ('height = "3/4"', 'height = "5/8"'),
    "its overlap": ('overlap = "3/4"', 'overlap = "1"'),
    "rim of the lid, which then fails": ('height = "3/8"', 'height = "1/2"'),
    "size of a card in the tray": ('"5 1/2 x 4 1/4"\nquantity = 4', '"5 1/2 x 4"\nquantity = 4'),
    "how many of them": ("quantity = 4", "quantity = 5"),
    "thickness of a paper": ('caliper = "0.006"', 'caliper = "0.007"'),
    "size of the card that all follow": ('"5 1/2 x 4 1/4"\nfold', '"5 1/4 x 4 1/4"\nfold'),
}
"""Edits of the kit of ten parts: what is typed over what."""


def again() -> Iterator[str]:
    """Five hundred random edits of random kits: each gives what its document gives from nothing (aim: all 500)."""
    same = built = 0
    for number in range(EDITS // EDITS_OF_ONE):
        random = Random(f"again/{number}")
        kit, own = (wild if number % 5 == 4 else sensible)(random), None
        for step in range(EDITS_OF_ONE + 1):
            fresh = from_nothing(kit.text)
            try:
                made = build(read_kit(kit.text))
            except Mistakes as mistakes:
                is_same = str(mistakes) == fresh.mistakes
            else:
                own = part_proofs(made, like=own)
                is_same = (told(made), fresh.findings_with(made, own)) == (fresh.built, fresh.findings)
                built += step > 0
            if not is_same:
                yield f"kit {number}, edit {step}: another result\n{kit.text}"
            same += is_same and step > 0
            kit = edited(random, kit)
    yield f"{same} of {EDITS} edits gave what their documents give from nothing; {built} of them were built and proved, the rest told"


def edit() -> Iterator[str]:
    """From an edit of one number to the kit of ten parts read, built and proved, without a layout (aim: 50 ms). Least of five, CPU time."""
    for name, (old, new) in TYPED.items():
        least = min(edit_once(old, new) for _ in range(5))
        yield f"{name}: {1000 * least:.0f} ms"


def edit_once(old: str, new: str) -> float:
    """Seconds of one edit, the kit before it being known."""
    with nothing_known(keeping=True):
        before = build(read_kit(document()))
        own = part_proofs(before)
        prove(before, known=own)
        text = document().replace(old, new, 1)
        began = time.process_time()
        made = build(read_kit(text))
        prove(made, known=part_proofs(made, like=own))
        return time.process_time() - began


BENCHMARKS = {"again": again, "edit": edit}
