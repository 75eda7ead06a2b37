"""The proof of a kit: all findings together."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from kitwright.findings import Finding, Severity, worst
from kitwright.measure import counted

__all__ = ["Proof"]


@dataclass(frozen=True, slots=True)
class Proof:
    """All findings about a kit, in the order of its parts."""

    findings: tuple[Finding, ...]

    @property
    def verdict(self) -> Severity:
        """The gravest severity in it."""
        return worst(self.findings)

    @property
    def is_proved(self) -> bool:
        """Whether nothing fails and nothing is undecided."""
        return self.verdict not in (Severity.FAIL, Severity.UNKNOWN) and not self.of(Severity.UNKNOWN)

    def of(self, *severities: Severity) -> tuple[Finding, ...]:
        """The findings of these severities."""
        return tuple(finding for finding in self.findings if finding.severity in severities)

    def counts(self) -> dict[Severity, int]:
        """How many findings there are of each severity, the gravest first; severities without any are left out."""
        counted = Counter(finding.severity for finding in self.findings)
        return {severity: counted[severity] for severity in reversed(Severity) if counted[severity]}

    def sentence(self) -> str:
        """The verdict in words."""
        counts = self.counts()
        checks = counted(len(self.findings), "check")
        if self.is_proved:
            told = [counted(counts[s], s.value) for s in (Severity.WARNING, Severity.NOTE) if s in counts]
            return f"Proved: {checks}, nothing fails" + (f"; {', '.join(told)} to read." if told else ".")
        fails, unknown = counts.get(Severity.FAIL, 0), counts.get(Severity.UNKNOWN, 0)
        told = [counted(fails, "fails", "fail")] if fails else []
        told += [f"{unknown} could not be decided"] if unknown else []
        return f"Not proved: of {checks}, {' and '.join(told)}."
