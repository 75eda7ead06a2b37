"""The proof as pages: the verdict, what must change, what to know, and everything that was checked."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.findings import Finding, Severity
from kitwright.plan import Plan
from kitwright.printouts.write.house import bold, caution, heading, joined, note, paragraph, table
from kitwright.printouts.write.typst import Markup

__all__ = ["SEVERITY_WORDS", "proof_blocks"]

SEVERITY_WORDS = {
    Severity.FAIL: "does not work",
    Severity.WARNING: "look at this",
    Severity.UNKNOWN: "not decided",
    Severity.NOTE: "good to know",
    Severity.OK: "fits",
}
"""What a severity is called on paper and screen."""


def proof_blocks(plan: Plan) -> Iterator[Markup]:
    """Verdict, then the findings from grave to good."""
    proof = plan.proof
    yield heading("Proof")
    yield paragraph(bold(proof.sentence()))
    for finding in proof.of(Severity.FAIL):
        yield caution(*finding_lines(finding), word=f"Does not work: {finding.about}")
    for severity in (Severity.UNKNOWN, Severity.WARNING):
        for finding in proof.of(severity):
            yield note(*finding_lines(finding), word=f"{SEVERITY_WORDS[severity].capitalize()}: {finding.about}")
    rest = proof.of(Severity.NOTE, Severity.OK)
    if rest:
        yield table(
            ["", "What", "Finding"],
            [[SEVERITY_WORDS[finding.severity], finding.about, finding.message] for finding in rest],
            widths=["auto", "42mm", "1fr"],
        )
    yield paragraph(
        "Checked on the folded parts with the thickness of each paper and the layers of tabs and hems. Limits marked as common "
        "practice have no published source."
    )


def finding_lines(finding: Finding) -> list[str]:
    """The message, the fix, the source."""
    lines = [finding.message]
    if finding.fix:
        lines.append(joined(bold("Do this: "), finding.fix.sentence))
    if finding.because:
        lines.append(f"Limit: {finding.because}.")
    return lines
