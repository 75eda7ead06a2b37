"""Mistakes of the program itself, made on purpose here: one sentence, a note with nothing of the kit in it, an exit code of its own."""

from __future__ import annotations

import logging
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from kitwright.cli import COMMANDS, OWN_MISTAKE, log
from kitwright.errors import InternalError
from tests.cli.running import Run

KIT = """\
[kit]
name = "Secret kit"
units = "in"
[paper.card]
sheet = "Letter"
weight = "80 lb cover"
[[part]]
name = "secret card"
form = "flat card"
paper = "card"
size = "2 x 3"
"""


class Panic(BaseException):
    """As compiled code raises it: no `Exception` at all."""


@pytest.fixture(params=[KeyError("secret card"), Panic("secret card"), FileNotFoundError(2, "secret card")])
def fault(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[BaseException]:
    """The program goes wrong whenever a kit is built."""

    def fail(*_: object, **__: object) -> object:
        raise request.param

    monkeypatch.setattr("kitwright.cli.prove.build", fail)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "notes"))
    (tmp_path / "notes").mkdir()
    (tmp_path / "secret.toml").write_text(KIT)
    yield request.param


def test_it_is_one_sentence_and_where_it_is_noted(run: Run, tmp_path: Path, fault: BaseException) -> None:
    call = run("prove", "secret.toml")
    (noted,) = (tmp_path / "notes").iterdir()
    assert (call.code, call.out, OWN_MISTAKE) == (70, "", 70)
    assert call.err == (
        "The program made a mistake here; it was not you, and nothing of yours was changed. "
        f"It is noted in {noted}, with nothing of your kit.\n"
    )
    text = noted.read_text()
    assert text.startswith("Kitwright ")
    assert "kitwright/cli/prove.py, line " in text
    assert type(fault).__name__ in text
    assert "ecret" not in text
    assert str(tmp_path) not in text


def test_where_nothing_can_be_noted_that_is_said(run: Run, tmp_path: Path, fault: BaseException) -> None:
    (tmp_path / "notes").rmdir()
    call = run("prove", "secret.toml")
    assert (call.code, call.err.count("\n")) == (70, 1)
    assert call.err.endswith("There is no room to note it.\n")


def test_whoever_wishes_sees_all_of_it(run: Run, monkeypatch: pytest.MonkeyPatch, fault: BaseException) -> None:
    monkeypatch.setenv(log.SHOWN, "1")
    with pytest.raises(type(fault)) as shown:
        run("prove", "secret.toml")
    assert shown.value is fault


def test_a_mistake_that_was_contained_is_told_like_any_other(
    run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def fail(*_: object) -> object:
        raise InternalError from KeyError("secret")

    monkeypatch.setattr("kitwright.cli.prove.build", fail)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    (tmp_path / "secret.toml").write_text(KIT)
    assert run("prove", "secret.toml").code == 70
    (noted,) = tmp_path.glob("kitwright-*.log")
    assert noted.read_text().rstrip().endswith("builtins.KeyError")


def test_a_disk_that_refuses_somewhere_is_told_in_words(
    run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def refuse(*_: object) -> object:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("kitwright.cli.prove.build", refuse)
    (tmp_path / "kit.toml").write_text(KIT)
    call = run("prove", "kit.toml")
    assert (call.code, call.err) == (
        2,
        "A file cannot be read or written (No space left on device). Look at the disk and the folder.\n",
    )


READ_A_KIT = sorted(set(COMMANDS) - {"demo", "open", "new", "forms", "strip"})


@pytest.mark.parametrize("name", READ_A_KIT)
def test_a_path_that_may_not_be_read_is_told_in_our_own_words(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.setattr(os, "access", lambda *_, **__: False)

    def refuse(*_: object, **__: object) -> object:
        raise PermissionError(13, "Permission denied")

    (tmp_path / "kit.toml").write_text(KIT)
    monkeypatch.setattr(Path, "open", refuse)
    words = {"edition": ["--units", "mm"]}.get(name, [])
    call = run(name, "kit.toml", *words)
    assert (call.code, "Usage" in call.err) == (2, False)
    assert "kit.toml: This file may not be read." in call.err


def record(error: BaseException) -> logging.LogRecord:
    try:
        try:
            raise error
        except BaseException as first:
            raise InternalError from first
    except InternalError as second:
        return logging.LogRecord(
            "kitwright", 40, __file__, 1, "Went wrong: %s", ("x",), (type(second), second, second.__traceback__)
        )


def test_the_log_of_a_workshop_is_of_bounded_size_and_has_nothing_of_the_makers(tmp_path: Path) -> None:
    handler = log.Noting(tmp_path / log.LOG_NAME, "a", 3000, 1, encoding="utf-8", delay=True)
    handler.setFormatter(log.Discreet("%(message)s"))
    for _ in range(40):
        handler.handle(record(KeyError("secret")))
    handler.close()
    logs = sorted(tmp_path.iterdir())
    assert [path.name for path in logs] == [log.LOG_NAME, f"{log.LOG_NAME}.1"]
    for path in logs:
        text = path.read_text()
        assert len(text) <= 3000
        assert "builtins.KeyError\n then\n" in text
        assert "secret" not in text


def test_a_log_that_cannot_be_written_disturbs_nobody(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    handler = log.Noting(tmp_path / "none" / "x.log", delay=True)
    handler.handle(record(KeyError("secret")))
    assert capfd.readouterr() == ("", "")
