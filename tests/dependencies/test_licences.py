"""Every installed package has a licence that we take, as SPDX says it; nothing else is taken for one."""

from importlib.metadata import Distribution
from pathlib import Path

import pytest

from locks.bill import Item, faults, items
from locks.licences import ALLOWED_CARRIED, READ, Licence, carried, is_allowed, licence, of_words
from locks.pins import pins


def package(folder: Path, *metadata: str, name: str = "some", licence_file: str = "") -> Distribution:
    """An installed package with these lines of metadata and a licence file."""
    home = folder / f"{name}-1.0.dist-info"
    (home / "licenses").mkdir(parents=True)
    (home / "METADATA").write_text(
        "\n".join(["Metadata-Version: 2.4", f"Name: {name}", "Version: 1.0", *metadata, "", ""])
    )
    (home / "licenses" / "terms.txt").write_text(licence_file)
    (home / "RECORD").write_text(f"{home.name}/licenses/terms.txt,,\n{home.name}/METADATA,,\n")
    return Distribution.at(home)


@pytest.mark.parametrize(
    ("metadata", "expression"),
    [
        (["License-Expression: MIT AND PSF-2.0"], "MIT AND PSF-2.0"),
        (["License: BSD-3-Clause"], "BSD-3-Clause"),
        (["License: Apache 2.0"], "Apache-2.0"),
        (["Classifier: License :: OSI Approved :: MIT License"], "MIT"),
        (["License: see the file", "Classifier: License :: OSI Approved :: MIT License"], "MIT"),
        (["License: GPL-3.0-only", "Classifier: License :: OSI Approved :: MIT License"], "GPL-3.0-only"),
    ],
)
def test_a_licence_is_read_from_the_metadata(tmp_path: Path, metadata: list[str], expression: str) -> None:
    assert licence(package(tmp_path, *metadata)) == Licence(expression)


@pytest.mark.parametrize(
    "metadata",
    [[], ["License: see the file"], ["Classifier: License :: OSI Approved :: BSD License"], ["License: BSD"]],
)
def test_words_that_name_no_licence_or_may_mean_several_are_none(tmp_path: Path, metadata: list[str]) -> None:
    assert licence(package(tmp_path, *metadata, licence_file="MIT License")) is None


def test_a_recorded_licence_holds_only_while_its_words_stand_in_the_file(tmp_path: Path) -> None:
    same, other = tmp_path / "same", tmp_path / "other"
    assert licence(package(same, name="axe-playwright-python", licence_file="MIT License\n\nCopyright")) == Licence(
        "MIT", READ["axe-playwright-python"].reason
    )
    assert licence(package(other, name="axe-playwright-python", licence_file="All rights reserved")) is None


def test_what_a_wheel_says_that_it_carries_is_told(tmp_path: Path) -> None:
    told = "Also in here:\n\nName: One\nFiles: one.so\nLicense: LGPLv2.1\n\nName: Two\nLicense: our own\n"
    assert carried(package(tmp_path, licence_file=told)) == {"One": "LGPL-2.1-only", "Two": None}


@pytest.mark.parametrize(
    ("expression", "allowed"),
    [
        ("MIT", True),
        ("mit", True),
        ("GPL-3.0-only", False),
        ("MIT AND GPL-3.0-only", False),
        ("MIT OR GPL-3.0-only", True),
        ("MIT OR ISC AND GPL-3.0-only", True),
        ("GPL-3.0-only AND MIT OR GPL-2.0-only", False),
        ("(GPL-3.0-only OR MIT) AND ISC", True),
        ("(MIT OR ISC) AND (GPL-3.0-only OR GPL-2.0-only)", False),
        ("Apache-2.0 WITH LLVM-exception", False),
    ],
)
def test_all_of_an_and_one_of_an_or_must_be_allowed(expression: str, allowed: bool) -> None:
    assert is_allowed(expression) == allowed


def test_a_library_in_a_wheel_may_have_more_licences_than_the_package() -> None:
    words = "GPL-3.0-or-later WITH GCC-exception-3.1"
    assert is_allowed(words, ALLOWED_CARRIED)
    assert not is_allowed(words)
    assert not is_allowed("GPL-3.0-or-later", ALLOWED_CARRIED)


def test_words_that_are_no_licence_are_none() -> None:
    assert of_words("dependency licenses") is None
    with pytest.raises(ValueError, match="license"):
        is_allowed("our own")


def test_a_package_with_a_wrong_licence_or_none_is_told() -> None:
    plain = Item("plain", "1.0", Licence("MIT"), {}, (), 0)
    bare = Item("bare", "1.0", None, {}, (), 0)
    strict = Item("strict", "1.0", Licence("GPL-3.0-only"), {}, (), 0)
    laden = Item("laden", "1.0", Licence("MIT"), {"One": "LGPL-2.1-only", "Two": None}, (), 0)
    assert faults([plain, bare, strict, laden]) == [
        "bare 1.0 states no licence that can be told: read its licence file",
        "strict 1.0 has a licence that we do not take: GPL-3.0-only",
        "laden 1.0 carries Two, whose licence we do not take: None",
    ]


def test_everything_that_is_installed_has_a_licence_that_we_take() -> None:
    assert faults(items("dev")) == []


def test_a_licence_is_recorded_only_for_what_is_locked() -> None:
    assert set(READ) <= {pin.name for pin in pins("dev")}
