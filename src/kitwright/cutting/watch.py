"""What a search knows at any moment: the best plan so far, the best bound, and whether it may go on."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from kitwright.cutting.job import Job
from kitwright.cutting.plan import Bound, Progress, ProgressCall
from kitwright.cutting.sketch import Pattern

__all__ = ["Watch", "cost_of"]


def cost_of(job: Job, used: Sequence[tuple[Pattern, int]]) -> int:
    """What the patterns cost in all."""
    return sum(job.sheets[pattern.sheet].price * times for pattern, times in used)


class Watch:
    """Keeps the best plan and bound, and passes progress on. It lives as long as one search."""

    def __init__(self, job: Job, bound: Bound, progress: ProgressCall | None) -> None:
        self.job = job
        self.bound = bound
        self.progress = progress
        self.best: list[tuple[Pattern, int]] | None = None
        self.value: int | None = None
        self.others: list[Pattern] = []
        """Patterns that were met on the way and may serve a plan as cheap as the best."""
        self.is_stopped = False
        self.is_too_fine = False
        """Whether the tables for all positions would be too large, so that bounds and mixtures of patterns are out of reach."""

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

    def goes_on(self, stage: str) -> bool:
        """Whether there is anything left to do; tells the caller of the search where it is."""
        return self.hears_no_stop(stage) and not self.is_proved

    def hears_no_stop(self, stage: str) -> bool:
        """Whether the caller of the search, who is told where it is, lets it go on."""
        if self.progress is not None and not self.is_stopped:
            self.is_stopped = not self.progress(Progress(stage, self.value, self.bound.value))
        return not self.is_stopped

    def listen(self, stage: str) -> Callable[[], bool]:
        """The same question to be asked again and again from inside a long step."""
        return lambda: self.hears_no_stop(stage)
