"""Files with slips nobody thought of: demo circuits mutilated at random are solved or refused, never a traceback."""

from __future__ import annotations

import re
from pathlib import Path
from random import Random

import pytest

from build_tools.pipeline import FaultyCircuits, check_file

files = sorted((Path(__file__).parents[2] / "circuits").glob("*.toml"))
odd_values = [
    '"a"', '"b"', '"zz"', "[0, 0]", "-1", "nan", '"0 V"', '"1e9 V"', '"open"', '"ideal"', "{}", "[]", '""', "true", "2020-01-01",
    '"R1"', '[["a", "b"]]', "[1e5, 2]", '"unknown"', '"é"',
]  # fmt: skip


def report_of(path: Path) -> str:
    """What is said of a file that is refused; nothing of one that is not."""
    try:
        check_file(path)
    except FaultyCircuits as report:
        return str(report)
    return ""


def mutilate(text: str, chance: Random) -> str:
    """Swap a value, drop or double a line, break a sign, or rename something here and there."""
    kind = chance.randrange(4)
    if kind == 0:
        value = chance.choice(list(re.finditer(r'"[^"\n]*"|\[[^\[\]\n]*\]', text)))
        return text[: value.start()] + chance.choice(odd_values) + text[value.end() :]
    if kind == 1:
        lines = text.split("\n")
        at = chance.randrange(len(lines))
        return "\n".join([*lines[:at], *([lines[at]] * chance.choice((0, 2))), *lines[at + 1 :]])
    if kind == 2:
        at = chance.randrange(len(text))
        return text[:at] + chance.choice('[]{}="#\n,.\t\0é') + text[at + 1 :]
    one, other = chance.choices(re.findall(r"\b[A-Za-z]\w*\b", text), k=2)
    return re.sub(rf"\b{one}\b", other, text, count=chance.randint(0, 2))


@pytest.mark.parametrize("seed", range(8))
def test_a_mutilated_file_is_solved_or_refused(seed: int, tmp_path: Path) -> None:
    """Whatever happens to a file, its author gets answers or a report."""
    chance = Random(seed)
    path = tmp_path / "odd.toml"
    refused = 0
    for _ in range(100):
        text = chance.choice(files).read_text(encoding="utf-8")
        for _ in range(chance.randint(1, 4)):
            text = mutilate(text, chance)
        path.write_text(text, encoding="utf-8")
        report = report_of(path)
        refused += bool(report)
        assert not report or report.startswith(f"{path}:")

    assert refused > 50
