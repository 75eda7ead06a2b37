"""Packs of random sets: whatever is proved can be printed, every word on its page. By ruler and seed a set can be made again."""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Iterator

from tests.printouts.pack_faults import pack_faults
from tests.printouts.random_sets import random_set

from kitwright.cutting import Effort
from kitwright.errors import Mistake, Mistakes
from kitwright.kit import read_kit
from kitwright.measure import Unit, parse_ruler
from kitwright.plan import plan
from kitwright.printouts.make.whole_pack import whole_pack
from kitwright.printouts.page import PAGES

__all__ = ["BENCHMARKS"]

SETS = 2000
"""So many proved sets are printed."""

RULERS = (("1/8", Unit.INCH), ("1/16", Unit.INCH), ("1/32", Unit.INCH), ("1", Unit.MILLIMETRE))

LITTLE = Effort(rounds=20, patterns=50, nodes=2, steps=200, work=1_000_000, work_a_piece=10_000)
"""The layouts need not be good to be printed."""

FORMS = (
    ("side-seam envelope",),
    ("tray", "lift-off lid", "two-half wrap box", "flap lid"),
    ("belly band",),
    ("tag", "pocket", "half-fold card"),
)
"""Envelopes, boxes, bands, and small things, taken in turn."""


def printing() -> Iterator[str]:
    """2000 random sets of envelopes, boxes, bands and tags that are proved: each has its whole pack, every word on its page (aim: all)."""
    started = time.perf_counter()
    counts: Counter[str] = Counter()
    seed = 0
    while counts["proved"] < SETS:
        text, unit = RULERS[seed % len(RULERS)]
        ruler = parse_ruler(text, unit)
        forms = FORMS[seed // len(RULERS) % len(FORMS)]
        counts["tried"] += 1
        for fault in faults_of(random_set(ruler, seed, forms=forms), counts, seed):
            yield f"ruler {ruler.name}, seed {seed}, {forms[0]}: {fault}"
        seed += 1
        if seed % 100 == 0:
            yield f"… {told(counts)}, {time.perf_counter() - started:.0f} s"
    yield f"seeds 0 to {seed - 1}: {told(counts)}, {time.perf_counter() - started:.0f} s"


def faults_of(document: str, counts: Counter[str], seed: int) -> Iterator[str]:
    """What is wrong with the pack of one kit; nothing where the numbers cannot be made or are not proved."""
    page = PAGES[random.Random(seed).randrange(len(PAGES))]
    try:
        made = plan(read_kit(document), batch=1, effort=LITTLE)
    except (Mistake, Mistakes):
        counts["cannot be made"] += 1
        return
    if not made.proof.is_proved:
        counts["not proved"] += 1
        return
    counts["proved"] += 1
    try:
        files = whole_pack(made, page=page.key)
    except Exception as error:
        counts["without a pack"] += 1
        yield f"{type(error).__name__}: {error}"
        return
    found = pack_faults(made, files["bench-pack.pdf"], page)
    counts["with a fault"] += bool(found)
    yield from found


def told(counts: Counter[str]) -> str:
    """All counts in a line."""
    words = ("tried", "cannot be made", "not proved", "proved", "without a pack", "with a fault")
    return ", ".join(f"{counts[word]} {word}" for word in words)


BENCHMARKS = {"printing": printing}
