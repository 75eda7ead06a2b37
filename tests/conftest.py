"""Options for the whole suite."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

# in CI the same examples every time: a change is judged by what it changes; at the desk new examples are tried; nowhere does the clock
# decide whether a test passes
settings.register_profile("ci", derandomize=True, deadline=None)
settings.register_profile("desk", deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "desk")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-goldens", action="store_true", help="write the golden texts anew instead of comparing them"
    )


@pytest.fixture
def updating_goldens(request: pytest.FixtureRequest) -> bool:
    """Whether golden texts are to be written anew."""
    return bool(request.config.getoption("--update-goldens"))
