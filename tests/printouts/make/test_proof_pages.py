"""The proof as a page: every finding is on it, every limit has its source, the change is told in marks of the ruler."""

from __future__ import annotations

import pytest
from tests.kit.documents import built, head, part

from kitwright.findings import Change, Finding, Fix, Makings, Severity
from kitwright.kit import prove, read_kit
from kitwright.plan import plan
from kitwright.printouts.make.proof_pages import proof_report
from kitwright.printouts.make.proof_words import change_words, limit_words, share_words
from kitwright.printouts.make.whole_pack import proof_text
from kitwright.printouts.page import A4, US_LETTER, Page
from kitwright.printouts.write.pdf import to_page_svgs

KIT = (
    head()
    + part("card", "flat card", size="6 x 4", quantity=6)
    + part("tray", "tray", holds="card")
    + part("lid", "lift-off lid", covers="tray", size="6 x 4 1/4 x 3/4")
)


def makings(share: float, low: float, high: float, tight: float, loose: float) -> Makings:
    return Makings(100_000, share, low, high, tight, loose, 0.5, -0.2, 1.2, 0.4, "common practice, no source")


@pytest.mark.parametrize(
    ("made", "words"),
    [
        (makings(1.0, 0.99996, 1.0, 0.0, 0.0), "all fit (at least 99.9 %)"),
        (makings(0.917, 0.91529, 0.91870, 0.083, 0.0), "91.7 % fit (91.5 to 91.9 %), 8.3 % too tight"),
        (
            makings(0.8, 0.79750, 0.80249, 0.1, 0.1),
            "80.0 % fit (79.7 to 80.3 %), 10.0 % too tight, 10.0 % looser than usual",
        ),
    ],
)
def test_a_share_is_told_with_limits_that_hold_it(made: Makings, words: str) -> None:
    assert share_words(made) == words


def test_a_limit_says_whether_it_is_the_least_or_the_most() -> None:
    ruler = built(KIT).kit.ruler
    least = Finding("a", Severity.OK, "a", "a", measured=5.0, required=3.175, margin=1.825)
    most = Finding("a", Severity.OK, "a", "a", measured=3.0, required=3.175, margin=0.175)
    assert (limit_words(least, ruler), limit_words(most, ruler)) == ("at least 1/8 in", "at most 1/8 in")


def test_a_fix_is_told_by_how_much_it_changes_each_length() -> None:
    kit = built(KIT)
    old = kit.part("lid").lengths["width"]
    fix = Fix("Make lid 6 1/8 x 4 1/8 x 3/4.", (Change("lid", "size", "6 1/8 x 4 1/8 x 3/4"),))
    assert kit.kit.ruler.with_unit(old) == "6 in"
    assert (
        change_words(kit, fix)
        == "width of lid 1/8 in more than now (6 in), depth of lid 1/8 in less than now (4 1/4 in)"
    )
    assert change_words(kit, Fix("Turn.", (Change("lid", "turn", "90"),))) == ""


@pytest.mark.parametrize("page", [US_LETTER, A4])
def test_every_finding_and_every_source_is_on_the_page(page: Page) -> None:
    kit = built(KIT)
    proof = prove(kit)
    source = proof_report(kit, proof, page)
    for finding in proof.findings:
        assert finding.about in source
        assert finding.because.rstrip(".") in source
    pages = to_page_svgs(source)
    assert 1 <= len(pages) <= 2
    assert all(svg.startswith(b"<svg") for svg in pages)


def test_what_has_no_fix_has_its_advice_on_the_page_and_in_the_text_of_the_pack() -> None:
    made = plan(read_kit(head(sheet="8 x 8") + part("piece", "flat card", size="9 x 6")))
    (found,) = made.proof.of(Severity.FAIL)
    assert found.advice
    assert f"no fix  {found.advice}\n" in proof_text(made)
    source = proof_report(made.built, made.proof, A4)
    assert "No fix: " in source
    assert found.advice.split(",")[0] in source
