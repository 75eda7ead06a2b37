"""From an empty shelf to a downloaded pack for a kit that is no example: by keys alone, and with a finger on a tablet."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Download, Locator, Page, expect

from kitwright.workshop import Workshop
from tests.web.conftest import swipe

FOCUS = """() => {
  const at = document.activeElement, style = getComputedStyle(at);
  const ring = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0;
  return [(at.labels?.[0]?.textContent ?? at.getAttribute("aria-label") ?? at.textContent).trim(), ring || style.boxShadow !== "none"];
}"""


def tab_to(page: Page, words: str, *, most: int = 120) -> None:
    """Tab on until something with these words has the focus; everything on the way shows that it has it."""
    for _ in range(most):
        page.keyboard.press("Tab")
        said, is_shown = page.evaluate(FOCUS)
        assert is_shown, f"nobody sees that {said!r} has the focus"
        if words in said:
            return
    raise AssertionError(f"Tab never comes to {words!r}")


def holds_a_pack(pack: Download) -> bool:
    with zipfile.ZipFile(pack.path()) as whole:
        return {"bench-pack.pdf", "kit.toml", "plan.json"} <= set(whole.namelist())


def test_the_whole_way_by_keys_alone(page: Page) -> None:
    page.goto("/")
    tab_to(page, "Begin a kit")
    page.keyboard.press("Enter")
    page.wait_for_url("**/new*")
    tab_to(page, "Name of the kit")
    page.keyboard.type("Moth swap")
    tab_to(page, "Width")
    page.keyboard.press("Control+a")
    page.keyboard.type("4 1/0")
    page.keyboard.press("Enter")
    expect(page.locator("#card_width-wrong")).to_be_visible()
    tab_to(page, "Width")
    page.keyboard.press("Control+a")
    page.keyboard.type("3 3/4")
    page.keyboard.press("Enter")
    expect(page.locator("#verdict")).to_contain_text("Proved:")
    for view, words in (("fits", "Does it fit?"), ("sheets", "Sheets"), ("bench", "At the bench"), ("print", "Print")):
        tab_to(page, words)
        page.keyboard.press("Enter")
        page.wait_for_url(f"**/{view}*")
    tab_to(page, "How many kits")
    page.keyboard.press("Control+a")
    page.keyboard.type("2")
    tab_to(page, "All that is chosen")
    with page.expect_download() as pack:
        page.keyboard.press("Enter")
    assert holds_a_pack(pack.value)


@pytest.fixture
def tablet(browser: Browser, address: str) -> Iterator[BrowserContext]:
    """A tablet held upright, worked with fingers."""
    made = browser.new_context(
        base_url=address, viewport={"width": 820, "height": 1180}, has_touch=True, is_mobile=True, accept_downloads=True
    )
    made.set_default_timeout(10_000)
    elsewhere: list[str] = []
    made.on(
        "request", lambda each: None if each.url.startswith((address, "blob:", "data:")) else elsewhere.append(each.url)
    )
    yield made
    made.close()
    assert elsewhere == []


def middle_of(place: Locator) -> tuple[float, float]:
    """The middle of something on the screen."""
    box = place.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_the_whole_way_with_a_finger_on_a_tablet(tablet: BrowserContext, served: Workshop) -> None:
    page = tablet.new_page()
    page.goto("/")
    page.get_by_role("link", name="Begin a kit").tap()
    page.get_by_label("Name of the kit").fill("Pond cards")
    page.get_by_label("Width").fill("3¾")
    page.get_by_role("button", name="Make the kit").tap()
    expect(page.locator("#verdict")).to_contain_text("Proved:")
    page.get_by_role("link", name="Folded", exact=True).tap()
    page.locator("#table[data-ready]").wait_for()
    swipe(page, middle_of(page.locator("#table")), (120, 60))
    turned = page.evaluate("document.querySelector('.scene').style.transform")
    # half a degree for every pixel, from where the view begins: the finger was followed to its end, and the page did not scroll instead
    assert "rotateX(34deg) rotateZ(32deg)" in turned
    page.get_by_role("button", name="Next step").tap()
    page.get_by_role("link", name="Sheets", exact=True).tap()
    page.get_by_label("How many kits").fill("2")
    expect(page.locator("#found[data-kits='2']")).to_contain_text("No plan can do with fewer")
    page.get_by_role("link", name="At the bench").tap()
    page.get_by_role("button", name="Done, next").tap()
    expect(page.locator("#where")).to_contain_text("2 of")
    page.get_by_role("link", name="Print", exact=True).tap()
    with page.expect_download() as pack:
        page.get_by_role("button", name="All that is chosen").tap()
    assert holds_a_pack(pack.value)
