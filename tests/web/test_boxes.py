"""Boxes that hold what goes in: what the page says of each form, and what taking one changes."""

import re
from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from kitwright.kit import BoxChoice, BuiltKit, box_choices, boxes_of, build, read_kit
from kitwright.workshop import Workshop
from tests.web.test_pages import ANSWERS, example_text, revision


@pytest.fixture
def word(client: TestClient) -> str:
    """A kit that was begun with the wish to see its boxes."""
    there = str(client.post("/new", data={**ANSWERS, "then": "boxes"}).headers["location"])
    assert there.endswith("/boxes")
    return there.removeprefix("/kit/").removesuffix("/boxes")


def found(shop: Workshop, word: str) -> tuple[BuiltKit, list[BoxChoice]]:
    built = build(read_kit(shop.read(word).document))
    return built, [each for each in box_choices(built, boxes_of(built)[0]) if isinstance(each, BoxChoice)]


def test_every_form_of_box_is_told_with_its_inside_and_the_least_paper_first_and_the_best_can_be_taken(
    client: TestClient, shop: Workshop
) -> None:
    word = shop.begin("recipe-box", example_text("recipe-box"), words="Begun from an example.").word
    built, choices = found(shop, word)
    client.get(f"/kit/{word}/materials", params={"kits": "3"})  # said on another page of the kit
    page = client.get(f"/kit/{word}/boxes").text
    titles = re.findall(r'<article class="good">\s*<h3>([^<]+)', page)
    assert [title.strip() for title in titles] == [each.title for each in choices]
    assert all(f"<dd>{built.kit.ruler.size(*each.inside)} in" in page for each in choices)
    assert page.count("for 3 kits</dd>") + page.count("for 3 kits, not") == len(choices)
    (other,) = (each for each in choices if each.form == "tray")
    said = {"revision": revision(client, word), "part": "box", "form": "tray"}
    assert client.post(f"/kit/{word}/take-box", data=said).status_code == 303
    taken = build(read_kit(shop.read(word).document))
    at_its_line = {part.name: part.place for part in taken.kit.parts}
    assert taken.kit.parts == tuple(replace(part, place=at_its_line[part.name]) for part in other.kit.kit.parts)
    assert "Last change: box: Tray, " in client.get(f"/kit/{word}").text


@pytest.mark.parametrize("said", [{"part": "lid", "form": "tray"}, {"part": "tray", "form": "no form"}, {}])
def test_a_box_that_is_not_offered_is_not_taken(
    client: TestClient, word: str, shop: Workshop, said: dict[str, str]
) -> None:
    before = shop.read(word)
    answer = client.post(f"/kit/{word}/take-box", data={"revision": revision(client, word), **said})
    assert answer.status_code == 422
    assert shop.read(word) == before


def test_a_kit_without_a_box_says_so(client: TestClient, shop: Workshop) -> None:
    begun = client.post("/new", data={**ANSWERS, "box": "", "then": "boxes"})
    assert "No box of this kit holds anything." in client.get(str(begun.headers["location"])).text
