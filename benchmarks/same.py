"""Whether the same kit gives the same bytes of everything: under any hash seed, on any Python, on one core, beside other work.

`KITWRIGHT_PYTHONS` may name further Pythons (paths with a colon between them, a semicolon on Windows) that have the locked dependencies;
`KITWRIGHT_SAME_KITS` and `KITWRIGHT_SAME_SEEDS` say how many random kits and how many hash seeds.
"""

from __future__ import annotations

import hashlib
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from importlib import resources
from pathlib import Path
from random import Random
from typing import Final

from kitwright.errors import Mistake, Mistakes
from kitwright.kit import mend_document, read_kit
from kitwright.plan import plan
from kitwright.printouts.make.as_data import plan_as_data, proof_as_data
from kitwright.printouts.make.whole_pack import whole_pack

__all__ = ["BENCHMARKS", "digests"]

EXAMPLES: Final = ("recipe-box", "thank-you-cards", "postcard-set")
KITS: Final = int(os.environ.get("KITWRIGHT_SAME_KITS", "12"))
SEEDS: Final = int(os.environ.get("KITWRIGHT_SAME_SEEDS", "4"))
AT_ONCE: Final = 3
"""Runs beside each other, more than most machines of a workshop have cores to spare: each hears of the others' work."""

MOST_TOLD: Final = 30
"""Differences told one by one."""

Digests = dict[str, dict[str, str]]
"""For each kit: what was made of it, and the digest of its bytes."""


def random_kit(seed: int) -> str:
    """A kit of five to nine parts, some said wrongly, on some paper."""
    random = Random(seed)
    metric = random.random() < 0.5
    unit, mark = ("mm", random.choice(("1", "0.5"))) if metric else ("in", random.choice(("1/16", "1/32", "1/8")))
    per = 25 if metric else 1
    wide, high = (random.randint(28, 52) * per / 8 for _ in range(2))
    said = random.choice(
        ("", 'print = "one-way"\n', 'print = "all-over"\n', 'grain = "long"\n', 'grain = "short"\nprint = "one-way"\n')
    )
    sheet = (
        random.choice(("305 x 305", "210 x 297", "450 x 640"))
        if metric
        else random.choice(("12 x 12", "8 1/2 x 11", "18 x 24"))
    )
    caliper = random.choice(("0.25", "0.3", "0.41")) if metric else random.choice(("0.010", "0.012", "0.016"))
    lines = [
        f'[kit]\nname = "Random {seed}"\nunits = "{unit}"\nruler = "{mark}"',
        f'[paper.card]\nsheet = "{sheet}"\nweight = "80 lb cover"\ncaliper = "{caliper}"\nprice = "0.80"\n{said}',
        f'[paper.plain]\nsheet = "{sheet}"\nweight = "120 gsm"\ntwo-sided = true\nprice = "0.25"\n',
    ]

    def part(name: str, form: str, more: str, paper: str = "card") -> None:
        lines.append(f'[[part]]\nname = "{name}"\nform = "{form}"\npaper = "{paper}"\n{more}\n')

    count = random.randint(1, 12)
    card = random.choice(("flat card", "half-fold card"))
    part("card", card, f'size = "{wide:g} x {high:g}"\nquantity = {count}')
    held = ["card"]
    if random.random() < 0.6:
        part("mat", "mat", f'on = "card"\nquantity = {count}', "plain")
    if random.random() < 0.7:
        part("envelope", "side-seam envelope", f'holds = "card"\nquantity = {count}', "plain")
        held.append("envelope")
    if random.random() < 0.6:
        sides = "120 x 8 x 8" if metric else "4 1/2 x 5/16 x 5/16"
        lines.append(f'[[extra]]\nname = "pencil"\nsize = "{sides}"\nquantity = {random.randint(1, 6)}\n')
        held.append("pencil")
    names = ", ".join(f'"{name}"' for name in held)
    box = random.choice(("tray", "two-half wrap box"))
    part("box", box, f"holds = [{names}]" + random.choice(("", "", "\nturn = 90", "\nturn = 180")))
    if box == "tray":
        part("lid", random.choice(("lift-off lid", "flap lid")), 'covers = "box"' + random.choice(("", "\nturn = 180")))
    breadth = "20" if metric else "3/4"
    part("band", "belly band", f'wraps = "box"\nheight = "{breadth}"', "plain")
    if random.random() < 0.5:
        tag = "45 x 80" if metric else "1 3/4 x 3"
        part("tag", "tag", f'size = "{tag}"\nquantity = {random.randint(1, 9)}')
    return "".join(f"{line}\n" for line in lines)


def digest(content: bytes | str) -> str:
    """A short digest of bytes or words."""
    return hashlib.sha256(content.encode() if isinstance(content, str) else content).hexdigest()[:16]


def digests_of(text: str, *, batch: int) -> dict[str, str]:
    """Digests of all that is made of a kit: its plan and proof as data, every file of its pack, its document when mended."""
    try:
        made = plan(read_kit(text), batch=batch)
    except (Mistake, Mistakes) as mistakes:
        return {"mistakes": digest(str(mistakes))}
    found = {"proof": digest(json.dumps(proof_as_data(made.proof))), "plan": digest(json.dumps(plan_as_data(made)))}
    found["mended"] = digest(mend_document(text, warnings=True).text)
    try:
        found |= {name: digest(content) for name, content in whole_pack(made).items()}
    except (Mistake, Mistakes) as mistakes:
        found["pack"] = digest(str(mistakes))
    return found


def digests(kits: int) -> Digests:
    """Digests of the examples, and of so many random kits."""
    texts = {
        name: resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8")
        for name in EXAMPLES
    } | {f"random {seed}": random_kit(seed) for seed in range(kits)}
    return {name: digests_of(text, batch=3) for name, text in texts.items()}


def made_by(python: str, seed: str, *, one_core: bool = False) -> Digests:
    """The digests in a new process of a Python under a hash seed. Raises `CalledProcessError`."""
    source = str(Path(resources.files("kitwright").joinpath("__init__.py").__fspath__()).parents[1])  # type: ignore[attr-defined]
    paths = os.pathsep.join((source, str(Path(__file__).parents[1])))
    environment = {
        **os.environ,
        "PYTHONHASHSEED": seed,
        "PYTHONPATH": paths,
        "KITWRIGHT_ONE_CORE": "1" if one_core else "",
    }
    command = [python, "-m", "benchmarks.same", str(KITS)]
    done = subprocess.run(command, env=environment, check=True, capture_output=True, text=True)
    found: Digests = json.loads(done.stdout)
    return found


def differing(first: Digests, other: Digests) -> list[str]:
    """What is not the same in two runs."""
    return [
        f"{kit}: {name}"
        for kit in first
        for name in sorted({*first[kit], *other[kit]})
        if first[kit].get(name) != other[kit].get(name)
    ]


def same() -> Iterator[str]:
    """All that is made of the examples and of random kits, in many processes: every byte the same (no difference)."""
    pythons = [sys.executable, *filter(None, os.environ.get("KITWRIGHT_PYTHONS", "").split(os.pathsep))]
    runs = [(python, str(seed), False) for python in pythons for seed in range(SEEDS)]
    runs += [(python, "random", True) for python in pythons]
    with ThreadPoolExecutor(AT_ONCE) as pool:
        found = list(pool.map(lambda run: made_by(run[0], run[1], one_core=run[2]), runs))
    files = sum(map(len, found[0].values()))
    yield f"{len(found[0])} kits, {files} things made of them, {len(runs)} runs on {len(pythons)} Pythons, {AT_ONCE} beside each other"
    amiss = [
        f"not the same with {python}, hash seed {seed}{', on one core' if one_core else ''}: {each}"
        for (python, seed, one_core), other in zip(runs[1:], found[1:], strict=True)
        for each in differing(found[0], other)
    ]
    yield from amiss[:MOST_TOLD]
    yield f"{len(amiss)} differences"


BENCHMARKS = {"same": same}

if __name__ == "__main__":
    if os.environ.get("KITWRIGHT_ONE_CORE") and hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    print(json.dumps(digests(int(sys.argv[1]))))
