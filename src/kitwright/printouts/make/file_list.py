"""The list of the files of a folder with their SHA-256, and its own: so it can be shown later what was written and not changed since."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from typing import Any, Final

__all__ = ["file_list", "is_as_written"]

UNSAID: Final = "0" * 64
"""What stands for a list's own digest while that is reckoned."""


def file_list(name: str, files: Mapping[str, bytes], data: Mapping[str, Any] | None = None) -> bytes:
    """Some data as JSON with the `digests` of files, by name, and of the list itself, whose name is `name`."""
    digests = {each: hashlib.sha256(content).hexdigest() for each, content in files.items()} | {name: UNSAID}
    text = json.dumps({**(data or {}), "digests": digests}, indent=2, ensure_ascii=False) + "\n"
    return told_itself(text.encode(), name, UNSAID, hashlib.sha256(text.encode()).hexdigest())


def is_as_written(content: bytes, name: str) -> bool:
    """Whether a list of this name holds just what `file_list` made of it."""
    try:
        own = json.loads(content)["digests"][name]
    except (ValueError, TypeError, KeyError, RecursionError):
        return False
    if not isinstance(own, str) or len(own) != len(UNSAID):
        return False
    return hashlib.sha256(told_itself(content, name, own, UNSAID)).hexdigest() == own


def told_itself(content: bytes, name: str, old: str, new: str) -> bytes:
    """The list with another digest of its own; that stands last in it."""
    before, said, after = content.rpartition(f"{json.dumps(name)}: {json.dumps(old)}".encode())
    return before + said.replace(old.encode(), new.encode()) + after
