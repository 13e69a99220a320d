"""The scripts' own tests, run by node's test runner."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest

from build_tools.circuit.numeral import plain, rounded

folder = Path(__file__).parent / "javascript"


def find_node() -> str:
    """The node program; without it the test is left out with one line, and fails in CI."""
    found = shutil.which("node")
    if not found and os.environ.get("CI") == "true":
        pytest.fail("node is not installed, and in CI the scripts must be tested")
    return found or pytest.skip("node is not installed: the scripts are not tested")


@pytest.mark.parametrize(("text", "exact", "three"), json.loads((folder / "numerals.json").read_text(encoding="utf-8")))
def test_numerals(text: str, exact: str, three: str) -> None:
    """Numbers are written as the scripts' own tests want them written."""
    assert (plain(Fraction(text)), rounded(Fraction(text))) == (exact, three)


def test_scripts(records: Path) -> None:
    """Every test of the scripts passes in node."""
    files = sorted(map(str, folder.glob("*.test.mjs")))
    assert len(files) > 10
    environment = {**os.environ, "RECORDS": str(records), "PYTHON": sys.executable}
    done = subprocess.run([find_node(), "--test", *files], capture_output=True, text=True, env=environment, encoding="utf-8")
    assert done.returncode == 0, done.stdout + done.stderr
