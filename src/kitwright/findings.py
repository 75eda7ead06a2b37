"""What a proof says: findings about a design, each with its numbers, its reason and, where there is one, a proved fix."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Change", "Finding", "Fix", "Makings", "Placed", "Reading", "Severity", "judged", "worst"]


class Severity(StrEnum):
    """How much a finding matters, from good to bad. *unknown* means: could not be decided, never "does not fit"."""

    OK = "ok"
    NOTE = "note"
    UNKNOWN = "unknown"
    WARNING = "warning"
    FAIL = "fail"

    @property
    def rank(self) -> int:
        """0 for *ok* up to 4 for *fail*."""
        return list(Severity).index(self)


@dataclass(frozen=True, slots=True)
class Change:
    """One edit of a kit document: the part (or paper) by name, the key, the new value as it would be typed.

    `table` is the kind of entry that is changed: "part", "paper", "extra" or "kit" (then `name` is empty). An empty `value` removes
    the key.
    """

    name: str
    key: str
    value: str
    table: str = "part"


@dataclass(frozen=True, slots=True)
class Fix:
    """A change that was itself tried and proved: what to do in words, and the edits that do it."""

    sentence: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Makings:
    """What becomes of a fit over many makes, each cut, scored and folded as accurately as the maker works.

    `share` is the share of makes (of `count`) that fit, between `low` and `high` with 95 % confidence; `too_tight` and `too_loose`
    are the shares that do not. `nominal` is the free play if nothing is off, `least` and `greatest` its worst cases, `rss` the root
    of the sum of squares, all in millimetres. `because` names the source of the accuracy.
    """

    count: int
    share: float
    low: float
    high: float
    too_tight: float
    too_loose: float
    nominal: float
    least: float
    greatest: float
    rss: float
    because: str


@dataclass(frozen=True, slots=True)
class Placed:
    """Where `count` like things lie in a box as one block: its left front lower corner and its size along width, depth, height, mm."""

    name: str
    count: int
    corner: tuple[float, float, float]
    size: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Finding:
    """One line of a proof.

    `code` is kebab-case and stable. `about` names the part (or the two parts) concerned in words; `parts` are their names, the one
    that would be changed first; none for a finding about a paper. `measured`, `required` and `margin` are in `unit` (millimetres
    unless said otherwise); the margin is negative where the requirement is missed. `because` names the source of the limit, or says
    "common practice". What is amiss has a `fix`, or, where it fails or was not decided and none was found, `advice`: why not, and what the
    maker can do. `makings` is there for fits only, `placed` only for contents that were found to go in.
    """

    code: str
    severity: Severity
    about: str
    message: str
    measured: float | None = None
    required: float | None = None
    margin: float | None = None
    unit: str = "mm"
    because: str = ""
    fix: Fix | None = None
    advice: str = ""
    makings: Makings | None = None
    parts: tuple[str, ...] = ()
    placed: tuple[Placed, ...] = ()


@dataclass(frozen=True, slots=True)
class Reading:
    """What was measured against what is required, and the source of the limit. The margin is below zero where it is missed."""

    measured: float
    required: float
    because: str
    unit: str = "mm"
    is_upper_limit: bool = False

    @property
    def margin(self) -> float:
        """How far the measured value is on the good side of the limit."""
        return self.required - self.measured if self.is_upper_limit else self.measured - self.required


def judged(code: str, severity: Severity, about: str, message: str, reading: Reading) -> Finding:
    """A finding with the numbers of a reading."""
    return Finding(
        code,
        severity,
        about,
        message,
        measured=reading.measured,
        required=reading.required,
        margin=reading.margin,
        unit=reading.unit,
        because=reading.because,
    )


def worst(findings: Iterable[Finding]) -> Severity:
    """The gravest severity among the findings; *ok* if there are none."""
    return max((finding.severity for finding in findings), key=lambda severity: severity.rank, default=Severity.OK)
