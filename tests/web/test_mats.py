"""The mats of a cutting machine on the page: laid when wished, stopped when wished, taken away; what the machine is like, as fields."""

import io
import re
import zipfile
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Any

import pytest
from starlette.testclient import TestClient

from kitwright.cutting import Mat, MatLayout, NestedPlan, Outlined
from kitwright.cutting.nest_search import alone
from kitwright.kit import read_kit
from kitwright.plan import lay_on_mats, machine, plan
from kitwright.printouts.make.mat_files import mat_files
from kitwright.workshop import Workshop
from tests.kit.documents import head, part
from tests.web.test_pages import revision


def one_to_a_mat(
    pieces: Sequence[Outlined], mat: Mat, *, tell: Callable[[int, float], bool] | None = None, papers: int = 1
) -> NestedPlan:
    """Nesting that takes no time."""
    return NestedPlan(mat, tuple(MatLayout((alone(each, mat),), each.count) for each in pieces), {})


def endless(pieces: Sequence[Outlined], mat: Mat, *, tell: Callable[[int, float], bool], papers: int) -> NestedPlan:
    """Nesting that comes to an end only when it is told to."""
    while tell(1, 0.5):
        pass
    return NestedPlan(mat, (), {}, {each.name: each.count for each in pieces})


@pytest.fixture
def word(shop: Workshop, monkeypatch: pytest.MonkeyPatch) -> str:
    """A kit of two tags and a card on the shelf."""
    monkeypatch.setattr(machine, "nest", one_to_a_mat)
    text = head() + part("tag", "tag", size="2 x 3", quantity=2) + part("card", "flat card", size="5 x 4")
    return shop.begin("tags", text, words="Begun.").word


def told(client: TestClient, word: str, *, is_begun: bool = False) -> dict[str, Any]:
    """What the page hears when the mats are done; it asks as the page does."""
    answer: dict[str, Any] = {"done": False, "begun": is_begun}
    while not answer["done"]:
        again = {} if answer["begun"] else {"again": "yes"}
        answer = client.get(f"/kit/{word}/mats", params={"kits": "3", **again}).json()
    return answer


def send(client: TestClient, word: str, address: str, **said: str):
    return client.post(f"/kit/{word}/{address}", data={"revision": revision(client, word), **said})


def test_mats_are_shown_beside_what_the_trimmer_needs_and_taken_away(
    client: TestClient, word: str, shop: Workshop
) -> None:
    html = told(client, word)["html"]
    made = plan(read_kit(shop.read(word).document), batch=3)
    (paper,) = lay_on_mats(made)
    wanted = mat_files(made, paper)
    assert "Mats for 3 kits" in html
    assert f"By machine: 9 mats (at least {paper.fewest} by area). With the trimmer: {paper.by_trimmer}" in html
    assert "mat 1, 6 times" in html
    offered = re.findall(r'href="/kit/[^/]+/mats/([^"?]+)\?kits=3" download', html)
    assert set(offered) == {"all-mats.zip", *wanted}
    for name, data in wanted.items():
        answer = client.get(f"/kit/{word}/mats/{name}", params={"kits": "3"})
        assert (answer.content, answer.headers["content-disposition"]) == (data, f'attachment; filename="tags-{name}"')
    whole = client.get(f"/kit/{word}/mats/all-mats.zip", params={"kits": "3"})
    with zipfile.ZipFile(io.BytesIO(whole.content)) as pack:
        assert {name: pack.read(name) for name in pack.namelist()} == wanted


def test_what_is_no_mat_is_not_found_and_mats_that_nobody_laid_are_asked_for(client: TestClient, word: str) -> None:
    answer = client.get(f"/kit/{word}/mats/card-mat-1.svg", params={"kits": "3"})
    assert answer.status_code == 404
    assert "Lay the blanks on mats" in answer.text
    told(client, word)
    for name in ("card-mat-9.svg", "card-mat-1.pdf", "../kit.toml", "x"):
        assert client.get(f"/kit/{word}/mats/{name}", params={"kits": "3"}).status_code == 404


def test_mats_are_stopped_and_laid_anew_when_wished_again(
    client: TestClient, word: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(machine, "nest", endless)
    running: dict[str, Any] = {"begun": False, "words": ""}
    while "looking for fewer" not in running["words"]:
        running = client.get(f"/kit/{word}/mats", params={"kits": "3"}).json()
    client.post(f"/kit/{word}/stop", data={"kits": "3", "mats": "yes"})
    assert "Stopped: no paper was done yet." in told(client, word, is_begun=True)["html"]
    monkeypatch.setattr(machine, "nest", one_to_a_mat)
    assert "By machine: 9 mats" in told(client, word)["html"]


def test_a_machine_that_leaves_no_room_on_a_sheet_is_told(client: TestClient, word: str) -> None:
    assert send(client, word, "machine", number="0", edge="30").status_code == 303
    assert "no room inside its edges" in told(client, word)["mistake"]


@pytest.mark.parametrize("before", ["", 'machine = { gap = "1/32" }\n', '[kit.machine]\ngap = "1/32"  # by trial\n'])
def test_the_machine_has_fields_that_come_back_as_they_were_typed(
    client: TestClient, word: str, shop: Workshop, before: str
) -> None:
    text = shop.read(word).document.replace("[paper.card]", f"{before}[paper.card]", 1)
    assert send(client, word, "text", document=text).status_code == 303
    answer = send(client, word, "machine", number="0", mat="12 x 24", edge="⅛", kits="3")
    assert answer.headers["location"] == f"/kit/{word}/sheets?kits=3#machine-0"
    kept = shop.read(word).document
    made = read_kit(kept).machine
    inch = Fraction(127, 5)
    assert made.mat == (12 * inch, 24 * inch)
    assert [made.edge, made.gap] == [inch / 8, inch / (32 if before else 16)]
    page = client.get(f"/kit/{word}/sheets").text
    assert 'name="edge" value="⅛"' in page
    assert "Last change: Cutting: machine mat 12 x 24, edge ⅛" in page
    assert ("# by trial" in kept) == ("# by trial" in before)
    assert send(client, word, "machine", number="0", mat="", edge="", gap="").status_code == 303
    assert read_kit(shop.read(word).document).machine == read_kit(text.replace(before, "")).machine


@pytest.mark.parametrize(
    ("said", "key", "words"),
    [
        ({"mat": "12"}, "mat", "has one length"),
        ({"gap": "-1"}, "gap", "below zero"),
        ({"mat": "12 x 12", "edge": "7"}, "edge", "It leaves nothing of the mat."),
    ],
)
def test_what_is_wrong_with_the_machine_is_told_beside_its_field_and_stays_in_it(
    client: TestClient, word: str, shop: Workshop, *, said: dict[str, str], key: str, words: str
) -> None:
    before = shop.read(word)
    trial = client.post(f"/kit/{word}/try", data={"table": "machine", "number": "0", **said}).json()
    assert [each["key"] for each in trial["mistakes"]] == [key]
    answer = send(client, word, "machine", number="0", **said)
    assert answer.status_code == 422
    assert re.search(rf'id="machine-0-{key}-wrong"[^>]*>[^<]*{words}', answer.text)
    assert all(f'name="{name}" value="{value}"' in answer.text for name, value in said.items())
    assert shop.read(word) == before
    for address in ("add", "take-out"):
        assert send(client, word, address, table="machine", number="0").status_code == 404
