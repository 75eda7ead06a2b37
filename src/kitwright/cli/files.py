"""Reading kit documents from disk and writing results to it, so that nothing half-written ever stays. The only place with paths."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from kitwright.errors import Mistake, Place
from kitwright.kit import LARGEST_DOCUMENT, Kit, read_kit_bytes

__all__ = ["document_text", "load_kit", "write_file", "write_folder"]


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
    """The text of a kit document that has been read without a mistake before."""
    return document_bytes(path).decode("utf-8-sig")


def write_file(path: Path, content: bytes) -> None:
    """Write a file whole or not at all: to a temporary file beside it, then in its place. Raises `Mistake`."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    except OSError as error:
        raise Mistake(
            f"{str(path.parent)!r} cannot be written to ({error.strerror}).", do="Choose another folder with --into."
        ) from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise Mistake(
            f"{str(path)!r} cannot be written ({error.strerror}).", do="Close it elsewhere, or free some room."
        ) from None


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write all files (names may hold a folder) into a folder; everything is in memory before the first is written."""
    if folder.exists() and not folder.is_dir():
        raise Mistake(f"{str(folder)!r} is a file.", do="Choose a folder with --into.")
    for name, content in files.items():
        write_file(folder / name, content)
