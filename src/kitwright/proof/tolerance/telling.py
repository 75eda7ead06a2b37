"""A finding about a fit, told with its makes: in how many of them it fits, and how bad it can get."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from kitwright.findings import Finding, Makings, Severity
from kitwright.measure import Ruler

__all__ = ["MOST_THAT_MAY_MISS", "percent", "with_makings"]

MOST_THAT_MAY_MISS: Final = 0.01
"""A fit that fails in more makes than this is a warning, whatever it is if nothing is off. Common practice, no source."""

HAIR: Final = 0.001
"""A worst case short of zero by less (mm) is zero: sizes are rounded to marks with this much slack."""


def with_makings(finding: Finding, makings: Makings, ruler: Ruler) -> Finding:
    """The finding with the numbers of its makes; a warning where more than `MOST_THAT_MAY_MISS` of them are too tight.

    A finding that is worse by itself stays as it is. Makes that turn out loose are told, but a loose lid spoils nothing: it is a
    warning only where it would be loose with nothing off.
    """
    misses = makings.too_tight > MOST_THAT_MAY_MISS
    severity = finding.severity
    if misses and severity.rank < Severity.WARNING.rank:
        severity = Severity.WARNING
    fails = finding.severity is Severity.FAIL
    message = finding.message if fails else f"{finding.message} {sentence(makings, ruler)}"
    return replace(finding, severity=severity, message=message, makings=makings)


def sentence(makings: Makings, ruler: Ruler) -> str:
    """The makes in words."""
    loose = f", loose in {percent(makings.too_loose)}" if makings.too_loose else ""
    if makings.least >= -HAIR:
        return f"It fits in every make{loose} (at the tightest {ruler.near(max(makings.least, 0.0))} free)."
    worst = f"worst case {ruler.near(-makings.least)} too tight"
    return f"It fits in {percent(1 - makings.too_tight)} of all makes{loose} ({worst})."


def percent(share: float) -> str:
    """A share in percent: one place, and never a round 0 or 100 where it is not quite so."""
    if share >= 0.9995:
        return "more than 99.9 %"
    if 0 < share < 0.0005:
        return "less than 0.1 %"
    return f"{100 * share:.1f} %"
