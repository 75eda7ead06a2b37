"""An output that was closed from the start, or whose reader went away, is no mistake of the program."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from kitwright.cli import main

KIT = """\
[kit]
name = "One card"
units = "in"
[paper.card]
sheet = "Letter"
weight = "80 lb cover"
[[part]]
name = "card"
form = "flat card"
paper = "card"
size = "2 x 3"
"""


@pytest.mark.parametrize("closed", [("stdout",), ("stdout", "stderr")])
@pytest.mark.parametrize("command", ["prove", "sheets"])
def test_a_command_runs_with_its_output_closed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str, closed: tuple[str, ...]
) -> None:
    kit = tmp_path / "kit.toml"
    kit.write_text(KIT)
    monkeypatch.setattr("sys.argv", ["kitwright", command, str(kit)])
    for stream in closed:
        monkeypatch.setattr(sys, stream, None)  # as Python starts then
    with pytest.raises(SystemExit) as left:
        main()
    for stream in closed:
        getattr(sys, stream).close()
    assert left.value.code == 0


def test_a_reader_that_went_away_is_told_nothing(tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(KIT)
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        [sys.executable, "-m", "kitwright", "post", "kit.toml", "--json"],
        cwd=tmp_path, env={**os.environ, "PYTHONUNBUFFERED": ""}, stdout=writing, stderr=subprocess.PIPE, check=False,
    )  # fmt: skip
    os.close(writing)
    assert (done.returncode, done.stderr) == (1, b"")
