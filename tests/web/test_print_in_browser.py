"""The paper's picture in a real browser: on every panel the piece that the cutting plan gives it, also while a blank is moved."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from fractions import Fraction
from importlib import resources

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Page, expect

from kitwright.cutting import to_mm
from kitwright.kit import blank_label, read_kit
from kitwright.plan import plan
from kitwright.web.printed import sheets_of
from kitwright.workshop import Workshop
from tests.web.conftest import swipe

# For every painted panel: the matrix of its picture, and where its leaf begins, in mm.
PRINTS = """() => Object.fromEntries([...document.querySelectorAll(".hinge")].map((hinge) => {
  const svg = hinge.querySelector(":scope > .leaf.front");
  const image = svg.querySelector("image");
  const m = image.transform.baseVal.consolidate().matrix;
  return [hinge.dataset.panel, [m.a, m.b, m.c, m.d, m.e, m.f, parseFloat(svg.style.left) / 2, parseFloat(svg.style.top) / 2]];
}))"""


@pytest.fixture
def printed(page: Page, served: Workshop) -> Iterator[Page]:
    """A tab with the recipe box, a picture on its berries, its up at the picture's right edge."""
    made = io.BytesIO()
    Image.new("RGB", (60, 60), "orange").save(made, "PNG")
    picture = served.scans.add(made.getvalue(), "berries")
    text = resources.files("kitwright").joinpath("examples", "recipe-box.toml").read_text()
    scan = (
        f'label = "Berry sprigs"\nscan = {{ picture = "{picture}", shows = "10 x 11", at = "1 x 1/2", up = "right" }}'
    )
    kit = served.begin("printed", text.replace('label = "Berry sprigs"', scan), words="Begun.")
    page.goto(f"/kit/{kit.word}")
    yield page
    served.remove(kit.word)


def word_of(page: Page) -> str:
    return page.url.split("/kit/")[1].split("/")[0].split("?")[0]


def test_every_corner_of_every_panel_shows_the_point_of_the_sheet_that_the_cutting_plan_gives_it(
    printed: Page, served: Workshop
) -> None:
    word = word_of(printed)
    made = plan(read_kit(served.read(word).document), batch=1)
    paper = next(each for each in made.papers if each.paper.key == "berries")
    places = {one.piece: one for sheet in sheets_of(made, paper) for one in sheet.lying}
    for number, part in enumerate(made.built.parts):
        if part.part.paper != "berries":
            continue
        printed.goto(f"/kit/{word}/folded?part={number}")
        printed.locator("#table[data-printed]").wait_for()
        shown = printed.evaluate(PRINTS)
        for copy, blank in part.pattern.copies():
            one = places[blank_label(part, blank)]
            x, y, high, wide = (float(to_mm(each)) for each in (one.x, one.y, one.height, one.width))
            for panel in blank.panels:
                a, b, c, d, e, f, left, top = shown[f"{copy}/{panel.name}"]
                picture = np.array([[a, c, e], [b, d, f], [0, 0, 1]])
                for u, v in panel.outline:
                    across, down, _ = np.linalg.inv(picture) @ [u - left, -v - top, 1]
                    # By hand: the picture's right edge is up, so it goes down along the sheet's width and across along its height.
                    seen = (25.4 * (1 + 10 * down), 25.4 * (0.5 + 11 * across))
                    wanted = {
                        0: (x + u, y + v),
                        1: (x + wide - v, y + u),
                        2: (x + wide - u, y + high - v),
                        3: (x + v, y + high - u),
                    }
                    assert seen == pytest.approx(wanted[one.turn], abs=1e-4), (part.name, panel.name)


def test_a_blank_is_moved_by_keys_the_folded_part_follows_and_the_move_is_kept_and_undone(
    printed: Page, served: Workshop
) -> None:
    word = word_of(printed)
    printed.goto(f"/kit/{word}/paper?paper=berries")
    printed.locator("#placing[data-ready]").wait_for()
    expect(printed.locator("#verdict-words")).to_contain_text("the trimmer does it")
    printed.locator(".leaf.printed").first.wait_for()
    keep = printed.get_by_role("button", name="Keep this sheet so")
    expect(keep).to_be_disabled()
    before = printed.evaluate(PRINTS)
    printed.locator(".piece").first.focus()
    printed.keyboard.press("Shift+ArrowRight")
    printed.keyboard.press("ArrowUp")
    expect(printed.locator("#from-left")).to_have_value("5/8")
    expect(printed.locator("#from-below")).to_have_value("1/16")
    after = printed.evaluate(PRINTS)
    moved = [panel for panel in before if before[panel] != after[panel]]
    assert moved
    for panel in moved:
        right, down = np.subtract(after[panel][4:6], before[panel][4:6])
        assert (right, down) == pytest.approx((-0.625 * 25.4, 0.0625 * 25.4), abs=1e-4)
    printed.keyboard.press("r")
    expect(printed.locator("#verdict-words")).to_contain_text("cannot be kept")
    for _ in range(3):
        printed.keyboard.press("r")
    expect(keep).to_be_enabled()
    keep.click()
    expect(printed.locator(".latest")).to_contain_text("laid by hand")
    assert "laid = [[" in served.read(word).document
    printed.get_by_role("button", name="Undo").click()
    expect(printed.locator(".latest")).to_have_count(0)
    assert "laid =" not in served.read(word).document


@pytest.mark.parametrize("by", ["mouse", "finger"])
def test_a_blank_is_dragged_by_whole_marks_of_the_ruler(printed: Page, by: str) -> None:
    printed.goto(f"/kit/{word_of(printed)}/paper?paper=berries")
    printed.locator("#placing[data-ready]").wait_for()
    printed.locator("#from-left").scroll_into_view_if_needed()
    edge = printed.locator(".piece .edge").first.bounding_box()
    assert edge is not None
    x, y = edge["x"] + 40, edge["y"] + edge["height"] / 2
    if by == "mouse":
        printed.mouse.move(x, y)
        printed.mouse.down()
        printed.mouse.move(x + 30, y - 20, steps=4)
        printed.mouse.up()
    else:
        swipe(printed, (x, y), (30, -20))
    for side in ("left", "below"):
        at = sum(Fraction(each) for each in printed.locator(f"#from-{side}").input_value().split())
        assert at > 0
        assert (at * 16).denominator == 1


def test_a_place_is_typed_from_any_edge_and_a_wrong_text_is_told_beside_it_and_not_kept(
    printed: Page, served: Workshop
) -> None:
    word = word_of(printed)
    printed.goto(f"/kit/{word}/paper?paper=berries")
    printed.locator("#placing[data-ready]").wait_for()
    chosen = printed.locator(".piece[aria-pressed=true]")
    blank = (chosen.get_attribute("aria-label") or "").rpartition(": ")[0]
    left, top, below = (printed.locator(f"#from-{edge}") for edge in ("left", "top", "below"))
    keep = printed.get_by_role("button", name="Keep this sheet so")
    top.fill("1/")
    expect(printed.locator("#from-top-wrong")).to_contain_text("not a length")
    left.fill("1 1/16")
    expect(chosen).to_have_attribute("aria-label", re.compile("1 1/16 from the left"))
    expect(top).to_have_value("1/")  # what is wrong stays, and nothing is kept while it does
    expect(keep).to_be_disabled()
    top.fill("⅛")
    expect(keep).to_be_enabled()
    up = sum(Fraction(each) for each in below.input_value().split())
    keep.click()
    expect(printed.locator(".latest")).to_contain_text("laid by hand")
    (sheet, *_) = read_kit(served.read(word).document).laid["berries"]
    (one,) = [each for each in sheet if each.at[0] == Fraction("25.4") * Fraction(17, 16)]
    assert (one.blank, one.at[1]) == (blank, up * Fraction("25.4"))
