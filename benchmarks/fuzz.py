"""Kit documents by chance through the whole house, each in a process with limits; whatever is amiss is counted and kept.

`python -m benchmarks fuzz --count 1000 --seed 7`: a thousand documents, the same every time. What was found lies in the folder named with
`--into`, a document for each kind of trouble, made as small as it gets without losing it. Measuring memory needs Linux.
"""

from __future__ import annotations

import argparse
import contextlib
import json
import multiprocessing
import os
import resource
import signal
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from pathlib import Path
from random import Random
from typing import Final

from tests.fuzz.documents import kit_document
from tests.fuzz.small import made_small
from tests.fuzz.spoil import EXAMPLES, spoilt
from tests.fuzz.trial import Amiss, Phase, Trial, Trouble, try_document

__all__ = ["BENCHMARKS", "document_number", "main"]

MOST_SECONDS: Final = 10.0
"""CPU of one document in all its phases."""
MOST_MB: Final = 500.0
"""Memory in use at its highest, the program itself and its libraries included."""
MOST_ADDRESSES: Final = 4 << 30
"""Bytes of address space: a single demand above it fails at once instead of filling the machine."""
DOCUMENTS_EACH: Final = 300
"""After so many a process is made anew, so that what one document left behind is not charged to another."""
KEPT_MB: Final = 320.0
"""And where it keeps more than this of what it took."""
ALWAYS: Final = (Phase.READ, Phase.BUILD, Phase.PROVE)
MEGA: Final = 1 << 20


def document_number(seed: int, number: int) -> str:
    """The document with this number: half of them by chance, a quarter of those spoilt, a quarter examples spoilt."""
    rng = Random(f"{seed}/{number}")
    match number % 4:
        case 0 | 1:
            return kit_document(rng)
        case 2:
            return spoilt(rng, rng.choice(EXAMPLES))
        case _:
            return spoilt(rng, kit_document(rng))


@dataclass(frozen=True)
class Plan:
    """Which documents, through which phases, each but the first for a share of them; `kits` at once; stopped after so many seconds."""

    seed: int
    first: int
    count: int
    shares: dict[Phase, float]
    kits: int
    seconds: float = float("inf")

    def phases(self, number: int) -> tuple[Phase, ...]:
        """The phases of a document."""
        chance = Random(f"phases {self.seed}/{number}")
        return (*ALWAYS, *(phase for phase, share in self.shares.items() if chance.random() < share))


@dataclass
class Result:
    """What is known of one document: the trial, the CPU (s) and the memory (MB) that it took."""

    number: int
    trial: Trial
    seconds: float = 0.0
    megabytes: float = 0.0


def work(pipe: Connection, plan: Plan) -> None:
    """Try documents whose numbers come through the pipe, and send what became of them, until there is none."""
    resource.setrlimit(resource.RLIMIT_AS, (MOST_ADDRESSES, MOST_ADDRESSES))
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    silence = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silence, 2)  # panics of libraries tell the whole screen of it
    while (number := pipe.recv()) is not None:
        pipe.send(tried(number, plan, pipe.send))


def tried(number: int, plan: Plan, tell: Callable[[Phase], object]) -> Result:
    """One document, with what it took; `tell` hears of every phase as it begins."""
    with contextlib.suppress(OSError):
        Path("/proc/self/clear_refs").write_text("5", encoding="ascii")  # the highest memory in use is counted anew
    began = time.process_time()
    trial = try_document(document_number(plan.seed, number), plan.phases(number), kits=plan.kits, tell=tell)
    return Result(number, trial, time.process_time() - began, memory_of("self")[1])


def memory_of(process: int | str) -> tuple[float, float]:
    """Memory that a process has in use, and had at its highest (MB)."""
    try:
        status = Path(f"/proc/{process}/status").read_text(encoding="ascii")
    except OSError:
        return 0.0, 0.0
    lines = dict(line.split(":", 1) for line in status.splitlines() if ":" in line)
    used, most = (int(lines.get(name, "0 kB").split()[0]) / 1024 for name in ("VmRSS", "VmHWM"))
    return used, most


def cpu_of(process: int | None) -> float:
    """CPU that a process has used (s)."""
    try:
        told = Path(f"/proc/{process}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    except OSError:
        return 0.0
    return (int(told[11]) + int(told[12])) / os.sysconf("SC_CLK_TCK")


@dataclass
class Worker:
    """A process that tries documents: what it does now, the CPU it had used when it began that, how many it did."""

    plan: Plan
    process: BaseProcess = field(init=False)
    pipe: Connection = field(init=False)
    number: int | None = None
    since: float = 0.0
    phase: Phase = Phase.READ
    done: int = 0

    def __post_init__(self) -> None:
        self.begin()

    def begin(self) -> None:
        """A new process."""
        context = multiprocessing.get_context("fork")
        self.pipe, other = context.Pipe()
        self.process = context.Process(target=work, args=(other, self.plan), daemon=True)
        self.process.start()
        other.close()
        self.number, self.done = None, 0

    def give(self, number: int) -> None:
        """Give it a document; a new process if this one did enough."""
        if self.done >= DOCUMENTS_EACH or memory_of(self.process.pid or 0)[0] > KEPT_MB:
            self.end()
            self.begin()
        self.number, self.since = number, cpu_of(self.process.pid)
        self.done += 1
        self.pipe.send(number)

    def beyond(self) -> Result | None:
        """What is known of a document that takes too much; None while it does not."""
        assert self.number is not None
        seconds, megabytes = cpu_of(self.process.pid) - self.since, memory_of(self.process.pid or 0)[0]
        if seconds <= 2 * MOST_SECONDS and megabytes <= 2 * MOST_MB:
            return None
        return Result(self.number, Trial(f"stopped ({self.phase})", took={self.phase: seconds}), seconds, megabytes)

    def end(self) -> None:
        """End the process, whatever it does."""
        if self.process.is_alive():
            self.process.kill()
        self.process.join()
        self.pipe.close()


def results(plan: Plan, *, processes: int) -> Iterator[Result]:
    """What became of every document, in the order in which they end."""
    workers = [Worker(plan) for _ in range(processes)]
    numbers = iter(range(plan.first, plan.first + plan.count))
    try:
        for worker in workers:
            hand_on(worker, numbers)
        while busy := {each.pipe: each for each in workers if each.number is not None}:
            heard = wait(list(busy), timeout=0.25)
            for pipe, worker in busy.items():
                if pipe in heard:
                    told = received(worker)
                    if told is None:
                        continue
                    yield told
                elif (found := worker.beyond()) is not None:
                    worker.end()
                    worker.begin()
                    yield found
                else:
                    continue
                hand_on(worker, numbers)
    finally:
        for worker in workers:
            worker.end()


def hand_on(worker: Worker, numbers: Iterator[int]) -> None:
    """Give a worker the next document, if there is one."""
    number = next(numbers, None)
    worker.number = None
    if number is not None:
        worker.give(number)


def received(worker: Worker) -> Result | None:
    """What a worker sent; where it died, that. None where it only began another phase."""
    assert worker.number is not None
    try:
        found: Result | Phase = worker.pipe.recv()
    except (EOFError, OSError):
        number = worker.number
        worker.end()
        code = worker.process.exitcode
        worker.begin()
        died = Trouble(Amiss.RAISED, worker.phase, f"the process ended with {code}")
        return Result(number, Trial("died", troubles=[died]))
    if isinstance(found, Phase):
        worker.phase = found
        return None
    return found


def troubles_of(result: Result) -> list[Trouble]:
    """All that is amiss with a document, time and memory too."""
    found = list(result.trial.troubles)
    slowest = max(result.trial.took, key=lambda phase: result.trial.took[phase], default=Phase.READ)
    if result.seconds > MOST_SECONDS:
        found.append(Trouble(Amiss.TOO_LONG, slowest, f"{result.seconds:.1f} s of CPU"))
    if result.megabytes > MOST_MB or any("MemoryError" in each.words for each in found):
        found.append(Trouble(Amiss.TOO_LARGE, slowest, f"{result.megabytes:.0f} MB"))
    return found


@dataclass
class Tally:
    """What was found over all documents."""

    outcomes: Counter[str] = field(default_factory=Counter)
    phases: Counter[Phase] = field(default_factory=Counter)
    kinds: dict[tuple[str, str, str], list[tuple[int, str]]] = field(default_factory=dict)
    slowest: list[tuple[float, int]] = field(default_factory=list)
    largest: list[tuple[float, int]] = field(default_factory=list)

    def take(self, result: Result) -> None:
        """Count one more."""
        self.outcomes[result.trial.outcome] += 1
        self.phases.update(set(result.trial.done))
        for trouble in troubles_of(result):
            kind = (trouble.amiss, trouble.phase, trouble.where)
            self.kinds.setdefault(kind, []).append((result.number, trouble.words))
        self.slowest = sorted([*self.slowest, (result.seconds, result.number)])[-5:]
        self.largest = sorted([*self.largest, (result.megabytes, result.number)])[-5:]

    def lines(self) -> Iterator[str]:
        """The tally for people."""
        yield "documents: " + ", ".join(f"{count} {outcome}" for outcome, count in self.outcomes.most_common())
        yield "went through: " + ", ".join(f"{phase} {self.phases[phase]}" for phase in Phase if self.phases[phase])
        yield "slowest: " + ", ".join(
            f"{seconds:.1f} s (number {number})" for seconds, number in reversed(self.slowest)
        )
        yield "largest: " + ", ".join(f"{mega:.0f} MB (number {number})" for mega, number in reversed(self.largest))
        if not self.kinds:
            yield "nothing amiss"
        for (amiss, phase, where), cases in sorted(self.kinds.items(), key=lambda item: -len(item[1])):
            number, words = cases[0]
            yield f"{len(cases):6} {amiss} ({phase}) {where}  e.g. number {number}: {words[:160]}"


def run(plan: Plan, *, processes: int, into: Path | None) -> Iterator[str]:
    """Try all documents; lines for people, and in `into` one line of data for each document with trouble."""
    tally, began = Tally(), time.monotonic()
    with (into / "troubles.jsonl").open("a", encoding="utf-8") if into else contextlib.nullcontext() as kept:
        for count, result in enumerate(results(plan, processes=processes), 1):
            tally.take(result)
            for trouble in troubles_of(result):
                if kept:
                    told = {"seed": plan.seed, "number": result.number, "amiss": trouble.amiss, "phase": trouble.phase}
                    kept.write(json.dumps({**told, "where": trouble.where, "words": trouble.words}) + "\n")
            if count % 1000 == 0:
                if kept:
                    kept.flush()
                yield f"... {count} documents after {time.monotonic() - began:.0f} s"
            if time.monotonic() - began > plan.seconds:
                yield f"stopped after {count} documents"
                break
    yield from tally.lines()


def share(text: str) -> tuple[Phase, float]:
    """A phase and the share of documents that it is for: `pack=0.05`."""
    word, _, number = text.partition("=")
    return Phase(word), float(number or 1)


def small(path: Path, phases: Sequence[Phase]) -> str:
    """A document made as small as it gets while its first trouble stays. Raises `ValueError` for one that has none."""

    def kinds(text: str) -> set[tuple[str, str, str]]:
        return {(each.amiss, each.phase, each.where) for each in try_document(text, phases).troubles}

    text = path.read_text(encoding="utf-8")
    first = min(kinds(text))
    return made_small(text, lambda tried_text: first in kinds(tried_text))


def main(arguments: Sequence[str], tell: Callable[[str], object] = print) -> int:
    """The command: try documents, show one, or make one small. 1 where something is amiss."""
    parser = argparse.ArgumentParser(prog="python -m benchmarks fuzz", description=__doc__)
    parser.add_argument("--count", type=int, default=400, help="how many documents")
    parser.add_argument("--seed", type=int, default=1, help="which documents")
    parser.add_argument("--first", type=int, default=0, help="the number of the first")
    parser.add_argument("--seconds", type=float, default=float("inf"), help="stop after so long, whatever is left")
    parser.add_argument("--kits", type=int, default=1, help="how many kits are laid out at once")
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--into", type=Path, help="a folder for what is found")
    parser.add_argument("--show", type=int, help="only print the document with this number")
    parser.add_argument(
        "--small", type=Path, help="only print this document as small as it gets while its trouble stays"
    )
    parser.add_argument(
        "phases", nargs="*", type=share, help="more phases with the share of documents: sheets=0.5 pack=0.02"
    )
    said = parser.parse_args(arguments)
    if said.show is not None:
        tell(document_number(said.seed, said.show))
        return 0
    if said.small is not None:
        tell(small(said.small, (*ALWAYS, *(phase for phase, _ in said.phases))))
        return 0
    if said.into:
        said.into.mkdir(parents=True, exist_ok=True)
    last = ""
    for line in run(
        Plan(said.seed, said.first, said.count, dict(said.phases), said.kits, said.seconds),
        processes=said.processes,
        into=said.into,
    ):
        tell(line)
        last = line
    return 0 if last == "nothing amiss" else 1


def fuzz() -> Iterator[str]:
    """A few hundred kit documents by chance: nothing raised, at most 500 MB and 10 s each, every plan right."""
    shares = {Phase.MEND: 0.1, Phase.SHEETS: 0.5, Phase.MATS: 0.01, Phase.PACK: 0.02, Phase.PAGE: 0.02}
    yield from run(Plan(1, 0, 400, shares, 1), processes=os.cpu_count() or 1, into=None)


BENCHMARKS = {"fuzz": fuzz}

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
