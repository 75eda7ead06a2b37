"""Kits spoilt at random: every fix that the proof offers, written into the document, turns its finding to good."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.kit.documents import built, head, part, quick_findings
from tests.kit.spoilt import WRONG, Scene, faults_of, spoilt_kit

from kitwright.errors import Mistakes
from kitwright.findings import Finding, Severity
from kitwright.kit import apply_changes, mend_document, prove
from kitwright.proof import Proof

GRAVE = (Severity.WARNING, Severity.UNKNOWN, Severity.FAIL)

SLIPS = (
    # what is said of each part of the kit that follows, where anything is said wrongly
    ("lid", 'size = "6 x 4"'),
    ("lid", 'size = "6 1/8 x 4 3/4"'),
    ("lid", 'size = "7 x 5 1/4 x 3"'),
    ("lid", 'height = "4"'),
    ("lid", "turn = 90"),
    ("lid", "turn = 180"),
    ("tray", 'size = "5 1/2 x 4 1/4"'),
    ("tray", 'inside = "5 x 4 1/2 x 1/2"'),
    ("tray", 'height = "3/8"'),
    ("tray", "turn = 180"),
    ("card", 'grain = "height"'),
    ("card", "turn = 270"),
    ("mat", 'size = "5 1/4 x 4 3/8"'),
    ("mat", 'size = "6 x 4"'),
    ("envelope", 'size = "5 1/2 x 4 1/4"'),
    ("envelope", 'size = "5 5/8 x 4 5/16"'),
    ("band", 'size = "5 x 4"'),
    ("band", 'size = "7 x 6"'),
)
PAPERS = ("", 'print = "one-way"', 'grain = "long"', 'grain = "short"\nprint = "one-way"', 'print = "all-over"')
SHEETS = ("8 1/2 x 11", "12 x 12", "18 x 24")


@st.composite
def spoilt(draw: st.DrawFn) -> str:
    """A kit of six parts with up to three things said wrongly, on one of several papers."""
    said = draw(st.lists(st.sampled_from(SLIPS), min_size=1, max_size=3, unique_by=lambda slip: slip[0]))
    slips = dict(said)
    ruler = draw(st.sampled_from(("1/16", "1/32")))
    text = head(ruler=ruler, sheet=draw(st.sampled_from(SHEETS)), more=draw(st.sampled_from(PAPERS)))
    parts = {
        "card": part("card", "half-fold card", size="5 1/2 x 4 1/4", fold="top", quantity=4),
        "mat": part("mat", "mat", on="card", quantity=4),
        "envelope": part("envelope", "side-seam envelope", paper="thin", holds="card", quantity=4),
        "tray": part("tray", "tray", holds=["card", "mat", "envelope"]),
        "lid": part("lid", "lift-off lid", covers="tray"),
        "band": part("band", "belly band", paper="thin", wraps="tray", height="1/2"),
    }
    return text + "".join(table + (f"{slips[name]}\n" if name in slips else "") for name, table in parts.items())


def proof(text: str) -> Proof:
    return Proof(tuple(quick_findings(built(text))))


def same(proof: Proof, finding: Finding) -> list[Severity]:
    """How grave a finding is in another proof; nothing where it is gone."""
    return [each.severity for each in proof.findings if (each.code, each.about) == (finding.code, finding.about)]


@settings(deadline=None, max_examples=4)
@given(spoilt())
def test_every_fix_written_into_the_document_turns_its_finding_to_good_and_makes_nothing_else_fail(text: str) -> None:
    try:
        before = prove(built(text))
    except Mistakes:
        return  # what cannot be built at all has no proof
    failing = {(each.code, each.about) for each in before.of(Severity.FAIL, Severity.UNKNOWN)}
    for finding in before.findings:
        if finding.fix is None:
            continue
        after = proof(apply_changes(text, finding.fix.changes))
        left = [severity for severity in same(after, finding) if severity in GRAVE]
        assert left == [] or (finding.severity is Severity.FAIL and left == [Severity.WARNING]), finding.fix.sentence
        assert {(each.code, each.about) for each in after.of(Severity.FAIL, Severity.UNKNOWN)} <= failing


@settings(deadline=None, max_examples=8)
@given(st.sampled_from(WRONG), st.integers(0, 10**6))
def test_whatever_one_thing_is_wrong_a_fix_mends_it_or_the_maker_is_told_what_to_do(
    wrong: Callable[[Scene], str], seed: int
) -> None:
    text = spoilt_kit(Random(seed), wrong)
    try:
        before = prove(built(text))
    except Mistakes:
        return  # what cannot be built at all has no proof
    assert faults_of(text, before) == []


def test_mending_with_the_warnings_goes_on_where_mending_what_fails_stops() -> None:
    text = head(sheet="8 1/2 x 11", more='grain = "long"')
    text += part("card", "half-fold card", size="5 1/2 x 4 1/4", fold="top") + part(
        "mat", "mat", on="card", size="6 x 4"
    )
    only_fails, all_ = mend_document(text), mend_document(text, warnings=True)
    assert [len(mended.proof.of(Severity.FAIL)) for mended in (only_fails, all_)] == [0, 0]
    assert [each.code for each in only_fails.proof.of(Severity.WARNING)] == ["scores-and-grain"]
    assert all_.proof.of(Severity.WARNING) == ()
    assert 'grain = "width"' in all_.text
    assert mend_document(all_.text, warnings=True).text == all_.text
