"""The workshop folder: kits as plain documents in `kits/`, every state of them in `workshop.db`.

The document in the folder is what counts. Whoever changes it with another program is not overruled: the change is found at the
next look and kept as a revision of its own. A change made here is on the disk before it is acknowledged: its revision is written, then
the document is put in place whole, then the revision counts; killed in between, the document is found changed and kept like any other.
A kit is off the shelf when its document is not in the folder: taking it off is one step, before which all of it is in the database.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from kitwright.errors import KitwrightError, Mistake
from kitwright.kit import LARGEST_DOCUMENT
from kitwright.workshop.changes import Changes, Revision
from kitwright.workshop.files import clear_leftovers, write_whole
from kitwright.workshop.scans import Scans
from kitwright.workshop.trouble import Trouble, disk_trouble
from kitwright.workshop.words import WORD, path_word

__all__ = ["Conflict", "KitOnShelf", "NoSuchKit", "StoredKit", "Workshop"]

LARGEST_HELD: Final = 20 * LARGEST_DOCUMENT
"""Bytes. A longer file is not read whole; one up to this is held and kept as it is, though it is too long for a kit, to be mended."""

BYTE_ORDER_MARK: Final = 3
"""Bytes at the beginning of a file that are no part of its text."""

FROM_OUTSIDE: Final = "Changed outside the workbench."
FOUND: Final = "Found in the folder."


class Conflict(KitwrightError):
    """Somebody changed the kit since it was looked at. Nothing was written."""

    def __init__(self, current: int) -> None:
        super().__init__("This kit was changed elsewhere meanwhile. Nothing of yours has been kept yet.")
        self.current = current


class NoSuchKit(KitwrightError, KeyError):
    """There is no kit of this word on the shelf. Nothing was written."""

    def __init__(self, word: str) -> None:
        super().__init__("There is no such kit on the shelf.")
        self.word = word

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, slots=True)
class StoredKit:
    """A kit's document as it is now, its word in the workshop and the number of its revision.

    `trouble` says why the history could not be read or written; then the number may be an older one, or 0.
    """

    word: str
    document: str
    revision: int
    trouble: Trouble | None = None


@dataclass(frozen=True, slots=True)
class KitOnShelf:
    """A kit by its word, with its document; of one that is too long for a kit, as much as shows that."""

    word: str
    document: str


class Workshop:
    """A workshop folder. Words of kits come from people and are checked before they touch a path."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.kits = folder / "kits"
        try:
            self.kits.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise Mistake(
                f"{str(folder)!r} cannot be a workshop ({error.strerror}).", do="Choose another folder."
            ) from None
        self.changes = Changes(folder / "workshop.db")
        self.scans = Scans(folder)
        for each in (self.kits, self.scans.folder):
            clear_leftovers(each)

    def path(self, word: str) -> Path:
        """Where the document of a kit is. Raises `NoSuchKit` for what is no word of a kit."""
        if not WORD.fullmatch(word):
            raise NoSuchKit(word)
        return self.kits / f"{word}.toml"

    def shelf(self) -> tuple[KitOnShelf, ...]:
        """All kits in the order of their words."""
        return tuple(self.on_shelf())

    def on_shelf(self) -> Iterator[KitOnShelf]:
        """The kits whose documents are in the folder and can be opened."""
        for path in sorted(self.kits.glob("*.toml")):
            if WORD.fullmatch(path.stem) and path.is_file() and not path.is_symlink():
                try:
                    yield KitOnShelf(path.stem, decoded(self.data(path.stem, LARGEST_DOCUMENT + BYTE_ORDER_MARK)))
                except NoSuchKit:
                    continue

    def text(self, word: str) -> str:
        """The document in the folder. Raises `NoSuchKit` if there is none and `Mistake` if it is too long even to be held."""
        data = self.data(word, LARGEST_HELD)
        if len(data) > LARGEST_HELD:
            raise Mistake(
                f"The file of this kit is longer than {LARGEST_HELD:,} bytes, and a kit document may be {LARGEST_DOCUMENT:,} bytes long.",
                do=(
                    f"In the workshop folder, open the file kits/{word}.toml with a text editor made for large files, take out "
                    "what does not belong to the kit, and save it under the same name; or move the file elsewhere."
                ),
            )
        return decoded(data)

    def data(self, word: str, most: int) -> bytes:
        """The bytes in the folder; of a file with more than `most`, one more than that. Raises `NoSuchKit`."""
        path = self.path(word)
        if path.is_symlink():
            raise NoSuchKit(word)
        try:
            with path.open("rb") as file:
                return file.read(most + 1)
        except OSError:
            raise NoSuchKit(word) from None

    def read(self, word: str) -> StoredKit:
        """A kit as it is now; a change made outside is kept as a revision first. Raises `NoSuchKit`.

        Where the history cannot be read or written now, the document is there all the same.
        """
        document, number = self.text(word), 0
        try:
            with self.changes.reading() as database:
                known = Changes.current(database, word)
            if known is not None and known[1] == document:
                return StoredKit(word, document, known[0])
            number = 0 if known is None else known[0]
            with self.changes.writing() as database:
                return self.seen(database, word)
        except Trouble as trouble:
            return StoredKit(word, document, number, trouble)

    def seen(self, database: sqlite3.Connection, word: str) -> StoredKit:
        """The kit as it is in the folder, inside of a change."""
        document, known = self.text(word), Changes.current(database, word)
        if known is not None and known[1] == document:
            return StoredKit(word, document, known[0])
        number = Changes.add(database, word, document, FOUND if known is None else FROM_OUTSIDE)
        return StoredKit(word, document, number)

    def document(self, word: str, number: int) -> str:
        """The document of a kit as it was in one of its revisions. Raises `KeyError`."""
        with self.changes.reading() as database:
            document = Changes.document(database, word, number)
        if document is None:
            raise KeyError(number)
        return document

    def keep(self, word: str, document: str, *, seen: int, words: str) -> StoredKit:
        """Keep a changed document. `seen` is the revision the change was made from. Raises `Conflict`, `NoSuchKit` and `Trouble`."""
        with self.changes.writing() as database:
            now = self.seen(database, word)
            if now.revision != seen and now.document != document:
                current = now.revision
            else:
                current = seen
                if now.document == document:
                    return now
                kept = StoredKit(word, document, Changes.add(database, word, document, words))
                self.settle(database, kept)
                return kept
        raise Conflict(current)

    def settle(self, database: sqlite3.Connection, kit: StoredKit) -> None:
        """Put a document into the folder, which is made anew if somebody took it away, and end the change. Raises `Trouble`.

        Where the database then refuses, the document of before is in its place again.
        """
        path = self.path(kit.word)
        try:
            self.kits.mkdir(parents=True, exist_ok=True)
            before = path.read_bytes() if path.exists() else None
            write_whole(path, kit.document.encode())
        except OSError as error:
            raise disk_trouble(error) from None
        try:
            database.execute("COMMIT")
        except sqlite3.Error:
            with suppress(OSError):
                path.unlink() if before is None else write_whole(path, before)
            raise

    def begin(self, wish: str, document: str, *, words: str) -> StoredKit:
        """A new kit, its word made from `wish` so that it is not taken. Raises `Trouble`."""
        with self.changes.writing() as database:
            word = self.free_word(database, wish)
            kit = StoredKit(word, document, Changes.add(database, word, document, words))
            self.settle(database, kit)
            return kit

    def free_word(self, database: sqlite3.Connection, wish: str) -> str:
        """A word of small letters, digits and hyphens that no kit has or had."""
        base = path_word(wish) or "kit"
        number = 1
        while True:
            word = base if number == 1 else f"{base}-{number}"
            if Changes.current(database, word) is None and not self.path(word).exists():
                return word
            number += 1

    def step_back(self, word: str, *, seen: int) -> StoredKit:
        """Undo: the kit as it was before its current revision, which stays in the history. Raises `Conflict` and `Mistake`."""
        parents = {revision.number: revision.parent for revision in self.changes.revisions(word)}
        if not parents.get(seen):
            raise Mistake("There is nothing to undo: this is how the kit began.")
        return self.go_to(word, parents[seen], seen=seen)

    def go_to(self, word: str, number: int, *, seen: int) -> StoredKit:
        """The kit as it was in one of its revisions, which becomes the current one. Raises `Conflict` and `KeyError`."""
        with self.changes.writing() as database:
            current = self.seen(database, word).revision
            if current == seen:
                document = Changes.document(database, word, number)
                if document is None:
                    raise KeyError(number)
                Changes.select(database, word, number)
                kit = StoredKit(word, document, number)
                self.settle(database, kit)
                return kit
        raise Conflict(current)

    def remove(self, word: str) -> None:
        """Take a kit off the shelf. Its document and its history stay in the database. Raises `NoSuchKit` and `Trouble`."""
        while True:
            with self.changes.writing() as database:
                known = Changes.current(database, word)
                if known is not None and known[1] == self.text(word):
                    try:
                        self.path(word).unlink()
                    except OSError as error:
                        raise disk_trouble(error) from None
                    return
                self.seen(database, word)  # what was changed outside is in the database before its document goes

    def put_back(self, word: str) -> StoredKit:
        """Put a kit back onto the shelf that was taken off it. Raises `NoSuchKit` and `Trouble`."""
        with self.changes.writing() as database:
            known = Changes.current(database, word)
            if known is None:
                raise NoSuchKit(word)
            if self.path(word).exists():
                return self.seen(database, word)
            kit = StoredKit(word, known[1], known[0])
            self.settle(database, kit)
            return kit

    def removed(self) -> tuple[str, ...]:
        """The kits that are off the shelf and can be put back: those whose document is not in the folder. Raises `Trouble`."""
        with self.changes.reading() as database:
            return tuple(word for word in Changes.words(database) if not self.path(word).exists())

    def revisions(self, word: str) -> tuple[Revision, ...]:
        """All that was changed in a kit, the newest first. Raises `Trouble`."""
        return self.changes.revisions(word)


def decoded(data: bytes) -> str:
    """A document as text. One that is no UTF-8 is read so that nothing of it is lost and it can be mended: as the signs of Latin-1."""
    try:
        return data.decode("utf-16" if data.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("latin-1")
