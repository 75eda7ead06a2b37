"""What a proof is told with: words for severities and checks, the share of makes that fit, where a limit comes from."""

from __future__ import annotations

import math
from collections.abc import Iterator
from types import MappingProxyType
from typing import Final

from kitwright.findings import Change, Finding, Fix, Makings, Severity
from kitwright.kit import BuiltKit
from kitwright.measure import Ruler, parse_length
from kitwright.proof.tolerance import Accuracy, percent

__all__ = ["CHECK_WORDS", "NO_FIX", "SEVERITY_WORDS", "accuracy_sentence", "change_words", "limit_words", "share_words"]

SEVERITY_WORDS: Final = MappingProxyType(
    {
        Severity.FAIL: "does not work",
        Severity.WARNING: "look at this",
        Severity.UNKNOWN: "not decided",
        Severity.NOTE: "good to know",
        Severity.OK: "fits",
    }
)
"""What a severity is called on paper and screen."""

NO_FIX: Final = "no fix"
"""What stands before the advice on a finding for which no fix was found."""

CHECK_WORDS: Final = MappingProxyType(
    {
        "blank-in-reach": "The trimmer can free its blank from a sheet of its paper",
        "blank-on-sheet": "Its blank fits a sheet of its paper",
        "folding-motion": "Each step of folding goes without bumping into anything",
        "lid-height": "What hangs down ends above the foot of the box",
        "nothing-passes-through": "Folded, no panel passes through another",
        "on-the-ruler": "Every cut and score lies on a mark of the ruler",
        "print-up": "A one-way print stands upright on every face that shows",
        "seams-meet": "All seams meet when it is folded",
        "tabs-land": "Every glued panel lands flat on what it is glued to",
    }
)
"""What a check found to be so, by its code, for checks that many parts pass alike."""


def share_words(makings: Makings) -> str:
    """`91.7 % fit (91.5 to 91.9 %), 8.3 % too tight`: of all makes, with the 95 % interval."""
    low, high = math.floor(1000 * makings.low) / 10, math.ceil(1000 * makings.high) / 10
    if makings.too_tight == 0 and makings.too_loose == 0:
        return f"all fit (at least {low:.1f} %)"
    if makings.share == 0:
        return "none fits"
    parts = [f"{percent(makings.share)} fit ({low:.1f} to {high:.1f} %)"]
    parts += [f"{percent(makings.too_tight)} too tight"] if makings.too_tight else []
    parts += [f"{percent(makings.too_loose)} looser than usual"] if makings.too_loose else []
    return ", ".join(parts)


def change_words(built: BuiltKit, fix: Fix) -> str:
    """By how much a fix changes which lengths: `depth of lid 1/16 in more`. Empty for a fix that changes no length."""
    ruler = built.kit.ruler
    told = [
        f"{name.replace('_', ' ')} of {part} {ruler.near(abs(by))} {'more' if by > 0 else 'less'} than now ({ruler.near(was)})"
        for change in fix.changes
        for part, name, was, by in moved_lengths(built, change)
        if abs(by) > float(ruler.step) / 1000
    ]
    return ", ".join(told)


def moved_lengths(built: BuiltKit, change: Change) -> Iterator[tuple[str, str, float, float]]:
    """The part, the parameter, its length now and the difference (mm) of every length that a change says anew."""
    parts = {part.name: part for part in built.parts}
    if change.table != "part" or change.name not in parts or not change.value:
        return
    part, key = parts[change.name], change.key.replace("-", "_")
    names = tuple(part.form.size) if key == "size" else (key,) if key in part.lengths else ()
    values = change.value.split(" x ")
    for name, value in zip(names, values, strict=False):
        now = part.lengths[name]
        yield part.name, name, float(now), float(parse_length(value, built.kit.unit).mm - now)


def limit_words(finding: Finding, ruler: Ruler) -> str:
    """The limit as a length: `at least 1/8 in`. Empty where it is none, or nothing."""
    if not finding.required or finding.unit != "mm" or finding.measured is None or finding.margin is None:
        return ""
    is_least = abs(finding.measured - finding.required - finding.margin) <= abs(
        finding.required - finding.measured - finding.margin
    )
    what = "card at most" if finding.code == "scores-and-grain" else "at least" if is_least else "at most"
    return f"{what} {ruler.near(finding.required)}" + (" thick" if finding.code == "scores-and-grain" else "")


def accuracy_sentence(accuracy: Accuracy, count: int, ruler: Ruler) -> str:
    """With which accuracy the makes were made in numbers, and where that is from."""
    many = f"{count:,}".replace(",", " ")
    cut, score, fold, glue = map(ruler.with_unit, (accuracy.cut, accuracy.score, accuracy.fold, accuracy.glue))
    return (
        f"Every fit was made {many} times in numbers: each cut off by up to {cut}, each score {score}, each fold {fold}, each glued edge "
        f"{glue}, and every pack of card thicker or thinner as packs are ({accuracy.because}). Limits in brackets hold the true share "
        "with 95 % confidence (Wilson's interval)."
    )
