"""Twelve things or fewer into a box: how long it takes until it is known whether they go in, or that it is not known."""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

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


def packing_larger() -> Iterator[str]:
    """Up to 20 random things on sixteenths of an inch, on tenths of a millimetre or either, in boxes that they fill by 70 to 95 %."""
    for label, (sort, cases) in LARGER.items():
        answers: Counter[str] = Counter()
        slowest = total = 0.0
        for number in range(cases):
            things, space = larger_case(random.Random(f"big {label} {number}"), number, sort)
            started = time.perf_counter()
            answers[type(pack(things, space)).__name__] += 1
            seconds = time.perf_counter() - started
            slowest, total = max(slowest, seconds), total + seconds
        told = ", ".join(f"{count} {answer}" for answer, count in sorted(answers.items()))
        yield f"{label}, {cases} cases: {told}; slowest {slowest:.2f} s, {total:.1f} s in all"


Sides = tuple[float | Fraction, float | Fraction, float | Fraction]


def sixteenths(chance: random.Random) -> Sides:
    """Sides on the marks of a ruler, in mm."""
    mark = Fraction(254, 160)
    return chance.randint(12, 44) * mark, chance.randint(10, 32) * mark, chance.randint(3, 25) * mark


def tenths(chance: random.Random) -> Sides:
    """Sides in tenths of a millimetre."""
    return round(chance.uniform(20, 70), 1), round(chance.uniform(15, 50), 1), round(chance.uniform(5, 40), 1)


def either(chance: random.Random) -> Sides:
    """Sides of one sort or the other."""
    return sixteenths(chance) if chance.random() < 0.5 else tenths(chance)


@dataclass(frozen=True)
class Sort:
    """How cases are drawn: so many different things, or so many of each of some kinds."""

    size: Callable[[random.Random], Sides]
    numbers: tuple[int, int]
    turns: Turns = Turns.ANY
    kinds: int | None = None


def larger_case(chance: random.Random, number: int, sort: Sort) -> tuple[list[PackedThing], Space]:
    """Things of this sort, and a box with the sides in about 5 : 4 : 3."""
    if sort.kinds is None:
        things = [PackedThing(f"t{n}", sort.size(chance), 1, sort.turns) for n in range(chance.randint(*sort.numbers))]
    else:
        things = [
            PackedThing(f"t{n}", sort.size(chance), chance.randint(*sort.numbers), sort.turns)
            for n in range(sort.kinds)
        ]
    volume = sum(float(thing.size[0] * thing.size[1] * thing.size[2]) * thing.quantity for thing in things)
    unit = (volume / (0.7, 0.8, 0.85, 0.9, 0.95)[number % 5] / 60) ** (1 / 3)
    return things, Space(round(5 * unit, 1), round(4 * unit, 1), round(3 * unit, 1))


LARGER = {
    "on sixteenths, 4 to 12": (Sort(sixteenths, (4, 12)), 30),
    "on tenths of a millimetre, 4 to 12": (Sort(tenths, (4, 12)), 30),
    "on either, 4 to 12": (Sort(either, (4, 12)), 30),
    "on sixteenths, 13 to 20": (Sort(sixteenths, (13, 20)), 20),
    "on either, 13 to 20": (Sort(either, (13, 20)), 15),
    "upright, on either, 6 to 14": (Sort(either, (6, 14), Turns.UPRIGHT), 20),
    "three kinds, 2 to 6 of each": (Sort(sixteenths, (2, 6), kinds=3), 20),
}

BENCHMARKS = {"packing": packing, "packing-larger": packing_larger}
