"""The page opened to a workroom: who is kept out, who comes in, how guesses are slowed down. Nothing here waits."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from starlette.testclient import TestClient

from kitwright.web import make_app
from kitwright.web.workroom import COOKIE, LASTS, MOST_TRIES, WORDS, Door, is_near, new_phrase
from kitwright.workshop import Workshop

PHRASE = "acorn amber anchor apple apron arrow"
NAME = "192.168.1.5"
ADDRESS = f"http://{NAME}:8000"


class Clock:
    """A clock that goes when it is told to."""

    def __init__(self) -> None:
        self.at = 1000.0

    def __call__(self) -> float:
        return self.at


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def door(clock: Clock) -> Door:
    return Door(PHRASE, now=clock)


def visitor(shop: Workshop, door: Door, near: str = "192.168.1.9") -> TestClient:
    return TestClient(
        make_app(shop, door=door, names=frozenset({NAME})),
        base_url=ADDRESS,
        headers={"origin": ADDRESS, "accept": "text/html"},
        follow_redirects=False,
        client=(near, 50_000),
    )


@pytest.fixture
def client(shop: Workshop, door: Door) -> Iterator[TestClient]:
    """Somebody at another device of the workroom."""
    with visitor(shop, door) as asking:
        yield asking


def come_in(client: TestClient, words: str = PHRASE):
    return client.post("/enter", data={"words": words})


def test_whoever_has_not_said_the_words_sees_and_changes_nothing(client: TestClient, shop: Workshop) -> None:
    kit = shop.begin("secret", '[kit]\nname = "secret"', words="")
    for address in (
        "/",
        f"/kit/{kit.word}",
        f"/kit/{kit.word}/take/kit.toml",
        "/kit/none",
        "/picture/x.jpg",
        "/nothing",
    ):
        answer = client.get(address)
        assert (answer.status_code, answer.headers["location"]) == (303, "/enter")
        assert "secret" not in answer.text
    assert client.get("/", headers={"accept": "application/json"}).status_code == 401
    assert client.post("/example", data={"example": "recipe-box"}).status_code == 303
    assert [each.word for each in shop.shelf()] == [kit.word]
    assert client.get("/enter").status_code == client.get("/look/bench.css").status_code == 200


def test_the_words_let_in_however_they_are_spaced_and_the_cookie_is_for_the_server_only(client: TestClient) -> None:
    answer = come_in(client, "  Acorn-amber, ANCHOR apple  apron arrow ")
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    said = answer.headers["set-cookie"].lower()
    assert {"httponly", "samesite=strict", "path=/"} <= {part.strip() for part in said.split(";")}
    assert client.get("/").status_code == 200
    assert client.post("/leave").headers["location"] == "/enter"
    assert client.get("/").status_code == 303


def test_a_session_ends_by_itself_and_a_made_up_token_opens_nothing(client: TestClient, clock: Clock) -> None:
    come_in(client)
    clock.at += LASTS - 1
    assert client.get("/").status_code == 200
    clock.at += 1
    assert client.get("/").status_code == 303
    for token in ("", "x", "x" * 5000, '"'):
        assert client.get("/", headers={"cookie": f"{COOKIE}={token}"}).status_code == 303


def test_each_wrong_guess_doubles_the_wait_and_one_that_comes_too_early_is_not_looked_at(
    client: TestClient, clock: Clock
) -> None:
    waits = []
    for _ in range(4):
        answer = come_in(client, "quite wrong")
        assert answer.status_code == 429
        waits.append(int(answer.headers["retry-after"]))
        early = come_in(client, PHRASE)
        assert (early.status_code, "set-cookie" in early.headers) == (429, False)
        clock.at += waits[-1]
    assert waits == [1, 2, 4, 8]
    assert come_in(client).status_code == 303


def test_nobodys_wrong_guesses_hold_the_door_shut_for_a_fresh_address(door: Door, clock: Clock) -> None:
    for number in range(MOST_TRIES):
        assert door.enter(f"10.0.0.{number}", "wrong").token is None
    full = door.enter("10.0.1.2", PHRASE)
    assert (full.token, full.wait) == (None, 1.0)
    clock.at += 1
    assert door.enter("10.0.1.2", PHRASE).token is not None


def test_all_addresses_of_a_network_together_soon_guess_less_than_once_a_second(door: Door, clock: Clock) -> None:
    looked_at = []
    for _ in range(900):
        looked_at.append(0)
        for number in range(1, 255):
            if door.wait(f"10.0.0.{number}") == 0:
                door.enter(f"10.0.0.{number}", "wrong")
                looked_at[-1] += 1
        clock.at += 1
    assert max(looked_at) == MOST_TRIES  # never more, so that guessing is hopeless
    assert sum(looked_at[600:]) < 300  # the bound for all is far away: whoever comes in then comes in at once
    assert door.enter("10.0.1.1", PHRASE).token is not None


def test_whoever_said_a_wrong_word_once_is_not_held_up_by_others(door: Door, clock: Clock) -> None:
    assert door.enter("10.0.1.1", "acorn amber anchor apple apron arow").wait == 1.0
    clock.at += 1
    for number in range(MOST_TRIES - 1):
        door.enter(f"10.0.0.{number}", "wrong")
    assert door.enter("10.0.1.1", PHRASE).token is not None


@pytest.mark.parametrize("address", ["8.8.8.8", "2001:4860:4860::8888", "testclient", ""])
def test_an_address_that_is_not_of_a_local_network_is_kept_out_even_of_the_door(
    shop: Workshop, door: Door, address: str
) -> None:
    with visitor(shop, door, near=address) as far:
        assert far.get("/enter").status_code == 403
        assert far.post("/enter", data={"words": PHRASE}).status_code == 403


@pytest.mark.parametrize("host", ["evil.example", "localhost:8000", "127.0.0.1:8000", "192.168.1.50:8000", ""])
def test_other_names_than_the_workrooms_are_refused(client: TestClient, host: str) -> None:
    come_in(client)
    assert client.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "", "http://192.168.1.9:8000"])
def test_words_and_changes_sent_from_another_page_are_refused(client: TestClient, origin: str) -> None:
    assert client.post("/enter", data={"words": PHRASE}, headers={"origin": origin}).status_code == 403
    come_in(client)
    assert client.post("/example", data={"example": "recipe-box"}, headers={"origin": origin}).status_code == 403


def test_a_large_text_at_the_door_is_refused(client: TestClient) -> None:
    assert come_in(client, "x" * 3000).status_code == 413


def test_without_a_workroom_there_is_no_door(shop: Workshop) -> None:
    with TestClient(make_app(shop), base_url="http://127.0.0.1:8000") as own:
        assert own.get("/enter").status_code == 404
        assert own.get("/").status_code == 200


def test_the_pass_phrase_is_not_kept_and_two_doors_have_different_hashes(door: Door) -> None:
    assert PHRASE not in repr(vars(door))
    assert Door(PHRASE).hash != door.hash


def test_phrases_are_six_plain_words_out_of_many() -> None:
    assert len(WORDS) == len(set(WORDS)) == 128
    assert all(re.fullmatch("[a-z]{3,8}", word) for word in WORDS)
    phrase = new_phrase().split()
    assert (len(phrase), set(phrase) <= set(WORDS)) == (6, True)
    assert new_phrase() != new_phrase()


@pytest.mark.parametrize(
    ("address", "near"),
    # RFC 1918, RFC 4193, RFC 3927; the others are public
    [
        ("10.1.2.3", True),
        ("172.16.0.1", True),
        ("172.32.0.1", False),
        ("192.168.0.1", True),
        ("169.254.1.1", True),
        ("fd00::1", True),
        ("0.0.0.0", False),
        ("1.1.1.1", False),
        ("not one", False),
    ],
)
def test_local_addresses_are_told_from_public_ones(address: str, near: bool) -> None:
    assert is_near(address) is near
