"""One fit over all makes: nominal free play, its range, the share of makes that fit, are too tight or too loose. Millimetres."""

from __future__ import annotations

from dataclasses import dataclass

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


def judge_fit(fit: Fit, makes: Makes) -> Makings:
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
