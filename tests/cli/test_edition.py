"""`kitwright edition` from outside: what it writes, what it leaves alone, what it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from kitwright.kit import build, prove, read_kit
from tests.cli.running import EXAMPLES, Run, example, files_in


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_other_edition_is_written_beside_the_kit_and_is_proved(run: Run, tmp_path: Path, name: str) -> None:
    (tmp_path / "kit.toml").write_text(example(name), encoding="utf-8")
    units = "in" if name == "postcard-set" else "mm"
    call = run("edition", "kit.toml", "--units", units)
    assert call.code == 0, call.err
    assert "Proved: " in call.out
    assert f"kit.{units}.toml is there; kit.toml is as it was." in call.out
    files = files_in(tmp_path)
    assert set(files) == {"kit.toml", f"kit.{units}.toml"}
    assert files["kit.toml"].decode() == example(name)
    text = files[f"kit.{units}.toml"].decode()
    assert prove(build(read_kit(text)), with_fixes=False).is_proved
    assert run("prove", f"kit.{units}.toml").code == 0


def test_it_may_only_be_shown_and_numbers_may_be_asked_for(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(example("recipe-box"), encoding="utf-8")
    shown = run("edition", "kit.toml", "--units", "mm", "--show")
    assert shown.code == 0
    assert "recipe card" in shown.out
    data = json.loads(run("edition", "kit.toml", "--units", "mm", "--ruler", "0.5", "--json").out)
    assert data["proof"]["proved"] is True
    assert {"about", "what", "before", "after", "by", "because"} == set(data["changes"][0])
    assert read_kit(data["document"]).ruler.name == "0.5 mm"
    assert set(files_in(tmp_path)) == {"kit.toml"}


def test_a_file_that_is_there_is_never_written_over(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(example("recipe-box"), encoding="utf-8")
    (tmp_path / "kit.mm.toml").write_text("mine", encoding="utf-8")
    call = run("edition", "kit.toml", "--units", "mm")
    assert call.code == 2
    assert "There is such a file already." in call.err
    assert (tmp_path / "kit.mm.toml").read_text(encoding="utf-8") == "mine"
    assert run("edition", "kit.toml", "--units", "mm", "--into", "other.toml").code == 0


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--units", "in"], "This kit is in inches already."),
        (["--units", "mm", "--ruler", "0.5 in"], "A ruler in inches does not go with millimetres."),
        (["--units", "mm", "--ruler", "none"], "'none' is not a length"),
        (["--units", "ft"], "'ft' is not one of"),
        ([], "--units"),
    ],
)
def test_what_cannot_be_meant_is_refused(run: Run, tmp_path: Path, words: list[str], says: str) -> None:
    (tmp_path / "kit.toml").write_text(example("recipe-box"), encoding="utf-8")
    call = run("edition", "kit.toml", *words)
    assert call.code == 2
    assert says in call.err
    assert set(files_in(tmp_path)) == {"kit.toml"}
