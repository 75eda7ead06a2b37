"""A verdict of the post as one line of a proof."""

from __future__ import annotations

from typing import Final

from kitwright.findings import Finding, Severity
from kitwright.measure import with_article
from kitwright.proof.mailing.judge import Verdict
from kitwright.proof.mailing.service import Kind, Quantity

__all__ = ["DISCLAIMER", "mailing_finding"]

DISCLAIMER: Final = (
    "General information, not postal advice. Rules and prices change, and the post office decides: ask the post office "
    "before you send many."
)


def mailing_finding(verdict: Verdict, *, about: str) -> Finding:
    """The verdict as one line of a proof. What cannot be mailed *fails*, what costs extra is a *warning*, the rest is a *note*."""
    severity = {
        Kind.TOO_SMALL: Severity.FAIL,
        Kind.TOO_BIG: Severity.FAIL,
        Kind.NON_MACHINABLE: Severity.WARNING,
    }.get(verdict.kind, Severity.NOTE)
    named = f" ({verdict.class_name})" if verdict.class_name.lower() not in ("", verdict.kind.value) else ""
    told = (f"{verdict.service}, {verdict.place}: {verdict.kind}{named}.", *(reason.says for reason in verdict.reasons))
    if verdict.kind in (Kind.LARGE_LETTER, Kind.PARCEL) and verdict.missed:
        name, why = verdict.missed[-1]
        told += (f"Not {with_article(name)}:", *(reason.says for reason in why))
    head = verdict.reasons[0] if verdict.reasons else verdict.tightest
    unit = {Quantity.WEIGHT: "g", Quantity.ASPECT: ""}.get(head.quantity, "mm") if head and head.quantity else "mm"
    return Finding(
        code=f"mailing-{verdict.kind.replace(' ', '-')}",
        severity=severity,
        about=about,
        message=" ".join((*told, *verdict.doubts, DISCLAIMER)),
        measured=head.measured if head else None,
        required=head.limit if head else None,
        margin=head.margin if head else None,
        unit=unit,
        because=str(verdict.clause),
    )
