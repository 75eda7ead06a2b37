"""Writing a file whole or not at all, here and for the command line.

What is on its way lies beside its place as `.NAME.XXXXXXXX.part`, locked as long as its writer lives. So what a killed writer left is
known from what is being written just now, and is removed at the next look.
"""

from __future__ import annotations

import os
import re
import stat
import tempfile
from contextlib import suppress
from dataclasses import dataclass
from io import BufferedWriter
from pathlib import Path
from typing import Final

__all__ = ["LEFTOVER", "Waiting", "clear_leftovers", "is_alone", "stage", "sync_folder", "write_whole"]

USUAL_RIGHTS: Final = 0o644
"""A new file may be read by everyone and written by its owner."""

LEFTOVER: Final = re.compile(r"\.(.+)\.[a-z0-9_]{8}\.part")
"""The name of what is on its way, and in it the beginning of the name it is for."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """A file that is written whole, beside the place it is for, and locked."""

    path: Path
    place: Path
    file: BufferedWriter

    def settle(self) -> None:
        """Put it in its place. Raises `OSError`."""
        if os.name == "nt":
            self.file.close()  # an open file cannot be moved there
        self.path.replace(self.place)
        self.file.close()

    def drop(self) -> None:
        """Do without it."""
        with suppress(OSError):  # what could not be written before cannot be now
            self.file.close()
        with suppress(OSError):
            self.path.unlink()


def write_whole(path: Path, content: bytes) -> None:
    """Write to a file beside the path, make sure that it is on the disk, then put it in its place. Raises `OSError`."""
    waiting = stage(path, content)
    try:
        waiting.settle()
        sync_folder(path.parent)
    except BaseException:
        waiting.drop()
        raise


def stage(path: Path, content: bytes) -> Waiting:
    """Write the content to a new file beside the path, with the rights of the file that it will replace. Raises `OSError`."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name[:100]}.", suffix=".part")
    waiting = Waiting(Path(name), path, os.fdopen(handle, "wb"))
    try:
        is_alone(handle)
        waiting.file.write(content)
        waiting.file.flush()
        os.fsync(handle)
        waiting.path.chmod(stat.S_IMODE(path.stat().st_mode) if path.exists() else USUAL_RIGHTS)
    except BaseException:
        waiting.drop()
        raise
    return waiting


def is_alone(handle: int) -> bool:
    """Lock an open file or folder for this process; False if another one has it. It is free again when it is closed, or its process ends.

    Where there are no such locks (Windows), an open file cannot be removed, which serves as well.
    """
    try:
        import fcntl  # noqa: PLC0415  (not on Windows)
    except ImportError:
        return True
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:
        return True  # a disk without locks
    return True


def sync_folder(folder: Path) -> None:
    """Make sure that names in a folder are on the disk. Raises `OSError`."""
    if os.name == "nt":
        return  # a folder cannot be opened there; the system does it by itself
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def clear_leftovers(folder: Path, name: str = "") -> None:
    """Remove what killed writers left in a folder; with a name, only what was on its way to that."""
    try:
        found = [path for path in folder.iterdir() if path.name.startswith(".") and path.name.endswith(".part")]
    except OSError:
        return
    for path in found:
        meant = LEFTOVER.fullmatch(path.name)
        if meant is None or (name and meant[1] != name[:100]) or path.is_symlink() or not path.is_file():
            continue
        with suppress(OSError), path.open("rb") as file:
            if is_alone(file.fileno()):
                if os.name == "nt":
                    file.close()
                path.unlink()
