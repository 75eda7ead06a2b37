"""The proof of a kit of ten parts with every fit made a hundred thousand times. Least of several runs, in milliseconds."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator

from tests.kit.documents import findings_of

from kitwright.kit import build, edition, prove, read_kit
from kitwright.measure import Unit
from kitwright.proof.tolerance import MAKES, Makes, Stack, Variation

__all__ = ["BENCHMARKS"]

HEAD = """\
[kit]
name = "Ten parts"
units = "in"
ruler = "1/16"
[kit.fit]
lid = "1/16"
[paper.white]
sheet = "12 x 12"
weight = "100 lb cover"
caliper = "0.0135"
two-sided = true
[paper.thin]
sheet = "12 x 24"
weight = "80 lb text"
caliper = "0.006"
two-sided = true
"""
PARTS = (
    ("card", "half-fold card", "white", 'size = "5 1/2 x 4 1/4"\nfold = "top"\nquantity = 6'),
    ("first mat", "mat", "white", 'on = "card"\nquantity = 6'),
    ("second mat", "mat", "white", 'on = "first mat"\nquantity = 6'),
    ("envelope", "side-seam envelope", "thin", 'holds = "card"\nquantity = 6'),
    ("note", "flat card", "white", 'size = "5 1/2 x 4 1/4"\nquantity = 4'),
    ("pocket", "pocket", "white", 'on = "card"\nholds = "tag"'),
    ("tag", "tag", "white", 'size = "1 3/4 x 3"'),
    ("tray", "tray", "white", 'holds = ["card", "first mat", "second mat", "envelope", "note"]'),
    ("lid", "lift-off lid", "white", 'covers = "tray"\nheight = "3/8"'),
    ("band", "belly band", "thin", 'wraps = "tray"\nheight = "3/4"\noverlap = "3/4"'),
)
"""Ten parts with every kind of fit: mat, envelope, pocket, contents, lid, band."""


def document() -> str:
    """The kit of ten parts."""
    return HEAD + "".join(
        f'[[part]]\nname = "{name}"\nform = "{form}"\npaper = "{paper}"\n{more}\n' for name, form, paper, more in PARTS
    )


def least(work: Callable[[], object], *, runs: int = 7) -> float:
    """Milliseconds of the quickest of some runs."""
    times = []
    for _ in range(runs):
        started = time.perf_counter()
        work()
        times.append(time.perf_counter() - started)
    return 1000 * min(times)


def whole_proof() -> Iterator[str]:
    """A kit of ten parts proved (goal 300 ms with makes, packing apart), and what of that the makes take."""
    built = build(read_kit(document()))
    proof = prove(built)
    fits = [each for each in proof.findings if each.makings is not None]
    yield f"{len(built.parts)} parts, {len(proof.findings)} checks, {len(fits)} fits of {MAKES:,} makes each; {proof.sentence()}"
    yield f"with makes:          {least(lambda: prove(built)):7.1f} ms"
    yield f"without makes:       {least(lambda: findings_of(built, motion=True)):7.1f} ms"
    yield f"without the motion:  {least(lambda: findings_of(built, makes=MAKES)):7.1f} ms"


def makes() -> Iterator[str]:
    """A hundred thousand makes of one lid: eight scores and folds and two packs (goal well under a second)."""
    moves = {Variation(f"score {number}", 0.25): (-1.0) ** number for number in range(8)}
    free = Stack(1.0, {**moves, Variation("pack", 0.03): -4.0, Variation("other pack", 0.02): -1.0})
    yield f"{least(lambda: Makes().lengths(free)):.1f} ms for {MAKES:,} makes of {len(free.moves)} errors"


def editions() -> Iterator[str]:
    """The metric edition of the kit of ten parts: designed, proved, mended."""
    kit = read_kit(document())
    yield f"{least(lambda: edition(kit, Unit.MILLIMETRE), runs=3):.0f} ms"


BENCHMARKS = {"proof": whole_proof, "makes": makes, "edition": editions}

if __name__ == "__main__":
    for name, benchmark in BENCHMARKS.items():
        print(f"== {name}: {benchmark.__doc__}", *benchmark(), sep="\n")
