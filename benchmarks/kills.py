"""Programs killed while they write, as by a power cut: nothing acknowledged is lost, nothing is half done, nothing is left lying about."""

from __future__ import annotations

import multiprocessing
import random
import re
import shutil
import socket
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import closing, suppress
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from urllib.parse import urlencode

from tests.web.test_killed import DOCUMENT

from kitwright.cli.folder import write_folder
from kitwright.cli.own_files import digests_in, is_ours
from kitwright.kit import read_kit
from kitwright.printouts.make.file_list import file_list
from kitwright.web import make_app
from kitwright.web.server import serve
from kitwright.workshop import Workshop

__all__ = ["BENCHMARKS"]

KILLS = 300
FOLDER_KILLS = 150
CLIENTS = 3
LONGEST = 1.2
"""Seconds from the first save until the server is killed, at most."""


class Client(threading.Thread):
    """Somebody who changes a kit of their own, one number after the other, and now and then takes it off the shelf and puts it back."""

    def __init__(self, port: int, word: str, seen: int, quantity: int, first: threading.Event) -> None:
        super().__init__()
        self.port, self.word, self.seen, self.quantity, self.first = port, word, seen, quantity, first
        self.kept: list[int] = []
        self.is_off, self.tried = False, ""

    def run(self) -> None:
        """Go on until the server is gone."""
        with suppress(OSError, HTTPException):
            while True:
                if random.random() < 0.1:
                    for name in ("remove", "put-back"):
                        self.post(name, {})
                        self.is_off = name == "remove"
                change = {"revision": self.seen, "part": 0, "quantity": self.quantity + 1}
                self.post("part", change)
                self.seen, self.quantity = self.seen + 1, self.quantity + 1
                self.kept.append(self.quantity)
                self.first.set()

    def post(self, name: str, said: Mapping[str, object]) -> None:
        """One change, as the page sends it. Raises `HTTPException` for any answer but the usual one."""
        self.tried = name
        with closing(HTTPConnection("127.0.0.1", self.port, timeout=60)) as asking:
            headers = {"origin": f"http://127.0.0.1:{self.port}", "content-type": "application/x-www-form-urlencoded"}
            asking.request("POST", f"/kit/{self.word}/{name}", urlencode(said), headers)
            answer = asking.getresponse()
            if answer.status != 303:
                raise HTTPException(f"{name}: {answer.status}")
        self.tried = ""


def kills() -> Iterator[str]:
    """The server of the page killed 300 times during saves."""
    saved = lost = half = left = 0
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "shop"
        shop = Workshop(folder)
        words = [shop.begin("k", DOCUMENT, words="begun").word for _ in range(CLIENTS)]
        for _ in range(KILLS):
            clients = until_killed(shop, words)
            shop = Workshop(folder)
            for client in clients:
                saved += len(client.kept)
                told = {each.words for each in shop.revisions(client.word)}
                lost += sum(f"card: quantity {quantity}" not in told for quantity in client.kept)
                half += not is_whole(shop, client)
            rest = [path.name for path in folder.rglob("*") if not is_known(path, folder)]
            left += len(rest)
            if rest:
                yield f"left over: {', '.join(rest)}"
            with closing(sqlite3.connect(folder / "workshop.db")) as database:
                half += database.execute("PRAGMA integrity_check").fetchone() != ("ok",)
    yield f"{KILLS} kills, {saved} saves acknowledged: {lost} lost, {half} half done, {left} files left over after the next opening"


def until_killed(shop: Workshop, words: list[str]) -> list[Client]:
    """What was acknowledged by a server until it was killed."""
    first, clients = threading.Event(), []
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        listening.listen()
        port = listening.getsockname()[1]
        for word in words:
            kit = shop.read(word)
            clients.append(Client(port, word, kit.revision, read_kit(kit.document).part("card").quantity, first))
        server = multiprocessing.get_context("fork").Process(target=answer, args=(shop.folder, listening))
        server.start()
    for client in clients:
        client.start()
    first.wait(60)
    time.sleep(random.uniform(0, LONGEST))
    server.kill()
    server.join()
    for client in clients:
        client.join()
    return clients


def answer(folder: Path, listening: socket.socket) -> None:
    """Be the server of a workshop."""
    serve(make_app(Workshop(folder)), listening)


def is_whole(shop: Workshop, client: Client) -> bool:
    """Whether a kit is as it was acknowledged last, or as the change under way makes it; if it is off the shelf, it is put back."""
    on, off = client.word in {each.word for each in shop.shelf()}, client.word in shop.removed()
    may_be_off = client.is_off or client.tried in ("remove", "put-back")
    if on == off or (off and not may_be_off) or (on and client.is_off and client.tried != "put-back"):
        return False
    if off:
        shop.put_back(client.word)
    now = read_kit(shop.read(client.word).document).part("card").quantity
    return now == client.quantity or (client.tried == "part" and now == client.quantity + 1)


def is_known(path: Path, folder: Path) -> bool:
    """Whether a file belongs into a workshop folder."""
    name = path.relative_to(folder).as_posix()
    return name in ("kits", "workshop.db", "workshop.log") or re.fullmatch(r"kits/[a-z0-9-]+\.toml", name) is not None


WRITER = """
import sys
from pathlib import Path
from benchmarks.kills import files_of
from kitwright.cli.folder import write_folder
number, is_new = int(sys.argv[2]), sys.argv[3] == "new"
print("ready", flush=True)
while True:
    number += 1
    folder = Path(sys.argv[1]) / (f"{number}" if is_new else "one")
    write_folder(folder, files_of(number), listed_in="list.json")
"""


def files_of(number: int) -> dict[str, bytes]:
    """A folder of some thirty files, which say their number; their names change, too."""
    files = {f"part-{n + number % 3}/{n}.txt": f"{number} ".encode() * 500 for n in range(30)}
    return {**files, "list.json": file_list("list.json", files)}


def kills_folder() -> Iterator[str]:
    """The writer of packs killed 150 times, half of them in new folders, half over what an earlier run wrote."""
    mixed = left = 0
    for kind in ("new", "again"):
        with tempfile.TemporaryDirectory() as name:
            place, number = Path(name), 0
            for _ in range(FOLDER_KILLS // 2):
                writer = subprocess.Popen(
                    [sys.executable, "-c", WRITER, str(place), str(number), kind], stdout=subprocess.PIPE, text=True
                )
                assert writer.stdout is not None
                writer.stdout.readline()
                time.sleep(random.uniform(0.02, 0.4))
                writer.kill()
                writer.wait()
                writer.stdout.close()
                folders = [path for path in place.iterdir() if not path.name.startswith(".")]
                number = 1000 + max((int(path.name) for path in folders if path.name.isdigit()), default=number)
                if kind == "new":  # nobody comes back to it: it must be whole as it is
                    mixed += sum(not is_one_run(folder) for folder in folders)
                    for folder in folders:
                        shutil.rmtree(folder)
                else:
                    write_folder(place / "one", files_of(number), listed_in="list.json")
                    mixed += not is_one_run(place / "one")
                    left += len(list(place.rglob(".*")))
            if kind == "new":
                for path in place.glob(".*"):
                    write_folder(place / path.name.split(".")[1], files_of(number), listed_in="list.json")
                left += len(list(place.rglob(".*")))
    yield f"{FOLDER_KILLS} kills: {mixed} folders mixed or not whole, {left} hidden files left over after the next run"


def is_one_run(folder: Path) -> bool:
    """Whether a folder has just the files that its list names, as they were written."""
    listed = digests_in(folder / "list.json")
    found = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    own = {
        name
        for name in listed
        if name == "list.json" or is_ours(folder.resolve() / name, folder.resolve(), listed[name])
    }
    return bool(listed) and found == set(listed) == own


BENCHMARKS = {"kills": kills, "kills-folder": kills_folder}
