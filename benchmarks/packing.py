"""Twelve things or fewer into a box: how long it takes until it is known whether they go in, or that it is not known."""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Iterator

from kitwright.proof.packing import PackedThing, Space, Turns, pack

__all__ = ["BENCHMARKS"]

SEED = 20261125
CASES = 48
FILLINGS = (0.55, 0.7, 0.85, 1.0)
"""Volume of the things as a share of the box, in turn: what goes in easily, hardly, and likely not."""


def packing() -> Iterator[str]:
    """Random things, 4 to 12, turned any way, into boxes they fill by 55 to 100 % (goal 2 s each)."""
    answers: Counter[str] = Counter()
    slowest = total = 0.0
    for number in range(CASES):
        chance = random.Random(f"{SEED} {number}")
        things, space = case(chance, count=chance.randint(4, 12), filling=FILLINGS[number % len(FILLINGS)])
        started = time.perf_counter()
        answers[type(pack(things, space)).__name__] += 1
        seconds = time.perf_counter() - started
        slowest, total = max(slowest, seconds), total + seconds
    told = ", ".join(f"{count} {answer}" for answer, count in sorted(answers.items()))
    yield f"{CASES} cases: {told}; slowest {slowest:.2f} s, {1000 * total / CASES:.0f} ms on average"


def case(chance: random.Random, *, count: int, filling: float) -> tuple[list[PackedThing], Space]:
    """Things of whole millimetres, and a box with the sides in about 5 : 4 : 3 that they fill so far."""
    things = [
        PackedThing(f"thing {n}", (chance.randint(20, 70), chance.randint(15, 50), chance.randint(5, 40)), 1, Turns.ANY)
        for n in range(count)
    ]
    volume = sum(thing.size[0] * thing.size[1] * thing.size[2] for thing in things)
    unit = (float(volume) / filling / 60) ** (1 / 3)
    sides = sorted((round(5 * unit), round(4 * unit), round(3 * unit)))
    return things, Space(float(sides[2]), float(sides[1]), float(sides[0]))


BENCHMARKS = {"packing": packing}
