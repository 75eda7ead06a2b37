"""Large batches: many part types, and the same kit from ten to ten thousand times."""

from collections.abc import Iterator
from random import Random

from benchmarks.cutting.craft import job_of
from benchmarks.cutting.measured import measure, read
from kitwright.cutting import QUICK, PieceType, Stock


def many_kinds() -> Iterator[str]:
    """60 part types for 1000 kits (generated, 1/16 in, 12 × 12 and letter): quick effort."""
    random = Random(60)
    pieces = [
        PieceType(
            str(i),
            random.randint(16, 150),
            random.randint(16, 130),
            1000 * random.randint(1, 4),
            random.choice(((0,), (0, 1))),
        )
        for i in range(60)
    ]
    stocks = [Stock("12 × 12", 192, 192, None, 80), Stock("letter", 136, 176, None, 45)]
    for seconds in (2.0, 5.0, 20.0):
        done = measure(pieces, stocks, seconds=seconds)
        plan = done.plan
        gap = 100 * plan.gap / plan.value
        found = f"{plan.value} bound {plan.bound.value} gap {gap:.3f} %"
        yield f"stopped after {seconds} s: {found}, {done.seconds:.2f} s, verified {done.is_verified}"


def flat_in_kits() -> Iterator[str]:
    """The six-part craft job for 10, 100, 1000 and 10 000 kits, scraps unlimited: quick effort."""
    case = read("craft.json")["pc6-2-1"]
    for kits in (10, 100, 1_000, 10_000):
        pieces, stocks = job_of(case, kits)
        stocks = [Stock(s.name, s.width, s.height, None, s.price) for s in stocks[:3]]
        done = measure(pieces, stocks, seconds=60.0, effort=QUICK)
        yield f"{kits:>6} kits: {done.plan.value} bound {done.plan.bound.value} {done.seconds:.2f} s, proved {done.plan.is_proved}"
