"""Findings: how grave they are, and what they carry."""

import dataclasses
import itertools

import pytest

from kitwright.findings import Change, Finding, Fix, Severity, worst


def finding(severity: Severity) -> Finding:
    return Finding("lid-too-tight", severity, "lid", "The lid does not go on.")


def test_severities_run_from_good_to_bad() -> None:
    assert [severity.value for severity in sorted(Severity, key=lambda s: s.rank)] == [
        "ok",
        "note",
        "unknown",
        "warning",
        "fail",
    ]
    assert [severity.rank for severity in Severity] == [0, 1, 2, 3, 4]


def test_what_could_not_be_decided_is_graver_than_a_note_and_never_a_failure() -> None:
    assert Severity.NOTE.rank < Severity.UNKNOWN.rank < Severity.FAIL.rank
    assert worst([finding(Severity.OK), finding(Severity.UNKNOWN), finding(Severity.NOTE)]) is Severity.UNKNOWN


@pytest.mark.parametrize(("first", "second"), list(itertools.product(Severity, repeat=2)))
def test_the_worst_of_two_is_the_graver_whatever_their_order(first: Severity, second: Severity) -> None:
    graver = first if first.rank >= second.rank else second
    assert worst([finding(first), finding(second)]) is graver


def test_no_findings_at_all_are_ok() -> None:
    assert worst([]) is Severity.OK
    assert worst(iter(())) is Severity.OK


def test_numbers_are_in_millimetres_and_unknown_unless_said_otherwise() -> None:
    plain = finding(Severity.NOTE)
    assert plain.unit == "mm"
    assert (plain.measured, plain.required, plain.margin) == (None, None, None)
    assert plain.because == ""
    assert plain.fix is None


def test_a_change_is_of_a_part_unless_said_otherwise() -> None:
    assert Change("lid", "size", "6 5/16 x 4 5/16").table == "part"


def test_a_finding_with_its_fix_is_a_value_that_cannot_be_changed() -> None:
    fix = Fix("Make the lid wider.", (Change("lid", "size", "6 5/16 x 4 5/16"),))
    tight = dataclasses.replace(finding(Severity.FAIL), measured=-0.2, required=0.4, margin=-0.6, fix=fix)
    assert tight == dataclasses.replace(tight)
    assert hash(tight) == hash(dataclasses.replace(tight))
    with pytest.raises(dataclasses.FrozenInstanceError):
        tight.margin = 0.0  # type: ignore[misc]  # the point of the test
