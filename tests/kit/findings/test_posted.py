"""Each verdict of the post has a kit document that has it and one beside it, with one thing changed, that has it no more."""

from __future__ import annotations

import pytest
from tests.kit.documents import built, head, part

from kitwright.findings import Severity
from kitwright.kit import post_findings, read_kit, write_kit
from kitwright.proof.mailing import Kind

FAIL, WARNING, NOTE = Severity.FAIL, Severity.WARNING, Severity.NOTE


def letter(envelope: str, *, card: str = "5 x 3 1/4", **more: str | int | list[str]) -> str:
    """A card in an envelope whose size is said, of thin and thick paper."""
    return (
        head(sheet="36 x 48")
        + part("card", "flat card", size=card)
        + part("envelope", "side-seam envelope", paper="thin", size=envelope, **{"holds": ["card"], **more})
    )


def pencilled(kind: str) -> str:
    pencil = f'[[extra]]\nname = "thing"\nsize = "3 x 1/4 x 1/8"\nweight = "5 g"\nkind = "{kind}"\n'
    return letter("5 3/4 x 4 3/8", holds=["card", "thing"]) + pencil


def heavy(grams: str) -> str:
    """A box with two weights."""
    weights = f'[[extra]]\nname = "weight"\nsize = "2 x 2 x 2"\nquantity = 2\nweight = "{grams}"\n'
    return head(sheet="36 x 48") + part("box", "tray", holds="weight") + weights


CLASP = letter("5 3/4 x 4 3/8", post=["clasp, string or button"])

# All limits: USPS Domestic Mail Manual 101, Physical Standards, 9 Jul 2023
VERDICTS = (
    # kind, severity, document, what is put in whose place
    (Kind.TOO_SMALL, FAIL, letter("5 1/2 x 3 7/16"), '"5 1/2 x 3 7/16"', '"5 1/2 x 3 1/2"'),  # 1.1a: 3-1/2 in high
    (Kind.LETTER, NOTE, letter("11 1/2 x 6 1/8"), '"11 1/2 x', '"11 9/16 x'),  # 1.1b: 11-1/2 in long
    (Kind.NON_MACHINABLE, WARNING, letter("5 3/4 x 4 1/2"), "x 4 1/2", "x 4 3/8"),  # 1.2a: aspect from 1.3
    (Kind.NON_MACHINABLE, WARNING, CLASP, 'post = ["clasp, string or button"]\n', ""),  # 1.2c
    (Kind.NON_MACHINABLE, WARNING, pencilled("magnet"), '"magnet"', '"paper"'),  # 1.2d: a loose lump
    (Kind.LARGE_LETTER, NOTE, letter("15 x 11"), '"15 x 11"', '"15 1/16 x 11"'),  # 2.1: 15 in long
    (Kind.PARCEL, NOTE, letter("15 1/16 x 11"), '"15 1/16 x', '"15 x'),  # 2.1: 15 in long
    (Kind.TOO_BIG, FAIL, heavy("16000 g"), "16000 g", "15000 g"),  # 3.2: 70 lb are 31.75 kg
)


def us_verdicts(text: str) -> set[tuple[str, Severity]]:
    return {(each.code, each.severity) for each in post_findings(built(text)) if "United States" in each.message}


@pytest.mark.parametrize(
    ("kind", "severity", "text", "bad", "good"), VERDICTS, ids=[f"{kind} {bad}" for kind, _, _, bad, _ in VERDICTS]
)
def test_a_kit_has_the_verdict_and_the_one_beside_it_has_it_no_more(
    kind: Kind, severity: Severity, text: str, bad: str, good: str
) -> None:
    code = f"mailing-{kind.value.replace(' ', '-')}"
    assert text.count(bad) == 1
    assert us_verdicts(text) == {(code, severity)}
    assert code not in {each for each, _ in us_verdicts(text.replace(bad, good))}


def test_no_verdict_is_without_its_pair() -> None:
    assert {kind for kind, *_ in VERDICTS} == set(Kind)


def test_what_the_post_should_know_is_kept_when_a_kit_is_written() -> None:
    assert us_verdicts(write_kit(read_kit(CLASP))) == us_verdicts(CLASP)
