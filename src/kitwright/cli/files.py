"""Reading kit documents from disk and writing single files to it, so that nothing half-written ever stays."""

from __future__ import annotations

import errno
import os
from contextlib import suppress
from pathlib import Path
from typing import Final

import click

from kitwright.errors import Mistake, Place
from kitwright.kit import LARGEST_DOCUMENT, Kit, document_text_of, read_kit_bytes
from kitwright.workshop.files import clear_leftovers, write_whole

__all__ = [
    "PATH",
    "cannot_be_written",
    "document_bytes",
    "document_text",
    "free_name",
    "load_kit",
    "make_folder",
    "write_file",
]

SHOWN: Final = 30
"""Signs of a name too long that are shown."""


class PossiblePath(click.Path):
    """A path with no name that the disk would not take."""

    def convert(
        self, value: str | os.PathLike[str], param: click.Parameter | None, ctx: click.Context | None
    ) -> str | bytes | os.PathLike[str]:
        """The path. Raises `Mistake` where it, or a name in it, is too long."""
        path = Path(value)
        try:
            path.lstat()
        except OSError as error:
            if error.errno == errno.ENAMETOOLONG:
                start = f"{max(path.parts, key=len)[:SHOWN]}…"
                raise Mistake(
                    "This name is too long for the disk.", do="Use a shorter one.", place=Place(document=start)
                ) from None
        return super().convert(value, param, ctx)


PATH: Final = PossiblePath(path_type=Path, readable=False)
"""A path as it was typed; what is wrong with it is told in our own words."""


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
    made: list[Path] = []
    try:
        if path.is_dir():
            raise IsADirectoryError(errno.EISDIR, "There is a folder of this name")
        make_folder(path.parent, made)
        place = path.resolve()  # a link stays a link to the file that is written anew
        clear_leftovers(place.parent, place.name)
        write_whole(place, content)
    except BaseException as error:
        for folder in reversed(made):
            with suppress(OSError):  # not empty, so it is not ours alone
                folder.rmdir()
        if isinstance(error, OSError):
            raise cannot_be_written(path, error, "Nothing was changed.") from None
        raise


def cannot_be_written(path: Path, error: OSError, then: str) -> Mistake:
    """What is said of a path that cannot be written, and `then` of what that means for the rest."""
    why = error.strerror or "no reason given"
    return Mistake(
        f"{str(path)!r} cannot be written ({why}).",
        do=f"Choose another folder, close the file elsewhere, or free some room. {then}",
    )


def make_folder(folder: Path, made: list[Path]) -> None:
    """Make a folder and those above it that are missing, and note which ones were made. Raises `OSError`."""
    missing = [each for each in (folder, *folder.parents) if not each.exists()]
    for each in reversed(missing):
        each.mkdir()
        made.append(each)
    if not folder.is_dir():
        raise NotADirectoryError(errno.ENOTDIR, "Its folder is a file")


def free_name(kit: Path) -> Path:
    """A name beside the document that nothing has yet: `box.before.toml`, `box.before-2.toml`."""
    path, number = kit.with_suffix(".before.toml"), 2
    while path.exists() or path.is_symlink():
        path, number = kit.with_suffix(f".before-{number}.toml"), number + 1
    return path
