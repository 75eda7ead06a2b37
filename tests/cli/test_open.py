"""Opening the page to a workroom: what is refused before anything listens."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.running import Run


@pytest.mark.parametrize("address", ["8.8.8.8", "0.0.0.0", "fd00::1", "my-computer", ""])
def test_a_workroom_is_opened_on_an_address_of_a_local_network_only(run: Run, tmp_path: Path, address: str) -> None:
    call = run("open", str(tmp_path / "shop"), "--workroom", "--at", address, "--stay")
    assert call.code == 2
    assert "is no address of a local network" in call.err


def test_an_address_without_a_workroom_is_refused(run: Run, tmp_path: Path) -> None:
    call = run("open", str(tmp_path / "shop"), "--at", "192.168.1.5", "--stay")
    assert call.code == 2
    assert "Say --workroom as well." in call.err
    assert not (tmp_path / "shop").exists()
