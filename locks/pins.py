"""What a lock pins."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

__all__ = ["FOLDER", "ROOT", "Pin", "digest", "pins"]

FOLDER = Path(__file__).resolve().parent
ROOT = FOLDER.parent


@dataclass(frozen=True)
class Pin:
    """One package in one version; `when` is a marker that says where it is wanted, empty for everywhere."""

    name: str
    version: Version
    when: str
    hashes: tuple[str, ...]

    def is_wanted(self, environment: dict[str, str] | None = None) -> bool:
        """Whether it is wanted on this computer, or on one with these marker values."""
        marker = Requirement(f"{self.name} ; {self.when}").marker if self.when else None
        return marker is None or marker.evaluate(environment)


def pins(lock: str) -> tuple[Pin, ...]:
    """All pins of a lock in this folder, by its name without ending; ValueError for a line that pins no version."""
    text = (FOLDER / f"{lock}.txt").read_text(encoding="utf-8")
    lines = [
        line for line in text.replace("\\\n", " ").splitlines() if line.strip() and not line.lstrip().startswith("#")
    ]
    return tuple(pin(line) for line in lines)


def pin(line: str) -> Pin:
    """The pin of one joined line."""
    words, *hashes = line.split(" --hash=")
    wanted = Requirement(words)
    (pinned,) = wanted.specifier
    if pinned.operator != "==":
        raise ValueError(f"{wanted.name} is not pinned to one version: {words.strip()}")
    marker = "" if wanted.marker is None else str(wanted.marker)
    return Pin(canonicalize_name(wanted.name), Version(pinned.version), marker, tuple(each.strip() for each in hashes))


def digest(lock: str) -> str:
    """Twelve signs that change whenever a name, a version or a marker of the lock does."""
    rows = "".join(f"{pin.name}=={pin.version};{pin.when}\n" for pin in pins(lock))
    return hashlib.sha256(rows.encode()).hexdigest()[:12]
