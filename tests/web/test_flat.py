"""The flat patterns: numbered scores that can be pointed at, pictures of any size, and the fold of one score in the browser."""

import io
import re
from collections.abc import Iterator
from html import unescape
from importlib import resources

import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, expect
from starlette.testclient import TestClient

from kitwright.workshop import Workshop

LID = 3
"""The place of the lid among the blanks of the recipe box."""


def recipe_box() -> str:
    return resources.files("kitwright").joinpath("examples", "recipe-box.toml").read_text()


@pytest.fixture
def word(shop: Workshop) -> str:
    """The recipe box on the shelf."""
    return shop.begin("recipe-box", recipe_box(), words="Begun from an example.").word


def test_every_score_has_its_number_in_the_order_of_the_bench_and_says_how_it_folds(
    client: TestClient, word: str
) -> None:
    lid = unescape(client.get(f"/kit/{word}/flat/{LID}?width=120&height=100").text)
    assert re.findall(r'aria-label="(Score [^"]+)" data-score="(\d)" data-hinges="(.*?)">', lid) == [
        ("Score 1, at 3/8 in from below: mountain, away from you", "1", '["front hem"]'),
        ("Score 2, at 2 1/8 in from below: mountain, away from you", "2", '["front flap"]'),
        ("Score 3, at 4 in from below: mountain, away from you", "3", '["back"]'),
        ("Score 4, at 6 1/2 in from below: mountain, away from you", "4", '["back hem"]'),
    ]


def test_a_larger_picture_shows_the_blank_larger_and_its_letters_as_they_were(client: TestClient, word: str) -> None:
    def picture(room: int) -> tuple[float, set[str]]:
        text = client.get(f"/kit/{word}/flat/{LID}?width={room}&height={room}").text
        size = re.search(r'class="scores" viewBox="0 0 ([\d.]+) ', text)
        assert size
        return float(size[1]), set(re.findall(r'font-size="([\d.]+)"', text))

    (small, letters), (large, same) = picture(120), picture(480)
    assert 480 >= large > 3.8 * small
    assert "3.5" in letters & same


@pytest.mark.parametrize(
    "address", ["flat/99?width=120&height=100", "flat/0", "flat/0?width=-5&height=9", "flat/0?width=1e3&height=100"]
)
def test_a_picture_of_nothing_is_not_found(client: TestClient, word: str, address: str) -> None:
    assert client.get(f"/kit/{word}/{address}").status_code == 404


def test_a_papers_picture_lies_on_the_flat_pattern_as_the_cutting_plan_lays_the_blank(
    client: TestClient, shop: Workshop
) -> None:
    green = io.BytesIO()
    Image.new("RGB", (30, 30), "green").save(green, "PNG")
    picture = shop.scans.add(green.getvalue(), "sprigs")
    text = recipe_box().replace('label = "Berry sprigs"', f'label = "Berry sprigs"\nscan = {{ picture = "{picture}" }}')
    # The only lid lies with its lower left corner an inch to the right and half an inch up.
    one = '"lid at 1 x 1/2"'
    word = shop.begin("box", text.replace('print = "one-way" ', f'laid = [[{one}]]\nprint = "one-way" '), words="").word
    while not client.get(f"/kit/{word}/places").json()["done"]:
        pass
    lid = client.get(f"/kit/{word}/flat/{LID}?width=120&height=100").text
    points = re.search(r'class="ground" points="([^"]+)"', lid)
    matrix = re.search(r'<image href="/picture/sprigs[^"]*"[^>]* transform="matrix\(([^)]+)\)"', lid)
    assert points
    assert matrix
    xs, ys = zip(*(map(float, point.split(",")) for point in points[1].split()), strict=True)
    a, b, c, d, e, f = map(float, matrix[1].split())
    inch = (max(xs) - min(xs)) / 6.375  # the lid is 6 3/8 in wide, the sheet 12 × 12
    assert (a, b, c, d) == pytest.approx((12 * inch, 0, 0, 12 * inch), abs=1e-3)
    assert (e, f) == pytest.approx((min(xs) - inch, max(ys) - 11.5 * inch), abs=1e-3)
    assert "Lies on layout A, as drawn, its lower left corner at 1 × 1/2." in unescape(lid)


def test_without_a_picture_signs_say_which_way_up_a_print_goes(client: TestClient, word: str) -> None:
    assert 'fill="url(#print-one-way-0)"' in client.get(f"/kit/{word}/flat/{LID}?width=120&height=100").text
    assert 'class="under"' not in client.get(f"/kit/{word}/flat/0?width=120&height=100").text


@pytest.fixture
def flat(browser: Browser, address: str, served: Workshop) -> Iterator[Page]:
    """The flat patterns of the recipe box, for somebody who does not want motion."""
    kit = served.begin("recipe-box", recipe_box(), words="Begun from an example.")
    context = browser.new_context(base_url=address, viewport={"width": 390, "height": 844}, reduced_motion="reduce")
    page = context.new_page()
    page.goto(f"/kit/{kit.word}/flat")
    yield page
    context.close()
    served.remove(kit.word)


AT_FAR_EDGE = """(name) => {
  const hinge = [...document.querySelectorAll(".tiny .hinge")].find((each) => each.dataset.panel.endsWith(name));
  const m = hinge.computedStyleMap().get("transform").toMatrix();
  return [m.m11, m.m12, m.m13, m.m21, m.m22, m.m23, m.m31, m.m32, m.m33];
}"""


def test_a_score_chosen_by_key_is_folded_in_the_small_scene_and_no_other(flat: Page) -> None:
    lid = flat.locator(".flat-piece").nth(LID)
    lid.locator("[data-score='2']").focus()
    expect(lid.locator(".tiny")).to_have_attribute("data-folded", "2")
    expect(lid.locator(".tried")).to_contain_text("Score 2, at 2 1/8 in from below")
    # A quarter turn about the x axis, away from the eye, on a screen whose y points down; the others lie flat.
    assert flat.evaluate(AT_FAR_EDGE, "/front flap") == [1, 0, 0, 0, 0, -1, 0, 1, 0]
    assert flat.evaluate(AT_FAR_EDGE, "/back") == [1, 0, 0, 0, 1, 0, 0, 0, 1]


def test_keys_enlarge_a_pattern_and_its_letters_stay_as_large(flat: Page) -> None:
    lid = flat.locator(".flat-piece").nth(LID)
    number = lid.locator("text", has_text=re.compile("^2$")).first
    edge = lid.locator(".kw-cut path").first
    lid.locator(".pane").focus()
    flat.keyboard.press("+")
    flat.keyboard.press("+")
    expect(lid.locator(".drawn")).to_have_attribute("data-size", "2.25")
    letters, width = number.bounding_box(), edge.bounding_box()
    flat.keyboard.press("0")
    expect(lid.locator(".drawn")).to_have_attribute("data-size", "1")
    after, narrow = number.bounding_box(), edge.bounding_box()
    assert letters and after and width and narrow
    assert letters["height"] == pytest.approx(after["height"], abs=0.5)
    assert width["width"] > 2 * narrow["width"]


def test_measures_are_shown_or_not_as_the_maker_likes(flat: Page) -> None:
    measures = flat.locator(".flat-piece").nth(LID).locator(".kw-dimension").first
    expect(measures).to_be_visible()
    flat.get_by_label("Show the measures").uncheck()
    expect(measures).to_be_hidden()
