"""The scripts' own tests, run by node's test runner."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

folder = Path(__file__).parent / "javascript"


def find_node() -> str:
    """The node program; without it the test is left out with one line, and fails in CI."""
    found = shutil.which("node")
    if not found and os.environ.get("CI") == "true":
        pytest.fail("node is not installed, and in CI the scripts must be tested")
    return found or pytest.skip("node is not installed: the scripts are not tested")


def test_scripts() -> None:
    """Every test of the scripts passes in node."""
    files = sorted(map(str, folder.glob("*.test.mjs")))
    done = subprocess.run([find_node(), "--test", *files], capture_output=True, text=True, check=False, encoding="utf-8")
    assert done.returncode == 0, done.stdout + done.stderr
