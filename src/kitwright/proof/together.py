"""Whether two folded parts, each as thick as its card, get in each other's way when one is put over the other. Lengths in mm."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.folding import Slab, clashes
from kitwright.measure import LEAST_SINK, Ruler

__all__ = ["CLOSE", "check_together"]

CLOSE: Final = 0.5
"""Free play in all below which it is worth looking at the parts as solids: two layers of the usual card. Common practice, no source."""


def check_together(
    outer: str, outer_solids: Iterable[Slab], inner: str, inner_solids: Iterable[Slab], ruler: Ruler
) -> Finding:
    """A thing put in its place over or round another: their card must not be in the same place. Both are given by name and as solids.

    Unlike the sum of sizes this sees where layers really meet: a tab in the way of a tab, a hem in the way of a wall.
    """
    about = f"{outer} on {inner}"
    found = [each for each in clashes(outer_solids, inner_solids) if each.depth > LEAST_SINK]
    if not found:
        reading = Reading(0.0, 0.0, "geometry, folded card as solids", is_upper_limit=True)
        words = "Put together with all their layers, the two do not get in each other's way."
        return judged("layers-in-the-way", Severity.OK, about, words, reading)
    worst = max(found, key=lambda clash: (clash.depth, clash.volume))
    reading = Reading(worst.depth, 0.0, "geometry, folded card as solids", is_upper_limit=True)
    volume = math.fsum(clash.volume for clash in found)
    more = f", and {len(found) - 1} more places are in the way" if len(found) > 1 else ""
    words = (
        f"Put together with all their layers, the {worst.one.panel} of {outer} lies {ruler.near(worst.depth)} deep in the "
        f"{worst.other.panel} of {inner}{more}: {volume:.0f} mm³ of card in all."
    )
    return judged("layers-in-the-way", Severity.FAIL, about, words, reading)
