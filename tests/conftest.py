"""What all tests share: the flag that accepts new snapshots."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--accept` writes what the code says now over the expected texts; the difference is then read in git."""
    parser.addoption("--accept", action="store_true", help="write snapshots anew instead of comparing with them")


@pytest.fixture
def accept(request: pytest.FixtureRequest) -> bool:
    """Whether snapshots are written anew."""
    return bool(request.config.getoption("--accept"))


@pytest.fixture(scope="session")
def records(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file with every circuit as `solve --json` prints it, for the scripts' tests."""
    path = tmp_path_factory.mktemp("records") / "records.jsonl"
    root = Path(__file__).parents[1]
    done = subprocess.run([sys.executable, "-m", "tests.measure.records"], cwd=root, capture_output=True, text=True, check=True)
    path.write_text(done.stdout, encoding="utf-8")
    return path
