"""Running the command line in this process, as a person would type it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from importlib import resources
from pathlib import Path

import pytest

from kitwright.cli import main

__all__ = ["EXAMPLES", "Call", "Run", "example", "files_in", "listening"]

EXAMPLES = ("postcard-set", "recipe-box", "thank-you-cards")


@dataclass(frozen=True)
class Call:
    """What came of a command: exit code, what was printed, and what was printed on the side of errors."""

    code: int
    out: str
    err: str


Run = Callable[..., Call]


def example(name: str) -> str:
    """The text of an example kit."""
    return resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8")


def files_in(folder: Path) -> dict[str, bytes]:
    """Every file below a folder with its bytes."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()
    }


@contextmanager
def listening(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], folder: Path) -> Iterator[Run]:
    """A function that runs a command in a folder."""
    monkeypatch.chdir(folder)

    def run(*words: str) -> Call:
        monkeypatch.setattr("sys.argv", ["kitwright", *words])
        capsys.readouterr()
        with pytest.raises(SystemExit) as left:
            main()
        out, err = capsys.readouterr()
        assert isinstance(left.value.code, int)
        return Call(left.value.code, out, err)

    yield run
