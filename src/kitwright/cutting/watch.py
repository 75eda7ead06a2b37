"""What a search knows at any moment: the best plan so far, the best bound, and whether it may go on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from kitwright.cutting.job import Job
from kitwright.cutting.plan import Bound, Progress, ProgressCall
from kitwright.cutting.sketch import Pattern

__all__ = ["GoesOn", "Watch", "cost_of", "for_ever"]


GoesOn = Callable[[], bool]

NO_END: Final = 1 << 60


def cost_of(job: Job, used: Sequence[tuple[Pattern, int]]) -> int:
    """What the patterns cost in all."""
    return sum(job.sheets[pattern.sheet].price * times for pattern, times in used)


def for_ever() -> bool:
    """Nobody says stop."""
    return True


class Watch:
    """Keeps the best plan and bound, passes progress on, and counts the work. It lives as long as one search."""

    def __init__(self, job: Job, bound: Bound, progress: ProgressCall | None, *, work: int = NO_END) -> None:
        self.job = job
        self.work = work
        """About how many microseconds of an ordinary machine the search may still take (counted, not measured)."""
        self.bound = bound
        self.progress = progress
        self.best: list[tuple[Pattern, int]] | None = None
        self.value: int | None = None
        self.others: list[Pattern] = []
        """Patterns that were met on the way and may serve a plan as cheap as the best."""
        self.is_stopped = False
        self.step: int | None = None
        """To what sizes were rounded for bounds and mixtures of patterns (nm), where their tables would be too large otherwise."""

    def tell_bound(self, bound: Bound) -> None:
        """Take up a bound if it is better."""
        if bound.value > self.bound.value:
            self.bound = bound

    def tell_plan(self, used: Sequence[tuple[Pattern, int]]) -> bool:
        """Take up a complete plan if it is cheaper; whether it was."""
        value = cost_of(self.job, used)
        if self.value is not None and value >= self.value:
            return False
        self.best, self.value = list(used), value
        return True

    @property
    def is_proved(self) -> bool:
        """Whether the best plan meets the bound."""
        return self.value is not None and self.value <= self.bound.value

    def spend(self, work: int) -> None:
        """Count what was done, in microseconds. Every step that can take longer than a moment is counted: it is all that ends a search."""
        self.work -= work

    def goes_on(self, stage: str) -> bool:
        """Whether there is anything left to do, and work left to do it; tells the caller of the search where it is."""
        return self.hears_no_stop(stage) and not self.is_proved and self.work > 0

    def hears_no_stop(self, stage: str) -> bool:
        """Whether the caller of the search, who is told where it is, lets it go on."""
        if self.progress is not None and not self.is_stopped:
            self.is_stopped = not self.progress(Progress(stage, self.value, self.bound.value))
        return not self.is_stopped

    def ear(self, stage: str) -> GoesOn:
        """For a long step: asked again and again, it says whether the caller of the search lets it go on."""
        return lambda: self.hears_no_stop(stage)
