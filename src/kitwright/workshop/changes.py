"""The history of the kits: every document that was ever kept, with the words that say what changed. SQLite."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from kitwright.workshop.migrations import migrate
from kitwright.workshop.trouble import database_gone, database_trouble

__all__ = ["Changes", "Revision"]

WAIT_SECONDS = 5.0
"""How long another program may keep the database to itself before that is told."""


@dataclass(frozen=True, slots=True)
class Revision:
    """One state of a kit: its number (from 1), the one it came from (0: none), what changed, and when (UTC)."""

    number: int
    parent: int
    words: str
    made_at: datetime


class Changes:
    """The database of a workshop. Every use opens it anew, so that any thread may ask."""

    def __init__(self, path: Path) -> None:
        self.path = path
        with suppress(OSError):  # the database tells that in its own words
            path.touch()
        with self.reading() as database:
            migrate(database)
            for mode in (
                "PERSIST",
                "DELETE",
            ):  # so that the journal of a killed writer goes, unless somebody writes just now
                database.execute(f"PRAGMA journal_mode = {mode}")

    def connect(self) -> sqlite3.Connection:
        """A connection that keeps what it was told even if the power fails.

        With a journal that is only there during a change (sqlite.org/pragma.html, DELETE and EXTRA), looking needs no room on the disk and
        no right to write.
        """
        if not self.path.exists():  # a new one in its place would know of no kit
            raise database_gone()
        database = sqlite3.connect(self.path, timeout=WAIT_SECONDS, isolation_level=None)
        try:
            database.execute("PRAGMA journal_mode = DELETE")
            database.execute("PRAGMA synchronous = EXTRA")
            database.execute("PRAGMA foreign_keys = ON")
        except BaseException:
            database.close()
            raise
        return database

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """One change, whole or not at all, ended here unless it was before; nobody else changes anything meanwhile. Raises `Trouble`."""
        with self.reading() as database:
            database.execute("BEGIN IMMEDIATE")
            try:
                yield database
                if database.in_transaction:
                    database.execute("COMMIT")
            except BaseException:
                if database.in_transaction:  # a full disk ends it by itself
                    database.execute("ROLLBACK")
                raise

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """A look at the database. Raises `Trouble`."""
        try:
            with closing(self.connect()) as database:
                yield database
        except (sqlite3.IntegrityError, sqlite3.ProgrammingError):
            raise  # faults of this program
        except sqlite3.Error as error:
            raise database_trouble(error) from error

    @staticmethod
    def add(database: sqlite3.Connection, word: str, document: str, words: str) -> int:
        """Keep a document as the newest revision of a kit, which is made known if it was not; gives its number."""
        database.execute("INSERT INTO kit (word) VALUES (?) ON CONFLICT (word) DO NOTHING", (word,))
        kit, parent = database.execute("SELECT id, current FROM kit WHERE word = ?", (word,)).fetchone()
        (last,) = database.execute("SELECT coalesce(max(number), 0) FROM revision WHERE kit = ?", (kit,)).fetchone()
        number = int(last) + 1
        now = datetime.now(UTC).isoformat(timespec="seconds")
        database.execute("INSERT INTO revision VALUES (?, ?, ?, ?, ?, ?)", (kit, number, parent, words, document, now))
        database.execute("UPDATE kit SET current = ? WHERE id = ?", (number, kit))
        return number

    @staticmethod
    def current(database: sqlite3.Connection, word: str) -> tuple[int, str] | None:
        """Number and document of the current revision of a kit; None if nothing is known of it."""
        row = database.execute(
            "SELECT r.number, r.document FROM kit k JOIN revision r ON r.kit = k.id AND r.number = k.current"
            " WHERE k.word = ?",
            (word,),
        ).fetchone()
        return None if row is None else (int(row[0]), str(row[1]))

    @staticmethod
    def document(database: sqlite3.Connection, word: str, number: int) -> str | None:
        """The document of one revision; None if there is none."""
        row = database.execute(
            "SELECT r.document FROM kit k JOIN revision r ON r.kit = k.id WHERE k.word = ? AND r.number = ?",
            (word, number),
        ).fetchone()
        return None if row is None else str(row[0])

    @staticmethod
    def select(database: sqlite3.Connection, word: str, number: int) -> None:
        """Make a revision that is there the current one."""
        database.execute("UPDATE kit SET current = ? WHERE word = ?", (number, word))

    @staticmethod
    def words(database: sqlite3.Connection) -> tuple[str, ...]:
        """All kits that there ever were."""
        return tuple(row[0] for row in database.execute("SELECT word FROM kit ORDER BY word"))

    def revisions(self, word: str) -> tuple[Revision, ...]:
        """All revisions of a kit, the newest first."""
        with self.reading() as database:
            rows = database.execute(
                "SELECT r.number, r.parent, r.words, r.made_at FROM kit k JOIN revision r ON r.kit = k.id"
                " WHERE k.word = ? ORDER BY r.number DESC",
                (word,),
            ).fetchall()
        return tuple(Revision(number, parent, words, datetime.fromisoformat(at)) for number, parent, words, at in rows)
