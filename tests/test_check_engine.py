"""The check engine in JavaScript: how well it names slips in every demo and published circuit."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[1]


def run_node(records: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run node in the project's folder."""
    return subprocess.run(["node", *arguments], cwd=ROOT, env={**os.environ, "RECORDS": str(records)}, capture_output=True, text=True)


@pytest.fixture(scope="module")
def figures(records: Path) -> dict[str, dict[str, Any]]:
    """A fifth of what `tests/measure/slips.mjs` measures, for the demo and the published circuits."""
    done = run_node(records, "tests/measure/slips.mjs", "--json", "--share", "0.2", "--rounds", "1")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)  # type: ignore[no-any-return]


@pytest.mark.parametrize("kind", ["demo", "published"])
def test_nothing_right_is_called_wrong(figures: dict[str, dict[str, Any]], kind: str) -> None:
    """True equations, true sums of them and right numbers are never accused, and random numbers are given no name."""
    found = figures[kind]
    assert found["laws"] > 200
    assert found["rightNumbers"] > 50
    assert (found["rightAccused"], found["rightNumbersAccused"], found["randomNamed"]) == (0, 0, 0)


@pytest.mark.parametrize("kind", ["demo", "published"])
def test_slips_in_equations_are_named(figures: dict[str, dict[str, Any]], kind: str) -> None:
    """The right law is always among those named, and the term nearly always, alone or among two."""
    found = figures[kind]
    assert found["rightLaw"] >= 0.999
    assert found["named"] + found["amongTwo"] >= 0.95
    assert found["missed"] <= 0.001


@pytest.mark.parametrize("kind", ["demo", "published"])
def test_slips_in_numbers_are_named_or_passed_over(figures: dict[str, dict[str, Any]], kind: str) -> None:
    """The true slip is among the candidates, one or two names are right, and a single name is hardly ever wrong."""
    found = figures[kind]
    assert found["numberSlips"] > 200
    assert found["candidate"] >= 0.995
    # The whole measurement reaches 0.91; a fifth of it scatters by two hundredths.
    assert found["oneName"] + found["twoNames"] >= 0.88
    assert found["oneWrongName"] <= 0.003
