"""What a former pack left in a folder that the new pack does not write: only files that are still as we wrote them."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection, Mapping
from pathlib import Path, PurePosixPath
from typing import Final

from kitwright.errors import Mistake

__all__ = ["left_behind", "remove_left_behind"]

LARGEST_PLAN: Final = 64 * 2**20
"""Bytes of a plan.json that is looked at; none of ours comes near it."""


def left_behind(folder: Path, written: Collection[str]) -> tuple[Path, ...]:
    """Files that the former pack in `folder` wrote, its plan.json says so, that nobody has changed, and that are not in `written`."""
    inside = folder.resolve()
    return tuple(
        path
        for name, digest in digests_in(folder / "plan.json").items()
        if name not in written
        for path in (inside.joinpath(*PurePosixPath(name).parts),)
        if is_ours(path, inside, digest)
    )


def digests_in(plan: Path) -> Mapping[str, str]:
    """The files of a pack with the SHA-256 of each, as its plan.json tells; none where there is no such list."""
    try:
        if plan.stat().st_size > LARGEST_PLAN:
            return {}
        data = json.loads(plan.read_bytes())
    except (OSError, ValueError, RecursionError):  # no plan, or a file that is not ours
        return {}
    listed = data.get("digests") if isinstance(data, dict) else None
    if not isinstance(listed, dict):
        return {}
    return {name: digest for name, digest in listed.items() if isinstance(digest, str) and "\0" not in name}


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


def remove_left_behind(paths: Collection[Path]) -> None:
    """Remove files of a former pack. Raises `Mistake` for one that cannot be removed."""
    for path in paths:
        try:
            path.unlink(missing_ok=True)
        except OSError as error:
            raise Mistake(
                f"{str(path)!r} is of a former pack and cannot be removed ({error.strerror}).",
                do="Remove it yourself. The new pack is written.",
            ) from None
