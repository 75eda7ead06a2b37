"""The running server killed in the middle of saves, as by a power cut: whatever it had acknowledged is there afterwards."""

from __future__ import annotations

import re
import sqlite3
import subprocess
import sys
import threading
from contextlib import closing
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from urllib.parse import urlencode

import pytest

from kitwright.kit import read_kit
from kitwright.workshop import Workshop

DOCUMENT = """\
[kit]
name = "k"
units = "mm"
[paper.p]
sheet = "210 x 297"
weight = "250 gsm"
[[part]]
name = "card"
form = "flat card"
size = "100 x 70"
paper = "p"
quantity = 1
"""


def save(port: int, word: str, *, seen: int, quantity: int) -> int:
    """One change, as the page sends it; the code of the answer."""
    with closing(HTTPConnection("127.0.0.1", port, timeout=60)) as asking:
        body = urlencode({"revision": seen, "part": 0, "quantity": quantity})
        headers = {"origin": f"http://127.0.0.1:{port}", "content-type": "application/x-www-form-urlencoded"}
        asking.request("POST", f"/kit/{word}/part", body, headers)
        return asking.getresponse().status


@pytest.mark.parametrize("saves", [1, 6])
def test_a_server_killed_while_it_saves_has_lost_nothing_that_it_acknowledged(tmp_path: Path, saves: int) -> None:
    word = Workshop(tmp_path).begin("k", DOCUMENT, words="begun").word
    server = subprocess.Popen(
        [sys.executable, "-m", "kitwright", "open", str(tmp_path), "--stay"], stdout=subprocess.PIPE, text=True
    )
    acknowledged: list[int] = []
    enough = threading.Event()

    def go_on_saving(port: int) -> None:
        try:
            for quantity in range(2, 1000):
                if save(port, word, seen=quantity - 1, quantity=quantity) != 303:
                    return
                acknowledged.append(quantity)
                if len(acknowledged) >= saves:
                    enough.set()
        except (OSError, HTTPException):
            return  # the server is gone
        finally:
            enough.set()

    try:
        assert server.stdout is not None
        found = re.search(r"http://127\.0\.0\.1:(\d+)/", server.stdout.readline())
        assert found
        saving = threading.Thread(target=go_on_saving, args=(int(found[1]),))
        saving.start()
        assert enough.wait(120)
    finally:
        server.kill()
        server.wait(60)
        server.stdout.close()  # type: ignore[union-attr]  # it was a pipe
    saving.join(60)
    assert len(acknowledged) >= saves
    shop = Workshop(tmp_path)
    now = read_kit(shop.read(word).document).part("card").quantity
    assert now in (acknowledged[-1], acknowledged[-1] + 1)  # the one under way may have come through too
    told = [revision.words for revision in shop.revisions(word)]
    assert [f"card: quantity {quantity}" for quantity in acknowledged] == [
        words for words in reversed(told) if words in {f"card: quantity {quantity}" for quantity in acknowledged}
    ]
    with closing(sqlite3.connect(tmp_path / "workshop.db")) as database:
        assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
