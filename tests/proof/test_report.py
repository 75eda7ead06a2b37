"""The verdict over all findings."""

from __future__ import annotations

import pytest

from kitwright.findings import Finding, Severity
from kitwright.proof import Proof


def proof(*severities: Severity) -> Proof:
    return Proof(tuple(Finding(f"check-{n}", each, "part", "A sentence.") for n, each in enumerate(severities)))


OK, NOTE, UNKNOWN, WARNING, FAIL = Severity.OK, Severity.NOTE, Severity.UNKNOWN, Severity.WARNING, Severity.FAIL


@pytest.mark.parametrize(
    ("severities", "is_proved", "says"),
    [
        ((), True, "Proved: 0 checks, nothing fails."),
        ((OK, OK), True, "Proved: 2 checks, nothing fails."),
        ((OK, NOTE), True, "Proved: 2 checks, nothing fails; 1 note to read."),
        ((WARNING, NOTE, NOTE), True, "Proved: 3 checks, nothing fails; 1 warning, 2 notes to read."),
        ((OK, FAIL), False, "Not proved: of 2 checks, 1 fails."),
        ((FAIL, FAIL, WARNING), False, "Not proved: of 3 checks, 2 fail."),
        ((OK, UNKNOWN), False, "Not proved: of 2 checks, 1 could not be decided."),
        ((WARNING, UNKNOWN), False, "Not proved: of 2 checks, 1 could not be decided."),
        ((FAIL, UNKNOWN), False, "Not proved: of 2 checks, 1 fails and 1 could not be decided."),
    ],
)
def test_a_proof_is_one_only_if_nothing_fails_and_everything_was_decided(
    severities: tuple[Severity, ...], is_proved: bool, says: str
) -> None:
    made = proof(*severities)
    assert (made.is_proved, made.sentence()) == (is_proved, says)


def test_findings_are_counted_the_gravest_first() -> None:
    made = proof(OK, FAIL, OK, NOTE)
    assert list(made.counts().items()) == [(FAIL, 1), (NOTE, 1), (OK, 2)]
    assert [each.code for each in made.of(OK, NOTE)] == ["check-0", "check-2", "check-3"]
    assert made.verdict is FAIL
