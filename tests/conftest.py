"""What all tests share: the flag that accepts new snapshots."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--accept` writes what the code says now over the expected texts; the difference is then read in git."""
    parser.addoption("--accept", action="store_true", help="write snapshots anew instead of comparing with them")


@pytest.fixture
def accept(request: pytest.FixtureRequest) -> bool:
    """Whether snapshots are written anew."""
    return bool(request.config.getoption("--accept"))
