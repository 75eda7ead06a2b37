"""The steps that bring a workshop's database to its present shape. A step that was once released is never changed."""

from __future__ import annotations

import sqlite3
from typing import Final

from kitwright.errors import Mistake

__all__ = ["STEPS", "migrate"]

STEPS: Final = (
    (
        "kits-and-revisions",
        (
            """
            CREATE TABLE kit (
                id INTEGER PRIMARY KEY,
                word TEXT NOT NULL UNIQUE,
                current INTEGER NOT NULL DEFAULT 0,
                is_removed INTEGER NOT NULL DEFAULT 0 CHECK (is_removed IN (0, 1))
            ) STRICT
            """,
            """
            CREATE TABLE revision (
                kit INTEGER NOT NULL REFERENCES kit (id),
                number INTEGER NOT NULL CHECK (number > 0),
                parent INTEGER NOT NULL,
                words TEXT NOT NULL,
                document TEXT NOT NULL,
                made_at TEXT NOT NULL,
                PRIMARY KEY (kit, number)
            ) STRICT
            """,
        ),
    ),
    # a kit is off the shelf when its document is not in the folder, and nothing else says so
    ("off-the-shelf-is-no-document", ("ALTER TABLE kit DROP COLUMN is_removed",)),
)
"""Name and statements of every step, oldest first."""


def migrate(database: sqlite3.Connection) -> None:
    """Do all steps that were not done yet, whole or not at all. Raises `Mistake` for a database of a newer program."""
    done = steps_done(database)
    if done - {name for name, _ in STEPS}:
        raise Mistake(
            "This workshop was last used with a newer Kitwright.", do="Install that version, or choose another folder."
        )
    if len(done) == len(STEPS):
        return
    database.execute("BEGIN IMMEDIATE")
    database.execute("CREATE TABLE IF NOT EXISTS step (name TEXT PRIMARY KEY) STRICT")
    done = steps_done(database)  # another program may have been faster
    for name, statements in STEPS:
        if name not in done:
            for statement in statements:
                database.execute(statement)
            database.execute("INSERT INTO step VALUES (?)", (name,))
    database.execute("COMMIT")


def steps_done(database: sqlite3.Connection) -> set[str]:
    """The names of the steps that a database has behind it."""
    if not database.execute("SELECT 1 FROM sqlite_schema WHERE name = 'step'").fetchone():
        return set()
    return {row[0] for row in database.execute("SELECT name FROM step")}
