"""Every address of the page, read off the program's own list: asked for what is not there, sent nonsense, it answers in words."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from typing import Any, cast

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.applications import Starlette
from starlette.routing import Route
from starlette.testclient import TestClient

from kitwright.web import make_app
from kitwright.workshop import Workshop
from tests.kit.documents import head, part
from tests.web.conftest import HERE

HOSTILE = ("../../etc/passwd", "..%2f..%2fshop", "%00", "a" * 300, "'; drop table kits; --", "<b>", "con", "ü")
INSIDES = ("Traceback", 'File "', "kitwright/", "site-packages", "sqlite")
KEYS = (
    "part", "table", "number", "name", "kits", "lengths", "sizing", "quantity", "document", "code", "about", "paper", "pieces", "picture",
    "at", "up", "shows", "example", "prove", "do", "hand", "over", "view", "holds", "on", "form", "size", "weight", "sheet", "kind",
    "left", "edge", "typed", "which", "mat", "mats", "alike",
)  # fmt: skip


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Workshop:
    return Workshop(tmp_path_factory.mktemp("routes") / "shop")


@pytest.fixture(scope="module")
def kept(shop: Workshop) -> tuple[str, str]:
    """The word of a kit on the shelf, and its document."""
    text = head() + part("card", "half-fold card", size="5 x 4") + part("box", "tray", holds="card", height="1")
    return shop.begin("two-parts", text, words="Begun.").word, text


@pytest.fixture(scope="module")
def client(shop: Workshop) -> Iterator[TestClient]:
    with TestClient(
        make_app(shop), base_url=HERE, headers={"origin": HERE}, follow_redirects=False, raise_server_exceptions=False
    ) as asking:
        yield asking


def routes(client: TestClient, method: str) -> list[str]:
    """The addresses that answer to a method, with what is filled in between braces."""
    return [
        each.path
        for each in cast("Starlette", client.app).routes
        if isinstance(each, Route) and method in (each.methods or ())
    ]


def filled(path: str, word: str, rest: str) -> str:
    """An address with the word of a kit, and with something else in every other place."""
    return re.sub(r"\{(\w+)[^}]*\}", lambda found: word if found[1] == "word" else rest, path)


def is_in_words(path: str, answer: Any, codes: tuple[int, ...]) -> None:
    assert answer.status_code in codes, (path, answer.status_code)
    assert not any(each in answer.text for each in INSIDES), path


def test_no_address_finds_a_kit_that_is_not_there(client: TestClient) -> None:
    for path, rest in itertools.product(routes(client, "GET"), HOSTILE):
        if "{" in path:
            address = filled(path, "no-such-kit", rest)
            is_in_words(address, client.get(address), (404, 422))
    for path in routes(client, "POST"):
        if "{word}" in path and not path.endswith("/check-text"):  # which looks at a text and at no kit
            address = filled(path, "no-such-kit", "x")
            is_in_words(address, client.post(address, data={"part": "0"}), (404,))


def test_no_hostile_name_finds_anything_in_a_kit_that_is_there(client: TestClient, kept: tuple[str, str]) -> None:
    for path, rest in itertools.product(routes(client, "GET"), HOSTILE):
        if "{word}" in path and path.count("{") > 1:
            address = filled(path, kept[0], rest)
            is_in_words(address, client.get(address), (404, 422))


def test_every_change_needs_the_pages_own_origin(client: TestClient, kept: tuple[str, str]) -> None:
    for path in routes(client, "POST"):
        answer = client.post(
            filled(path, kept[0], "x"), data={"part": "0"}, headers={"origin": "http://elsewhere.example"}
        )
        assert answer.status_code == 403, path


def test_no_address_answers_under_the_name_of_another(client: TestClient, kept: tuple[str, str]) -> None:
    for method, host in itertools.product(("GET", "POST"), ("elsewhere.example", "127.0.0.1.elsewhere.example:8000")):
        for path in routes(client, method):
            answer = client.request(
                method, filled(path, kept[0], "0"), headers={"host": host, "origin": f"http://{host}"}
            )
            assert answer.status_code == 421, path
            assert kept[0] not in answer.text


@pytest.mark.parametrize(
    "body",
    [
        {"content": b"", "headers": {"content-type": "application/x-www-form-urlencoded"}},
        {"content": b"\xff\xfe\x00", "headers": {"content-type": "application/json"}},
        {"content": b"--x\r\nbroken", "headers": {"content-type": "multipart/form-data; boundary=x"}},
        {"files": {"file": ("../../x.toml", b"\x89PNG\r\n\x1a\n" + b"\0" * 64, "image/png")}},
        {"files": {"picture": ("a\0b.svg", b"<svg xmlns='http://www.w3.org/2000/svg'/>", "image/svg+xml")}},
        {"data": dict.fromkeys(KEYS, "9" * 400)},
    ],
    ids=["empty", "not a form", "broken parts", "picture as a kit", "kit as a picture", "huge numbers"],
)
def test_no_nonsense_that_is_sent_breaks_the_program_or_changes_a_kit(
    client: TestClient, shop: Workshop, kept: tuple[str, str], body: dict[str, Any]
) -> None:
    word, _ = kept
    before = shop.read(word).document
    for path in routes(client, "POST"):
        if path.endswith(("/copy", "/remove", "/undo", "/stop", "/example", "/pictures")):
            continue  # these take no more than the address
        answer = client.post(filled(path, word, "x"), **body)
        is_in_words(path, answer, (200, 303, 400, 404, 409, 413, 415, 422))
    assert shop.read(word).document == before


@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_whatever_is_typed_into_whichever_form_is_answered_in_words(
    client: TestClient, shop: Workshop, kept: tuple[str, str], data: st.DataObject
) -> None:
    paths = [path for path in routes(client, "POST") if "{word}" in path and not path.endswith(("/remove", "/copy"))]
    path = data.draw(st.sampled_from(paths))
    typed = st.one_of(
        st.text(max_size=20), st.sampled_from(("0", "1", "-1", "part", "card", "6 x 4", "1/0", "nan", "[]", "1e9"))
    )
    form = data.draw(st.dictionaries(st.sampled_from(KEYS), typed, max_size=6))
    form["revision"] = str(shop.read(kept[0]).revision)
    form.setdefault("table", data.draw(st.sampled_from(("part", "paper", "extra"))))
    form.setdefault("number", "0")
    headers = data.draw(st.sampled_from(({}, {"accept": "application/json"})))
    answer = client.post(filled(path, kept[0], "0"), data=form, headers=headers)
    is_in_words(path, answer, (200, 303, 400, 404, 409, 413, 422))
