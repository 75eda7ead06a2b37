"""Large batches: many part types, and the same kit from ten to ten thousand times."""

import time
from collections.abc import Iterator, Sequence
from importlib import resources
from random import Random

from benchmarks.cutting.craft import job_of
from benchmarks.cutting.measured import measure, read
from kitwright.cutting import QUICK, UPRIGHT, PieceType, Stock, TrimmerLimits, gather_offcut, lay_out
from kitwright.cutting.job import make_job
from kitwright.cutting.one_sheet import fullest_sheet, make_tables
from kitwright.kit import build, read_kit
from kitwright.plan import lay_out_kit


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


def largest_offcut() -> Iterator[str]:
    """The largest offcut at proved cost for the example kits and a six-part craft job: goals 3 s for 100 kits, 10 s for 1000."""
    for kits, goal in ((100, 3), (1_000, 10)):
        for name in ("recipe-box", "thank-you-cards", "postcard-set"):
            text = resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8")
            built = build(read_kit(text))
            for paper in lay_out_kit(built, kits):
                yield gathered_line(f"{name}, {paper.paper.label}", kits, paper.demand, paper.stocks, goal)
        pieces, stocks = job_of(read("craft.json")["pc6-2-1"], kits)
        yield gathered_line(
            "six parts", kits, pieces, [Stock(s.name, s.width, s.height, None, s.price) for s in stocks[:3]], goal
        )


def gathered_line(name: str, kits: int, pieces: Sequence[PieceType], stocks: Sequence[Stock], goal: int) -> str:
    """How long gathering takes after the plan is there, and what comes of it."""
    plan = lay_out(pieces, stocks, effort=QUICK)
    began = time.perf_counter()
    found = gather_offcut(pieces, stocks, plan)
    seconds = time.perf_counter() - began
    largest = "none worth keeping" if found.largest is None else "found"
    proved = "proved largest" if found.is_proved else "not proved"
    late = "" if seconds <= goal else f" MISSED the goal of {goal} s"
    return f"{kits:>5} kits, {name}: {seconds:.2f} s, {largest}, {proved}{late}"


def one_sheet() -> Iterator[str]:
    """The most valuable pieces of one sheet, each at most so often, with proof: cgcut1-3 and Wang's plate (goal 30 s each)."""
    for name, case in read("one_sheet.json").items():
        if name == "source":
            continue
        (width, height), rows = case["sheet"], case["pieces"]
        pieces = [PieceType(str(i), wide, high, most, UPRIGHT) for i, (wide, high, most, _) in enumerate(rows)]
        job = make_job(pieces, [Stock("sheet", width, height)], TrimmerLimits())
        worth = [max(rows[int(piece.name)][3] for piece in kind.pieces) for kind in job.kinds]
        began = time.perf_counter()
        tables = make_tables(job, 0, worth)
        found = None if tables is None else fullest_sheet(job, tables, job.demand, nodes=100_000)
        seconds = time.perf_counter() - began
        told = (
            "not looked at"
            if found is None
            else f"{found.worth}, {'proved' if found.is_proved else f'at most {found.at_most}'}"
        )
        yield f"{name}: {told}, published {case['optimum']}, {seconds:.3f} s"
