"""The example kits and the documents that makers start from are proved; mistakes made in them on purpose are found, and the fix works."""

from __future__ import annotations

from pathlib import Path

import pytest

from kitwright.findings import Finding, Severity
from kitwright.kit import apply_changes, build, new_kit_document, prove, read_kit
from kitwright.measure import Unit

FOLDER = Path(__file__).parents[2] / "src" / "kitwright" / "examples"
DOCUMENTS = {path.stem: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.toml"))}
STARTERS = {f"new in {unit.value}": new_kit_document("A new kit", unit) for unit in (Unit.INCH, Unit.MILLIMETRE)}
ALL = DOCUMENTS | STARTERS


def findings(text: str, *, with_fixes: bool = False) -> tuple[Finding, ...]:
    return prove(build(read_kit(text)), with_fixes=with_fixes).findings


def fails(text: str) -> list[tuple[str, str]]:
    return [(each.code, each.about) for each in findings(text) if each.severity in (Severity.FAIL, Severity.UNKNOWN)]


def test_there_are_three_examples() -> None:
    assert sorted(DOCUMENTS) == ["postcard-set", "recipe-box", "thank-you-cards"]


@pytest.mark.parametrize("name", ALL)
def test_an_example_is_proved(name: str) -> None:
    assert fails(ALL[name]) == []


@pytest.mark.parametrize("name", ALL)
def test_an_example_has_a_remark_for_the_maker_in_every_table(name: str) -> None:
    tables = ALL[name].split("\n[")
    assert sum("#" in table for table in tables) >= len(tables) / 2


MISTAKES = [
    ("recipe-box", 'covers = "box"', 'covers = "box"\nsize = "6 5/16 x 1 5/8"', "lid-fit-depth"),
    ("postcard-set", 'contents = "lying"', 'contents = "lying"\nheight = "10"', "contents-fit"),
    ("recipe-box", 'contents = "standing"', 'contents = "standing"\nturn = 180', "print-up-face"),
    ("thank-you-cards", 'covers = "tray"', 'covers = "tray"\nsize = "6 x 4 7/8 x 3/4"', "lid-fit-width"),
    ("thank-you-cards", 'holds = "card base" ', 'size = "5 1/2 x 4 1/4"\nholds = "card base"', "envelope-fit"),
    ("postcard-set", 'size = "162 x 114" ', 'size = "148 x 106" ', "envelope-fit"),
    ("postcard-set", 'on = "folded card"', 'size = "58 x 60"\non = "folded card"', "pocket-fit"),
]


@pytest.mark.parametrize(("name", "old", "new", "code"), MISTAKES)
def test_a_mistake_made_on_purpose_fails_and_the_fix_that_is_offered_works(
    name: str, old: str, new: str, code: str
) -> None:
    assert old in DOCUMENTS[name]
    spoiled = DOCUMENTS[name].replace(old, new, 1)
    failing = [each for each in findings(spoiled, with_fixes=True) if each.severity is Severity.FAIL]
    assert code in {each.code for each in failing}
    fix = next(each.fix for each in failing if each.code == code)
    assert fix is not None
    assert fails(apply_changes(spoiled, fix.changes)) == []
