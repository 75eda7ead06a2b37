"""Which files of a folder the program wrote itself, and nobody has changed since: the only ones that it replaces or removes.

A list in the folder (plan.json, mats.json) names every file that was written with its SHA-256, and its own. A PDF or SVG that is written
alone, wherever it was asked for, ends with a comment that has the SHA-256 of what stands before it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path, PurePosixPath
from types import MappingProxyType
from typing import Final

from kitwright.printouts.make.file_list import is_as_written

__all__ = ["digests_in", "is_as_signed", "left_behind", "not_ours", "signed"]

LARGEST_LIST: Final = 64 * 2**20
"""Bytes of a list that is looked at; none of ours comes near it."""

LARGEST_SIGNED: Final = 2**30
"""Bytes of a file that is looked at for its last line."""

COMMENTS: Final = MappingProxyType({".pdf": ("%", ""), ".svg": ("<!--", " -->")})
"""How a comment begins and ends in a file, by its suffix."""


def not_ours(folder: Path, files: Mapping[str, bytes], listed_in: str) -> Iterator[Path]:
    """The paths in the way of some files (by name, with what they are to hold) that the program must not replace."""
    digests, inside = digests_in(folder / listed_in), folder.resolve()
    for name, content in files.items():
        path = inside.joinpath(*PurePosixPath(name).parts)
        if not (path.exists() or path.is_symlink()) or is_ours(path, inside, hashlib.sha256(content).hexdigest()):
            continue
        if not (is_own_list(path, inside) if name == listed_in else is_ours(path, inside, digests.get(name, ""))):
            yield path


def left_behind(folder: Path, written: Collection[str], listed_in: str) -> tuple[Path, ...]:
    """Files in `folder` that its list names, that nobody has changed, and that are not in `written`."""
    inside = folder.resolve()
    return tuple(
        path
        for name, digest in digests_in(folder / listed_in).items()
        if name not in written
        for path in (inside.joinpath(*PurePosixPath(name).parts),)
        if is_ours(path, inside, digest)
    )


def digests_in(listing: Path) -> Mapping[str, str]:
    """The files that a list names with the SHA-256 of each; none where there is no such list."""
    try:
        if listing.stat().st_size > LARGEST_LIST:
            return {}
        data = json.loads(listing.read_bytes())
    except (OSError, ValueError, RecursionError):  # no list, or a file that is not ours
        return {}
    listed = data.get("digests") if isinstance(data, dict) else None
    if not isinstance(listed, dict):
        return {}
    return {name: digest for name, digest in listed.items() if isinstance(digest, str) and "\0" not in name}


def signed(content: bytes, suffix: str) -> bytes:
    """A PDF or SVG, by its suffix, with a last line by which it is known again as ours and unchanged."""
    opening, closing = COMMENTS[suffix.lower()]
    words = f"{opening} Kitwright wrote this: {hashlib.sha256(content).hexdigest()}{closing}\n"
    return content + b"\n" + words.encode()


def is_as_signed(path: Path) -> bool:
    """Whether a file holds just what `signed` made."""
    try:
        if path.stat().st_size > LARGEST_SIGNED:
            return False
        content = path.read_bytes()
    except OSError:
        return False
    before, _, _ = content.removesuffix(b"\n").rpartition(b"\n")
    return content == signed(before, path.suffix)


def is_ours(path: Path, folder: Path, digest: str) -> bool:
    """Whether a path lies in the folder, and holds just what was written there."""
    try:
        return (
            path.resolve() == path
            and path.is_relative_to(folder)
            and path.is_file()
            and hashlib.sha256(path.read_bytes()).hexdigest() == digest
        )
    except OSError:
        return False


def is_own_list(path: Path, folder: Path) -> bool:
    """Whether a path is a list of ours that nobody has changed."""
    try:
        return (
            path.resolve() == path
            and path.parent == folder
            and path.stat().st_size <= LARGEST_LIST
            and is_as_written(path.read_bytes(), path.name)
        )
    except OSError:
        return False
