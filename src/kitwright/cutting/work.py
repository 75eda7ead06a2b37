"""Work that is counted, so that a search ends at the same place on every computer, however busy it is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

__all__ = ["Stopped", "Work"]

ASKED: Final = 500
"""How often in all it is asked whether to go on."""


class Stopped(Exception):
    """Somebody said stop."""


class Work:
    """How much work was done of the most there may be, in units of the one who counts; `goes_on` is asked now and then."""

    def __init__(self, most: int, goes_on: Callable[[], bool]) -> None:
        self.most = most
        self.goes_on = goes_on
        self.done = 0
        self.ask_at = 0

    def does(self, units: int) -> None:
        """Count some more. Raises `Stopped`."""
        self.done += units
        if self.done >= self.ask_at:
            self.ask_at = self.done + self.most // ASKED
            if not self.goes_on():
                raise Stopped

    @property
    def is_left(self) -> bool:
        """Whether there may be more of it."""
        return self.done < self.most
