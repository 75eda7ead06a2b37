"""Options for the whole suite."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-goldens", action="store_true", help="write the golden texts anew instead of comparing them"
    )


@pytest.fixture
def updating_goldens(request: pytest.FixtureRequest) -> bool:
    """Whether golden texts are to be written anew."""
    return bool(request.config.getoption("--update-goldens"))
