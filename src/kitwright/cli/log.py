"""Where mistakes of the program are noted. What is noted can be passed on: it has nothing of the maker's in it."""

from __future__ import annotations

import logging
import os
import platform
import sys
import tempfile
import traceback
from importlib.metadata import version
from logging.handlers import RotatingFileHandler
from pathlib import Path
from types import TracebackType
from typing import Final

__all__ = ["LOG_NAME", "SHOWN", "log_into", "note"]

LOG_NAME: Final = "workshop.log"
SHOWN: Final = "KITWRIGHT_TRACEBACK"
"""A variable of the environment: if it is set, mistakes of the program are shown with everything, on the side of errors."""

MOST_BYTES: Final = 500_000
"""Bytes of a log; one of before is kept beside it."""


class Discreet(logging.Formatter):
    """Tells where an error came from and of what kind it is, but neither its message, which may quote a kit, nor whose computer it was."""

    def formatException(  # noqa: N802  (the name is that of the library)
        self,
        ei: tuple[type[BaseException], BaseException, TracebackType | None] | tuple[None, None, None],
    ) -> str:
        """The error and what led to it, the first one first."""
        error, told, seen = ei[1], list[str](), set[int]()
        while error is not None and id(error) not in seen:
            seen.add(id(error))
            lines = [
                f"  {short_path(each.filename)}, line {each.lineno}, in {each.name}: {each.line}"
                for each in traceback.extract_tb(error.__traceback__)
            ]
            number = f" {error.errno}" if isinstance(error, OSError) else ""
            told.insert(0, "\n".join([*lines, f"{type(error).__module__}.{type(error).__qualname__}{number}"]))
            error = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
        return "\n then\n".join(told)


class Noting(RotatingFileHandler):
    """A log of bounded size; what cannot be noted, on a full disk, is not."""

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: N802  (the name is that of the library)
        """Go on."""


def short_path(path: str) -> str:
    """A file of a program without the folders above it."""
    parts = Path(path).parts
    for above in ("site-packages", "src"):
        if above in parts:
            return "/".join(parts[parts.index(above) + 1 :])
    return "/".join(parts[-2:])


def log_into(folder: Path) -> None:
    """Note mistakes of the program, and what its server says, in a file in a folder."""
    handlers: list[logging.Handler] = [Noting(folder / LOG_NAME, "a", MOST_BYTES, 1, encoding="utf-8", delay=True)]
    handlers[0].setFormatter(Discreet("%(asctime)s %(levelname)s " + program() + ": %(message)s"))
    if os.environ.get(SHOWN):
        handlers.append(logging.StreamHandler())
    for name in ("kitwright", "uvicorn"):
        logger = logging.getLogger(name)
        logger.propagate = False
        for handler in handlers:
            logger.addHandler(handler)


def note(error: BaseException) -> Path | None:
    """Note an error in a file of its own, among the temporary ones; None if there is no room for it."""
    said = Discreet().formatException((type(error), error, error.__traceback__))
    try:
        handle, name = tempfile.mkstemp(prefix="kitwright-", suffix=".log")
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(f"{program()}\n{said}\n"[:MOST_BYTES])
    except OSError:
        return None
    return Path(name)


def program() -> str:
    """This program, its language and its system."""
    return (
        f"Kitwright {version('kitwright')}, Python {sys.version.split()[0]}, {platform.system()} {platform.machine()}"
    )
