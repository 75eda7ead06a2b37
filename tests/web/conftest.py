"""A workbench to ask: in this process, and as a server for a real browser."""

from __future__ import annotations

import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import uvicorn
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright
from starlette.applications import Starlette
from starlette.testclient import TestClient

from kitwright.web import make_app
from kitwright.workshop import Workshop

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
SWITCHES = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
HERE = "http://127.0.0.1:8000"


@pytest.fixture
def shop(tmp_path: Path) -> Workshop:
    """An empty workshop."""
    return Workshop(tmp_path / "shop")


@pytest.fixture
def client(shop: Workshop) -> Iterator[TestClient]:
    """A client that behaves as the page itself does; a fault in the program is an answer, as for a browser."""
    with TestClient(
        make_app(shop), base_url=HERE, headers={"origin": HERE}, follow_redirects=False, raise_server_exceptions=False
    ) as asking:
        yield asking


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium; where there is none the tests in it are left out, and say so."""
    if CHROMIUM is None:
        pytest.skip("left out: no Chromium on this machine (package chromium of Debian)")
    with sync_playwright() as playwright:
        made = playwright.chromium.launch(executable_path=CHROMIUM, args=SWITCHES)
        yield made
        made.close()


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Workshop:
    """The workshop of the running server."""
    return Workshop(tmp_path_factory.mktemp("workshop"))


@contextmanager
def serving(app: Starlette) -> Iterator[str]:
    """The address of a server that runs."""
    server = uvicorn.Server(uvicorn.Config(app, host="127.0.0.1", port=0, log_level="warning", ws="none"))
    running = threading.Thread(target=server.run, daemon=True)
    running.start()
    while not server.started:
        running.join(0.02)
    yield f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
    server.should_exit = True
    running.join()


@pytest.fixture(scope="session")
def address(served: Workshop) -> Iterator[str]:
    """The address of a running server."""
    with serving(make_app(served)) as running:
        yield running


@pytest.fixture
def context(browser: Browser, address: str) -> Iterator[BrowserContext]:
    """A browser window; no request of its pages may leave this machine, and none may meet an error of a script."""
    made = browser.new_context(base_url=address, viewport={"width": 1440, "height": 900}, accept_downloads=True)
    made.set_default_timeout(10_000)
    elsewhere: list[str] = []
    errors: list[str] = []
    made.on(
        "request",
        lambda request: None if request.url.startswith((address, "blob:", "data:")) else elsewhere.append(request.url),
    )
    made.on("weberror", lambda error: errors.append(str(error.error)))
    made.on(
        "console",
        lambda said: errors.append(said.text) if said.type == "error" and "status of 4" not in said.text else None,
    )
    yield made
    made.close()
    assert elsewhere == []
    assert errors == []


@pytest.fixture
def page(context: BrowserContext) -> Page:
    """An empty tab."""
    return context.new_page()


def swipe(page: Page, start: tuple[float, float], by: tuple[float, float]) -> None:
    """A finger put down at a point of the screen, moved and lifted."""
    finger = page.context.new_cdp_session(page)
    for kind, share in (
        ("touchStart", 0.0),
        ("touchMove", 0.25),
        ("touchMove", 0.5),
        ("touchMove", 0.75),
        ("touchMove", 1.0),
    ):
        at = {"x": start[0] + share * by[0], "y": start[1] + share * by[1]}
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [at]})
    finger.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
