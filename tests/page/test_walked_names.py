"""What tells rows and lines of the printed page apart at first sight."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from build_tools.laws.hand_lines import Action
from build_tools.page.hand import tell_line, view_route
from build_tools.page.setup import view_loops
from build_tools.pipeline import work_file

root = Path(__file__).parents[2]
files = sorted([*(root / "circuits").glob("*.toml"), *(root / "tests/published/circuits").glob("*.toml")])


def words(markup: str) -> str:
    """What is read of some markup."""
    return re.sub(r"<[^>]+>", "", markup)


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_no_two_rows_of_a_walk_have_one_name(path: Path) -> None:
    """A battery with internal resistance has two terms; each row says which it is."""
    for loop in view_loops(work_file(path), None):
        names = [words(row.name) for row in loop.rows]
        assert len(set(names)) == len(names)


def test_the_terms_of_a_battery_are_named() -> None:
    """The emf is one, the internal resistance the other; a resistor keeps its bare name."""
    first, second = view_loops(work_file(root / "circuits/bilge-pump-two-banks.toml"), None)
    assert [words(row.name) for row in first.rows[:2]] == ["E1\N{NO-BREAK SPACE}emf", "r\N{NO-BREAK SPACE}of\N{NO-BREAK SPACE}E1"]
    assert words(second.rows[-1].name) == "R1"


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_turned_signs_are_said(path: Path) -> None:
    """Where a loop equation is written with the other signs, its line says how that came about; else it does not."""
    worked = work_file(path)
    expressions = {line.number: dict(line.terms) for line in worked.route.lines if line.action is Action.EXPRESS}
    current_of = {line.number: line.current for line in worked.route.lines}
    for line in worked.route.lines:
        if line.action is not Action.INSERT:
            continue
        put_in = {current_of[use]: expressions[use] for use in line.uses[1:]}
        factors: dict[str, int | float] = {}
        for current, factor in worked.written.equations[line.uses[0] - 1].factors.items():
            for kept, share in put_in.get(current, {current: 1}).items():
                factors[kept] = factors.get(kept, 0) + factor * share
        is_turned = any(factor * factors[current] < 0 for current, factor in line.terms)
        said = tell_line(line)
        assert ("all signs turned" in said) == (is_turned and not line.right)
        assert ("currents taken to the other side" in said) == (is_turned and bool(line.right))
    assert len(view_route(worked)) == len(worked.route.lines)
