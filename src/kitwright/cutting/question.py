"""A whole-number programme that is solved while the search goes on: the two share the work of two cores, and a stop waits for neither."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor, wait
from dataclasses import dataclass
from typing import Final

from kitwright.cutting.sketch import Pattern
from kitwright.cutting.solver import Halt
from kitwright.cutting.watch import Watch

__all__ = ["Answer", "Question"]

BETWEEN_LOOKS: Final = 0.02
"""Seconds between two looks whether a stop is asked for."""


@dataclass(frozen=True, slots=True)
class Answer:
    """Patterns and how often each is cut (None: nothing was found), and the work that it took (microseconds, counted)."""

    used: list[tuple[Pattern, int]] | None
    work: int


class Question:
    """A programme on its way beside the search, which may look for more patterns meanwhile.

    What it finds is taken up at a set place of the search and not when it is found, so that the same effort gives the same plan.
    """

    def __init__(self, ask: Callable[[Halt], Answer]) -> None:
        self.halt = Halt()
        thread = ThreadPoolExecutor(1)
        self.answer = thread.submit(ask, self.halt)
        thread.shutdown(wait=False)

    def take(self, watch: Watch, stage: str) -> Sequence[tuple[Pattern, int]] | None:
        """Wait for the answer; its work counts. A stop is heard while waiting: then nothing is waited for, and nothing was found."""
        while not wait((self.answer,), timeout=BETWEEN_LOOKS).done:
            if not watch.hears_no_stop(stage):
                self.drop()
                return None
        answer = self.answer.result()
        watch.spend(answer.work)
        return answer.used

    def drop(self) -> None:
        """Let it come to an end soon; nobody waits for the answer."""
        self.halt.say()
