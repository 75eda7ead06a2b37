"""Blanks on the mats of a cutting machine: how many mats, and what it takes to find them. The same mats on every computer."""

from __future__ import annotations

import multiprocessing
import resource
import time
from collections.abc import Iterator
from multiprocessing.connection import Connection
from pathlib import Path
from random import Random
from typing import Final

import kitwright
from kitwright.cutting import Mat, Outlined, fewest_by_area, nest, verify_nested
from kitwright.errors import KitwrightError
from kitwright.kit import build, read_kit
from kitwright.plan.machine import mat_for, outlined
from kitwright.plan.pipeline import lines_for

__all__ = ["BENCHMARKS", "Case", "cases"]

SEED: Final = 20261130
RANDOM_KITS: Final = 30
BATCHES: Final = (1, 6, 12)
EXAMPLES: Final = Path(kitwright.__file__).parent / "examples"

INCHES: Final = ("8 1/2 x 11", "12 x 12", "12 x 12", "12 x 24")
MILLIMETRES: Final = ("210 x 297", "297 x 420", "305 x 305")
PRINTS: Final = ("none", "none", "all-over", "one-way")
FORMS: Final = (
    ("tray", (50, 50, 15), (150, 110, 40), 2),
    ("lift-off lid", (50, 50, 12), (150, 110, 25), 2),
    ("side-seam envelope", (70, 50), (150, 110), 6),
    ("pocket", (50, 40), (110, 90), 6),
    ("flat card", (50, 40), (160, 120), 12),
    ("half-fold card", (50, 40), (120, 90), 8),
    ("tag", (25, 40), (60, 100), 12),
    ("belly band", (60, 10, 20), (120, 60, 50), 3),
)
"""Forms with their least and largest size (mm), and how many a kit has of one at most."""

Case = tuple[str, tuple[tuple[tuple[Outlined, ...], Mat], ...]]
"""A name, and for each paper its blanks and its mat."""


def cases() -> Iterator[Case]:
    """The shipped examples in three batches, then kits by chance."""
    for path in sorted(EXAMPLES.glob("*.toml")):
        for batch in BATCHES:
            yield f"{path.stem} × {batch}", papers_of(path.read_text(encoding="utf-8"), batch)
    for number in range(RANDOM_KITS):
        chance = Random(f"{SEED}/{number}")
        while True:
            document, batch = by_chance(chance), chance.choice((1, 1, 2, 3, 5))
            try:
                yield f"by chance {number}", papers_of(document, batch)
            except KitwrightError:
                continue
            break


def papers_of(document: str, batch: int) -> tuple[tuple[tuple[Outlined, ...], Mat], ...]:
    """What is to be nested for a batch of a kit. Raises `Mistake` for one that cannot be made."""
    built = build(read_kit(document))
    return tuple(
        (outlined(lines), mat_for(built.kit.machine, paper)[1])
        for key, paper in built.kit.papers.items()
        if (lines := lines_for(built, key, batch))
    )


def by_chance(chance: Random) -> str:
    """A kit of one paper as a document."""
    is_inch = chance.random() < 0.5
    sheet = chance.choice(INCHES if is_inch else MILLIMETRES)
    head = (
        f'[kit]\nname = "by chance"\nunits = "{"in" if is_inch else "mm"}"\nruler = "{"1/16" if is_inch else "1"}"\n'
        f'[paper.card]\nsheet = "{sheet}"\nweight = "250 g/m²"\ncaliper = "{"0.011" if is_inch else "0.28"}"\n'
        f'print = "{chance.choice(PRINTS)}"\n'
    )
    return head + "".join(part_by_chance(chance, number, is_inch=is_inch) for number in range(chance.randint(1, 5)))


def part_by_chance(chance: Random, number: int, *, is_inch: bool) -> str:
    """The table of one part, its sizes on the marks of the ruler."""
    form, least, most, many = chance.choice(FORMS)
    lengths = [chance.uniform(*between) for between in zip(least, most, strict=True)]
    said = [f"{round(each / 25.4 * 16)}/16" if is_inch else str(round(each)) for each in lengths]
    return (
        f'[[part]]\nname = "{form} {number}"\nform = "{form}"\nsize = "{" x ".join(said)}"\npaper = "card"\n'
        f"quantity = {chance.randint(1, many)}\n"
    )


def nested(pipe: Connection, case: Case) -> None:
    """One case in a process of its own: mats, bound by area, faults, CPU (s), memory that it took (MB)."""
    name, papers = case
    before, began = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, time.process_time()
    found = [nest(pieces, mat, papers=len(papers)) for pieces, mat in papers]
    seconds = time.process_time() - began
    memory = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024
    faults = sum(len(verify_nested(pieces, each)) for (pieces, _), each in zip(papers, found, strict=True))
    without = sum(sum(each.unplaced.values()) for each in found)
    fewest = sum(
        fewest_by_area([piece for piece in pieces if piece.name not in each.unplaced], mat)
        for (pieces, mat), each in zip(papers, found, strict=True)
    )
    pipe.send((name, sum(each.mats for each in found), fewest, without, faults, seconds, memory))
    pipe.close()


def nesting() -> Iterator[str]:
    """The examples at 1, 6 and 12 kits and 30 kits by chance: mats, least by area, CPU (aim 5 s a kit), memory (aim 300 MB)."""
    mats = least = wrong = 0
    slowest = total = largest = 0.0
    for case in cases():
        here, there = multiprocessing.Pipe()
        process = multiprocessing.get_context("fork").Process(target=nested, args=(there, case))
        process.start()
        name, found, fewest, without, faults, seconds, memory = here.recv()
        process.join()
        mats, least, wrong = mats + found, least + fewest, wrong + faults
        slowest, total, largest = max(slowest, seconds), total + seconds, max(largest, memory)
        too_large = f", {without} blanks too large" if without else ""
        yield f"{name}: {found} mats, at least {fewest} by area{too_large}; {seconds:.1f} s, {memory:.0f} MB"
    yield f"in all {mats} mats, at least {least} by area; {wrong} faults; {total:.0f} s, slowest {slowest:.1f} s, largest {largest:.0f} MB"


BENCHMARKS = {"nesting": nesting}
