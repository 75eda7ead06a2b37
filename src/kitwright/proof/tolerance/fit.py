"""One fit over all makes: nominal free play, its range, the share of makes that fit, are too tight or too loose. Millimetres."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Hashable
from dataclasses import dataclass
from typing import Final

from kitwright.findings import Makings
from kitwright.proof.tolerance.makes import Makes
from kitwright.proof.tolerance.stack import Stack

__all__ = ["Fit", "judge_fit"]


@dataclass(frozen=True, slots=True)
class Fit:
    """What must all be free, and how much is not loose yet.

    `free`: free plays that must all be at least zero in a make (one per axis, or per edge). `most`: beyond it in any of them the
    make is loose; None where loose does no harm. `because` names the source of the accuracy.
    """

    free: tuple[Stack, ...]
    most: float | None
    because: str

    @property
    def least(self) -> float:
        """The least free play that there can be anywhere: the worst case on the tight side."""
        return min(stack.least for stack in self.free)

    @property
    def greatest(self) -> float:
        """The most free play of the tightest of them: the worst case on the loose side."""
        return max(stack.greatest for stack in self.free)


MOST_KEPT: Final = 1024
KEPT: Final[OrderedDict[Hashable, Makings]] = OrderedDict()
"""What became of the fits that were judged last, by all that it depends on: to count a hundred thousand makes takes long."""


def judge_fit(fit: Fit, makes: Makes) -> Makings:
    """What becomes of a fit in so many makes. It depends on the fit and the makes' count and seed alone, and is kept for the next time
    that they are the same.
    """
    free = tuple((stack.nominal, tuple(stack.moves.items())) for stack in fit.free)
    asked = (makes.count, makes.seed, free, fit.most, fit.because)
    found = KEPT.get(asked)
    if found is None:
        found = KEPT[asked] = counted(fit, makes)
        while len(KEPT) > MOST_KEPT:
            KEPT.popitem(last=False)
    return found


def counted(fit: Fit, makes: Makes) -> Makings:
    """Count the makes."""
    tight = makes.least(fit.free) < 0
    loose = ~tight & False
    if fit.most is not None:
        for stack in fit.free:
            loose |= makes.lengths(stack) > fit.most
    found = makes.share(~tight & ~loose)
    low, high = found.interval
    return Makings(
        count=makes.count,
        share=found.share,
        low=low,
        high=high,
        too_tight=makes.share(tight).share,
        too_loose=makes.share(loose & ~tight).share,
        nominal=min(stack.nominal for stack in fit.free),
        least=fit.least,
        greatest=fit.greatest,
        rss=max(stack.rss for stack in fit.free),
        because=fit.because,
    )
