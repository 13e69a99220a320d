"""The README shows what really is: its circuit, its answers and its refusal are the tool's own."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from build_tools.pipeline import FaultyCircuits, check_file

root = Path(__file__).parents[1]
readme = (root / "README.md").read_text(encoding="utf-8")
blocks = re.findall(r"```(\w+)\n(.*?)```", readme, re.DOTALL)
circuit = root / "circuits/link-wire.toml"


def test_the_circuit_shown_is_the_circuit_file() -> None:
    """To the letter."""
    assert ("toml", circuit.read_text(encoding="utf-8")) in blocks


def test_the_answers_shown_are_those_printed() -> None:
    """What `solve` prints today stands in the README."""
    done = subprocess.run([sys.executable, "-m", "build_tools", "solve", str(circuit)], cwd=root, capture_output=True, check=True)

    assert ("text", done.stdout.decode()) in blocks


def test_the_refusal_shown_really_happens(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same file with the slip in it."""
    (tmp_path / "circuits").mkdir()
    (tmp_path / "circuits/link-wire.toml").write_text(circuit.read_text(encoding="utf-8").replace('"6 ohm"', '"6 ohn"'), encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    with pytest.raises(FaultyCircuits) as refused:
        check_file(Path("circuits/link-wire.toml"))

    assert ("text", f"{refused.value}\n") in blocks


def test_both_commands_are_those_of_ci() -> None:
    """The second command is what `.ci/run` runs."""
    commands = [text for language, text in blocks if language == "sh"]

    assert commands[0].strip().endswith(".venv/bin/mkdocs serve")
    assert commands[1].strip() == ".venv/bin/pip install -e '.[test]' && .venv/bin/pytest"
    assert ".venv/bin/pip install -q -e '.[test]' && .venv/bin/pytest" in (root / ".ci/run").read_text(encoding="utf-8")
