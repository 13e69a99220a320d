"""The figure of every example, kept as it was last accepted (`--accept`), so that a change is seen before it is published."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.figure.drawings import examples, figure_of

folder = Path(__file__).parent / "snapshots"


def rounded(svg: str) -> str:
    """One element on a line, every number to the whole pixel."""
    lines = svg.replace("><", ">\n<")
    return re.sub(r"-?\d+\.\d+", lambda found: f"{float(found[0]):.0f}", lines) + "\n"


@pytest.mark.parametrize("path", examples, ids=lambda path: path.stem)
def test_figure_is_as_last_accepted(path: Path, accept: bool) -> None:
    """Nothing in a figure moves by a pixel unless somebody looked at it."""
    kept = folder / f"{path.stem}.svg"
    drawn = rounded(figure_of(path).svg)
    if accept:
        kept.write_text(drawn, encoding="utf-8")
    assert drawn == kept.read_text(encoding="utf-8")


def test_no_snapshot_is_left_without_its_example() -> None:
    """One for each example, and no more."""
    assert {kept.stem for kept in folder.glob("*.svg")} == {path.stem for path in examples}
