"""Each kind of finding has a document that has it and one beside it that has it no more; none is missing."""

from __future__ import annotations

from collections.abc import Iterator
from fnmatch import fnmatchcase
from fractions import Fraction

import pytest
from tests.kit.documents import built
from tests.kit.findings.codes import finding_codes
from tests.kit.findings.misdrawn import misdrawn_form
from tests.kit.findings.pairs import PAIRS, Pair
from tests.strategies import follow_shares

from kitwright.catalogue import CATALOGUE, Following, parameters
from kitwright.errors import Mistakes
from kitwright.findings import Severity
from kitwright.kit import prove, read_kit

GRAVE = (Severity.WARNING, Severity.FAIL, Severity.UNKNOWN)
NEVER_AMISS = {"print-up"}
"""What is only ever said where all is well; the findings that something is not have codes of their own."""


@pytest.fixture(autouse=True)
def trial_piece() -> Iterator[None]:
    with misdrawn_form():
        yield


def severities(text: str, code: str) -> set[Severity]:
    """How grave the findings with this code are."""
    return {each.severity for each in prove(built(text), with_fixes=False).findings if each.code == code}


def rules_broken(text: str) -> set[str]:
    """What the form of the only part has against its numbers."""
    (said,) = read_kit(text).parts
    form = CATALOGUE[said.form]
    sides = dict(zip(form.size, said.sizing.lengths, strict=False))
    values = {
        each.name: sides.get(
            each.name, said.settings.get(each.name, None if isinstance(each.default, Following) else each.default)
        )
        for each in parameters(form)
    }
    plain = {name: float(value) if isinstance(value, Fraction) else value for name, value in values.items()}
    return {finding.code for finding in form(**follow_shares(form, plain)).rules()}


@pytest.mark.parametrize(
    "pair", [each for each in PAIRS if not each.is_refused], ids=lambda pair: f"{pair.code} {pair.severity}"
)
def test_a_document_has_the_finding_and_the_one_beside_it_has_it_no_more(pair: Pair) -> None:
    assert pair.severity in severities(pair.text, pair.code)
    assert severities(pair.changed, pair.code) <= {Severity.OK}


@pytest.mark.parametrize("pair", [each for each in PAIRS if each.is_refused], ids=lambda pair: pair.code)
def test_what_a_form_refuses_is_a_mistake_and_the_document_beside_it_is_built(pair: Pair) -> None:
    with pytest.raises(Mistakes):
        built(pair.text)
    assert rules_broken(pair.text) == {pair.code}
    built(pair.changed)


def test_no_kind_of_finding_is_without_its_pair() -> None:
    """Whoever adds a kind of finding adds a pair to pairs.py (see CONTRIBUTING)."""
    had = {pair.code for pair in PAIRS} | NEVER_AMISS
    missing = {code: file for code, file in finding_codes().items() if not any(fnmatchcase(each, code) for each in had)}
    assert missing == {}


def test_every_pair_is_about_a_finding_that_the_program_makes() -> None:
    codes = finding_codes()
    assert "*" not in codes
    assert [pair.code for pair in PAIRS if not any(fnmatchcase(pair.code, code) for code in codes)] == []
