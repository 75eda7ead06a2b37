"""Every form of the catalogue, two hundred times with random numbers: whether the folded part closes, without thickness."""

from __future__ import annotations

import random
import time
from collections.abc import Iterator, Mapping

import kitwright.forms  # noqa: F401  (fills the catalogue)
from kitwright.catalogue import CATALOGUE, Following, Form, Parameter, followed, parameters
from kitwright.findings import Severity, worst
from kitwright.folding import Folded, fold, landings, seam_residual

__all__ = ["BENCHMARKS"]

SETS = 200
SEED = 20261125


def closing() -> Iterator[str]:
    """All forms × 200 random sets of numbers: how far seams gape and tabs lie off (goal at most 1e-9 mm)."""
    worst_of_all = 0.0
    for key, form in CATALOGUE.items():
        chance = random.Random(f"{SEED} {key}")
        started = time.perf_counter()
        refused, apart, off = 0, 0.0, 0.0
        for _ in range(SETS):
            made, tries = accepted(form, chance)
            refused += tries
            folded = fold(made.draw())
            apart, off = max(apart, gape(folded)), max(off, lift(folded))
        seconds = time.perf_counter() - started
        worst_of_all = max(worst_of_all, apart, off)
        yield (
            f"{key:20} {SETS} sets ({refused} more refused by its rules): seams {apart:.1e} mm, tabs {off:.1e} mm apart;"
            f" {1000 * seconds / SETS:.1f} ms each"
        )
    yield f"farthest apart in all: {worst_of_all:.1e} mm"


def accepted(form: type[Form], chance: random.Random) -> tuple[Form, int]:
    """A form with random numbers that its rules accept, and how many were refused before."""
    tries = 0
    while True:
        made = form(**random_values(form, chance))
        if worst(made.rules()) is not Severity.FAIL:
            return made, tries
        tries += 1


def random_values(form: type[Form], chance: random.Random) -> Mapping[str, float | str]:
    """Numbers from the whole range of each parameter; one in two that has a default keeps it."""
    found: dict[str, float | str] = {}
    later: list[Parameter] = []
    for each in parameters(form):
        keeps = chance.random() < 0.5
        if each.choices:
            found[each.name] = chance.choice(each.choices)
        elif keeps and isinstance(each.default, Following):
            later.append(each)
        elif keeps and each.default is not None and not isinstance(each.default, Following):
            found[each.name] = each.default
        else:
            found[each.name] = chance.uniform(each.at_least, each.at_most)
    for each in later:
        if isinstance(each.default, Following):
            found[each.name] = min(max(followed(each.default, found), each.at_least), each.at_most)
    return found


def gape(folded: Folded) -> float:
    """How far the two edges of any seam are from each other, mm."""
    seams = (seam_residual(folded, seam) for seam in folded.pattern.claims.seams)
    return max((max(each.gap, each.slide) for each in seams), default=0.0)


def lift(folded: Folded) -> float:
    """How far any tab is from the plane that it is glued to, mm."""
    return max((each.off_plane for each in landings(folded)), default=0.0)


BENCHMARKS = {"closing": closing}
