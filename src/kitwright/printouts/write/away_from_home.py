"""Importing the DXF library without a trace: it would look through all fonts of the computer and keep their list in the home folder."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Lock
from typing import Final

__all__ = ["away_from_home"]

INSTEAD: Final = Path(__file__).parent / "dxf_home"
"""A folder as the library expects it, with an empty list of fonts: nothing here writes words as DXF."""

HOMES: Final = ("XDG_CACHE_HOME", "XDG_CONFIG_HOME")
"""The variables that say where the library's list of fonts and its settings are. It has no other switch for them."""

IMPORTING: Final = Lock()


@contextmanager
def away_from_home() -> Iterator[None]:
    """While the library is imported, it looks for its list of fonts and its settings in a folder of this package."""
    with IMPORTING:
        former = {name: os.environ.get(name) for name in HOMES}
        os.environ.update(dict.fromkeys(HOMES, str(INSTEAD)))
        try:
            yield
        finally:
            for name, value in former.items():
                if value is None:
                    del os.environ[name]
                else:
                    os.environ[name] = value
