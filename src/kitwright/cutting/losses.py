"""What patterns lose against the answer of the fractional programme: a plan of some cost holds only patterns that lose little."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kitwright.cutting.generate import whole_scale
from kitwright.cutting.job import Job
from kitwright.cutting.master import Prices

__all__ = ["Losses", "losses_against"]

ROUNDED: Final = 1000
"""Losses add up rounded numbers; so much more is allowed for it."""


@dataclass(frozen=True, slots=True)
class Losses:
    """What a piece of each kind is worth and what each sheet costs with its rent, in 1 / `scale`; `value` is that of the programme.

    All patterns of a plan together lose what it costs more than the programme, and each of them loses something or nothing.
    """

    demand: tuple[int, ...]
    worth: tuple[int, ...]
    rent: tuple[int, ...]
    costs: tuple[int, ...]
    scale: int
    value: float

    def of(self, place: int, counts: Sequence[int]) -> int:
        """What a pattern loses; the copies of a piece beyond what is wanted count for nothing."""
        values = zip(self.worth, counts, self.demand, strict=True)
        return self.costs[place] - sum(each * min(count, wanted) for each, count, wanted in values)

    def of_these(self, place: int, kinds: Sequence[int]) -> int:
        """What a sheet with these pieces loses, no more of a kind than wanted."""
        return self.costs[place] - sum([self.worth[kind] for kind in kinds])

    def slack(self, goal: int) -> int:
        """What the patterns of a plan that costs no more than `goal` lose together, at most."""
        return round((goal - self.value) * self.scale) + ROUNDED


def losses_against(job: Job, prices: Prices) -> Losses:
    """The losses against an answer of the fractional programme."""
    scale = whole_scale(job)
    rent = tuple(round(each * scale) for each in prices.rent)
    costs = tuple(sheet.price * scale + each for sheet, each in zip(job.sheets, rent, strict=True))
    return Losses(job.demand, tuple(round(each * scale) for each in prices.worth), rent, costs, scale, prices.value)
