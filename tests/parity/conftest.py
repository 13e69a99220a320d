"""Where node is."""

from __future__ import annotations

import pytest

from tests.test_javascript import find_node


@pytest.fixture(scope="session")
def node() -> str:
    """The node program; without it the tests are left out, but never in CI."""
    return find_node()
