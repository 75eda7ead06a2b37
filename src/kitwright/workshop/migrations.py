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
)
"""Name and statements of every step, oldest first."""


def migrate(database: sqlite3.Connection) -> None:
    """Do every step that was not done yet, each whole or not at all. Raises `Mistake` for a database of a newer program."""
    database.execute("CREATE TABLE IF NOT EXISTS step (name TEXT PRIMARY KEY) STRICT")
    done = {row[0] for row in database.execute("SELECT name FROM step")}
    unknown = done - {name for name, _ in STEPS}
    if unknown:
        raise Mistake(
            "This workshop was last used with a newer Kitwright.", do="Install that version, or choose another folder."
        )
    for name, statements in STEPS:
        if name in done:
            continue
        database.execute("BEGIN IMMEDIATE")
        if database.execute("SELECT 1 FROM step WHERE name = ?", (name,)).fetchone():
            database.execute("ROLLBACK")  # another program was faster
            continue
        for statement in statements:
            database.execute(statement)
        database.execute("INSERT INTO step VALUES (?)", (name,))
        database.execute("COMMIT")
