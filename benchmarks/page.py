"""The workbench page in headless Chromium, on a kit of ten parts: first view, edit to picture, folding, weight, many tabs at once.

Needs Chromium on the machine (package `chromium` of Debian). The numbers hold for a machine on which little else runs.
"""

from __future__ import annotations

import shutil
import statistics
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from itertools import pairwise
from pathlib import Path

import uvicorn
from playwright.sync_api import Browser, Page, Request, sync_playwright

from benchmarks.proof import document
from kitwright.web import make_app
from kitwright.web.desk import VIEWS
from kitwright.workshop import Workshop

__all__ = ["BENCHMARKS"]

SWITCHES = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]
EDITS = 60
TABS = 8

WATCH = """() => {
  const place = document.querySelector("#part-7 [data-folded]");
  window.shown = [];
  new MutationObserver(() => window.shown.push(performance.now())).observe(place, { childList: true, subtree: true });
}"""
TYPE = """(value) => new Promise((done) => {
  const field = document.querySelector("#part-7 [name=lengths]");
  window.shown.length = 0;
  const began = performance.now();
  field.value = value;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  const look = () => window.shown.length ? done(window.shown[0] - began) : setTimeout(look, 1);
  look();
})"""
FRAMES = """(seconds) => new Promise((done) => {
  const frames = [];
  document.getElementById("play").click();
  const tick = (now) => {
    frames.push(now);
    if (now - frames[0] < seconds * 1000) requestAnimationFrame(tick); else done(frames);
  };
  requestAnimationFrame(tick);
})"""
PAINTED = """() => new Promise((done) => {
  const first = () => performance.getEntriesByName("first-contentful-paint")[0]?.startTime;
  if (first()) done(first()); else new PerformanceObserver(() => done(first())).observe({ type: "paint", buffered: true });
})"""


@contextmanager
def workbench() -> Iterator[tuple[Workshop, str]]:
    """A workshop and the address of a server for it."""
    with tempfile.TemporaryDirectory() as folder:
        shop = Workshop(Path(folder) / "shop")
        config = uvicorn.Config(make_app(shop), host="127.0.0.1", port=0, log_level="error", ws="none")
        server = uvicorn.Server(config)
        running = threading.Thread(target=server.run, daemon=True)
        running.start()
        while not server.started:
            running.join(0.02)
        yield shop, f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
        server.should_exit = True
        running.join()


@contextmanager
def chromium() -> Iterator[Browser]:
    """Headless Chromium. Raises `FileNotFoundError` where there is none."""
    path = shutil.which("chromium") or shutil.which("chromium-browser")
    if path is None:
        raise FileNotFoundError("Chromium is not on this machine: install the package chromium.")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=SWITCHES)
        yield browser
        browser.close()


def page() -> Iterator[str]:
    """First view (0.3 s), edit to picture (p95 0.1 s), frames a second while 60 panels fold (50), kilobytes of a page (300)."""
    with workbench() as (shop, address), chromium() as browser:
        kit = shop.begin("ten-parts", document(), words="Begun.")
        full = shop.begin("dressed", dressed(), words="Begun.")
        here = f"{address}/kit/{kit.word}"
        yield from first_views(browser, {"shelf": address, "kit": here})
        yield from edits(browser, here)
        yield from folding(browser, f"{address}/kit/{full.word}/folded?part=whole")
        yield from weights(browser, address, here)


def dressed() -> str:
    """A tray with things of ten kinds in it, its lid and eleven bands round it: more than sixty panels to move at once, and bodies."""
    head = document().partition("[[part]]")[0]
    things = [f"thing {n}" for n in range(1, 11)]
    extras = "".join(
        f'[[extra]]\nname = "{name}"\nsize = "{2 + n % 3} x 1 x 1/{2 + n % 4}"\npacked = "beside"\n'
        for n, name in enumerate(things)
    )
    held = ", ".join(f'"{name}"' for name in things)
    tray = f'[[part]]\nname = "tray"\nform = "tray"\npaper = "thin"\nholds = [{held}]\n'
    lid = '[[part]]\nname = "lid"\nform = "lift-off lid"\npaper = "thin"\ncovers = "tray"\n'
    bands = "".join(
        f'[[part]]\nname = "band {n}"\nform = "belly band"\npaper = "thin"\nwraps = "tray"\nheight = "1/2"\n'
        for n in range(1, 12)
    )
    return head + extras + tray + lid + bands


def first_views(browser: Browser, addresses: dict[str, str]) -> Iterator[str]:
    """From asking for a page to its first painting, each in a new window without anything kept."""
    for name, address in addresses.items():
        times = []
        for _ in range(7):
            tab = browser.new_page()
            tab.goto(address)
            times.append(tab.evaluate(PAINTED))
            tab.close()
        yield f"first view, {name}: {times[0]:.0f} ms at first, then {statistics.median(times[1:]):.0f} ms"


def edits(browser: Browser, here: str) -> Iterator[str]:
    """From typing a size of the tray to its new picture."""
    tab = browser.new_page()
    tab.goto(here)
    tab.evaluate(WATCH)
    tab.evaluate("document.querySelector('#part-7 [name=sizing]').value = 'size'")
    times = []
    for number in range(EDITS):
        times.append(
            tab.evaluate(
                TYPE, f"{6 + number // 16} {number % 16}/16 x 5 x 1" if number % 16 else f"{6 + number // 16} x 5 x 1"
            )
        )
        tab.wait_for_timeout(200 if number % 4 else 1500)  # three signs in a row, then a look at the verdict
    times.sort()
    yield f"edit to picture: {statistics.median(times):.0f} ms, p95 {times[int(0.95 * len(times))]:.0f} ms of {len(times)}"
    tab.close()


def folding(browser: Browser, address: str) -> Iterator[str]:
    """Frames a second while a whole kit with its panels moves."""
    tab = browser.new_page(viewport={"width": 1440, "height": 900})
    tab.goto(address)
    tab.wait_for_selector("#table[data-ready]")
    count, bodies = tab.locator(".hinge").count(), tab.locator(".body").count()
    frames = tab.evaluate(FRAMES, 2.5)
    gaps = sorted(b - a for a, b in pairwise(frames))
    yield (
        f"folding {count} panels with {bodies} bodies: {1000 * (len(frames) - 1) / (frames[-1] - frames[0]):.0f} frames/s, "
        f"one in twenty takes over {gaps[int(0.95 * len(gaps))]:.1f} ms"
    )
    tab.close()


def weights(browser: Browser, address: str, here: str) -> Iterator[str]:
    """Bytes as they come over the wire for each page, nothing kept from before."""
    found = {}
    for name in ("shelf", *(view for view, _ in VIEWS)):
        tab = browser.new_page()
        sizes: list[int] = []
        tab.on("requestfinished", partial(weigh, sizes))
        tab.goto(address if name == "shelf" else f"{here}/{name}")
        tab.wait_for_load_state("networkidle")
        found[name] = sum(sizes)
        tab.close()
    heaviest = max(found, key=lambda each: found[each])
    told = ", ".join(f"{name} {size / 1000:.0f}" for name, size in found.items())
    yield f"weight in kB: {told}; heaviest {heaviest}"


def weigh(sizes: list[int], request: Request) -> None:
    """Note the bytes of an answer."""
    sizes.append(request.sizes()["responseBodySize"])


def tabs() -> Iterator[str]:
    """Eight tabs load pages while the sheets of forty different cards are searched for, and it is stopped (they stay responsive)."""
    with workbench() as (shop, address), chromium() as browser:
        kit = shop.begin("ten-parts", document(), words="Begun.")
        hard = shop.begin("forty-cards", many_cards(), words="Begun.")
        here = f"{address}/kit/{kit.word}"
        opened = [browser.new_page() for _ in range(TABS)]
        alone = [loaded(tab, here) for tab in opened]
        opened[0].goto(f"{address}/kit/{hard.word}/sheets?kits=37")
        views = [view for view, _ in VIEWS if view != "print"]
        busy = sorted(loaded(tab, f"{here}/{view}") for view in views for tab in opened[1:4])
        stop = opened[0].get_by_role("button", name="Stop with what there is")
        told = "the search had ended"
        if stop.is_visible():
            began = time.perf_counter()
            stop.click()
            stop.wait_for(state="hidden")
            told = f"stopped {1000 * (time.perf_counter() - began):.0f} ms after it was asked to"
        yield (
            f"a page alone {statistics.median(alone):.0f} ms; {len(busy)} pages while it searches: {statistics.median(busy):.0f} ms, "
            f"p95 {busy[int(0.95 * len(busy))]:.0f} ms; {told}"
        )


def many_cards() -> str:
    """A kit of forty cards of different odd sizes: a long search."""
    head = document().partition("[[part]]")[0]
    return head + "".join(
        f'[[part]]\nname = "card {n}"\nform = "flat card"\npaper = "white"\n'
        f'size = "{2 + n % 7} {1 + 2 * (n % 8)}/16 x {2 + n % 5} {1 + 2 * (n % 6)}/16"\nquantity = {1 + n % 3}\n'
        for n in range(40)
    )


def loaded(tab: Page, address: str) -> float:
    """Milliseconds until a page is there and drawn."""
    began = time.perf_counter()
    tab.goto(address)
    return 1000 * (time.perf_counter() - began)


BENCHMARKS = {"page": page, "tabs": tabs}
