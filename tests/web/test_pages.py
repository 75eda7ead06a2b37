"""The pages by HTTP: what each shows, what a change does, and what is said to nonsense."""

import io
import json
import re
import zipfile
from fractions import Fraction
from html import unescape
from importlib import resources

import pypdfium2
import pytest
from PIL import Image, ImageChops, ImageStat
from starlette.testclient import TestClient

from kitwright.kit import build, prove, read_kit
from kitwright.plan import plan
from kitwright.web import leaves
from kitwright.web.desk import VIEWS
from kitwright.web.new_kit import documents_of, read_answers
from kitwright.workshop import Workshop
from tests.kit.documents import head, part

ANSWERS = {
    "name": "Notes <b>&</b> twine",
    "units": "in",
    "cards": "8",
    "card_width": "4¼",
    "card_height": "5-1/2",
    "card_form": "flat",
    "envelopes": "yes",
    "box": "yes",
    "sheet": "letter",
    "print": "none",
    "thing_name_1": "twine",
    "thing_size_1": "2 x 2 x 1/4",
    "thing_count_1": "1",
}


BEGUN = next(documents_of(read_answers(ANSWERS)))
"""The document of a kit that was begun with these answers."""


@pytest.fixture
def word(shop: Workshop) -> str:
    """A kit on the shelf, as it is there once it was begun."""
    return shop.begin(ANSWERS["name"], BEGUN, words="Begun from what goes in.").word


@pytest.mark.parametrize(
    ("answers", "large"),
    [
        ({}, []),
        ({"cards": "40"}, ["tray", "lid"]),
        ({"card_width": "7", "card_height": "5", "card_form": "flat", "box": ""}, ["envelope"]),
    ],
)
def test_what_does_not_fit_on_the_usual_sheet_of_a_new_kit_is_cut_from_a_large_one(
    client: TestClient, shop: Workshop, answers: dict[str, str], large: list[str]
) -> None:
    given = {**ANSWERS, "card_width": "5 1/2", "card_height": "4 1/4", "card_form": "folded", **answers}
    word = str(client.post("/new", data=given).headers["location"]).removeprefix("/kit/")
    built = build(read_kit(shop.read(word).document))
    assert prove(built).is_proved
    assert [part.part.name for part in built.parts if part.paper.sheet_width_mm == part.paper.sheet_height_mm] == large


def example_text(name: str) -> str:
    return resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text()


def revision(client: TestClient, word: str) -> str:
    found = re.search(r'name="revision" value="(\d+)"', client.get(f"/kit/{word}").text)
    assert found
    return found[1]


def test_a_kit_begun_from_its_contents_is_proved_at_once(client: TestClient, shop: Workshop) -> None:
    word = str(client.post("/new", data=ANSWERS).headers["location"]).removeprefix("/kit/")
    assert (word, shop.read(word).document) == ("notes-b-b-twine", BEGUN)
    page = client.get(f"/kit/{word}").text
    assert "Proved:" in page
    assert "<b>&" not in page
    kit = read_kit(shop.read(word).document)
    assert [(part.name, part.quantity) for part in kit.parts] == [("card", 8), ("envelope", 8), ("tray", 1), ("lid", 1)]
    # The A2 envelope is 4 3/8 × 5 3/4 in for a card of 4 1/4 × 5 1/2 in (PWG 5101.1).
    sizes = {each / 127 * 5 for each in build(kit).part("envelope").lengths.values()}
    assert {Fraction(35, 8), Fraction(23, 4)} <= sizes


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("name", " "),
        ("cards", "0"),
        ("cards", "many"),
        ("card_width", "4 1/0"),
        ("card_height", ""),
        ("thing_size_1", "2 x 2"),
        ("thing_name_1", "card"),
    ],
)
def test_a_wrong_answer_is_explained_beside_its_field_and_nothing_typed_is_lost(
    client: TestClient, shop: Workshop, field: str, value: str
) -> None:
    answer = client.post("/new", data={**ANSWERS, field: value})
    assert answer.status_code == 422
    assert f'id="{field}-wrong"' in answer.text
    assert f'value="{ANSWERS["thing_size_1"] if field != "thing_size_1" else value}"' in answer.text
    assert shop.shelf() == ()


@pytest.mark.parametrize("view", [name for name, _ in VIEWS])
def test_every_page_of_a_kit_answers(client: TestClient, word: str, view: str) -> None:
    answer = client.get(f"/kit/{word}/{view}")
    assert answer.status_code == 200
    assert 'aria-current="page"' in answer.text
    assert "style=" not in answer.text.replace("stylesheet", "")
    assert "<script>" not in answer.text


def test_the_whole_kit_says_how_many_of_everything_are_in_it(client: TestClient, word: str) -> None:
    page = client.get(f"/kit/{word}/folded", params={"part": "whole"}).text
    found = re.findall(r'<span class="count">(\d+)</span> × ([^<]+)</span></button>', page)
    assert found == [("8", "card"), ("8", "envelope"), ("1", "twine")]
    assert 'id="with-contents"' in page
    assert ">In it</h2>" not in client.get(f"/kit/{word}/folded").text


def test_how_things_lie_that_do_not_go_in_is_said_and_not_drawn(client: TestClient, shop: Workshop) -> None:
    tray = part("tray", "tray", holds="card", inside="4 x 3 x 1")
    tight = shop.begin("tight", head() + part("card", "flat card", size="5 x 4") + tray, words="Begun.").word
    for which, data in (("1", "1?filled=yes"), ("whole", "whole?filled=yes")):
        page = client.get(f"/kit/{tight}/folded", params={"part": which}).text
        assert "no place was found for everything. The contents do not go in" in page
        assert '<span class="count">1</span> × card</li>' in page
        assert "with-contents" not in page
        found = client.get(f"/kit/{tight}/fold/{data}").json()
        assert found["bodies"] == []
        assert all(state["bodies"] == [] for state in found["states"])


def test_a_number_is_kept_with_its_fraction_and_can_be_undone(client: TestClient, word: str, shop: Workshop) -> None:
    before = shop.read(word).document
    said = {"revision": revision(client, word), "part": "0", "quantity": "8", "sizing": "size", "lengths": "4⅜ x 5 1/2"}
    assert client.post(f"/kit/{word}/part", data=said).status_code == 303
    card = read_kit(shop.read(word).document).part("card")
    assert [length / 127 * 5 for length in card.sizing.lengths] == [35 / 8, 11 / 2]
    assert client.post(f"/kit/{word}/undo", data={"revision": revision(client, word)}).status_code == 303
    assert shop.read(word).document == before


def test_a_trial_shows_the_part_anew_and_keeps_nothing(client: TestClient, word: str, shop: Workshop) -> None:
    before = shop.read(word)
    answer = client.post(f"/kit/{word}/try", data={"part": "0", "sizing": "size", "lengths": "4 x 5"}).json()
    assert answer["ok"]
    assert answer["size"] == "4 × 5 in"
    assert answer["flat"][0].startswith("<svg")
    judged = client.post(f"/kit/{word}/try", data={"part": "1", "sizing": "size", "lengths": "4 x 5", "prove": "yes"})
    assert not judged.json()["proved"]
    assert shop.read(word) == before


@pytest.mark.parametrize("lengths", ["4 x", "4 1/0 x 5", "nonsense", "-4 x 5", "4 x 5 x 6", "900 x 900"])
def test_a_trial_with_a_wrong_size_says_what_is_wrong(client: TestClient, word: str, lengths: str) -> None:
    answer = client.post(f"/kit/{word}/try", data={"part": "0", "sizing": "size", "lengths": lengths}).json()
    assert not answer["ok"]
    assert answer["mistakes"][0]["words"]


def test_a_wrong_number_that_was_sent_is_refused_and_shown_again(client: TestClient, word: str, shop: Workshop) -> None:
    before = shop.read(word)
    said = {"revision": revision(client, word), "part": "0", "sizing": "size", "lengths": "4 x <5"}
    answer = client.post(f"/kit/{word}/part", data=said)
    assert answer.status_code == 422
    assert 'value="4 x &lt;5"' in answer.text
    assert re.search(r'id="part-0-lengths-wrong"[^>]*>[^<]+', answer.text)
    assert shop.read(word) == before


def test_a_fix_of_the_proof_is_applied_and_named_as_the_last_change(
    client: TestClient, word: str, shop: Workshop
) -> None:
    said = {"revision": revision(client, word), "part": "1", "sizing": "size", "lengths": "5 x 4"}
    client.post(f"/kit/{word}/part", data=said)
    proof = client.get(f"/kit/{word}/fits").text
    assert "Not proved" in proof
    form = re.search(r'name="code" value="([^"]+)"><input type="hidden" name="about" value="([^"]+)">', proof)
    assert form
    mended = {"revision": revision(client, word), "code": form[1], "about": unescape(form[2])}
    assert client.post(f"/kit/{word}/mend", data=mended).status_code == 303
    after = client.get(f"/kit/{word}/fits").text
    assert "Proved:" in after
    assert "Last change: Make envelope" in after


def test_the_second_of_two_tabs_is_told_and_overwrites_nothing(client: TestClient, word: str, shop: Workshop) -> None:
    seen = revision(client, word)
    first = {"revision": seen, "part": "0", "quantity": "9"}
    second = {"revision": seen, "part": "0", "quantity": "7"}
    assert client.post(f"/kit/{word}/part", data=first).status_code == 303
    told = client.post(f"/kit/{word}/part", data=second)
    assert told.status_code == 409
    assert "What you typed for card:</p>" in told.text
    assert "<dt>How many in a kit</dt><dd>7</dd>" in told.text
    assert "card: quantity 9" in told.text
    assert read_kit(shop.read(word).document).part("card").quantity == 9


def offered(page: str) -> dict[str, str]:
    """The fields of the form that keeps what was typed too late."""
    form = re.search(r'<dl class="said">.*?</form>', page, re.DOTALL)
    assert form
    return {name: unescape(value) for name, value in re.findall(r'name="([^"]+)" value="([^"]*)"', form[0])}


def test_what_was_typed_in_the_second_tab_is_kept_at_one_press_and_takes_back_nothing_of_the_first(
    client: TestClient, word: str, shop: Workshop
) -> None:
    seen = revision(client, word)
    page = client.get(f"/kit/{word}").text
    first = {"revision": seen, "part": "0", "quantity": "9"}
    assert client.post(f"/kit/{word}/part", data=first).status_code == 303
    part = {"revision": seen, "part": "0", "quantity": "8", "sizing": "size", "lengths": "5 x 4", "name": "note"}
    assert 'name="quantity" value="8"' in page  # so that in the second tab only size and name were typed
    told = client.post(f"/kit/{word}/part", data=part)
    assert offered(told.text).keys() == {"revision", "table", "number", "sizing", "lengths", "name"}
    assert client.post(f"/kit/{word}/part", data=offered(told.text)).status_code == 303
    made = read_kit(shop.read(word).document).part("note")
    assert (made.quantity, [float(each / Fraction(127, 5)) for each in made.sizing.lengths]) == (9, [5, 4])
    for address, said in (
        ("paper", {"number": "0", "left": "1/4"}),
        ("add", {"table": "extra", "name": "bow", "size": "1 x 1 x 1"}),
        ("machine", {"number": "0", "gap": "1/8"}),
        ("alike", {"alike": "yes"}),
        ("rename", {"name": "Second"}),
    ):
        told = client.post(f"/kit/{word}/{address}", data={"revision": seen, **said})
        assert told.status_code == 409
        assert client.post(f"/kit/{word}/{address}", data=offered(told.text)).status_code == 303, address
    kit = read_kit(shop.read(word).document)
    assert (kit.name, kit.alike, kit.extras[-1].name) == ("Second", True, "bow")
    assert [kit.papers["card"].margins.left * 4, kit.machine.gap * 8] == [Fraction(127, 5)] * 2


def test_what_was_typed_for_a_part_that_is_not_there_any_more_is_not_put_into_another(
    client: TestClient, word: str
) -> None:
    seen = revision(client, word)
    assert client.post(f"/kit/{word}/part", data={"revision": seen, "part": "0", "name": "note"}).status_code == 303
    told = client.post(f"/kit/{word}/part", data={"revision": seen, "part": "0", "quantity": "7"})
    assert told.status_code == 409
    assert "Keep this in the kit as it is now" not in told.text


def test_a_kit_that_was_taken_off_the_shelf_in_another_tab_is_told_so(client: TestClient, word: str) -> None:
    seen = revision(client, word)
    client.post(f"/kit/{word}/remove")
    for answer in (client.get(f"/kit/{word}/sheets"), client.post(f"/kit/{word}/part", data={"revision": seen})):
        assert answer.status_code == 404
        assert "taken off the shelf" in answer.text
    assert "nothing at this address" in client.get("/kit/never-there").text


def test_a_text_changed_elsewhere_stays_in_its_field_until_the_maker_decides(
    client: TestClient, word: str, shop: Workshop
) -> None:
    seen, mine = revision(client, word), shop.read(word).document + "# mine\n"
    client.post(f"/kit/{word}/part", data={"revision": seen, "part": "0", "quantity": "9"})
    told = client.post(f"/kit/{word}/text", data={"revision": seen, "document": mine})
    assert told.status_code == 409
    assert "# mine" in told.text
    over = re.search(r'name="over" value="(\d+)"', told.text)
    assert over
    assert "# mine" not in shop.read(word).document
    kept = client.post(f"/kit/{word}/text", data={"revision": "0", "over": over[1], "document": mine})
    assert kept.status_code == 303
    assert shop.read(word).document == mine


def test_a_text_with_mistakes_is_not_kept_and_each_is_told_with_its_line(
    client: TestClient, word: str, shop: Workshop
) -> None:
    before = shop.read(word).document
    wrong = before.replace("quantity", "quantty", 1)
    answer = client.post(f"/kit/{word}/text", data={"revision": revision(client, word), "document": wrong})
    line = wrong[: wrong.index("quantty")].count("\n") + 1
    assert answer.status_code == 422
    assert f"Line {line}." in answer.text
    assert "quantty" in answer.text
    told = client.post(f"/kit/{word}/check-text", data={"document": wrong}).json()
    assert [each["line"] for each in told["mistakes"]] == [line]
    assert shop.read(word).document == before


def test_a_kit_broken_by_hand_is_shown_with_its_mistakes_on_every_page(
    client: TestClient, word: str, shop: Workshop
) -> None:
    (shop.kits / f"{word}.toml").write_text("[kit]\nname = 3\n")
    for view, _ in VIEWS:
        answer = client.get(f"/kit/{word}/{view}")
        assert answer.status_code == 200
    assert "mistakes" in client.get(f"/kit/{word}").text
    assert "has mistakes" in client.get("/").text


def test_the_sheets_are_found_for_any_number_of_kits(client: TestClient, word: str) -> None:
    for kits in (1, 12):
        answer = {"done": False}
        while not answer["done"]:
            answer = client.get(f"/kit/{word}/search", params={"kits": str(kits)}).json()
        assert "No plan can do with fewer" in str(answer["html"])
        assert f"{kits} × twine" in str(answer["html"])


def test_the_page_is_sent_layouts_once_and_again_only_when_there_are_better_ones(client: TestClient, word: str) -> None:
    answer = {"done": False}
    while not answer["done"]:
        answer = client.get(f"/kit/{word}/search", params={"kits": "3", "seen": "no"}).json()
    asked = {"kits": "3", "view": "materials"}
    assert "Things to buy" in client.get(f"/kit/{word}/search", params=asked).json()["html"]
    assert client.get(f"/kit/{word}/search", params={"kits": "3", "view": "nonsense"}).status_code == 404


def test_everything_can_be_taken_away_in_one_file(client: TestClient, word: str, shop: Workshop) -> None:
    answer = client.get(f"/kit/{word}/take/everything.zip", params={"kits": "2", "page": "a4"})
    assert answer.headers["content-disposition"] == f'attachment; filename="{word}.zip"'
    with zipfile.ZipFile(io.BytesIO(answer.content)) as pack:
        assert pack.testzip() is None
        assert pack.read("kit.toml").decode() == shop.read(word).document
        assert pack.read("bench-pack.pdf").startswith(b"%PDF")
        assert json.loads(pack.read("plan.json"))["batch"] == 2
        assert {"patterns/lid.svg", "patterns/lid.dxf"} <= set(pack.namelist())


def test_every_pass_at_the_bench_is_a_step_with_its_rule_and_its_tick(
    client: TestClient, word: str, shop: Workshop
) -> None:
    text = client.get(f"/kit/{word}/bench", params={"kits": "3"}).text
    made = plan(read_kit(shop.read(word).document), batch=3)
    passes = sum(len(line.chart.passes) for line in made.lines)
    assert text.count(": the rule</title>") == passes > 3
    assert text.count('<input type="checkbox"') == text.count('class="bench-card"')
    assert "A rule with stops at" in text
    assert re.search(r"Score 3 × lid, 2 of \d", text)


def test_the_number_of_kits_stays_with_the_kit_whatever_page_lies_between(client: TestClient, word: str) -> None:
    said = re.compile(r'name="kits"[^>]* value="(\d+)"')

    def kits(view: str, **asked: str) -> set[str]:
        return set(said.findall(client.get(f"/kit/{word}/{view}", params=asked).text))

    assert kits("bench") == kits("print") == {"6"}  # nobody said anything yet: the bench is for as many as the print
    assert kits("sheets", kits="12") == {"12"}
    client.get(f"/kit/{word}")
    assert kits("bench") == kits("print") == kits("materials") == {"12"}
    other = str(client.post("/new", data={**ANSWERS, "name": "Other"}).headers["location"])
    assert said.findall(client.get(f"{other}/bench").text) == ["6"]


def test_a_box_too_large_for_its_sheet_leads_to_the_boxes_that_hold_the_same(client: TestClient) -> None:
    large = {"name": "Large", "cards": "1", "card_width": "8", "card_height": "8", "card_form": "flat", "box": "yes"}
    there = client.post("/new", data=large).headers["location"]
    links = re.findall(r'href="([^"]*/boxes\?[^"]*)"', client.get(f"{there}/fits").text)
    assert links == [f"{there}/boxes?part=tray"]
    assert client.get(links[0]).status_code == 200


def test_what_has_no_fix_says_on_the_page_what_can_be_done(client: TestClient, shop: Workshop) -> None:
    kept = shop.begin("Piece", head(sheet="8 x 8") + part("piece", "flat card", size="9 x 6"), words="begun")
    page = unescape(client.get(f"/kit/{kept.word}/fits").text)
    (found,) = (each for each in prove(build(read_kit(kept.document))).findings if each.advice)
    assert f"<strong>No fix:</strong> {found.advice}" in page


def test_the_bench_says_the_unit_behind_the_number_of_the_guide(client: TestClient) -> None:
    cards = {"name": "Cards", "cards": "8", "card_width": "2 3/4", "card_height": "4", "card_form": "flat"}
    there = client.post("/new", data=cards).headers["location"]
    guides = re.findall(r"Guide at [^<]*", client.get(f"{there}/bench").text)
    assert any("times" in each for each in guides)
    assert all(re.fullmatch(r"Guide at [\d /]+ in(, \d+ times)?\.", each) for each in guides)


def test_only_what_is_ticked_is_taken_and_the_cautions_go_with_every_page(client: TestClient, word: str) -> None:
    ticked = {"chosen": "yes", "page": "a4", "section": ["scores"], "file": ["lines", "text"]}
    answer = client.get(f"/kit/{word}/take/everything.zip", params=ticked)
    with zipfile.ZipFile(io.BytesIO(answer.content)) as pack:
        names = set(pack.namelist())
        pages = pypdfium2.PdfDocument(pack.read("bench-pack.pdf"))
        words = " ".join(page.get_textpage().get_text_range() for page in pages)
        assert client.get(f"/kit/{word}/leaves", params=ticked).json()["count"] == len(pages)
        pages.close()
    assert {name.rpartition(".")[2] for name in names} == {"pdf", "dxf", "toml"}
    assert "Cautions" in words
    assert "Score charts" in words
    assert "Cut list" not in words
    one = client.get(f"/kit/{word}/take/bench-pack.pdf", params={**ticked, "only": "proof"})
    assert one.content.startswith(b"%PDF")


@pytest.mark.parametrize("name", ["everything.zip", "bench-pack.pdf"])
def test_where_nothing_is_ticked_that_is_said(client: TestClient, word: str, name: str) -> None:
    answer = client.get(f"/kit/{word}/take/{name}", params={"chosen": "yes"})
    assert (answer.status_code, "Nothing is chosen" in answer.text) == (422, True)
    assert client.get(f"/kit/{word}/leaves", params={"chosen": "yes", "page": "a4"}).json()["count"] == 0


def test_the_layouts_that_are_shown_can_be_taken_away(client: TestClient, word: str) -> None:
    asked = {"kits": "2", "view": "print"}
    while not (told := client.get(f"/kit/{word}/search", params=asked).json())["done"]:
        pass
    (address, *_) = re.findall(r'href="(/kit/[^"]+/take/sheets/[^"]+)"', told["html"])
    assert client.get(unescape(address)).headers["content-type"].startswith("image/svg+xml")


@pytest.mark.parametrize(("page", "size"), [("a4", (661, 935)), ("us-letter", (680, 880))])
def test_the_pages_of_the_pack_are_pictures_of_the_pages_in_its_pdf(
    client: TestClient, word: str, page: str, size: tuple[int, int]
) -> None:
    asked = {"kits": "2", "page": page}
    told = client.get(f"/kit/{word}/leaves", params=asked).json()
    document = pypdfium2.PdfDocument(client.get(f"/kit/{word}/take/bench-pack.pdf", params=asked).content)
    assert told["count"] == len(document) > 5
    # ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1 letter is 8.5 x 11 in (both from memory); at 80 dots an inch
    assert tuple(told["size"]) == size
    for number in (1, told["count"]):
        answer = client.get(f"/kit/{word}/leaves/{number}.png", params=asked)
        assert answer.headers["content-type"] == "image/png"
        shown = Image.open(io.BytesIO(answer.content)).convert("L")
        assert shown.size == pytest.approx(size, abs=1)
        drawn = document[number - 1].render(scale=80 / 72).to_pil().convert("L").resize(shown.size)
        # the same ink in the same places, looked at coarsely: two renderers draw the edges of letters differently
        coarse = [each.resize((60, 80), Image.Resampling.BOX) for each in (shown, drawn)]
        # of 255 grey steps; measured: 0.4 to 0.6 for the same page, at least 1.6 for any other
        assert ImageStat.Stat(ImageChops.difference(*coarse)).mean[0] < 1
        assert ImageStat.Stat(shown).mean[0] < 254
    document.close()
    thumb = client.get(f"/kit/{word}/leaves/1.png", params={**asked, "small": "yes"})
    assert Image.open(io.BytesIO(thumb.content)).size == tuple(round(side * leaves.SMALL) for side in shown.size)
    assert len(thumb.content) < 12_000
    for number in (0, told["count"] + 1):
        assert client.get(f"/kit/{word}/leaves/{number}.png", params=asked).status_code == 404


def test_pages_of_a_pack_are_made_once_and_only_a_few_packs_are_kept(
    client: TestClient, word: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[str] = []

    def make(source: str, *, dots_per_inch: float) -> tuple[bytes, ...]:
        made.append(source)
        return (b"one",)

    monkeypatch.setattr(leaves, "to_page_pngs", make)
    for kits in (1, 1, 2, 3, 4, 5, 5, 1):
        for address in ("leaves", "leaves/1.png"):
            assert client.get(f"/kit/{word}/{address}", params={"kits": kits, "page": "a4"}).status_code == 200
    # the sixth making: the first pack was let go when the fifth came
    assert len(made) == 6


def test_pages_on_an_unknown_paper_are_not_made(client: TestClient, word: str) -> None:
    assert client.get(f"/kit/{word}/leaves", params={"page": "a9"}).status_code == 422
    assert client.get(f"/kit/{word}/leaves/1.png", params={"page": "a9"}).status_code == 404


def test_the_lines_of_a_blank_are_offered_for_cutting_machines(client: TestClient, word: str) -> None:
    address = f"/kit/{word}/take/patterns/lid.dxf"
    assert f'href="{address}"' in client.get(f"/kit/{word}/print").text
    answer = client.get(address)
    # the media type of DXF (IANA registry of image types: vnd.dxf)
    assert answer.headers["content-type"] == "image/vnd.dxf"
    assert b"valley score" in answer.content


def test_parts_with_like_names_are_taken_away_as_drawings_of_their_own(client: TestClient) -> None:
    paper = '[paper.card]\nsheet = "8 1/2 x 11"\nweight = "80 lb cover"\n'
    part = '[[part]]\nname = "{}"\nform = "flat card"\npaper = "card"\nsize = "{}"\n'
    text = '[kit]\nname = "Like"\nunits = "in"\nruler = "1/16"\n' + paper
    text += part.format("gift card", "2 x 3") + part.format("Gift-Card", "4 x 5")
    like = client.post("/bring", files={"document": ("like.toml", text.encode())}).headers["location"]
    links = re.findall(r'href="([^"]*/patterns/[^"]*)"', client.get(f"{like}/print").text)
    assert [link.rpartition("/")[2] for link in links] == [
        f"{name}.{kind}" for name in ("gift-card", "gift-card-2") for kind in ("svg", "dxf")
    ]
    first, second = (client.get(link).text for link in links if link.endswith("svg"))
    assert ("gift card" in first, "Gift-Card" in second) == (True, True)


def test_a_kit_that_is_saved_as_a_file_comes_back_as_it_was(client: TestClient, word: str, shop: Workshop) -> None:
    data = client.get(f"/kit/{word}/take/kit.toml").content
    answer = client.post("/bring", files={"document": ("../../etc/passwd", data)})
    assert answer.status_code == 303
    again = answer.headers["location"].removeprefix("/kit/")
    assert again == f"{word}-2"
    assert shop.read(again).document == shop.read(word).document


@pytest.mark.parametrize(
    "data", [b"", b"\xff\xfe\x00", b"no kit at all", b"[kit]\nname = 1", b"a=" + b"[" * 5000, b"x" * 1_500_000]
)
def test_a_file_that_is_no_kit_is_refused_in_words(client: TestClient, shop: Workshop, data: bytes) -> None:
    answer = client.post("/bring", files={"document": ("kit.toml", data)})
    assert answer.status_code == 422
    assert "This file is no kit yet" in answer.text
    assert shop.shelf() == ()


def test_a_kit_is_copied_renamed_taken_off_and_put_back(client: TestClient, word: str, shop: Workshop) -> None:
    copy = client.post(f"/kit/{word}/copy").headers["location"].removeprefix("/kit/")
    client.post(f"/kit/{copy}/rename", data={"revision": revision(client, copy), "name": 'The "other" one'})
    assert read_kit(shop.read(copy).document).name == 'The "other" one'
    assert client.post(f"/kit/{copy}/remove").headers["location"] == f"/?removed={copy}"
    assert "Put it back" in client.get(f"/?removed={copy}").text
    assert client.get(f"/kit/{copy}").status_code == 404
    assert client.post(f"/kit/{copy}/put-back").status_code == 303
    assert client.get(f"/kit/{copy}").status_code == 200


@pytest.mark.parametrize("name", ["recipe-box", "thank-you-cards", "postcard-set"])
def test_every_example_can_be_started_from(client: TestClient, shop: Workshop, name: str) -> None:
    assert client.post("/example", data={"example": name}).status_code == 303
    assert shop.read(name).document == example_text(name)
    assert client.get(f"/kit/{name}/picture.svg").headers["content-type"].startswith("image/svg+xml")


ADDRESSES = (
    "/kit/{word}/nonsense",
    "/kit/{word}/fold/99",
    "/kit/{word}/take/nonsense",
    "/kit/{word}/take/../../../etc/passwd",
    "/kit/{word}/take/%2e%2e/%2e%2e/workshop.db",
    "/kit/{word}/take/bench-pack.pdf?page=a3",
    "/kit/%2e%2e%2fworkshop",
    "/kit/A",
    "/kit/no-such-kit/text",
    "/kit/no-such-kit/picture.svg",
    "/look/../app.py",
    "/look/%2e%2e%2fapp.py",
    "/look/no.css",
    "/nonsense",
)


@pytest.mark.parametrize("address", ADDRESSES)
def test_an_address_of_nothing_says_so_without_insides(client: TestClient, word: str, address: str) -> None:
    answer = client.get(address.format(word=word))
    assert answer.status_code == 404
    assert "Traceback" not in answer.text
    assert "kitwright/" not in answer.text


@pytest.mark.parametrize("address", ["try", "part", "mend", "rename", "text", "undo", "go", "stop"])
@pytest.mark.parametrize(
    "form",
    [
        {},
        {"revision": "x", "part": "-1", "number": "²", "document": "\x00", "kits": "1e9", "code": "\ud7ff"},
        {"revision": "9" * 30, "part": "9" * 30},
    ],
)
def test_a_nonsense_form_is_refused_and_changes_nothing(
    client: TestClient, word: str, shop: Workshop, address: str, form: dict[str, str]
) -> None:
    before = shop.read(word)
    answer = client.post(f"/kit/{word}/{address}", data=form)
    assert answer.status_code in ({200} if address == "stop" else {404, 409, 422})
    assert shop.read(word) == before


def test_a_fault_of_the_program_is_told_without_its_insides(
    client: TestClient, word: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fault(*_: object) -> None:
        raise RuntimeError("secret insides")

    monkeypatch.setattr("kitwright.web.kit_pages.part_values", fault)
    answer = client.get(f"/kit/{word}")
    assert answer.status_code == 500
    assert "secret" not in answer.text
    assert "nothing of yours is lost" in answer.text


def test_the_proof_shows_a_picture_beside_every_fit_and_every_finding_in_a_group(
    client: TestClient, shop: Workshop
) -> None:
    kept = shop.begin("Cards", example_text("thank-you-cards"), words="begun")
    page = client.get(f"/kit/{kept.word}/fits").text
    proof = prove(build(read_kit(kept.document)))
    assert page.count('<figure class="fit themed"><svg') == sum(
        each.makings is not None or each.code == "lid-height" for each in proof.findings
    )
    assert page.count("× enlarged</text>") >= 4
    groups = [int(number) for number in re.findall(r'data-show="(?!all)[a-z]+"[^>]*>[^<]*\((\d+)\)', page)]
    assert sum(groups) == len(proof.findings)
    assert "style=" not in page.split("<main", 1)[1]
