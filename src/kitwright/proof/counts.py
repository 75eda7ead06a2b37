"""Whether there are as many lids, bands and envelopes as there are things that they are for."""

from __future__ import annotations

from enum import StrEnum

from kitwright.findings import Finding, Reading, Severity, judged

__all__ = ["Pairing", "check_counts"]


class Pairing(StrEnum):
    """How many of one thing belong to how many of another that it covers, goes round or holds."""

    EACH = "one to each"
    SHARED = "as many in each"
    """All of what is held, shared out among the holders."""
    ROUND_EACH = "as many round each"
    ROUND_ALL = "one round all together"


def check_counts(about: str, outer: tuple[str, int], inner: tuple[str, int], pairing: Pairing) -> Finding | None:
    """Lids, bands, envelopes or pockets (`outer`: in words, and how many) against what they are for. Nothing is said where they agree."""
    (outer_name, outers), (inner_name, inners) = outer, inner
    agrees = {
        Pairing.EACH: outers == inners,
        Pairing.SHARED: inners % outers == 0,
        Pairing.ROUND_EACH: outers % inners == 0,
        Pairing.ROUND_ALL: outers == 1,
    }[pairing]
    if agrees:
        return None
    there = f"There {'is' if outers == 1 else 'are'} {outers} × {outer_name} for {inners} × {inner_name}"
    if pairing is Pairing.ROUND_ALL:
        words = f"{there}, and each of them is made to go round all {inners} together."
    elif outers > inners:
        words = f"{there}: {outers - inners} too many."
    elif pairing is Pairing.SHARED:
        words = f"{there}: there are {-(-inners // outers)} in some of them and less in others."
    else:
        words = f"{there}: {inners - outers} × {inner_name} {'goes' if inners - outers == 1 else 'go'} without."
    reading = Reading(outers, 1 if pairing is Pairing.ROUND_ALL else inners, "counted", "pieces")
    return judged("counted", Severity.NOTE, about, words, reading)
