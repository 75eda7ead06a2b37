"""Errors inside the program, contained: logged with where they came from, and raised as `InternalError`, which every page can tell."""

from __future__ import annotations

import logging
from asyncio import CancelledError
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

from starlette.exceptions import HTTPException

from kitwright.errors import InternalError, KitwrightError

__all__ = ["LOG", "PASSED_ON", "contained", "internal"]

LOG: Final = logging.getLogger("kitwright")
LOG.addHandler(logging.NullHandler())  # quiet, unless whoever runs this wants to hear

PASSED_ON: Final = (KitwrightError, HTTPException, KeyboardInterrupt, SystemExit, GeneratorExit, CancelledError)
"""What is no error of the program."""


@contextmanager
def contained(doing: str) -> Iterator[None]:
    """Whatever goes wrong meanwhile, be it no `Exception` even (a panic in compiled code), is logged and raised as `InternalError`.

    `doing` says in the log what was done, in words without anything of the maker's.
    """
    try:
        yield
    except PASSED_ON:
        raise
    except BaseException as error:
        raise internal(doing, error) from error


def internal(doing: str, error: BaseException) -> InternalError:
    """The error that stands for another one, which is logged."""
    LOG.error("Went wrong: %s", doing, exc_info=error)
    made = InternalError()
    made.__cause__ = error
    return made
