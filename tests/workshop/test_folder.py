"""The workshop keeps everything that was acknowledged, overrules nobody, and touches nothing outside its folder."""

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.kit import LARGEST_DOCUMENT
from kitwright.workshop import Conflict, Workshop, files, folder
from kitwright.workshop.changes import Changes

ONE, TWO, THREE = "a = 1\n", "a = 2\n", "a = 3\n"


@pytest.fixture
def shop(tmp_path: Path) -> Workshop:
    return Workshop(tmp_path / "shop")


def test_a_kept_document_is_the_plain_file_in_the_folder(shop: Workshop) -> None:
    kit = shop.begin("My kit", ONE, words="begun")
    shop.keep(kit.word, TWO, seen=kit.revision, words="changed")
    assert (shop.folder / "kits" / "my-kit.toml").read_text() == TWO
    assert shop.read("my-kit").document == TWO


def test_undo_goes_back_one_change_at_a_time_and_forgets_none(shop: Workshop) -> None:
    kit = shop.begin("kit", ONE, words="begun")
    two = shop.keep(kit.word, TWO, seen=kit.revision, words="two")
    three = shop.keep(kit.word, THREE, seen=two.revision, words="three")
    back = shop.step_back(kit.word, seen=three.revision)
    assert (back.document, shop.read("kit").document) == (TWO, TWO)
    first = shop.step_back(kit.word, seen=back.revision)
    assert first.document == ONE
    with pytest.raises(Mistake, match="nothing to undo"):
        shop.step_back(kit.word, seen=first.revision)
    assert [each.words for each in shop.revisions(kit.word)] == ["three", "two", "begun"]
    assert shop.go_to(kit.word, three.revision, seen=first.revision).document == THREE


def test_a_change_after_undo_hangs_on_the_state_it_was_made_from(shop: Workshop) -> None:
    kit = shop.begin("kit", ONE, words="begun")
    two = shop.keep(kit.word, TWO, seen=kit.revision, words="two")
    shop.step_back(kit.word, seen=two.revision)
    three = shop.keep(kit.word, THREE, seen=kit.revision, words="three")
    assert shop.step_back(kit.word, seen=three.revision).document == ONE


def test_the_later_of_two_changes_made_from_one_state_is_told_and_writes_nothing(shop: Workshop) -> None:
    kit = shop.begin("kit", ONE, words="begun")
    two = shop.keep(kit.word, TWO, seen=kit.revision, words="two")
    with pytest.raises(Conflict) as told:
        shop.keep(kit.word, THREE, seen=kit.revision, words="three")
    assert told.value.current == two.revision
    assert shop.read("kit").document == TWO
    assert len(shop.revisions("kit")) == 2


def test_a_change_made_with_another_program_is_kept_as_a_revision(shop: Workshop) -> None:
    kit = shop.begin("kit", ONE, words="begun")
    (shop.kits / "kit.toml").write_text(TWO)
    found = shop.read("kit")
    assert found.document == TWO
    assert found.revision != kit.revision
    assert shop.revisions("kit")[0].words == folder.FROM_OUTSIDE
    assert shop.step_back("kit", seen=found.revision).document == ONE


def test_a_document_put_into_the_folder_by_hand_is_on_the_shelf(shop: Workshop) -> None:
    (shop.kits / "by-hand.toml").write_text(ONE)
    assert [each.word for each in shop.shelf()] == ["by-hand"]
    assert shop.read("by-hand").revision == 1


@pytest.mark.parametrize(
    ("data", "text"),
    [
        ("# Größe\n".encode("latin-1"), "# Größe\n"),
        ("# Größe\n".encode("utf-16"), "# Größe\n"),
        (b"\xff\xfe\x00", "\xff\xfe\x00"),
        (b"\x89PNG\r\n\x00\x81", "\x89PNG\r\n\x00\x81"),
    ],
)
def test_a_document_that_is_no_text_in_utf_8_is_on_the_shelf_and_can_be_mended(
    shop: Workshop, data: bytes, text: str
) -> None:
    shop.begin("kit", ONE, words="begun")
    (shop.kits / "kit.toml").write_bytes(data)
    assert [each.document for each in shop.shelf()] == [text]
    found = shop.read("kit")
    assert (found.document, found.revision, shop.read("kit")) == (text, 2, found)
    assert shop.step_back("kit", seen=2).document == ONE
    assert shop.go_to("kit", 2, seen=1).document == text


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_a_document_that_is_too_long_for_a_kit_is_on_the_shelf_and_nothing_of_it_is_lost(
    shop: Workshop, mark: bytes
) -> None:
    shop.begin("kit", ONE, words="begun")
    long = ONE + "# more\n" * (LARGEST_DOCUMENT // 7 + 9)
    (shop.kits / "kit.toml").write_bytes(mark + long.encode())
    (shown,) = shop.shelf()
    assert long.startswith(shown.document)
    assert len(shown.document) > LARGEST_DOCUMENT
    found = shop.read("kit")
    assert (found.document, found.revision) == (long, 2)
    assert shop.step_back("kit", seen=2).document == ONE
    assert shop.go_to("kit", 2, seen=1).document == long
    shop.remove("kit")
    assert shop.put_back("kit").document == long


def test_a_file_too_long_even_to_be_held_is_named_on_the_shelf_and_not_touched(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(folder, "LARGEST_HELD", LARGEST_DOCUMENT + 9)
    kit = shop.begin("kit", ONE, words="begun")
    path, long = shop.kits / "kit.toml", b"#" * (LARGEST_DOCUMENT + 10)
    path.write_bytes(long)
    assert [each.word for each in shop.shelf()] == ["kit"]
    with pytest.raises(Mistake, match=r"the file kits/kit\.toml with a text editor made for large files"):
        shop.go_to("kit", 1, seen=kit.revision)
    assert path.read_bytes() == long
    path.write_bytes(long[1:])
    assert shop.read("kit").revision == 2


def test_a_kit_that_was_taken_off_comes_back_with_its_history(shop: Workshop) -> None:
    kit = shop.begin("kit", ONE, words="begun")
    shop.keep("kit", TWO, seen=kit.revision, words="two")
    shop.remove("kit")
    assert shop.shelf() == ()
    assert shop.removed() == ("kit",)
    with pytest.raises(KeyError):
        shop.read("kit")
    assert shop.put_back("kit").document == TWO
    assert shop.removed() == ()
    assert len(shop.revisions("kit")) == 2


def test_two_kits_of_one_name_get_words_of_their_own_even_after_one_was_taken_off(shop: Workshop) -> None:
    words = [shop.begin("Box", ONE, words="begun").word for _ in range(2)]
    shop.remove(words[0])
    assert [*words, shop.begin("Box", ONE, words="begun").word] == ["box", "box-2", "box-3"]


@pytest.mark.parametrize(
    "word", ["", ".", "..", "../x", "a/b", "A", "a\\b", "a b", "-a", "a-", "a" * 61, "a.toml", "é", "a\n", "con%2f"]
)
def test_what_is_no_word_never_becomes_a_path(shop: Workshop, word: str) -> None:
    for ask in (shop.read, shop.remove, shop.put_back):
        with pytest.raises(KeyError):
            ask(word)


@settings(deadline=None, max_examples=60)
@given(wish=st.text(max_size=120))
def test_any_name_at_all_makes_a_word_that_stays_in_the_folder(
    tmp_path_factory: pytest.TempPathFactory, wish: str
) -> None:
    shop = Workshop(tmp_path_factory.mktemp("shop"))
    kit = shop.begin(wish, ONE, words="begun")
    assert shop.path(kit.word).parent == shop.kits
    assert shop.read(kit.word).document == ONE


def test_a_link_out_of_the_folder_is_not_followed(shop: Workshop, tmp_path: Path) -> None:
    secret = tmp_path / "secret.toml"
    secret.write_text(ONE)
    (shop.kits / "link.toml").symlink_to(secret)
    assert shop.shelf() == ()
    with pytest.raises(KeyError):
        shop.read("link")


@pytest.mark.parametrize("dies_at", ["write_whole", "add", "sync_folder"])
def test_killed_in_the_middle_of_a_change_nothing_acknowledged_is_lost(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch, dies_at: str
) -> None:
    kit = shop.begin("kit", ONE, words="begun")
    two = shop.keep("kit", TWO, seen=kit.revision, words="two")

    def die(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as context:
        if dies_at == "write_whole":
            context.setattr(folder, "write_whole", die)
        elif dies_at == "sync_folder":
            context.setattr(files, "sync_folder", die)
        else:
            context.setattr(Changes, "add", staticmethod(die))
        with pytest.raises(KeyboardInterrupt):
            shop.keep("kit", THREE, seen=two.revision, words="three")
    again = Workshop(shop.folder).read("kit")
    assert again.document == (THREE if dies_at == "sync_folder" else TWO)
    documents = [kept(shop, each.number) for each in shop.revisions("kit")]
    assert ONE in documents
    assert TWO in documents


def kept(shop: Workshop, number: int) -> str | None:
    with shop.changes.reading() as database:
        return shop.changes.document(database, "kit", number)


def test_a_workshop_of_a_newer_program_is_refused_and_left_alone(shop: Workshop) -> None:
    with shop.changes.writing() as database:
        database.execute("INSERT INTO step VALUES ('from-the-future')")
    with pytest.raises(Mistake, match="newer"):
        Workshop(shop.folder)


def test_the_database_refuses_a_revision_of_no_kit(shop: Workshop) -> None:
    def orphan() -> None:
        with shop.changes.writing() as database:
            database.execute("INSERT INTO revision VALUES (99, 1, 0, '', '', '')")

    refused: Callable[[], None] = orphan
    with pytest.raises(sqlite3.IntegrityError):
        refused()
