"""The page of a paper by HTTP: its picture, what a moved blank means, and what is said to nonsense."""

import io
import json
import re
from importlib import resources
from itertools import product
from typing import Any

import pytest
from PIL import Image
from starlette.testclient import TestClient

from kitwright.kit import read_kit
from kitwright.paper import UpEdge
from kitwright.web.printed import on_blank
from kitwright.workshop import LARGEST_PICTURE, Workshop

INCH = 25_400_000


def picture(width: int = 30, height: int = 30) -> bytes:
    made = io.BytesIO()
    Image.new("RGB", (width, height), "green").save(made, "PNG")
    return made.getvalue()


@pytest.fixture
def word(shop: Workshop) -> str:
    text = resources.files("kitwright").joinpath("examples", "recipe-box.toml").read_text()
    return shop.begin("box", text, words="Begun from an example.").word


def said(client: TestClient, word: str, **more: str) -> dict[str, str]:
    found = re.search(r'name="revision" value="(\d+)"', client.get(f"/kit/{word}/paper").text)
    assert found
    return {"revision": found[1], "paper": "berries", **more}


def bring(client: TestClient, word: str, data: bytes, name: str = "scan.png", **more: str):
    return client.post(f"/kit/{word}/picture", data=said(client, word, **more), files={"picture": (name, data)})


def places(client: TestClient, word: str, **params: str) -> dict[str, Any]:
    told = {"done": False}
    while not told["done"]:
        told = client.get(f"/kit/{word}/places", params=params).json()
    return told


@pytest.mark.parametrize(
    ("turn", "corners"),
    [
        # A blank of 60 × 40 at (100, 200): where its corners (0,0), (60,0), (60,40), (0,40) lie on the sheet, by hand.
        (0, [(100, 200), (160, 200), (160, 240), (100, 240)]),
        (1, [(140, 200), (140, 260), (100, 260), (100, 200)]),
        (2, [(160, 240), (100, 240), (100, 200), (160, 200)]),
        (3, [(100, 260), (100, 200), (140, 200), (140, 260)]),
    ],
)
def test_a_blank_gets_the_piece_of_the_sheet_on_which_it_lies(turn: int, corners: list[tuple[int, int]]) -> None:
    a, b, c, d, e, f = on_blank((1, 0, 0, 1, 0, 0), (100, 200), turn, (60, 40))
    back = [(a * x + c * y + e, b * x + d * y + f) for x, y in corners]
    assert back == [(0, 0), (60, 0), (60, 40), (0, 40)]


def test_a_picture_is_brought_sized_turned_taken_off_and_undone(client: TestClient, word: str, shop: Workshop) -> None:
    assert bring(client, word, picture(), "../../etc/passwd").status_code == 303
    assert shop.scans.words() == ("berries",)
    page = client.get(f"/kit/{word}/paper?paper=berries").text
    address = re.search(r'src="(/picture/berries\.jpg\?\d+)"', page)
    assert address
    answer = client.get(address[1])
    assert (answer.status_code, answer.headers["content-type"]) == (200, "image/jpeg")
    form = said(client, word, picture="berries", shows="8 1/2 x 11", at="0 x 1/2", up="left")
    assert client.post(f"/kit/{word}/scan", data=form).status_code == 303
    scan = read_kit(shop.read(word).document).papers["berries"].scan
    assert scan is not None
    assert (scan.up, [float(each / 127 * 5) for each in (*(scan.shows or ()), *scan.at)]) == (
        UpEdge.LEFT,
        [8.5, 11, 0, 0.5],
    )
    client.post(f"/kit/{word}/scan", data=said(client, word, picture=""))
    assert read_kit(shop.read(word).document).papers["berries"].scan is None
    client.post(f"/kit/{word}/undo", data=said(client, word, view="paper"))
    assert read_kit(shop.read(word).document).papers["berries"].scan == scan


@pytest.mark.parametrize("data", [b"", b"no picture", b"\x89PNG\r\n\x1a\n"])
def test_a_file_that_is_no_picture_is_refused_and_nothing_is_kept(
    client: TestClient, word: str, shop: Workshop, data: bytes
) -> None:
    before = shop.read(word)
    assert bring(client, word, data).status_code == 422
    assert shop.read(word) == before
    assert shop.scans.words() == ()


def test_a_file_that_is_too_large_is_refused(client: TestClient, word: str) -> None:
    headers = {"content-length": str(LARGEST_PICTURE + 20_000)}
    assert client.post(f"/kit/{word}/picture", content=b"x", headers=headers).status_code == 413
    assert client.post(f"/kit/{word}/scan", content=b"x", headers=headers).status_code == 413


@pytest.mark.parametrize(
    "address",
    ["/picture/none.jpg", "/picture/..%2fworkshop.jpg", "/picture/%2e%2e.jpg", "/picture/A.jpg", "/picture/a.png"],
)
def test_a_picture_that_is_not_there_is_told_so(client: TestClient, address: str) -> None:
    assert client.get(address).status_code == 404


@pytest.mark.parametrize(
    ("key", "value"), [("shows", "0 x 0"), ("shows", "wide"), ("at", "-1 x 0"), ("up", "north"), ("picture", "../x")]
)
def test_nonsense_about_a_picture_is_refused_and_changes_nothing(
    client: TestClient, word: str, shop: Workshop, key: str, value: str
) -> None:
    bring(client, word, picture())
    before = shop.read(word)
    assert (
        client.post(f"/kit/{word}/scan", data={**said(client, word, picture="berries"), key: value}).status_code == 422
    )
    assert shop.read(word) == before


def test_a_picture_that_is_gone_is_told_and_the_page_still_works(client: TestClient, word: str, shop: Workshop) -> None:
    bring(client, word, picture())
    shop.scans.remove("berries")
    page = client.get(f"/kit/{word}/paper?paper=berries")
    assert "is not in this workshop" in page.text
    assert places(client, word)["papers"]["berries"] is None
    assert (
        client.post(f"/kit/{word}/pictures", data=said(client, word, do="back", picture="berries")).status_code == 303
    )
    assert shop.scans.words() == ("berries",)


def test_the_steps_at_the_bench_show_a_picture_as_long_as_it_is_there(
    client: TestClient, word: str, shop: Workshop
) -> None:
    bring(client, word, picture())
    assert "/picture/berries.jpg" in client.get(f"/kit/{word}/bench").text
    shop.scans.remove("berries")
    assert "/picture/berries.jpg" not in client.get(f"/kit/{word}/bench").text


def test_a_blank_moved_to_the_middle_is_kept_shown_and_given_back_to_the_search(
    client: TestClient, word: str, shop: Workshop
) -> None:
    lid = next(s for s in places(client, word, paper="berries")["sheets"] if s["pieces"][0]["blank"] == "lid")
    moved = json.dumps([{**lid["pieces"][0], "x": 2 * INCH, "y": 3 * INCH}])
    tried = client.post(f"/kit/{word}/lay-try", data={"paper": "berries", "pieces": moved}).json()
    assert (tried["well"], tried["through"]) == (True, True)
    assert "the trimmer does it" in tried["words"][0]
    assert client.post(f"/kit/{word}/lay", data=said(client, word, pieces=moved)).status_code == 303
    assert '[["lid at 2 x 3"]]' in shop.read(word).document
    after = places(client, word, paper="berries")
    assert after["places"]["lid"] == [{"at": [50.8, 76.2], "turn": 0}]
    assert [sheet["hand"] for sheet in after["sheets"]] == [0, None]
    assert after["said"] == ["One sheet was laid by your own hand."]
    assert client.post(f"/kit/{word}/lay-back", data=said(client, word, hand="0")).status_code == 303
    assert "laid =" not in shop.read(word).document


def test_what_a_move_breaks_is_told_in_words_and_cannot_be_kept(client: TestClient, word: str, shop: Workshop) -> None:
    half = {"blank": "box: half", "x": 0, "y": 0, "turn": 0}
    wrong = {
        "hangs over the edge": [{**half, "x": 11 * INCH}],
        "overlap": [half, {**half, "x": INCH}],
        "on its side": [{**half, "turn": 1}],
        "upside down": [{**half, "turn": 2}],
    }
    for words, pieces in wrong.items():
        form = said(client, word, pieces=json.dumps(pieces))
        told = client.post(f"/kit/{word}/lay-try", data=form).json()
        assert not told["well"]
        assert words in " ".join(told["words"])
        assert client.post(f"/kit/{word}/lay", data=form).status_code == 422
    assert "laid =" not in shop.read(word).document


@pytest.mark.parametrize(
    ("edge", "typed", "at"),
    [
        # half of the box on 12 × 12 in, begun at 1 × 1: the edges of the sheet are 12 in apart
        ("left", "1 ½", {"x": 3 * INCH // 2, "y": INCH}),
        ("below", "50.8 mm", {"x": INCH, "y": 2 * INCH}),
        ("below", "0", {"x": INCH, "y": 0}),
        ("top", "1/4", None),
    ],
)
def test_a_place_is_typed_in_the_makers_words_and_looked_at_as_a_move_is(
    client: TestClient, word: str, *, edge: str, typed: str, at: dict[str, int] | None
) -> None:
    half = {"blank": "box: half", "x": INCH, "y": INCH, "turn": 0}
    form = said(client, word, pieces=json.dumps([half]), which="0", edge=edge, typed=typed)
    told = client.post(f"/kit/{word}/lay-try", data=form).json()
    high = places(client, word, paper="berries")["blanks"]["box: half"]["size"][1]
    assert told["at"] == (at or {"x": INCH, "y": round((12 - 0.25) * INCH - high * 1e6)})
    assert told["well"]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("", "Nothing is written here."),
        ("1/", "not a length"),
        ("-1", "below zero"),
        ("1/7", "finer than anything that can be cut"),
        ("40", "hangs over the edge"),
    ],
)
def test_a_typed_place_that_cannot_be_is_told_in_words(client: TestClient, word: str, typed: str, words: str) -> None:
    half = {"blank": "box: half", "x": INCH, "y": INCH, "turn": 0}
    form = said(client, word, pieces=json.dumps([half]), which="0", edge="left", typed=typed)
    told = client.post(f"/kit/{word}/lay-try", data=form).json()
    assert words in told.get("wrong", "") or (words in told["words"][0] and not told["well"])
    for nonsense in ({"which": "1"}, {"which": "x"}, {"edge": "right"}):
        assert client.post(f"/kit/{word}/lay-try", data=form | nonsense).status_code == 404


def test_a_sheet_that_no_through_cuts_take_apart_is_kept_for_scissors_and_left_out_of_the_order_of_cuts(
    client: TestClient, word: str, shop: Workshop
) -> None:
    # Four tags of 1 3/4 × 3 in round an empty middle: a pinwheel.
    text = shop.read(word).document.replace('size = "1 3/4 x 3"\n', 'size = "1 3/4 x 3"\nquantity = 4\n')
    shop.keep(word, text, seen=1, words="four tags")
    quarter = INCH // 4
    spots = [(0, 0, 0), (7, 0, 1), (12, 7, 0), (0, 12, 1)]
    pieces = [{"blank": "tag", "x": x * quarter, "y": y * quarter, "turn": turn} for x, y, turn in spots]
    form = {**said(client, word, pieces=json.dumps(pieces)), "paper": "kraft"}
    told = client.post(f"/kit/{word}/lay-try", data=form).json()
    assert (told["well"], told["through"]) == (True, False)
    assert "scissors" in told["words"][0]
    assert client.post(f"/kit/{word}/lay", data=form).status_code == 303
    sheets = places(client, word, paper="kraft")["sheets"]
    assert [(sheet["free"], sheet["hand"]) for sheet in sheets if sheet["pieces"][0]["blank"] == "tag"] == [(True, 0)]
    found: dict[str, Any] = {"done": False}
    while not found["done"]:
        found = client.get(f"/kit/{word}/search", params={"kits": "1"}).json()
    assert "cut them out with scissors" in found["html"]
    bench = client.get(f"/kit/{word}/bench").text
    assert "Cut out Kraft cardstock, layout" in bench
    assert "Gives: 4 × tag." in bench


NONSENSE = ("", "{}", "[]", "[1]", "nul", "[" * 5000, '[{"blank": "tag"}]', '[{"blank": "no", "x": 0, "y": 0, "turn": 0}]',
            '[{"blank": "tag", "x": 1.5, "y": 0, "turn": 0}]', '[{"blank": "tag", "x": true, "y": 0, "turn": 0}]',
            '[{"blank": "tag", "x": 0, "y": 0, "turn": 9}]', '[{"blank": [], "x": 0, "y": 0, "turn": 0}]')  # fmt: skip


@pytest.mark.parametrize(("address", "pieces"), list(product(("lay", "lay-try"), NONSENSE)))
def test_a_sheet_that_the_page_never_sends_is_refused(client: TestClient, word: str, address: str, pieces: str) -> None:
    form = said(client, word, pieces=pieces) | {"paper": "kraft"}
    assert client.post(f"/kit/{word}/{address}", data=form).status_code == 404


@pytest.mark.parametrize("address", ["picture", "scan", "pictures", "lay", "lay-back", "lay-try"])
def test_a_paper_that_is_not_in_the_kit_is_told_so(client: TestClient, word: str, address: str) -> None:
    form = said(client, word) | {"paper": "../x", "picture": "../x", "do": "off"}
    files = {"picture": ("p.png", picture())} if address == "picture" else None
    if files:
        form.pop("picture")
    assert client.post(f"/kit/{word}/{address}", data=form, files=files).status_code == 404
