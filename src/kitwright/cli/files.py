"""Reading kit documents from disk and writing results to it, so that nothing half-written ever stays. The only place with paths."""

from __future__ import annotations

import errno
import os
import stat
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Final

from kitwright.errors import Mistake, Place
from kitwright.kit import LARGEST_DOCUMENT, Kit, document_text_of, read_kit_bytes

__all__ = ["document_bytes", "document_text", "load_kit", "write_file", "write_folder"]

USUAL_RIGHTS: Final = 0o644
"""A new file may be read by everyone and written by its owner."""


def document_bytes(path: Path) -> bytes:
    """The bytes of a kit document. Raises `Mistake` with one sentence for everything that can be wrong with a path."""
    place = Place(document=str(path))
    if path.is_dir():
        raise Mistake("This is a folder.", do="Name the kit document in it (a .toml file).", place=place)
    try:
        with path.open("rb") as file:
            return file.read(LARGEST_DOCUMENT + 1)
    except FileNotFoundError:
        raise Mistake(
            "There is no such file.", do='Check the name, or start one with "kitwright new".', place=place
        ) from None
    except PermissionError:
        raise Mistake("This file may not be read.", do="Check who owns it.", place=place) from None
    except OSError as error:
        raise Mistake(f"This file cannot be read ({error.strerror}).", do="Check the disk.", place=place) from None


def load_kit(path: Path) -> Kit:
    """The kit in a document. Raises `Mistake` or `Mistakes`."""
    return read_kit_bytes(document_bytes(path), document=path.name)


def document_text(path: Path) -> str:
    """The text of a kit document. Raises `Mistake`."""
    return document_text_of(document_bytes(path), document=path.name)


def write_file(path: Path, content: bytes) -> None:
    """Write a file whole or not at all: to a temporary file beside it, then in its place. Raises `Mistake`."""
    write_all({path: content})


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write all files (names may hold a folder) into a folder, or none of them. Raises `Mistake`."""
    if folder.exists() and not folder.is_dir():
        raise Mistake(f"{str(folder)!r} is a file.", do="Choose a folder with --into.")
    write_all({folder / name: content for name, content in files.items()})


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write every file beside its place first, and only when all are there move them in; nothing half-written stays."""
    made: list[Path] = []
    staged: dict[Path, Path] = {}
    path, is_moving = Path(), False
    try:
        for path, content in files.items():
            if path.is_dir():
                raise IsADirectoryError(errno.EISDIR, "There is a folder of this name")
            make_folder(path.parent, made)
            place = path.resolve()  # a link stays a link to the file that is written anew
            staged[place] = stage(place, content)
        for path, waiting in staged.items():
            waiting.replace(path)
            is_moving = True
    except OSError as error:
        for waiting in staged.values():
            waiting.unlink(missing_ok=True)
        for folder in reversed(made):
            with suppress(OSError):  # not empty, so it is not ours alone
                folder.rmdir()
        why = error.strerror or "no reason given"
        raise Mistake(
            f"{str(path)!r} cannot be written ({why}).",
            do="Choose another folder, close the file elsewhere, or free some room."
            + ("" if is_moving else " Nothing was changed."),
        ) from None


def make_folder(folder: Path, made: list[Path]) -> None:
    """Make a folder and those above it that are missing, and note which ones were made. Raises `OSError`."""
    missing = [each for each in (folder, *folder.parents) if not each.exists()]
    for each in reversed(missing):
        each.mkdir()
        made.append(each)
    if not folder.is_dir():
        raise NotADirectoryError(errno.ENOTDIR, "Its folder is a file")


def stage(path: Path, content: bytes) -> Path:
    """Write the content to a new file beside the path, with the rights of the file that it will replace. Raises `OSError`."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name[:100]}.", suffix=".part")
    waiting = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        waiting.chmod(stat.S_IMODE(path.stat().st_mode) if path.exists() else USUAL_RIGHTS)
    except OSError:
        waiting.unlink(missing_ok=True)
        raise
    return waiting
