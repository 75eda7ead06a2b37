"""A finding about a fit, told with its makes: in how many of them it fits, and how bad it can get."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from kitwright.findings import Finding, Makings, Severity
from kitwright.measure import NEAR_MARK, Ruler

__all__ = ["FEWEST_THAT_FIT", "MOST_THAT_MAY_MISS", "percent", "with_makings"]

MOST_THAT_MAY_MISS: Final = 0.01
"""A fit that is too tight in a larger share of makes than this is a warning, whatever it is if nothing is off. Common practice, no
source: more than one in a hundred is met by whoever makes a batch."""

FEWEST_THAT_FIT: Final = 0.6
"""A fit that goes together in a smaller share of makes than this fails. Common practice, no source: without any free play it is one half,
as heads or tails, and the limit stands clear of that, so that the few tenths of a percent by which a count is off decide nothing."""


def gravity(makings: Makings) -> Severity:
    """How grave it is that some makes are too tight: a fail where fewer than `FEWEST_THAT_FIT` go together, a warning where more than
    `MOST_THAT_MAY_MISS` do not.
    """
    if 1 - makings.too_tight < FEWEST_THAT_FIT:
        return Severity.FAIL
    return Severity.WARNING if makings.too_tight > MOST_THAT_MAY_MISS else Severity.OK


def with_makings(finding: Finding, makings: Makings, ruler: Ruler, *, gravest: Severity = Severity.FAIL) -> Finding:
    """The finding with the numbers of its makes, and as grave as they are, but by them no graver than `gravest`.

    A finding that is worse by itself stays as it is. Makes that turn out loose are told, but a loose lid spoils nothing: it is a
    warning only where it would be loose with nothing off.
    """
    if finding.severity is Severity.FAIL:
        return replace(finding, makings=makings)
    by_makes = min(gravity(makings), gravest, key=lambda each: each.rank)
    severity = max(finding.severity, by_makes, key=lambda each: each.rank)
    message = f"{finding.message} {sentence(makings, ruler)}"
    if severity is Severity.FAIL:
        message += f" That is too few: at least {100 * FEWEST_THAT_FIT:.0f} of 100 should."
    return replace(finding, severity=severity, message=message, makings=makings)


def sentence(makings: Makings, ruler: Ruler) -> str:
    """The makes in words."""
    loose = f", loose in {percent(makings.too_loose)}" if makings.too_loose else ""
    if makings.least >= -float(NEAR_MARK):
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
