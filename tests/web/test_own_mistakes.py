"""Mistakes of the program itself, made on purpose here: they are told as such and logged, and whatever they hit can still be mended."""

from __future__ import annotations

import io
import logging
import re
from collections.abc import Callable, Iterator
from html import unescape

import pytest
from starlette.testclient import TestClient

from kitwright.cutting import Progress
from kitwright.errors import Mistake
from kitwright.plan import lay_out_kit
from kitwright.web import kit_changes, kit_pages, making, shelf
from kitwright.workshop import Workshop
from tests.kit.documents import head, part

DOCUMENT = head() + part("card", "flat card", size="5 x 4")
HTML = {"accept": "text/html"}
DATA = {"accept": "application/json"}


class Panic(BaseException):
    """As compiled code raises it: no `Exception` at all."""


FAULTS: dict[str, BaseException] = {"an error": KeyError("second mat"), "a panic": Panic("strip-width")}


@pytest.fixture(params=FAULTS)
def fault(request: pytest.FixtureRequest) -> BaseException:
    return FAULTS[request.param]


@pytest.fixture
def word(shop: Workshop) -> str:
    """A kit with a state before the present one."""
    kit = shop.begin("cards", DOCUMENT, words="begun")
    return shop.keep(kit.word, DOCUMENT + "# changed\n", seen=kit.revision, words="changed").word


def raising(error: BaseException) -> Callable[..., object]:
    def fail(*_: object, **__: object) -> object:
        raise error

    return fail


@pytest.fixture
def broken(monkeypatch: pytest.MonkeyPatch, fault: BaseException) -> None:
    """No kit can be built."""
    monkeypatch.setattr(making, "build", raising(fault))


def text_in(page: str) -> str:
    """What stands in the field of a page with a text."""
    found = re.search(r"<textarea[^>]*>\n(.*)</textarea>", page, re.DOTALL)
    assert found
    return unescape(found[1])


def test_a_kit_that_cannot_be_built_can_be_looked_at_and_mended_as_text(
    client: TestClient, shop: Workshop, word: str, broken: None
) -> None:
    on = f"/kit/{word}"
    for view in ("", "/flat", "/folded", "/paper", "/fits", "/sheets", "/materials", "/stash", "/bench", "/print"):
        page = client.get(on + view, headers=HTML)
        assert page.status_code == 500
        assert "The program made a mistake" in page.text
        assert "nothing of yours is lost" in page.text
        for still in ("/text", "/history", "/take/kit.toml", "/undo"):
            assert f'"{on}{still}"' in page.text
    page = client.get(f"{on}/text")
    assert (page.status_code, text_in(page.text)) == (200, DOCUMENT + "# changed\n")
    assert client.get(f"{on}/history").status_code == client.get("/").status_code == 200
    assert client.get(f"{on}/take/kit.toml").text == DOCUMENT + "# changed\n"
    assert client.post(f"{on}/undo", data={"revision": 2}).status_code == 303
    assert shop.read(word).document == DOCUMENT
    assert client.post(f"{on}/go", data={"revision": 1, "number": 2}).status_code == 303
    assert shop.read(word).revision == 2
    assert client.post(f"{on}/copy").status_code == client.post(f"{on}/remove").status_code == 303
    assert shop.removed() == (word,)
    assert client.post(f"{on}/put-back").status_code == 303


def test_a_text_with_which_the_program_goes_wrong_is_shown_again_and_can_be_kept_all_the_same(
    client: TestClient, shop: Workshop, word: str, broken: None
) -> None:
    typed = DOCUMENT + "# <typed> just now\n"
    said = {"revision": "2", "document": typed.replace("\n", "\r\n")}
    page = client.post(f"/kit/{word}/text", data=said)
    assert (page.status_code, text_in(page.text)) == (500, typed)
    assert "Not kept yet" in page.text
    assert shop.read(word).revision == 2
    assert client.post(f"/kit/{word}/text", data={**said, "anyway": "yes"}).status_code == 303
    assert shop.read(word).document == typed
    assert text_in(client.get(f"/kit/{word}/text").text) == typed


@pytest.mark.parametrize("change", ["part", "add", "mend", "rename", "take-out", "take-box", "lay", "alike"])
def test_what_was_typed_into_a_form_is_shown_again(client: TestClient, word: str, broken: None, change: str) -> None:
    data = {"revision": 2, "number": 0, "table": "part", "name": "As I <typed> it", "size": "1 x 2", "paper": "card"}
    page = client.post(f"/kit/{word}/{change}", data=data, headers=HTML)
    assert page.status_code == 500
    assert "program made a mistake" in page.text
    assert "As I &lt;typed&gt; it" in page.text


def test_a_kit_that_cannot_even_be_read_leaves_the_shelf_as_it_is(
    client: TestClient, shop: Workshop, word: str, monkeypatch: pytest.MonkeyPatch, fault: BaseException
) -> None:
    monkeypatch.setattr(shelf, "read_kit", raising(fault))
    page = client.get("/")
    assert (page.status_code, word in page.text) == (200, True)
    file = {"document": ("k.toml", io.BytesIO(DOCUMENT.encode()), "text/plain")}
    brought = client.post("/bring", files=file, headers=HTML)
    assert (brought.status_code, text_in(brought.text)) == (500, DOCUMENT)
    assert [kit.word for kit in shop.shelf()] == [word]
    monkeypatch.setattr(kit_changes, "read_kit", raising(fault))
    checked = client.post(f"/kit/{word}/check-text", data={"document": DOCUMENT}, headers=DATA).json()
    assert "program made a mistake" in checked["mistakes"][0]["words"]
    assert client.post(f"/kit/{word}/copy").status_code == 303


def test_a_page_that_cannot_be_drawn_is_told_and_the_others_go_on(
    client: TestClient, word: str, monkeypatch: pytest.MonkeyPatch, fault: BaseException
) -> None:
    monkeypatch.setattr("kitwright.web.pictures.folded", raising(fault))
    monkeypatch.setattr(kit_pages, "fold_data", raising(fault))
    for view in ("", "/folded"):
        page = client.get(f"/kit/{word}{view}")
        assert (page.status_code, "The program made a mistake" in page.text) == (500, True)
        assert page.headers["content-security-policy"]
    assert client.get(f"/kit/{word}/fits").status_code == 200
    data = client.get(f"/kit/{word}/fold/0", headers=DATA)
    assert (data.status_code, "program made a mistake" in data.json()["mistake"]) == (500, True)


def test_a_mistake_is_logged_once_with_where_it_was_made(
    client: TestClient, word: str, broken: None, fault: BaseException, caplog: pytest.LogCaptureFixture
) -> None:
    client.get(f"/kit/{word}/fits")
    (record,) = caplog.records
    assert (record.name, record.levelno, record.exc_info is not None) == ("kitwright", logging.ERROR, True)
    assert record.exc_info
    assert record.exc_info[1] is fault
    assert word not in record.getMessage()


def test_whoever_uses_it_as_a_library_hears_nothing(
    client: TestClient, word: str, broken: None, capfd: pytest.CaptureFixture[str]
) -> None:
    logger = logging.getLogger("kitwright")
    logger.propagate = False  # as if nobody had set up any logging
    try:
        client.get(f"/kit/{word}/fits")
    finally:
        logger.propagate = True
    assert capfd.readouterr() == ("", "")


@pytest.fixture
def once(monkeypatch: pytest.MonkeyPatch, fault: BaseException) -> Iterator[list[int]]:
    """The first search for layouts goes wrong, the later ones do not."""
    calls: list[int] = []
    real = lay_out_kit

    def search(*values: object, **named: object) -> object:
        calls.append(1)
        if len(calls) == 1:
            raise fault
        return real(*values, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(making, "lay_out_kit", search)
    yield calls


def told_at_last(client: TestClient, address: str) -> dict[str, object]:
    """The answer to a page that asks until it is told an end."""
    while True:
        told: dict[str, object] = client.get(address, headers=DATA).json()
        if told.get("done") or "mistake" in told:
            return told


def test_a_search_that_went_wrong_is_told_and_begun_anew_when_it_is_asked_for_again(
    client: TestClient, word: str, once: list[int]
) -> None:
    address = f"/kit/{word}/search?kits=2"
    assert "program made a mistake" in str(told_at_last(client, address)["mistake"])
    assert "html" in told_at_last(client, address)
    assert len(once) > 1


def test_a_stopped_search_that_goes_wrong_is_told_and_forgotten(
    client: TestClient, word: str, monkeypatch: pytest.MonkeyPatch, fault: BaseException
) -> None:
    def search(*_: object, progress: Callable[[object], bool], **__: object) -> object:
        while progress(Progress("looking", None, None)):
            pass
        raise fault

    with monkeypatch.context() as context:
        context.setattr(making, "lay_out_kit", search)
        address = f"/kit/{word}/search?kits=2"
        assert client.get(address, headers=DATA).json()["done"] is False
        assert client.post(f"/kit/{word}/stop", data={"kits": 2}).json() == {"stopped": True}
        assert "program made a mistake" in str(told_at_last(client, address)["mistake"])
    assert "html" in told_at_last(client, address)


def test_mats_that_went_wrong_are_told_and_laid_anew_when_wished(
    client: TestClient, word: str, monkeypatch: pytest.MonkeyPatch, fault: BaseException
) -> None:
    monkeypatch.setattr("kitwright.web.nesting.lay_paper_on_mats", raising(fault))
    for again in ("", "&again=yes"):
        client.get(f"/kit/{word}/mats?kits=1{again}", headers=DATA)
        told = told_at_last(client, f"/kit/{word}/mats?kits=1")
        assert "program made a mistake" in str(told["mistake"])


@pytest.mark.parametrize("name", ["everything.zip", "bench-pack.pdf", "proof.txt", "patterns/card.svg"])
def test_files_that_cannot_be_made_are_told_as_a_mistake_of_the_program_or_in_the_words_of_the_kits_own(
    client: TestClient, word: str, monkeypatch: pytest.MonkeyPatch, fault: BaseException, name: str
) -> None:
    monkeypatch.setattr("kitwright.web.taking.whole_pack", raising(fault))
    answer = client.get(f"/kit/{word}/take/{name}", headers=HTML)
    assert (answer.status_code, "The program made a mistake" in answer.text) == (500, True)
    monkeypatch.setattr(
        "kitwright.web.taking.whole_pack", raising(Mistake("The words do not fit.", do="Shorten them."))
    )
    answer = client.get(f"/kit/{word}/take/{name}", headers=HTML)
    assert (answer.status_code, "The words do not fit. Shorten them." in answer.text) == (422, True)


def test_what_was_typed_for_a_kit_that_is_no_longer_on_the_shelf_is_shown_again(
    client: TestClient, shop: Workshop, word: str
) -> None:
    shop.remove(word)
    page = client.post(f"/kit/{word}/text", data={"revision": 2, "document": DOCUMENT}, headers=HTML)
    assert (page.status_code, text_in(page.text)) == (404, DOCUMENT)
    assert "taken off the shelf" in page.text


def test_a_disk_that_is_full_is_told_with_what_was_typed_and_kits_can_be_looked_at(
    client: TestClient, shop: Workshop, word: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tempfile.mkstemp", raising(OSError(28, "No space left on device")))
    typed = DOCUMENT + "# typed\n"
    page = client.post(f"/kit/{word}/text", data={"revision": 2, "document": typed})
    assert (page.status_code, text_in(page.text)) == (503, typed)
    assert "No space left on device" in page.text
    for address, data in (("/undo", {"revision": 2}), ("/go", {"revision": 2, "number": 1}), ("/copy", {})):
        answer = client.post(f"/kit/{word}{address}", data=data, headers=HTML)
        assert (answer.status_code, "No space left on device" in answer.text) == (503, True), address
    part = client.post(f"/kit/{word}/part", data={"revision": 2, "number": 0, "quantity": 3}, headers=HTML)
    assert "No space left on device" in part.text
    assert client.get(f"/kit/{word}").status_code == client.get("/").status_code == 200
    assert shop.read(word).revision == 2


def test_without_its_history_a_kit_can_be_looked_at(client: TestClient, shop: Workshop, word: str) -> None:
    shop.changes.path.write_bytes(b"no database" * 99)
    for address in ("/", f"/kit/{word}", f"/kit/{word}/text"):
        page = client.get(address)
        assert (page.status_code, "istory cannot be read now" in page.text) == (200, True), address
    history = client.get(f"/kit/{word}/history", headers=HTML)
    assert (history.status_code, "workshop.db is damaged" in history.text) == (503, True)
    page = client.post(f"/kit/{word}/text", data={"revision": 0, "document": DOCUMENT})
    assert (page.status_code, text_in(page.text)) == (503, DOCUMENT)


@pytest.mark.parametrize("damage", ["gone", "none"])
def test_without_its_history_a_change_is_refused_in_the_words_of_the_trouble_and_is_no_change_made_elsewhere(
    client: TestClient, shop: Workshop, word: str, damage: str
) -> None:
    if damage == "gone":
        shop.changes.path.unlink()
    else:
        shop.changes.path.write_bytes(b"no database" * 99)
    for address, data in (
        ("text", {"document": DOCUMENT + "# typed\n"}),
        ("part", {"number": 0, "quantity": 3}),
        ("undo", {}),
    ):
        answer = client.post(f"/kit/{word}/{address}", data={"revision": 2, **data}, headers=HTML)
        assert (answer.status_code, "workshop.db" in answer.text, "changed elsewhere" in answer.text) == (
            503,
            True,
            False,
        ), address
