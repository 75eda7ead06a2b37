"""A text longer than a kit document may be is not kept; a kit whose file became as long stays on the shelf, and there is a way back."""

from __future__ import annotations

from html import unescape

from starlette.testclient import TestClient

from kitwright.kit import LARGEST_DOCUMENT
from kitwright.workshop import Workshop
from tests.kit.documents import head, part

DOCUMENT = head() + part("card", "flat card", size="5 x 4")
LINE = "x" * 998
LONG = DOCUMENT + f"#{LINE}\n" * (LARGEST_DOCUMENT // 1000 + 1)
SAYS = f"This document is {len(LONG):,} bytes long, and a kit document may be 1,000,000 bytes long."


def test_a_text_that_is_too_long_is_not_kept_and_shown_again(client: TestClient, shop: Workshop) -> None:
    kit = shop.begin("cards", DOCUMENT, words="begun")
    page = client.post("/kit/cards/text", data={"revision": "1", "document": LONG})
    assert (page.status_code, SAYS in page.text, page.text.count(LINE)) == (422, True, LONG.count(LINE))
    assert shop.read("cards") == kit


def test_a_kit_whose_file_is_too_long_is_on_the_shelf_and_there_is_a_way_back(
    client: TestClient, shop: Workshop
) -> None:
    shop.begin("cards", DOCUMENT, words="begun")
    (shop.kits / "cards.toml").write_text(LONG)
    page = client.get("/")
    assert '"/kit/cards/text"' in page.text
    assert "Its text has mistakes." in page.text
    page = client.get("/kit/cards")
    assert (page.status_code, SAYS in unescape(page.text)) == (200, True)
    assert client.get("/kit/cards/history").status_code == client.get("/kit/cards/text").status_code == 200
    assert client.get("/kit/cards/take/kit.toml").text == LONG
    assert client.post("/kit/cards/undo", data={"revision": 2}).status_code == 303
    assert shop.read("cards").document == DOCUMENT
    assert client.post("/kit/cards/go", data={"revision": 1, "number": 2}).status_code == 303
    assert client.post("/kit/cards/copy").headers["location"] == "/kit/cards-2"
    assert client.post("/kit/cards/go", data={"revision": 2, "number": 1}).status_code == 303
    (shop.kits / "cards.toml").write_text(LONG + "# again\n")
    assert client.post("/kit/cards/remove").status_code == 303
    assert shop.removed() == ("cards",)
    assert client.post("/kit/cards/put-back").status_code == 303
    assert shop.read("cards").document == LONG + "# again\n"
