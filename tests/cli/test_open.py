"""Opening the page to a workroom: what is refused before anything listens."""

from __future__ import annotations

import re
import signal
import socket
import subprocess
import sys
from contextlib import closing
from http.client import HTTPConnection
from pathlib import Path

import pytest

from kitwright.workshop import Workshop
from tests.cli.running import Run, example


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


@pytest.mark.skipif(sys.platform == "win32", reason="there are no such signals")
@pytest.mark.parametrize("by", [signal.SIGTERM, signal.SIGINT])
def test_told_to_end_the_server_ends_while_a_request_is_half_sent_and_a_search_does_not_listen(
    tmp_path: Path, by: signal.Signals
) -> None:
    program = (
        "import sys, threading; from kitwright.web import making; from kitwright.cli import main\n"
        "making.lay_out_kit = lambda *_, **__: threading.Event().wait()\n"  # goes on for ever
        "sys.argv[1:] = ['open', sys.argv[1], '--stay']; main()"
    )
    word = Workshop(tmp_path).begin("kit", example("postcard-set"), words="begun").word
    with subprocess.Popen([sys.executable, "-c", program, str(tmp_path)], stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout is not None
        found = re.search(r"http://(127\.0\.0\.1):(\d+)/", server.stdout.readline())
        assert found
        address = found[1], int(found[2])
        with closing(HTTPConnection(*address, timeout=60)) as asking:
            asking.request("GET", f"/kit/{word}/search?kits=2")
            assert asking.getresponse().status == 200
        with socket.create_connection(address, timeout=60) as half:
            head = "POST /new HTTP/1.1\r\nHost: {0}:{1}\r\nOrigin: http://{0}:{1}\r\nContent-Type: application/x-www-form-urlencoded\r\n"
            half.sendall((head.format(*address) + "Content-Length: 1000\r\nExpect: 100-continue\r\n\r\n").encode())
            assert half.recv(100).startswith(b"HTTP/1.1 100")  # the server waits for the rest, that never comes
            server.send_signal(by)
            assert server.wait(60) in (0, -signal.SIGTERM)
