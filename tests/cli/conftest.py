"""What the tests of the command line share."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.running import Run, listening


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Iterator[Run]:
    """Runs a command in an empty folder."""
    with listening(monkeypatch, capsys, tmp_path) as runner:
        yield runner
