"""The parts of the cutting search that can be taken out one at a time, each by putting something idle in the place of one function."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from functools import wraps
from typing import Any
from unittest.mock import patch

from kitwright.cutting import fewer, generate, pool, search, small_batch, two_in_one, whole
from kitwright.cutting.proper import ProperBound
from kitwright.cutting.small_batch import FIRST_TRY, SmallBatch
from kitwright.cutting.whole import WholeSearch

__all__ = ["FULL", "VARIANTS", "noted", "taken_out"]

FULL = "full"
"""The variant with nothing taken out."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the search: what has it as an attribute, its name there, and what is put in its place.

    `inside` is a function that is called only when the part has something to do, where that is not the part itself.
    """

    owner: Any
    name: str
    instead: Any
    inside: tuple[Any, str] | None = None

    @property
    def mark(self) -> tuple[Any, str]:
        """The function whose call says that the part has something to do."""
        return self.inside or (self.owner, self.name)


def nothing(*_: Any, **__: Any) -> None:
    """In place of a step that tells the watch what it finds."""


def no(*_: Any, **__: Any) -> bool:
    """In place of a step that says whether it found anything."""
    return False


def none_of_them(*_: Any) -> tuple[()]:
    """In place of a function that offers some choices."""
    return ()


def only_prove(batch: SmallBatch, steps: int, proper: ProperBound | None = None) -> None:
    """In place of doing without sheets: the plan that is there is tried to be proved."""
    batch.prove(proper, min(steps, FIRST_TRY))


def only_put_together(_: Any, used: Any, *__: Any, **___: Any) -> Any:
    """In place of the search for fewer layouts: equal ones are counted as one."""
    return fewer.put_together(used)


PARTS: dict[str, Part] = {
    # proper, blocks, around, tally, and counted_check of the verifier
    "counted-bound": Part(ProperBound, "prove", nothing, (ProperBound, "add_dear")),
    # two_in_one, one_sheet
    "two-in-one": Part(two_in_one, "one_pair_less", nothing),
    # dual_feasible
    "bound-by-sides": Part(small_batch, "bound_by_sides", nothing, (small_batch, "price")),
    # without, lying
    "do-without": Part(SmallBatch, "go_on", only_prove, (small_batch, "do_without")),
    # met
    "choice-among-met": Part(SmallBatch, "choose", nothing, (small_batch, "choose_among")),
    # corner, group, ways
    "beside-fractional": Part(WholeSearch, "look_beside", no),
    # what whole asks of choose, through question
    "programmes": Part(WholeSearch, "ask", nothing),
    # rounding
    "rounding": Part(whole, "round_down", nothing),
    # what of cases comes after the first one
    "cases": Part(whole, "divide_some", nothing),
    # pool's changed worths, near
    "new-patterns": Part(pool, "widen", nothing),
    # coarse
    "rounded-sizes": Part(generate, "steps_for", none_of_them),
    # fewer
    "fewer-layouts": Part(search, "with_fewer_layouts", only_put_together, (fewer, "most_patterns")),
}

VARIANTS: dict[str, Sequence[Part]] = {
    FULL: (),
    **{name: (part,) for name, part in PARTS.items()},
    "all-programmes": tuple(PARTS[name] for name in ("choice-among-met", "programmes", "rounding")),
    "small-batch": (Part(search, "SMALL_BATCH", -1),),
    "whole-plans": (Part(small_batch, "find_whole_plan", nothing), Part(search, "find_whole_plan", nothing)),
    "all": tuple(PARTS.values()),
}
"""Besides each part alone: all whole-number programmes for a plan, all that is done for small batches only, all that makes whole plans of
fractional ones, and everything: what is left is the first plan, by filling sheets, and the bound of the fractional programme."""


@contextmanager
def taken_out(variant: str) -> Iterator[None]:
    """While it lasts, the search does without this variant's parts."""
    with ExitStack() as stack:
        for part in VARIANTS[variant]:
            stack.enter_context(patch.object(part.owner, part.name, part.instead))
        yield


@contextmanager
def noted() -> Iterator[set[str]]:
    """While it lasts, the variants are noted without which the search would not go the same way: all others cannot differ from it."""
    calls: set[tuple[Any, str]] = set()
    found: set[str] = set()

    def noting(function: Callable[..., Any], mark: tuple[Any, str]) -> Callable[..., Any]:
        @wraps(function)
        def called(*given: Any, **named: Any) -> Any:
            calls.add(mark)
            return function(*given, **named)

        return called

    marks = {part.mark for parts in VARIANTS.values() for part in parts}
    with ExitStack() as stack:
        for owner, name in marks:
            if callable(getattr(owner, name)):
                stack.enter_context(patch.object(owner, name, noting(getattr(owner, name), (owner, name))))
            else:
                calls.add((owner, name))
        yield found
    found.update(name for name, parts in VARIANTS.items() if any(part.mark in calls for part in parts))
