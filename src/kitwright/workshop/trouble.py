"""What is said when the disk or the database of a workshop cannot do what is asked. Nothing was changed then."""

from __future__ import annotations

import sqlite3
from typing import Final

from kitwright.errors import Mistake

__all__ = ["Trouble", "database_gone", "database_trouble", "disk_trouble"]


class Trouble(Mistake):
    """The workshop folder cannot be used as is asked, through no fault of what was said. Nothing was lost and nothing changed."""


def disk_trouble(error: OSError) -> Trouble:
    """A file of the workshop that cannot be written."""
    return Trouble(
        f"The workshop folder cannot be written to ({error.strerror or 'no reason given'}). Nothing was changed.",
        do="Free some room on the disk, or see to it that the folder may be written to; then try again.",
    )


AGAIN: Final = "Nothing was changed."
BUSY: Final = f"The workshop is in use by another program just now. {AGAIN}"
FULL: Final = f"The disk is full. {AGAIN}"
NO_DATABASE: Final = "The file workshop.db is damaged, or no database of Kitwright."
READ_ONLY: Final = f"The file workshop.db may not be written to. {AGAIN}"
ROOM: Final = "Free some room, then try again. Looking at kits works still."
STAYS: Final = "all kits stay, each in a file of its own in the folder kits; only their history begins anew."
ASIDE: Final = f"Move it out of the workshop folder, close Kitwright and open that again: {STAYS}"

KNOWN: Final = (
    ({sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}, BUSY, "Wait a moment, or close the other program; then try again."),
    ({sqlite3.SQLITE_FULL}, FULL, ROOM),
    ({sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT}, NO_DATABASE, ASIDE),
    (
        {sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM},
        READ_ONLY,
        "See to it that you may write to the workshop folder, or choose another one.",
    ),
)
"""Codes of SQLite's errors (sqlite.org/rescode.html), what is wrong, and what to do."""


def database_gone() -> Trouble:
    """The database of a workshop that is open was taken away."""
    return Trouble(
        f"The file workshop.db with the history of all kits is gone. {AGAIN}",
        do=f"Put it back into the workshop folder. Without it, close Kitwright and open the folder again: {STAYS}",
    )


def database_trouble(error: sqlite3.Error) -> Trouble:
    """What an error of the database means for the maker."""
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & 0xFF  # the primary code
    if str(error).startswith("no such table"):  # an empty file, or a database of something else
        code = sqlite3.SQLITE_NOTADB
    for codes, what, do in KNOWN:
        if code in codes:
            return Trouble(what, do=do)
    return Trouble(
        f"The file workshop.db cannot be used ({error}). {AGAIN}",
        do="Look whether it is a file that you may read and write, and whether the disk has room.",
    )
