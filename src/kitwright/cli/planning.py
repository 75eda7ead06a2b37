"""Planning with a progress bar that only shows when it takes more than a second."""

from __future__ import annotations

import time

from rich.console import Console
from rich.progress import Progress as Bar
from rich.progress import SpinnerColumn, TextColumn, TimeElapsedColumn

from kitwright.cutting import Progress
from kitwright.kit import Kit
from kitwright.plan import Plan, plan

__all__ = ["plan_with_progress"]

PATIENCE = 1.0
"""Seconds before a bar is worth showing."""


def plan_with_progress(kit: Kit, *, batch: int) -> Plan:
    """The plan; on a terminal a line tells how far it is once it takes longer than a moment."""
    screen = Console(stderr=True)
    if not screen.is_terminal:
        return plan(kit, batch=batch)
    started = time.monotonic()
    bar = Bar(SpinnerColumn(), TextColumn("{task.description}"), TimeElapsedColumn(), console=screen, transient=True)
    task = bar.add_task("Looking for the fewest sheets", total=None)

    def tell(progress: Progress) -> bool:
        if time.monotonic() - started > PATIENCE and not bar.live.is_started:
            bar.start()
        best = "" if progress.best is None else f": {progress.best:g} so far, at least {progress.bound:g}"
        bar.update(task, description=f"Looking for the fewest sheets{best}")
        return True

    try:
        return plan(kit, batch=batch, progress=tell)
    finally:
        bar.stop()
