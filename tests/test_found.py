"""Documents that once went wrong: each says in its first line through which phases it goes, how it ends, and why it is kept."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.fuzz.trial import Phase, try_document

FOUND = sorted((Path(__file__).parent / "found").glob("*.toml"))
FIRST_LINE = re.compile(r"# through (?P<phases>[a-z, ]+): (?P<outcome>proved|not proved|refused|anything)\. \S.+\.")
ROOM = 2 << 30
"""Bytes above what is in use: whoever asks for more has gone wrong, and is told so instead of filling the machine."""


@contextmanager
def little_memory() -> Iterator[None]:
    """Little address space beyond what is in use; where that cannot be limited, as much as there is."""
    if sys.platform != "linux":
        yield
        return
    import resource  # noqa: PLC0415  (not everywhere)

    used = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0]) * resource.getpagesize()
    before = resource.getrlimit(resource.RLIMIT_AS)
    resource.setrlimit(resource.RLIMIT_AS, (used + ROOM, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, before)


@pytest.mark.parametrize("path", FOUND, ids=lambda path: path.stem)
def test_what_once_went_wrong_goes_well(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    said = FIRST_LINE.fullmatch(text.partition("\n")[0])
    assert said, "the first line says what must hold"
    with little_memory():
        trial = try_document(text, [Phase(each.strip()) for each in said["phases"].split(",")])
    assert trial.troubles == []
    assert said["outcome"] == "anything" or trial.outcome.startswith(said["outcome"])
