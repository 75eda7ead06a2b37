"""The chain from document to pages: how long each step takes on this machine. Least of several runs, in milliseconds."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from importlib import resources

from kitwright.kit import build, prove, read_kit
from kitwright.plan import plan
from kitwright.printouts.make.bench_pack import bench_pack
from kitwright.printouts.make.whole_pack import whole_pack
from kitwright.printouts.page import US_LETTER

__all__ = ["BENCHMARKS"]

EXAMPLES = ("recipe-box", "thank-you-cards", "postcard-set")


def least(work: Callable[[], object], *, runs: int = 5) -> float:
    """Milliseconds of the quickest of some runs."""
    times = []
    for _ in range(runs):
        started = time.perf_counter()
        work()
        times.append(time.perf_counter() - started)
    return 1000 * min(times)


def example(name: str) -> str:
    """The text of an example kit."""
    return resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8")


def steps() -> Iterator[str]:
    """Reading, building, proving, laying out and printing the example kits (12 kits each)."""
    yield f"{'kit':16} {'read':>7} {'build':>7} {'prove':>7} {'plan':>8} {'bench pack':>11} {'all files':>10}   ms"
    for name in EXAMPLES:
        text = example(name)
        kit = read_kit(text)
        built = build(kit)
        made = plan(kit, batch=12)
        row = (
            least(lambda text=text: read_kit(text)),  # type: ignore[misc]
            least(lambda kit=kit: build(kit)),  # type: ignore[misc]
            least(lambda built=built: prove(built)),  # type: ignore[misc]
            least(lambda kit=kit: plan(kit, batch=12), runs=3),  # type: ignore[misc]
            least(lambda made=made: bench_pack(made, US_LETTER), runs=3),  # type: ignore[misc]
            least(lambda made=made: whole_pack(made), runs=3),  # type: ignore[misc]
        )
        yield f"{name:16} {row[0]:7.1f} {row[1]:7.1f} {row[2]:7.1f} {row[3]:8.1f} {row[4]:11.1f} {row[5]:10.1f}"


def start() -> Iterator[str]:
    """How long the help of the command line takes, in a new process."""
    command = [sys.executable, "-m", "kitwright", "--help"]
    took = least(lambda: subprocess.run(command, check=True, capture_output=True), runs=10)
    yield f"kitwright --help: {took:.0f} ms (goal 200)"


BENCHMARKS = {"chain": steps, "start": start}
