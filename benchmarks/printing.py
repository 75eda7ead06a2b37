"""Packs of random sets: whatever is proved can be printed, every word on its page. By ruler and seed a set can be made again."""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor

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

PARTS = 2000
"""So many parts are printed, in proved sets of one to three."""

AT_ONCE, WORKERS = 40, 2

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
    """2000 random envelopes, boxes, bands and tags, in sets that are proved: each set has its whole pack, every word on its page."""
    started = time.perf_counter()
    counts: Counter[str] = Counter()
    seed = 0
    with ProcessPoolExecutor(WORKERS) as workers:
        while counts["parts"] < PARTS:
            for found, faults in workers.map(tried, range(seed, seed + AT_ONCE)):
                counts += found
                yield from faults
            seed += AT_ONCE
            if seed % 200 == 0:
                yield f"… {told(counts)}, {time.perf_counter() - started:.0f} s"
    yield f"seeds 0 to {seed - 1}: {told(counts)}, {time.perf_counter() - started:.0f} s"


def tried(seed: int) -> tuple[Counter[str], list[str]]:
    """What became of one set, and what is wrong with its pack."""
    text, unit = RULERS[seed % len(RULERS)]
    ruler = parse_ruler(text, unit)
    forms = FORMS[seed // len(RULERS) % len(FORMS)]
    counts = Counter(tried=1)
    found = list(faults_of(random_set(ruler, seed, forms=forms), counts, seed))
    return counts, [f"ruler {ruler.name}, seed {seed}, {forms[0]}: {fault}" for fault in found]


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
    counts["parts"] += len(made.built.parts)
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
    return ", ".join(f"{counts[word]} {word}" for word in words) + f", {counts['parts']} parts printed"


BENCHMARKS = {"printing": printing}
