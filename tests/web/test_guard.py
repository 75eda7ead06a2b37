"""Nobody but this machine's own page may look or change anything (what a page of another site or a borrowed name would try)."""

import pytest
from starlette.testclient import TestClient

from kitwright.web.guard import LARGEST_REQUEST
from kitwright.workshop import Workshop
from tests.web.conftest import HERE


@pytest.mark.parametrize(
    "host", ["evil.example", "127.0.0.1.evil.example:8000", "localhost.evil.example", "10.0.0.7:8000", ""]
)
def test_another_name_that_points_here_is_refused(client: TestClient, host: str) -> None:
    assert client.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("host", ["127.0.0.1:8000", "localhost:8000", "[::1]:8000", "localhost", "[::1]"])
def test_the_names_of_this_machine_are_let_in(client: TestClient, host: str) -> None:
    assert client.get("/", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "origin",
    ["https://evil.example", "null", "http://127.0.0.1:9999", "http://localhost:8000", "", "https://127.0.0.1:8000"],
)
def test_a_change_sent_from_another_page_is_refused(client: TestClient, origin: str) -> None:
    assert client.post("/example", data={"example": "recipe-box"}, headers={"origin": origin}).status_code == 403


def test_a_change_that_does_not_say_where_it_comes_from_is_refused(client: TestClient) -> None:
    del client.headers["origin"]
    assert client.post("/example", data={"example": "recipe-box"}).status_code == 403


@pytest.mark.parametrize("site", ["cross-site", "same-site", "nonsense"])
def test_another_page_makes_the_program_work_nothing_out(client: TestClient, shop: Workshop, site: str) -> None:
    word = shop.begin("violet-box", "no kit at all", words="begun").word
    making = client.app.state.desk.making  # type: ignore[attr-defined]
    making.search = making.proved = None  # would be called, and fail
    for address in ("/", f"/kit/{word}", f"/kit/{word}/search?kits=100000", f"/kit/{word}/take/everything.zip"):
        answer = client.get(address, headers={"sec-fetch-site": site, "sec-fetch-mode": "no-cors"})
        assert (answer.status_code, word in answer.text) == (403, False)
        followed = client.get(address, headers={"sec-fetch-site": site, "sec-fetch-mode": "navigate"})
        assert (followed.status_code, 'href="/"' in followed.text, word in followed.text) == (403, True, False)
        assert "default-src 'none'" in followed.headers["content-security-policy"]
    for own in ("none", "same-origin"):
        assert client.get("/", headers={"sec-fetch-site": own}).status_code == 200


def test_a_request_that_says_it_is_too_large_is_refused_unread(client: TestClient) -> None:
    answer = client.post("/bring", content=b"x", headers={"content-length": str(LARGEST_REQUEST + 1)})
    assert answer.status_code == 413


def test_a_request_that_turns_out_too_large_is_refused(client: TestClient) -> None:
    pieces = (b"x" * 100_000 for _ in range(LARGEST_REQUEST // 100_000 + 2))
    answer = client.post("/new", content=pieces, headers={"content-type": "application/x-www-form-urlencoded"})
    assert answer.status_code == 413


@pytest.mark.parametrize("address", ["/", "/nonsense", "/look/bench.css"])
def test_every_answer_forbids_what_the_page_does_not_need(client: TestClient, address: str) -> None:
    headers = client.get(address).headers
    policy = headers["content-security-policy"]
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy
    assert "http" not in policy
    assert headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_other_methods_are_refused(client: TestClient, method: str) -> None:
    assert client.request(method, "/", headers={"origin": HERE}).status_code == 405
