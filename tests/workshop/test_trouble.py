"""What the disk and the database may do to a workshop: each is one clear sentence, nothing is lost, and looking goes on where it can."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from kitwright.errors import Mistake
from kitwright.workshop import NoSuchKit, Trouble, Workshop, changes, files
from kitwright.workshop.changes import Changes
from kitwright.workshop.migrations import STEPS as MIGRATIONS

ONE, TWO = "a = 1\n", "a = 2\n"


@pytest.fixture
def shop(tmp_path: Path) -> Workshop:
    made = Workshop(tmp_path / "shop")
    made.begin("kit", ONE, words="begun")
    return made


def everything(shop: Workshop) -> tuple[object, ...]:
    """All that there is to be lost."""
    kits = {path.name: path.read_bytes() for path in shop.kits.iterdir()}
    return kits, shop.revisions("kit"), shop.removed()


CHANGES: dict[str, Callable[[Workshop], object]] = {
    "keep": lambda shop: shop.keep("kit", TWO, seen=1, words="two"),
    "begin": lambda shop: shop.begin("other", TWO, words="begun"),
    "remove": lambda shop: shop.remove("kit"),
}


@pytest.fixture(params=CHANGES)
def change(request: pytest.FixtureRequest) -> Callable[[Workshop], object]:
    return CHANGES[request.param]


@pytest.mark.parametrize("fails", ["os.fsync", "tempfile.mkstemp", "pathlib.Path.replace", "pathlib.Path.unlink"])
def test_a_disk_that_refuses_leaves_all_as_it_was_and_no_rest(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch, fails: str
) -> None:
    before = everything(shop)
    does = CHANGES["remove" if fails.endswith("unlink") else "keep"]
    with monkeypatch.context() as full:
        full.setattr(fails, refuse)
        with pytest.raises(Trouble, match=r"No space left on device\). Nothing was changed\. Free some room"):
            does(shop)
        assert shop.read("kit").document == ONE
    assert everything(shop) == before


def refuse(*_: object, **__: object) -> None:
    raise OSError(28, "No space left on device")


@pytest.fixture
def full(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A database that has no room for one page more."""
    connect = Changes.connect

    def without_room(self: Changes) -> sqlite3.Connection:
        database = connect(self)
        (pages,) = database.execute("PRAGMA page_count").fetchone()
        database.execute(f"PRAGMA max_page_count = {pages}")
        return database

    with monkeypatch.context() as context:
        context.setattr(Changes, "connect", without_room)
        yield


def test_a_full_database_is_told_and_looking_goes_on(shop: Workshop, full: None) -> None:
    before = everything(shop)
    with pytest.raises(Trouble, match=r"The disk is full\. Nothing was changed\."):
        shop.keep("kit", TWO + "# " + "x" * 200_000, seen=1, words="large")
    assert shop.read("kit").document == ONE
    assert everything(shop) == before


@pytest.mark.parametrize("change", ["keep", "begin"])
def test_a_disk_that_is_full_at_the_very_end_of_a_change_leaves_the_document_of_before(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch, change: str
) -> None:
    before = everything(shop)
    with monkeypatch.context() as context:
        context.setattr(Changes, "connect", lambda self: Ending(CONNECT(self), refuse_database))
        with pytest.raises(Trouble, match=r"The disk is full\. Nothing was changed\."):
            CHANGES[change](shop)
    assert everything(shop) == before


def test_a_kit_changed_outside_can_be_looked_at_while_there_is_no_room_to_keep_that(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    (shop.kits / "kit.toml").write_text(TWO)
    with monkeypatch.context() as context:
        context.setattr(Changes, "add", refuse_database)
        assert (shop.read("kit").document, shop.read("kit").revision) == (TWO, 1)
    assert shop.read("kit").revision == 2


def refuse_database(*_: object) -> None:
    """What SQLite says on a full disk."""
    error = sqlite3.OperationalError("database or disk is full")
    error.sqlite_errorcode = sqlite3.SQLITE_FULL
    raise error


def test_a_database_that_another_program_has_to_itself_is_told_and_the_kit_can_be_looked_at(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch, change: Callable[[Workshop], object]
) -> None:
    monkeypatch.setattr(changes, "WAIT_SECONDS", 0.0)
    before = everything(shop)
    with closing(sqlite3.connect(shop.changes.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(Trouble, match=r"in use by another program just now\. Nothing was changed\."):
            change(shop)
        assert shop.read("kit").document == ONE
        with pytest.raises(Trouble):
            Workshop(shop.folder)
    assert everything(shop) == before


@pytest.mark.parametrize("damage", ["no database", "torn", "folder"])
def test_a_workshop_whose_database_is_none_is_refused_in_words_and_left_alone(shop: Workshop, damage: str) -> None:
    path = shop.changes.path
    whole = path.read_bytes()
    path.unlink()
    if damage == "folder":
        path.mkdir()
    else:
        path.write_bytes(b"my own notes" * 99 if damage == "no database" else whole[:100] + b"\xff" * 5000)
    with pytest.raises(Trouble) as told:
        Workshop(shop.folder)
    assert "workshop.db" in str(told.value)
    assert shop.read("kit").document == ONE
    assert [each.word for each in shop.shelf()] == ["kit"]
    for ask in (shop.removed, lambda: shop.revisions("kit"), lambda: shop.keep("kit", TWO, seen=1, words="")):
        with pytest.raises(Trouble):
            ask()
    assert damage == "folder" or path.read_bytes() != whole


def test_a_folder_that_may_not_be_written_to_can_be_looked_at(shop: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    connect = sqlite3.connect

    def only_look(path: Path, **more: object) -> sqlite3.Connection:
        return connect(f"file:{path}?mode=ro", uri=True, **more)  # type: ignore[call-overload, no-any-return]

    monkeypatch.setattr("sqlite3.connect", only_look)
    again = Workshop(shop.folder)
    assert again.read("kit").document == ONE
    assert len(again.revisions("kit")) == 1
    with pytest.raises(Trouble, match="may not be written to"):
        again.keep("kit", TWO, seen=1, words="two")
    assert again.read("kit").document == ONE


def test_a_folder_of_kits_that_is_gone_is_made_again_and_its_kits_can_be_put_back(shop: Workshop) -> None:
    (shop.kits / "kit.toml").unlink()
    shop.kits.rmdir()
    assert shop.shelf() == ()
    assert shop.removed() == ("kit",)
    with pytest.raises(NoSuchKit):
        shop.read("kit")
    assert shop.put_back("kit").document == ONE
    assert shop.begin("other", TWO, words="begun").document == TWO


def test_a_kit_taken_off_the_shelf_while_another_saves_it_is_told_and_stays_off(shop: Workshop) -> None:
    shop.remove("kit")
    for ask in (
        lambda: shop.keep("kit", TWO, seen=1, words="two"),
        lambda: shop.go_to("kit", 1, seen=1),
        lambda: shop.remove("kit"),
    ):
        with pytest.raises(NoSuchKit, match="no such kit on the shelf"):
            ask()
    assert (shop.removed(), shop.shelf()) == (("kit",), ())
    assert shop.put_back("kit").document == ONE


class Killed(BaseException):
    """What a process does not survive."""


STEPS = ("Changes.current", "Changes.add", "Path.unlink", "COMMIT")


@pytest.mark.parametrize("dies", ["before", "after"])
@pytest.mark.parametrize("step", STEPS)
def test_killed_at_any_step_of_taking_a_kit_off_it_is_on_the_shelf_or_can_be_put_back_with_all_of_it(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch, step: str, dies: str
) -> None:
    (shop.kits / "kit.toml").write_text(TWO)  # with another program, so that this too must come into the database first

    def killed(call: Callable[..., object]) -> Callable[..., object]:
        def dying(*values: object, **named: object) -> object:
            if dies == "after":
                call(*values, **named)
            raise Killed

        return dying

    with monkeypatch.context() as context:
        if step == "COMMIT":
            context.setattr(Changes, "connect", lambda self: Ending(CONNECT(self), lambda does: killed(does)("COMMIT")))
        elif step == "Path.unlink":
            context.setattr(Path, "unlink", killed(Path.unlink))
        else:
            name = step.removeprefix("Changes.")
            context.setattr(Changes, name, staticmethod(killed(getattr(Changes, name))))
        with pytest.raises(Killed):
            shop.remove("kit")
    again = Workshop(shop.folder)
    assert [each.word for each in again.shelf()] + list(again.removed()) == ["kit"]
    if again.removed():
        again.put_back("kit")
    assert again.read("kit").document == TWO
    assert again.document("kit", 1) == ONE


CONNECT = Changes.connect


class Ending:
    """A connection that ends its changes in another way."""

    def __init__(self, database: sqlite3.Connection, commit: Callable[..., object]) -> None:
        self.database, self.commit = database, commit

    def execute(self, words: str, *more: object) -> object:
        does = self.database.execute
        return self.commit(does) if words == "COMMIT" else does(words, *more)  # type: ignore[arg-type]

    def __getattr__(self, name: str) -> object:
        return getattr(self.database, name)


def test_what_a_killed_writer_left_is_removed_at_the_next_opening_and_what_one_writes_just_now_is_not(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    waiting = files.stage(shop.kits / "kit.toml", TWO.encode())
    left = shop.kits / ".kit.toml.abcd_123.part"
    mine = shop.kits / ".notes.part"
    journal = shop.folder / "workshop.db-journal"
    for path in (left, mine):
        path.write_text("x")
    journal.touch()
    Workshop(shop.folder)
    assert not journal.exists()
    assert {path.name for path in shop.kits.iterdir()} == {"kit.toml", mine.name, waiting.path.name}
    waiting.settle()
    assert shop.read("kit").document == TWO


def test_a_workshop_of_before_keeps_its_kits_on_and_off_the_shelf(tmp_path: Path) -> None:
    folder = tmp_path / "old"
    (folder / "kits").mkdir(parents=True)
    with closing(sqlite3.connect(folder / "workshop.db", isolation_level=None)) as database:
        database.execute("PRAGMA journal_mode = WAL")
        database.execute("CREATE TABLE step (name TEXT PRIMARY KEY) STRICT")
        name, statements = MIGRATIONS[0]
        for statement in statements:
            database.execute(statement)
        database.execute("INSERT INTO step VALUES (?)", (name,))
        for number, word in enumerate(("off", "on"), 1):
            database.execute("INSERT INTO kit VALUES (?, ?, 1, ?)", (number, word, word == "off"))
            database.execute("INSERT INTO revision VALUES (?, 1, 0, '', ?, '2020-01-01')", (number, ONE))
    (folder / "kits" / "on.toml").write_text(ONE)
    shop = Workshop(folder)
    assert ([each.word for each in shop.shelf()], shop.removed()) == (["on"], ("off",))
    assert shop.put_back("off").document == ONE
    assert sorted(path.name for path in folder.iterdir()) == ["kits", "workshop.db"]


def test_a_folder_that_cannot_be_a_workshop_is_told(tmp_path: Path) -> None:
    (tmp_path / "shop").write_text("mine")
    with pytest.raises(Mistake, match="cannot be a workshop"):
        Workshop(tmp_path / "shop")


def test_a_database_taken_away_from_an_open_workshop_is_told_and_none_is_made_in_its_place(shop: Workshop) -> None:
    path = shop.changes.path
    whole = path.read_bytes()
    path.unlink()
    for ask in (shop.removed, lambda: shop.revisions("kit"), lambda: shop.keep("kit", TWO, seen=1, words="")):
        with pytest.raises(
            Trouble, match=r"workshop\.db with the history of all kits is gone\. Nothing was changed\. Put it back"
        ):
            ask()
    assert shop.read("kit").document == ONE
    assert not path.exists()
    path.write_bytes(whole)
    assert shop.keep("kit", TWO, seen=1, words="").revision == 2


def test_an_emptied_database_is_told_as_damaged(shop: Workshop) -> None:
    shop.changes.path.write_bytes(b"")
    with pytest.raises(Trouble, match="is damaged"):
        shop.revisions("kit")
