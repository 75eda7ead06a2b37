"""The limits of work and memory: random batches in awkward sizes, laid out with their largest offcut, each in a process of its own."""

import json
import os
import random
import time
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from kitwright.cutting import (
    THOROUGH,
    Margins,
    PieceType,
    Progress,
    Stock,
    TrimmerLimits,
    gather_offcut,
    lay_out,
    verify_plan,
)

INCH = Fraction(254, 10)
SHEETS = (("12 in", 12 * INCH, 12 * INCH), ("letter", 17 * INCH / 2, 11 * INCH), ("A4", Fraction(210), Fraction(297)),
          ("12 x 18", 12 * INCH, 18 * INCH), ("A3", Fraction(297), Fraction(420)))  # fmt: skip
STEPS = {
    "sixteenths": INCH / 16,
    "32nds": INCH / 32,
    "thirds": INCH / 3,
    "thousandths": INCH / 1000,
    "mm": Fraction(1),
    "half mm": Fraction(1, 2),
}
"""Marks that sizes lie on; *mixed* takes another one for every length."""

SMALL, SMALL_SECONDS = 60, 1.0
LARGE_SECONDS, MEGABYTES, LATE = 10.0, 500, 0.5
CASES, STOPS = 300, 60

Question = tuple[list[PieceType], list[Stock], TrimmerLimits]


def nm(mm: Fraction) -> int:
    return round(mm * 10**6)


def question(seed: int) -> Question:
    """One batch: 1 to 400 kinds of piece, 1 to 200 kits, with or without offcuts, margins, prices and limits of the trimmer."""
    chance = random.Random(seed)
    marks = chance.choice([*STEPS, "mixed"])
    kinds, kits = chance.choice([1, 2, 3, 5, 8, 12, 20, 40, 100, 400]), chance.choice([1, 1, 1, 2, 6, 12, 40, 200])
    lowest, highest = chance.choice([(0.5, 4), (1, 9), (1, 9)])

    def length(low: float, high: float) -> int:
        step = STEPS[marks if marks != "mixed" else chance.choice([*STEPS])]
        return nm(chance.randint(int(low * INCH / step), int(high * INCH / step)) * step)

    def piece(number: int) -> PieceType:
        size = max(10**6, length(lowest, highest)), max(10**6, length(lowest, highest))
        turns = chance.choice([(0,), (0, 2), (0, 1, 2, 3)])
        return PieceType(str(number), *size, chance.choice([1, 1, 2, 4, 6, 12]) * kits, turns)

    pieces = [piece(number) for number in range(kinds)]
    edge = nm(chance.choice([0, 0, 0, 4, 11]) * INCH / 16)
    _, width, height = chance.choice(SHEETS)
    price = chance.choice([None, 80])
    stocks = [Stock("sheet", nm(width), nm(height), chance.choice([None, None, None, 20]), price, Margins(*[edge] * 4))]
    stocks += [
        Stock(f"offcut {number}", length(3, 9), length(3, 9), chance.choice([1, 1, 2]), 0)
        for number in range(chance.choice([0, 0, 0, 1, 3, 10]))
    ]
    limits = TrimmerLimits(
        chance.choice([None, None, None, nm(12 * INCH), nm(15 * INCH)]), chance.choice([0, 0, 0, nm(INCH / 2)])
    )
    return pieces, stocks, limits


def laid_out(seed: int) -> dict[str, Any]:
    """Seconds of processor time of both cores for the plan with its largest offcut, and whether it passes the verifier."""
    pieces, stocks, limits = question(seed)
    start = time.process_time()
    plan = lay_out(pieces, stocks, trimmer=limits)
    best = gather_offcut(pieces, stocks, plan, trimmer=limits).plan
    seconds = time.process_time() - start
    faults = verify_plan(pieces, stocks, best, limits)
    return {"pieces": sum(each.count for each in pieces), "seconds": seconds, "faults": len(faults), "step": best.step}


def stopped(seed: int) -> dict[str, Any]:
    """How many seconds of the clock a thorough search goes on after it was told to stop, all that follows it included."""
    pieces, stocks, limits = question(seed)
    after = random.Random(seed).choice([0.3, 1.0, 3.0])
    start = time.perf_counter()

    def goes_on(_: Progress) -> bool:
        return time.perf_counter() - start < after

    plan = lay_out(pieces, stocks, trimmer=limits, effort=THOROUGH, progress=goes_on)
    gathered = gather_offcut(pieces, stocks, plan, trimmer=limits, effort=THOROUGH, progress=goes_on)
    faults = verify_plan(pieces, stocks, gathered.plan, limits)
    return {"late": time.perf_counter() - start - after, "faults": len(faults)}


def alone(do: Any, seed: int) -> dict[str, Any]:
    """The same in a process of its own, with the most memory that it held (MB)."""
    reader, writer = os.pipe()
    child = os.fork()
    if not child:
        os.write(writer, json.dumps(do(seed)).encode())
        os._exit(0)
    os.close(writer)
    with os.fdopen(reader) as pipe:
        told = pipe.read()
    _, status, usage = os.wait4(child, 0)
    found: dict[str, Any] = json.loads(told) if told else {"broken": status}
    return {**found, "megabytes": usage.ru_maxrss // 1024}


def work_and_memory() -> Iterator[str]:
    """300 random batches: 10 s and 500 MB at most, 1 s up to 60 pieces; 60 thorough searches heard a stop within 0.5 s."""
    done = {seed: alone(laid_out, seed) for seed in range(CASES)}
    for seed, found in done.items():
        if "broken" in found or found["faults"]:
            yield f"{seed}: {found}"
    well = [found for found in done.values() if "broken" not in found]
    small = [found["seconds"] for found in well if found["pieces"] <= SMALL]
    large = [found["seconds"] for found in well if found["pieces"] > SMALL]
    memory = max(found["megabytes"] for found in done.values())
    rounded = sum(found["step"] is not None for found in well)
    yield f"{len(well)} of {CASES} laid out and verified, {rounded} with rounded sizes; at most {memory} MB (limit {MEGABYTES})"
    for words, seconds, limit in (
        (f"up to {SMALL} pieces", small, SMALL_SECONDS),
        ("more pieces", large, LARGE_SECONDS),
    ):
        yield f"{words}: {len(seconds)}, at most {max(seconds):.2f} s, {sum(each > limit for each in seconds)} over {limit} s"
    halts = [alone(stopped, seed) for seed in range(STOPS)]
    late = [found["late"] for found in halts if "broken" not in found and found["late"] > 0]
    memory = max(found["megabytes"] for found in halts)
    too_late, faults = sum(each > LATE for each in late), sum(found.get("faults", 1) for found in halts)
    yield f"stopped: {len(late)} of {STOPS} were still at it, at most {max(late):.2f} s late, {too_late} over {LATE} s"
    yield f"in these at most {memory} MB and {faults} faults"
