"""Which wheel runs where is read off its name; the page on computers is about the lock that is there."""

import re

import pytest

from locks import wheels as module
from locks.pins import ROOT, digest, pin
from locks.wheels import PLATFORMS, PYTHONS, missing, needed, oldest_system, table

BY_NAME = {platform.name: platform for platform in PLATFORMS}


@pytest.mark.parametrize(
    ("wheel", "there"),
    [
        ("a-1-py3-none-any.whl", set(BY_NAME)),
        ("a-1-cp311-cp311-win_amd64.whl", {"Windows x64"}),
        ("a-1-cp39-abi3-win_arm64.whl", {"Windows arm64"}),
        ("a-1-cp312-cp312-win_amd64.whl", set()),
        ("a-1-cp313-cp313t-win_amd64.whl", set()),
        ("a-1-cp311-cp311-macosx_11_0_arm64.whl", {"macOS arm64"}),
        ("a-1-cp311-cp311-macosx_10_14_universal2.whl", {"macOS arm64", "macOS Intel"}),
        ("a-1-cp311-cp311-manylinux2014_x86_64.whl", {"Linux x64"}),
        ("a-1-cp311-cp311-manylinux_2_26_aarch64.manylinux_2_28_aarch64.whl", {"Linux arm64"}),
        ("a-1-cp311-cp311-musllinux_1_2_x86_64.whl", {"Linux x64, musl"}),
        ("a-1-cp311-cp311-linux_x86_64.whl", set()),
    ],
)
def test_a_wheel_runs_where_its_name_says(wheel: str, there: set[str]) -> None:
    assert {platform.name for platform in PLATFORMS if platform.accepts(wheel, (3, 11))} == there


@pytest.mark.parametrize(
    ("wheel", "version"),
    [
        ("a-1-cp311-cp311-manylinux_2_17_x86_64.manylinux2014_x86_64.whl", (2, 17)),
        ("a-1-cp311-cp311-manylinux2010_x86_64.whl", (2, 12)),
        ("a-1-cp311-cp311-macosx_14_0_arm64.whl", (14, 0)),
        ("a-1-py3-none-any.whl", ()),
    ],
)
def test_the_oldest_system_is_read_off_a_wheel(wheel: str, version: tuple[int, ...]) -> None:
    assert needed(wheel) == version


def test_what_has_no_wheel_is_named_and_what_is_not_wanted_is_not_missed(monkeypatch: pytest.MonkeyPatch) -> None:
    runs = (pin("one==1"), pin("two==1 ; sys_platform == 'win32'"))
    locked = {"runtime": runs, "dev": (*runs, pin("tool==1"))}
    monkeypatch.setattr(module, "pins", locked.__getitem__)
    there = {
        ("one", "1"): ["one-1-cp311-abi3-manylinux_2_27_x86_64.whl", "one-1-cp311-abi3-manylinux_2_17_x86_64.whl"],
        ("two", "1"): [],
        ("tool", "1"): ["tool-1-cp311-abi3-win_amd64.whl", "tool-1-cp39-abi3-manylinux_2_5_x86_64.whl"],
    }
    assert missing(there, BY_NAME["Linux x64"], (3, 11)) == "all"
    assert missing(there, BY_NAME["Windows x64"], (3, 11)) == "one, two"
    assert missing(there, BY_NAME["Linux arm64"], (3, 11)) == "one, (tool)"
    assert oldest_system(there, BY_NAME["Linux x64"]) == (2, 17)


def test_the_page_is_about_the_locks_that_are_there() -> None:
    page = (ROOT / "docs" / "platforms.md").read_text(encoding="utf-8")
    assert f"for the lock `{digest('dev')}`" in page, "run: python -m locks wheels"
    rows = re.findall(r"^\| ([^|]+) \|.*\|$", page.split("<!-- end of table -->")[0], flags=re.MULTILINE)
    assert rows == ["computer", *BY_NAME]
    assert all(f"Python {major}.{minor}" in page for major, minor in PYTHONS)


def test_the_table_has_a_row_a_computer_and_a_column_a_python(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "pins", lambda _lock: (pin("one==1"),))
    rows = list(table({("one", "1"): ["one-1-py3-none-any.whl"]}))
    assert rows[2] == "| Windows x64 |  |" + " all |" * len(PYTHONS)
    assert len(rows) == 2 + len(PLATFORMS)
