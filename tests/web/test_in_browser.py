"""The workbench in a real browser: the whole way, by mouse, keys and touch; folding as the engine folds; nothing leaves the machine.

Accessibility is judged by axe-core (rules of WCAG 2.0 to 2.2, A and AA). Left out, in so many words, where there is no Chromium.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from functools import partial
from importlib import resources

import numpy as np
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Dialog, Page, Request, expect

from kitwright.cutting import QUICK, Effort, Progress, ProgressCall
from kitwright.folding import fold_after
from kitwright.kit import BuiltKit, build, filling, prove, read_kit
from kitwright.plan import PaperPlan, lay_out_kit, machine
from kitwright.web import make_app, making
from kitwright.web.desk import VIEWS
from kitwright.web.fold_data import whole_data
from kitwright.web.leaves import SMALL
from kitwright.web.workroom import Door
from kitwright.workshop import Workshop
from tests.web.conftest import serving
from tests.web.test_making import unproved
from tests.web.test_mats import endless, one_to_a_mat

RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}
FOLD_TO = "(at) => { const s = document.getElementById('steps'); s.value = at; s.dispatchEvent(new Event('input')); }"
CONTRAST = {"runOnly": ["color-contrast"]}
"""What the dark colours can change; the pages are otherwise the same."""

PLACES = """() => {
  const scene = document.querySelector(".scene");
  return Object.fromEntries([...document.querySelectorAll(".hinge")].map((each) => {
    let whole = new DOMMatrix();
    for (let at = each; at !== scene; at = at.parentElement) {
      whole = at.computedStyleMap().get("transform").toMatrix().multiply(whole);
    }
    return [each.dataset.panel, [...whole.toFloat64Array()]];
  }));
}"""

BODIES = """() => [...document.querySelectorAll(".body:not(.away)")].map((body) => {
  const motion = (each) => each.computedStyleMap().get("transform").toMatrix();
  const corners = [...body.children].flatMap((face) => [0, 1].flatMap((x) => [0, 1].map((y) =>
    motion(face).transformPoint(new DOMPoint(x * parseFloat(face.style.width), y * parseFloat(face.style.height))))));
  const ends = (of) => ["x", "y", "z"].map((axis) => of(...corners.map((each) => each[axis])));
  return { at: [...motion(body).toFloat64Array()], low: ends(Math.min), high: ends(Math.max) };
})"""


def test_the_whole_way_from_an_empty_shelf_to_a_pack(context: BrowserContext, page: Page) -> None:
    page.goto("/")
    page.get_by_role("link", name="Begin a kit").click()
    page.get_by_label("Name of the kit").fill("Garden notes")
    page.get_by_label("Width").fill("4 1/0")
    page.get_by_role("button", name="Make the kit").click()
    expect(page.locator("#card_width-wrong")).to_be_visible()
    page.get_by_label("Width").fill("4¼")
    page.get_by_label("Height").fill("5-1/2")
    page.get_by_role("button", name="Make the kit").click()
    expect(page.locator("#verdict")).to_contain_text("Proved:")
    page.get_by_role("link", name="Print", exact=True).click()
    page.get_by_label("How many kits").fill("3")
    with page.expect_download() as pack:
        page.get_by_role("button", name="All that is chosen").click()
    with zipfile.ZipFile(pack.value.path()) as whole:
        assert {"bench-pack.pdf", "kit.toml", "plan.json"} <= set(whole.namelist())


@pytest.fixture
def box(page: Page, served: Workshop) -> Iterator[Page]:
    """A tab with the recipe box, taken off the shelf afterwards."""
    kit = served.begin("recipe-box", example("recipe-box"), words="Begun from an example.")
    page.goto(f"/kit/{kit.word}")
    yield page
    served.remove(kit.word)


def example(name: str) -> str:
    return resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text()


def word_of(page: Page) -> str:
    return page.url.split("/kit/")[1].split("/")[0].split("#")[0].split("?")[0]


def test_while_a_number_is_typed_the_part_is_drawn_anew_and_wrong_text_is_explained(box: Page) -> None:
    lid = box.locator("#part-1")
    size = lid.get_by_label("Size: width × height")
    before = lid.locator("[data-folded]").inner_html()
    size.fill("6 x 4¾")
    expect(lid.locator("[data-size]")).to_have_text("6 × 4 3/4 in")
    assert lid.locator("[data-folded]").inner_html() != before
    size.fill("6 x 4 3/")
    expect(lid.locator("[data-fault='lengths']")).not_to_be_empty()
    expect(size).to_have_attribute("aria-invalid", "true")
    assert size.input_value() == "6 x 4 3/"
    size.fill("6 x 4 3/4")
    expect(lid.locator("[data-fault='lengths']")).to_be_empty()
    size.press("Enter")
    expect(box.locator(".latest")).to_contain_text("divider: size 6 x 4 3/4")
    box.get_by_role("button", name="Undo").click()
    expect(box.locator("#part-1 [data-size]")).to_have_text("6 × 4 1/2 in")


def test_what_is_typed_wrongly_is_not_sent_and_stays_in_its_field(box: Page) -> None:
    part, address = box.locator("#part-1"), box.url
    size = part.get_by_label("Size: width × height")
    size.fill("6 x 4 1/")
    size.press("Enter")
    expect(part.locator("[data-fault='lengths']")).to_contain_text("not a length")
    expect(size).to_be_focused()
    expect(size).to_have_value("6 x 4 1/")
    assert box.url == address


def test_leaving_with_numbers_not_kept_is_asked_about_even_when_another_part_is_kept(box: Page) -> None:
    asked: list[str] = []

    def answer(dialog: Dialog) -> None:
        asked.append(dialog.type)
        dialog.dismiss()

    box.on("dialog", answer)
    box.locator("#part-0").get_by_label("How many in a kit").fill("20")
    box.locator("#part-1").get_by_label("How many in a kit").fill("4")
    with box.expect_event("dialog"):
        box.locator("#part-1").get_by_role("button", name="Keep").click()
    expect(box.locator("#part-0").get_by_label("How many in a kit")).to_have_value("20")
    assert asked == ["beforeunload"]


def test_a_wrong_text_for_a_paper_is_told_beside_it_while_typing_and_is_not_sent(box: Page) -> None:
    paper, address = box.locator("#paper-0"), box.url
    sheet = paper.get_by_label("Sheet, width × height, in")
    sheet.fill("12 x")
    expect(paper.locator("[data-fault='sheet']")).to_contain_text("12 x")
    expect(sheet).to_have_attribute("aria-invalid", "true")
    sheet.press("Enter")
    expect(sheet).to_be_focused()
    assert box.url == address
    sheet.fill("12 x 12.5")
    expect(paper.locator("[data-fault='sheet']")).to_be_empty()
    sheet.press("Enter")
    expect(box.locator(".latest")).to_contain_text("Kraft cardstock: sheet 12 x 12.5")


def test_a_thing_to_buy_is_added_and_taken_out(box: Page) -> None:
    box.get_by_text("Add a thing to buy").first.click()
    adding = box.locator("#add-extra")
    adding.get_by_label("Called").fill("eraser")
    adding.get_by_label("Its three sides, in").fill("1 x 1/2")
    adding.get_by_role("button", name="Add a thing to buy").click()
    expect(adding.locator("[data-fault='size']")).to_contain_text("two lengths")
    adding.get_by_label("Its three sides, in").fill("1 x ½ x ½")
    adding.get_by_role("button", name="Add a thing to buy").click()
    expect(box.locator(".latest")).to_contain_text("Added eraser")
    expect(box.locator("#part-2 .what")).to_contain_text("eraser")
    box.get_by_role("button", name="Take out 1 × eraser").click()
    expect(box.locator(".latest")).to_contain_text("Took out eraser")


def test_what_does_not_fit_is_mended_by_the_button_beside_it(box: Page) -> None:
    part = box.locator("#part-3")
    part.get_by_label("Its size is").select_option("size")
    part.get_by_label("Size: width × depth").fill("6 x 1 3/4")
    expect(box.locator("#verdict")).to_contain_text("Not proved")
    part.get_by_role("button", name="Keep").click()
    expect(box.locator(".latest")).to_contain_text("lid: size 6 x 1 3/4")
    box.locator("#verdict").click()
    box.get_by_role("button", name="Do this: Make lid").first.click()
    expect(box.locator("#verdict")).to_contain_text("Proved:")
    expect(box.locator(".latest")).to_contain_text("Make lid")


@pytest.mark.parametrize("name", ["recipe-box", "thank-you-cards"])
def test_every_panel_lies_where_the_engine_folds_it_after_every_step(page: Page, served: Workshop, name: str) -> None:
    text = example(name)
    word = served.begin(name, text, words="Begun from an example.").word
    turned_y = np.diag([1.0, -1.0, 1.0, 1.0])
    for number, part in enumerate(build(read_kit(text)).parts):
        page.goto(f"/kit/{word}/folded?part={number}")
        page.locator("#table[data-ready]").wait_for()
        for step in range(len(part.pattern.stages) + 1):
            page.evaluate(
                FOLD_TO,
                step,
            )
            shown = page.evaluate(PLACES)
            folded = fold_after(part.pattern, step - 1)
            assert set(shown) == {f"{ref.blank}/{ref.panel}" for ref in folded.refs}
            for ref in folded.refs:
                place = np.array(shown[f"{ref.blank}/{ref.panel}"], dtype=np.float64).reshape(4, 4).T
                place[:3, 3] /= 2  # two pixels a millimetre
                wanted = turned_y @ folded.poses[ref] @ turned_y
                assert np.abs(place - wanted).max() <= 1e-6, (part.name, step, ref)


def test_the_whole_kit_opens_and_every_part_and_all_it_holds_moves_as_the_engine_says(box: Page) -> None:
    built = build(read_kit(example("recipe-box")))
    data = whole_data(built, filling(built, built.part("box"), prove(built, with_fixes=False).findings))
    assert data is not None
    box.goto(f"/kit/{word_of(box)}/folded?part=whole")
    box.locator("#table[data-ready]").wait_for()
    expect(box.locator("#step-words")).to_contain_text("held over the box")
    turned_y = np.diag([1.0, -1.0, 1.0, 1.0])

    def is_as_said(shown: list[float], said: list[float]) -> bool:
        place = np.array(shown, dtype=np.float64).reshape(4, 4).T
        place[:3, 3] /= 2
        wanted = turned_y @ np.array(said).reshape(4, 4).T @ turned_y
        return bool(np.abs(place - wanted).max() <= 1e-6)

    for step, state in enumerate(data["states"]):
        box.evaluate(FOLD_TO, step)
        shown = box.evaluate(PLACES)
        for copy in data["copies"]:
            assert is_as_said(shown[f"{copy['name']}/{copy['root']}"], state["roots"][copy["name"]]), (copy, step)
        bodies = box.evaluate(BODIES)
        assert len(bodies) == len(state["bodies"])
        for body, place, said in zip(bodies, state["bodies"], data["bodies"], strict=False):
            assert is_as_said(body["at"], place), (said, step)
            # Its faces reach from its low corner to its high one: y points down on the screen.
            width, depth, height = (2 * each for each in said["size"])
            assert body["low"] == pytest.approx([0, -depth, 0], abs=1e-4)
            assert body["high"] == pytest.approx([width, 0, height], abs=1e-4)


def test_contents_are_named_by_list_key_and_pointer_and_can_be_left_out(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/folded?part=whole")
    box.locator("#table[data-ready]").wait_for()
    told = box.locator(".pointed")
    expect(told).to_be_hidden()
    box.get_by_role("button", name="5 × divider").focus()
    expect(told).to_have_text("5 × divider")
    expect(box.locator(".body.marked")).to_have_count(1)
    box.keyboard.press("Enter")
    box.get_by_label("With contents").focus()
    expect(told).to_have_text("5 × divider")
    cards = box.locator(".body.hue-0 .facet").nth(2).bounding_box()
    assert cards is not None
    box.mouse.move(cards["x"] + cards["width"] / 2, cards["y"] + cards["height"] / 2)
    expect(told).to_have_text("24 × recipe card")
    box.get_by_label("With contents").focus()
    expect(box.locator(".body .facet").nth(2)).to_be_visible()
    box.keyboard.press("Space")
    expect(box.locator(".body .facet").nth(2)).to_be_hidden()


def test_between_two_steps_panels_stay_rigid_and_hang_on_their_scores(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/folded?part=2")
    box.locator("#table[data-ready]").wait_for()
    for at in (0.3, 1.5, 2.77):
        box.evaluate(
            FOLD_TO,
            at,
        )
        for values in box.evaluate(PLACES).values():
            turn = np.array(values).reshape(4, 4).T[:3, :3]
            assert np.abs(turn @ turn.T - np.eye(3)).max() <= 1e-9
            assert np.linalg.det(turn) == pytest.approx(1.0)


def test_nested_turns_are_not_flattened(box: Page) -> None:
    # A leaf turned 45° inside one turned 45° must be seen edge on; a flattened one would still show half its width.
    box.goto(f"/kit/{word_of(box)}/folded?part=0")
    box.locator("#table[data-ready]").wait_for()
    width = box.evaluate(
        """() => {
          const make = (parent) => { const made = document.createElement("div"); made.className = "hinge";
            made.style.transform = "rotateY(45deg)"; parent.append(made); return made; };
          const leaf = make(make(document.querySelector(".table")));
          leaf.style.width = leaf.style.height = "100px";
          leaf.parentElement.parentElement.style.perspective = "none";
          return leaf.getBoundingClientRect().width;
        }"""
    )
    assert width < 0.01


def test_the_folded_view_is_worked_by_keys_alone(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/folded?part=2")
    box.locator("#table[data-ready]").wait_for()
    table = box.locator("#table")
    table.focus()
    scene = "document.querySelector('.scene').style.transform"
    before = box.evaluate(scene)
    box.keyboard.press("ArrowRight")
    assert box.evaluate(scene) != before
    slider = box.get_by_label("How far it is folded")
    slider.focus()
    box.keyboard.press("Home")
    expect(box.locator("#step-words")).to_contain_text("Flat on the table")
    box.get_by_role("button", name="Next step").focus()
    box.keyboard.press("Enter")
    expect(box.locator("#step-words")).to_contain_text("1.")


def test_sizes_that_nobody_touched_follow_the_units(page: Page) -> None:
    page.goto("/new")
    page.get_by_label("Height").fill("4")
    page.get_by_label("You measure in").select_option("mm")
    expect(page.get_by_label("Width")).to_have_value("148")  # A6, ISO 216
    expect(page.get_by_label("Height")).to_have_value("4")
    expect(page.get_by_label("Your cardstock sheets")).to_have_value("a4")
    expect(page.locator("#thing_size_1-hint")).to_have_text("like 130 x 12 x 12")


def test_a_kit_is_begun_changed_and_kept_by_keyboard_alone(page: Page) -> None:
    page.goto("/new")
    seen: list[str] = []
    for _ in range(60):
        page.keyboard.press("Tab")
        name = page.evaluate("document.activeElement.name || document.activeElement.textContent.trim()")
        seen.append(name)
        if name == "name":
            page.keyboard.type("By keys")
        if name == "Make the kit":
            page.keyboard.press("Enter")
            break
    page.wait_for_url("**/kit/by-keys*")
    assert seen[0] == "To the content"
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.name") == "quantity":
            page.keyboard.press("Control+a")
            page.keyboard.type("10")
            page.keyboard.press("Enter")
            break
    expect(page.locator(".latest")).to_contain_text("card: quantity 10")


def test_the_number_of_kits_changes_the_sheets_live(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/sheets")
    expect(box.locator("#found[data-kits='6']")).to_contain_text("48 sheets. No plan can do with fewer.")
    box.get_by_label("How many kits").fill("1")
    expect(box.locator("#found[data-kits='1']")).to_contain_text("8 sheets. No plan can do with fewer.")
    expect(box.locator(".tabs").get_by_role("link", name="At the bench")).to_have_attribute(
        "href", re.compile(r"bench\?kits=1$")
    )
    box.get_by_label("The same layouts for every kit").check()
    expect(box.locator(".latest")).to_contain_text("Every kit is cut by the same layouts")
    expect(box.locator("#found[data-kits='1']")).to_contain_text("every kit cut by the same layouts")


def test_a_long_search_shows_what_it_has_and_stops_when_told(box: Page, monkeypatch: pytest.MonkeyPatch) -> None:
    def search(built: BuiltKit, batch: int, *, effort: Effort, progress: ProgressCall) -> tuple[PaperPlan, ...]:
        found = lay_out_kit(built, batch)
        while effort is not QUICK and progress(Progress("looking", None, None)):
            pass
        return tuple(unproved(paper) for paper in found)

    monkeypatch.setattr(making, "lay_out_kit", search)
    box.goto(f"/kit/{word_of(box)}/sheets?kits=13")
    expect(box.locator("#found[data-so-far='13']")).to_contain_text("At least")
    expect(box.locator("#far")).to_contain_text("These layouts work.")
    box.get_by_role("button", name="Stop with what there is").click()
    expect(box.locator("#found[data-kits='13']")).to_contain_text("Stopped: these layouts work")
    expect(box.locator("#waiting")).to_be_hidden()


def test_blanks_are_laid_on_mats_when_wished_and_the_laying_is_stopped(
    box: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(machine, "nest", endless)
    box.goto(f"/kit/{word_of(box)}/sheets?kits=2")
    lay = box.get_by_role("button", name="Lay the blanks on mats")
    lay.click()
    expect(box.locator("#nesting-far")).to_contain_text("Laying Kraft cardstock on mats")
    box.get_by_role("button", name="Stop", exact=True).click()
    expect(box.locator("#mats")).to_contain_text("Stopped: no paper was done yet.")
    monkeypatch.setattr(machine, "nest", one_to_a_mat)
    lay.click()
    expect(box.locator("#mats[data-kits='2']")).to_contain_text("With the trimmer")
    expect(box.locator("#nesting-waits")).to_be_hidden()
    with box.expect_download() as taken:
        box.get_by_role("link", name="All mats in one file").click()
    assert taken.value.suggested_filename.endswith("-mats.zip")
    assert Axe().run(box, options=RULES).response["violations"] == []
    box.emulate_media(color_scheme="dark")
    assert Axe().run(box, options=CONTRAST).response["violations"] == []
    box.get_by_label("How many kits").fill("3")
    expect(box.locator("#mats")).to_be_empty()
    expect(box.locator("#found[data-kits='3']")).to_be_visible()
    asked: list[str] = []

    def answer(dialog: Dialog) -> None:
        asked.append(dialog.type)
        dialog.accept()

    box.on("dialog", answer)
    with box.expect_navigation():  # until the new page is loaded, its scripts too: nobody listens before
        box.locator(".tabs").get_by_role("link", name="Sheets").click()
    expect(box.locator("#mats")).to_be_empty()
    assert asked == []  # nothing was typed for the machine
    box.get_by_label("Card between two pieces").fill("1/8")
    lay.click()
    expect(box.locator("#nesting-no")).to_contain_text("not kept yet")
    box.get_by_role("button", name="Keep the cutting machine").click()
    expect(box.locator(".latest")).to_contain_text("machine gap 1/8")


def test_the_materials_follow_the_number_of_kits(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/materials?kits=1")
    expect(box.locator("#found[data-kits='1']")).to_contain_text("1 × pencil")
    box.get_by_label("How many kits").fill("6")
    expect(box.locator("#found[data-kits='6']")).to_contain_text("6 × pencil")


def test_mistakes_in_the_text_are_told_at_their_lines_while_typing(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/text")
    field = box.get_by_role("textbox")
    field.fill(field.input_value().replace("quantity = 24", "quantity = lots"))
    line = field.input_value().split("quantity = lots")[0].count("\n") + 1
    box.get_by_role("button", name=f"Line {line}").click()
    chosen = "((at) => at.value.slice(at.selectionStart, at.selectionEnd))(document.activeElement)"
    assert box.evaluate(chosen).startswith("quantity = lots")
    expect(box.locator(".lines .hit")).to_have_text(f"▸ {line}")


def test_the_bench_shows_one_step_at_a_time_and_remembers_where_it_was(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/bench")
    expect(box.locator(".bench-card:visible")).to_have_count(1)
    box.get_by_role("button", name="Done, next").click()
    expect(box.locator("#where")).to_contain_text("2 of")
    box.reload()
    expect(box.locator("#where")).to_contain_text("2 of")


def test_the_pages_of_the_pack_are_shown_and_follow_the_paper(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/print?kits=1")
    first = box.get_by_role("img", name="Page 1 of")
    expect(first).to_be_visible(timeout=60_000)
    wide = first.evaluate("async (each) => { await each.decode(); return each.naturalWidth; }")
    assert wide == pytest.approx(680 * SMALL, abs=1)  # Letter at 80 dots an inch
    box.get_by_label("Printed on").select_option("a4")
    expect(first).to_have_attribute("width", "661", timeout=60_000)


def test_steps_ticked_off_at_the_bench_stay_so_and_are_passed_over(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/bench")
    done = box.get_by_role("button", name="Done, next")
    shown, where = box.locator(".bench-card:visible"), box.locator("#where")
    done.click()
    shown.get_by_role("checkbox").check()
    expect(where).to_contain_text("2 of")
    expect(where).to_contain_text("2 done")
    box.reload()
    expect(where).to_contain_text("2 done")
    expect(shown.get_by_role("checkbox")).to_be_checked()
    box.get_by_role("button", name="Back").click()
    expect(shown.get_by_role("checkbox")).to_be_checked()
    done.click()
    expect(where).to_contain_text("3 of")
    shown.get_by_role("checkbox").check()
    shown.get_by_role("checkbox").uncheck()
    box.reload()
    expect(where).to_contain_text("2 done")
    expect(shown.get_by_role("checkbox")).not_to_be_checked()


def faults(page: Page, rules: dict[str, list[str]]) -> list[tuple[str, list[str]]]:
    """What axe finds on a page: the name of the rule and where. Nothing is told of all that it finds well."""
    found = Axe().run(page, options={**rules, "resultTypes": ["violations"]})
    return [(each["id"], [node["html"][:150] for node in each["nodes"][:3]]) for each in found.response["violations"]]


def is_as_wide_as_its_screen(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0)


def too_small(page: Page) -> list[str]:
    """Buttons and fields that a finger may miss. WCAG 2.2, 2.5.8: targets are at least 24 by 24 CSS pixels."""
    found: list[str] = page.evaluate(
        """() => [...document.querySelectorAll("button, .button, select, input:not([type=hidden]), nav a")]
          .filter((each) => each.offsetParent).map((each) => [each.outerHTML.slice(0, 80), each.getBoundingClientRect()])
          .filter(([, r]) => Math.min(r.width, r.height) < 20.5).map(([html]) => html)"""
    )
    return found


def test_no_page_has_a_fault_that_axe_finds(box: Page) -> None:
    box.emulate_media(reduced_motion="reduce")
    word = word_of(box)
    addresses = ["/", "/new", "/nothing", *(f"/kit/{word}/{view}" for view, _ in VIEWS)]
    for address in addresses:
        box.goto(address)
        if address.endswith(("sheets", "materials")):
            box.locator("#found[data-kits]").wait_for()
        box.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
        for is_dark, rules in ((False, RULES), (True, CONTRAST)):
            box.emulate_media(color_scheme="dark" if is_dark else "light")
            assert faults(box, rules) == [], (address, is_dark)


@pytest.mark.parametrize(("width", "height"), [(360, 740), (390, 844), (820, 1180), (1440, 900)])
def test_no_page_is_wider_than_its_screen_and_fingers_find_every_button(
    browser: Browser, box: Page, width: int, height: int
) -> None:
    word = word_of(box)
    box.set_viewport_size({"width": width, "height": height})
    for address in ("/", "/new", *(f"/kit/{word}/{view}" for view, _ in VIEWS)):
        box.goto(address)
        if address.endswith(("sheets", "materials")):
            box.locator("#found[data-kits]").wait_for()
        box.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
        assert is_as_wide_as_its_screen(box), address
        assert too_small(box) == [], address


def test_the_door_of_a_workroom_fits_every_screen_and_has_no_fault_that_axe_finds(
    browser: Browser, served: Workshop
) -> None:
    page = browser.new_page()
    with serving(make_app(served, door=Door("acorn amber anchor apple apron arrow"))) as door:
        page.goto(door)
        assert page.url == f"{door}/enter"
        assert faults(page, RULES) == []
        page.get_by_label("The six words").fill("acorn " * 20)
        page.get_by_role("button", name="Come in").click()
        expect(page.get_by_role("alert")).to_contain_text("Not these")
        for light in ("light", "dark"):
            page.emulate_media(color_scheme="dark" if light == "dark" else "light")
            assert faults(page, RULES) == []
        for width in (360, 820, 1440):
            page.set_viewport_size({"width": width, "height": 800})
            assert is_as_wide_as_its_screen(page)
            assert too_small(page) == []
    page.close()


def test_the_heaviest_pages_weigh_at_most_300_kilobytes(browser: Browser, address: str, box: Page) -> None:
    word = word_of(box)
    for view in ("", "/folded", "/print"):
        weights: list[int] = []
        fresh = browser.new_page(base_url=address)  # which keeps nothing from the page before
        fresh.on("requestfinished", partial(weigh, weights))
        fresh.goto(f"/kit/{word}{view}")
        fresh.wait_for_load_state("networkidle")
        fresh.close()
        assert 0 < sum(weights) <= 300_000, view


def weigh(weights: list[int], request: Request) -> None:
    """Note the bytes of an answer."""
    weights.append(request.sizes()["responseBodySize"])


def test_the_flat_patterns_can_be_printed_without_the_tabs(box: Page) -> None:
    box.goto(f"/kit/{word_of(box)}/flat")
    box.emulate_media(media="print", color_scheme="dark")
    expect(box.locator(".tabs")).to_be_hidden()
    assert box.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(255, 255, 255)"
