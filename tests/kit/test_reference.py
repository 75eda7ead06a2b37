"""The reference page of the kit document."""

import tomllib
from pathlib import Path

import pytest

import kitwright.forms  # noqa: F401
from docs.kit_document import reference_text
from kitwright.catalogue import CATALOGUE, parameters
from kitwright.kit import EXTRA_KINDS
from kitwright.kit.keys import ACCURACY_KEYS, EXTRA_KEYS, FIT_KEYS, KIT_KEYS, MARGIN_KEYS, PAPER_KEYS, PART_KEYS, Key
from kitwright.kit.read_part import key_of

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "kit-document.md"


def test_the_page_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == reference_text()


def test_the_page_tells_every_form_and_every_kind_of_extra() -> None:
    page = reference_text()
    assert all(f"\n### {key}\n" in page for key in CATALOGUE)
    assert all(kind in page for kind in EXTRA_KINDS)


@pytest.mark.parametrize(
    "key",
    [
        key
        for keys in (KIT_KEYS, FIT_KEYS, ACCURACY_KEYS, PAPER_KEYS, MARGIN_KEYS, PART_KEYS, EXTRA_KEYS)
        for key in keys.values()
    ],
    ids=lambda key: key.name,
)
def test_every_example_of_a_key_is_written_as_toml_wants_it(key: Key) -> None:
    assert tomllib.loads(f"{key.name} = {key.example}")


@pytest.mark.parametrize("word", sorted(CATALOGUE))
def test_no_form_has_a_parameter_that_every_part_has_already(word: str) -> None:
    assert not {key_of(parameter) for parameter in parameters(CATALOGUE[word])} & set(PART_KEYS)
