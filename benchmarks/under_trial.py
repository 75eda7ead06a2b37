"""Runs tests for the trial by mutants: libraries are there already, every run is a fork of this process with limits of CPU and memory.

One line of JSON in (`{"seconds": 60, "tests": ["tests/measure"]}`), one number out: the exit code, below zero where the system stopped it.
Hypothesis tries the same examples every time, and makes none smaller that failed. Nothing of the program itself is loaded before the fork.
"""

from __future__ import annotations

import importlib
import json
import os
import resource
import sys
from typing import Any

import pytest
from hypothesis import Phase, settings

MOST_ADDRESSES = 4 << 30
LIBRARIES = (
    "numpy",
    "shapely.ops",
    "shapely.affinity",
    "hypothesis.strategies",
    "highspy",
    "tomllib",
    "manifold3d",
    "_pytest.skipping",
)


def serve() -> None:
    """Answer every line until there is none."""
    for name in LIBRARIES:
        importlib.import_module(name)
    settings.register_profile("under trial", derandomize=True, deadline=None, phases=(Phase.explicit, Phase.generate))
    settings.load_profile("under trial")
    for line in sys.stdin:
        asked = json.loads(line)
        child = os.fork()
        if child == 0:
            os._exit(run(asked))
        _, status = os.waitpid(child, 0)
        sys.stdout.write(f"{os.waitstatus_to_exitcode(status)}\n")
        sys.stdout.flush()


def run(asked: dict[str, Any]) -> int:
    """The tests, in this process."""
    resource.setrlimit(resource.RLIMIT_CPU, (asked["seconds"], asked["seconds"] + 5))
    resource.setrlimit(resource.RLIMIT_AS, (MOST_ADDRESSES, MOST_ADDRESSES))
    silence = os.open(os.devnull, os.O_RDWR)
    for each in (0, 1, 2):
        os.dup2(silence, each)
    try:
        return int(pytest.main(["-x", "-q", "-p", "no:cacheprovider", "--assert=plain", *asked["tests"]]))
    except BaseException:  # whatever it is, the tests did not pass
        return 1


if __name__ == "__main__":
    serve()
