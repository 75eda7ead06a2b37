"""Planning with a progress bar that only shows when it takes more than a second."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager

from rich.console import Console
from rich.progress import Progress as Bar
from rich.progress import SpinnerColumn, TextColumn, TimeElapsedColumn

from kitwright.cutting import Progress, ProgressCall
from kitwright.kit import Kit
from kitwright.plan import Plan, plan

__all__ = ["plan_with_progress", "told_progress"]

PATIENCE = 1.0
"""Seconds before a bar is worth showing."""


def plan_with_progress(kit: Kit, *, batch: int, alike: bool = False) -> Plan:
    """The plan; on a terminal a line tells how far it is once it takes longer than a moment."""
    with told_progress("Looking for the fewest sheets") as tell:
        return plan(kit, batch=batch, alike=alike, progress=tell)


@contextmanager
def told_progress(words: str) -> Iterator[ProgressCall | None]:
    """A call that tells how far a search is, on a terminal and once it takes longer than a moment; None elsewhere."""
    screen = Console(stderr=True)
    if not screen.is_terminal:
        yield None
        return
    started = time.monotonic()
    bar = Bar(SpinnerColumn(), TextColumn("{task.description}"), TimeElapsedColumn(), console=screen, transient=True)
    task = bar.add_task(words, total=None)

    def tell(progress: Progress) -> bool:
        if time.monotonic() - started > PATIENCE and not bar.live.is_started:
            bar.start()
        best = "" if progress.best is None else f": {progress.best:g} so far, at least {progress.bound:g}"
        bar.update(task, description=f"{words}{best}")
        return True

    try:
        yield tell
    finally:
        bar.stop()
