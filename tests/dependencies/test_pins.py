"""The locks pin everything once, say from nowhere, and go together with what the project asks for."""

import tomllib

import jobs
import pytest
from packaging.requirements import Requirement
from packaging.specifiers import SpecifierSet
from packaging.utils import canonicalize_name

import run
from locks.pins import FOLDER, ROOT, Pin, pin, pins
from locks.renew import LOCKS

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def asked_for(name: str) -> list[str]:
    """What a lock must meet: the project's own dependencies, a group's, or both."""
    running: list[str] = PROJECT["project"]["dependencies"] if name in ("runtime", "dev") else []
    group: list[str] = PROJECT["dependency-groups"].get(name, [])
    return running + group


@pytest.mark.parametrize("name", LOCKS)
def test_every_package_is_pinned_with_hashes_and_without_an_address(name: str) -> None:
    assert pins(name)
    for each in pins(name):
        assert each.hashes, each.name
        assert all(words.startswith("sha256:") and len(words) == 71 for words in each.hashes), each.name
    assert "://" not in (FOLDER / f"{name}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", LOCKS)
def test_a_lock_meets_what_is_asked_for(name: str) -> None:
    for words in asked_for(name):
        wanted = Requirement(words)
        found = [each for each in pins(name) if each.name == canonicalize_name(wanted.name)]
        assert found, words
        assert all(each.version in wanted.specifier for each in found), words


def test_what_the_work_is_done_with_holds_all_that_runs_in_the_same_versions() -> None:
    assert set(pins("runtime")) <= set(pins("dev"))


def test_what_only_a_benchmark_needs_is_not_set_up_for_everybody() -> None:
    only = {each.name for each in (*pins("benchmark"), *pins("benchmark-build"))}
    assert only.isdisjoint(each.name for each in pins("dev"))


def test_the_locked_build_backend_is_one_that_the_project_may_be_built_with() -> None:
    for words in PROJECT["build-system"]["requires"]:
        wanted = Requirement(words)
        assert any(part.operator in ("~=", "==", "<") for part in wanted.specifier), words
        (found,) = (each for each in pins("dev") if each.name == wanted.name)
        assert found.version in wanted.specifier


def test_set_up_takes_the_pythons_that_the_project_asks_for() -> None:
    asked = SpecifierSet(PROJECT["project"]["requires-python"])
    taken = [minor for minor in range(30) if f"3.{minor}.0" in asked]
    assert (3, taken[0]) == run.OLDEST
    assert (3, taken[-1]) == jobs.NEWEST


def test_a_newer_python_is_refused_in_plain_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.version_info", (3, jobs.NEWEST[1] + 1, 0))
    with pytest.raises(SystemExit, match=rf"not there for Python 3\.15\.0 yet\. Install Python 3\.{jobs.NEWEST[1]} "):
        jobs.refuse_other_pythons()


def test_a_marker_says_where_a_pin_is_wanted() -> None:
    some = pin("numpy==2.5.5 ; python_full_version >= '3.12' --hash=sha256:ab")
    assert some.is_wanted({"python_full_version": "3.12.0"})
    assert not some.is_wanted({"python_full_version": "3.11.9"})
    assert pin("h11==0.16.0 --hash=sha256:ab").is_wanted({})


def test_a_line_without_one_version_is_refused() -> None:
    with pytest.raises(ValueError, match="h11 is not pinned to one version"):
        pin("h11>=0.16.0 --hash=sha256:ab")
    assert isinstance(pin("h11==0.16.0"), Pin)
