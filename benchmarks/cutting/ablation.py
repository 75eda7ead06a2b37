"""What each part of the cutting search is good for: the same jobs with one part taken out after the other, by counted work.

The groups `kits`, `craft` and `random` are what makers ask, laid out as the command line does it, with their largest offcut; the published
sets are laid out with an effort counted in work, so that one run can be compared with another, however busy the machine is.
"""

from __future__ import annotations

import argparse
import json
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from importlib import resources
from pathlib import Path
from random import Random

from benchmarks.cutting.craft import job_of
from benchmarks.cutting.measured import read, turns
from benchmarks.cutting.parts import FULL, VARIANTS, noted, taken_out
from benchmarks.cutting.stock import pieces_of
from kitwright.cutting import (
    ANY_TURN,
    QUICK,
    STEADY,
    THOROUGH,
    Effort,
    PieceType,
    Stock,
    TrimmerLimits,
    gather_offcut,
    verify_plan,
)
from kitwright.cutting.search import search_plan
from kitwright.kit import build, read_kit, stocks_for, trimmer_limits
from kitwright.plan.pipeline import lines_for, piece_type

__all__ = ["main"]

EXAMPLES = ("recipe-box", "thank-you-cards", "postcard-set")
BATCHES = (1, 6, 12, 40, 200)
RANDOM_JOBS = 60
SIXTEENTH = 1_587_500
"""Nanometres."""

MOST_NAMED = 8
"""So many jobs are named that came out worse."""


@dataclass(frozen=True)
class Job:
    """One question to the search."""

    group: str
    name: str
    demand: Sequence[PieceType]
    stocks: Sequence[Stock]
    effort: Effort
    trimmer: TrimmerLimits | None = None
    is_makers: bool = False
    """Whether the largest offcut is looked for as well, as for a maker."""


@dataclass(frozen=True)
class Found:
    """What came of a job with a variant of the search; seconds are processor time of all threads, work is counted microseconds.

    `asked` are the variants whose parts had something to do; without the others the search goes the very same way.
    """

    variant: str
    group: str
    job: str
    value: int
    bound: int
    is_complete: bool
    is_proved: bool
    layouts: int
    offcut: int
    is_offcut_proved: bool
    work: int
    seconds: float
    faults: int
    asked: Sequence[str] = ()


def find(job: Job, variant: str) -> Found:
    """Lay out a job without the parts of a variant."""
    start = time.process_time()
    with taken_out(variant), noted() as asked:
        plan, work = search_plan(job.demand, job.stocks, trimmer=job.trimmer, effort=job.effort, progress=None)
        gathered = None
        if job.is_makers:
            gathered = gather_offcut(job.demand, job.stocks, plan, trimmer=job.trimmer, effort=job.effort)
            plan = gathered.plan
    seconds = time.process_time() - start
    return Found(
        variant=variant,
        group=job.group,
        job=job.name,
        value=plan.value,
        bound=plan.bound.value,
        is_complete=plan.is_complete,
        is_proved=plan.is_proved,
        layouts=len(plan.layouts),
        offcut=gathered.largest.area if gathered and gathered.largest else 0,
        is_offcut_proved=gathered is not None and gathered.is_proved,
        work=work,
        seconds=seconds,
        faults=len(verify_plan(job.demand, job.stocks, plan, job.trimmer)),
        asked=sorted(asked) if variant == FULL else (),
    )


def kits(effort: Effort) -> Iterator[Job]:
    """Every paper of the example kits, for one kit up to two hundred."""
    for name in EXAMPLES:
        text = resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8")
        built = build(read_kit(text))
        for batch in BATCHES:
            papers = [(key, lines) for key in built.kit.papers if (lines := lines_for(built, key, batch))]
            for key, lines in papers:
                yield Job(
                    "kits",
                    f"{name}, {key}, {batch}",
                    tuple(map(piece_type, lines)),
                    stocks_for(built.kit, built.kit.papers[key]),
                    effort.shared(len(papers)),
                    trimmer_limits(built.kit.trimmer),
                    is_makers=True,
                )


def craft(effort: Effort) -> Iterator[Job]:
    """The nine craft-like jobs."""
    for name, case in read("craft.json").items():
        yield Job("craft", name, *job_of(case), effort, is_makers=True)


def by_chance(effort: Effort) -> Iterator[Job]:
    """Jobs like a maker's: 6 to 20 kinds for 1 to 12 kits from letter sheets, 12 × 12 or both, some with offcuts, on sixteenths."""
    for number in range(RANDOM_JOBS):
        chance = Random(f"ablation {number}")
        many = chance.randint(1, 12)
        highest = chance.choice((64, 96, 128))
        pieces = [
            PieceType(
                str(kind),
                chance.randint(16, highest) * SIXTEENTH,
                chance.randint(16, highest) * SIXTEENTH,
                chance.choice((1, 1, 2, 2, 4, 6)) * many,
                chance.choice(((0, 2), ANY_TURN, ANY_TURN)),
            )
            for kind in range(chance.randint(6, 20))
        ]
        letter = Stock("letter", 136 * SIXTEENTH, 176 * SIXTEENTH, None, 25)
        square = Stock("12 x 12", 192 * SIXTEENTH, 192 * SIXTEENTH, None, 80)
        stocks = chance.choice(([letter], [square], [square], [letter, square]))
        offcuts = [
            Stock(
                f"offcut {place}",
                chance.randint(40, 120) * SIXTEENTH,
                chance.randint(40, 120) * SIXTEENTH,
                chance.randint(1, 3),
                0,
            )
            for place in range(chance.choice((0, 0, 0, 1, 3)))
        ]
        yield Job("random", str(number), pieces, [*stocks, *offcuts], effort, is_makers=True)


def cutting_stock() -> Iterator[Job]:
    """gcut1d-12d with one sheet."""
    for turned in (False, True):
        for name, case in read("cutting_stock.json").items():
            sheet = Stock("sheet", *case["sheets"][0])
            yield published("cutting-stock", name, pieces_of(case, turned=turned), [sheet], turned=turned)


def several_sheets() -> Iterator[Job]:
    """gcut1d-12d with three sheets."""
    for turned in (False, True):
        for name, case in read("cutting_stock.json").items():
            stocks = [Stock(str(place), w, h, None, w * h) for place, (w, h) in enumerate(case["sheets"])]
            yield published("several-sheets", name, pieces_of(case, turned=turned), stocks, turned=turned)


def bins(*, turned: bool) -> Iterator[Job]:
    """The 500 batches of different pieces."""
    for name, case in read("bins.json").items():
        pieces = [PieceType(str(i), w, h, 1, turns(turned=turned)) for i, (w, h) in enumerate(case["pieces"])]
        group = "bins-turned" if turned else "bins-oriented"
        yield published(group, name, pieces, [Stock("sheet", *case["sheet"])], turned=turned)


SECONDS_OF_WORK = {"cutting-stock": 20, "several-sheets": 20, "bins-oriented": 5, "bins-turned": 5}
"""The work of each published job, about as much as its own benchmark has time for."""


def published(group: str, name: str, pieces: list[PieceType], stocks: list[Stock], *, turned: bool) -> Job:
    """A job of a published set."""
    effort = replace(THOROUGH, work=SECONDS_OF_WORK[group] * 1_000_000)
    return Job(group, f"{name}, {'turned' if turned else 'upright'}", pieces, stocks, effort)


MAKERS: dict[str, Callable[[Effort], Iterator[Job]]] = {"kits": kits, "craft": craft, "random": by_chance}
PUBLISHED: dict[str, Callable[[], Iterator[Job]]] = {
    "cutting-stock": cutting_stock,
    "several-sheets": several_sheets,
    "bins-oriented": lambda: bins(turned=False),
    "bins-turned": lambda: bins(turned=True),
}
EFFORTS = {"quick": QUICK, "steady": STEADY, "thorough": THOROUGH}
"""The command line takes the first, the page one after the other."""

Known = dict[tuple[str, str, str], Found]
"""By variant, group and job."""


def told(file: Path | None) -> Known:
    """What earlier runs wrote into a file."""
    if file is None or not file.exists():
        return {}
    rows = (Found(**json.loads(line)) for line in file.read_text(encoding="utf-8").splitlines())
    return {(row.variant, row.group, row.job): row for row in rows}


def run(jobs: Sequence[Job], variant: str, known: Known, into: Path | None) -> list[Found]:
    """What comes of all jobs with a variant; what is known already is not done again, nor what must come out as in full."""
    for job in jobs:
        key = variant, job.group, job.name
        full = known.get((FULL, job.group, job.name))
        if key not in known:
            known[key] = find(job, variant) if full is None or variant in full.asked else replace(full, variant=variant)
            if into is not None:
                with into.open("a", encoding="utf-8") as kept:
                    kept.write(json.dumps(asdict(known[key])) + "\n")
    return [known[variant, job.group, job.name] for job in jobs]


def open_jobs(group: str, effort: str, known: Known, into: Path | None) -> list[Job]:
    """The jobs of a maker's group with an effort: all with the quick one, else those that it does not prove, small batches first."""
    jobs = list(MAKERS[group](QUICK))
    if effort == "quick":
        return jobs
    found = run(jobs, FULL, known, into)
    harder = (
        replace(job, group=f"{group}, {effort}")
        for job, quick in zip(MAKERS[group](EFFORTS[effort]), found, strict=True)
        if not quick.is_proved
    )
    return sorted(harder, key=lambda job: sum(piece.count for piece in job.demand))


def compared(group: str, full: Sequence[Found], found: Sequence[Found]) -> Iterator[str]:
    """One line for a variant on a group, beside what the full search finds, and the jobs that came out worse."""
    pairs = list(zip(full, found, strict=True))
    dearer = [new.job for old, new in pairs if is_worse(old, new)]
    cheaper = [new.job for old, new in pairs if is_worse(new, old)]
    lost = [new.job for old, new in pairs if old.is_proved and not new.is_proved]
    gained = sum(new.is_proved and not old.is_proved for old, new in pairs)
    asked = sum(new.variant in old.asked for old, new in pairs)
    value, before = total(one.value for one in found), total(one.value for one in full)
    ratios = [new.value / old.value for old, new in pairs if old.value and old.is_complete and new.is_complete]
    share = 100 * (total(ratios) / max(1, len(ratios)) - 1)
    parts = (
        f"asked for in {asked} of {len(pairs)}" if found[0].variant != FULL else f"{len(pairs)} jobs",
        f"{value:g} ({value - before:+g}, {share:+.3f} % a job)",
        f"{len(dearer)} dearer, {len(cheaper)} cheaper",
        f"proved {sum(one.is_proved for one in found)} (-{len(lost)} +{gained})",
        f"offcuts {sum(one.is_offcut_proved for one in found)}",
        f"layouts {sum(one.layouts for one in found)}",
        f"work {sum(one.work for one in found) / 1e6:.1f} s, processor {total(one.seconds for one in found):.1f} s",
        f"faults {sum(one.faults for one in found)}",
    )
    yield f"  {group}: {'; '.join(parts)}"
    for words, names in (("dearer", dearer), ("no longer proved", lost)):
        if names:
            yield f"    {words}: {'; '.join(names[:MOST_NAMED])}{' …' if len(names) > MOST_NAMED else ''}"


def is_worse(one: Found, other: Found) -> bool:
    """Whether the other is dearer, or not complete where the one is."""
    return (not other.is_complete, other.value) > (not one.is_complete, one.value)


def total(numbers: Iterable[float]) -> float:
    """The sum of some numbers."""
    return float(sum(numbers))


def main(arguments: Sequence[str], tell: Callable[[str], object] = print) -> int:
    """The command: all variants on what makers ask, or those and on what is named."""
    groups = (*MAKERS, *PUBLISHED)
    parser = argparse.ArgumentParser(prog="python -m benchmarks ablation", description=__doc__)
    parser.add_argument(
        "--on", nargs="+", choices=groups, default=list(MAKERS), metavar="GROUP", help=", ".join(groups)
    )
    parser.add_argument("--without", nargs="+", choices=VARIANTS, default=list(VARIANTS), help="these variants only")
    parser.add_argument(
        "--effort", choices=EFFORTS, default="quick", help="for what makers ask and the quick one does not prove"
    )
    parser.add_argument("--first", type=int, help="no more than so many jobs of a group")
    parser.add_argument("--share", type=int, default=1, help="only every so manieth job of the published sets")
    parser.add_argument("--into", type=Path, help="a file for every answer; those in it are not looked for again")
    said = parser.parse_args(arguments)
    known = told(said.into)
    jobs: dict[str, list[Job]] = {}
    for name in said.on:
        if name in MAKERS:
            jobs[name] = open_jobs(name, said.effort, known, said.into)[: said.first]
        else:
            jobs[name] = list(PUBLISHED[name]())[:: said.share][: said.first]
    for variant in dict.fromkeys((FULL, *said.without)):
        tell(variant if variant == FULL else f"without {variant}")
        for asked in jobs.values():
            full = run(asked, FULL, known, said.into)
            for line in compared(asked[0].group, full, run(asked, variant, known, said.into)) if asked else ():
                tell(line)
    return 0
