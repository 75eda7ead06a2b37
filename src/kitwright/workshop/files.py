"""Writing a file whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from kitwright.errors import Mistake

__all__ = ["write_whole"]


def write_whole(path: Path, content: bytes) -> None:
    """Write to a file beside it, make sure that it is on the disk, then put it in its place. Raises `Mistake`."""
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    except OSError as error:
        raise Mistake(f"The workshop folder cannot be written to ({error.strerror}).", do="Check the disk.") from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise Mistake(f"The kit cannot be kept ({error.strerror}).", do="Free some room on the disk.") from None
