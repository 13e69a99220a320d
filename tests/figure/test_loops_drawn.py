"""Loops that nobody chose are the inner loops of their drawing, also where the tool lays the circuit out."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from build_tools.figure.ground import lay_ground
from build_tools.figure.rings import loop_outline
from tests.figure.drawings import example, examples, figure_of

published = sorted(Path("tests/published/circuits").glob("*.toml"))
circuits = pytest.mark.parametrize("path", [*examples, *published], ids=lambda path: path.stem)
free = [path for path in (*examples, *published) if not example(path).circuit.loops]
"""Whose author left the choice of loops to the tool."""


def area(outline: tuple[tuple[float, float], ...]) -> float:
    """Area of an outline; positive where it is walked clockwise, since y runs downwards."""
    return sum(x * v - u * y for (x, y), (u, v) in pairwise([*outline, outline[0]])) / 2


@pytest.mark.parametrize("path", free, ids=lambda path: path.stem)
def test_loops_are_walked_clockwise_and_lie_side_by_side(path: Path) -> None:
    """All clockwise; and since none lies in another, their areas add up to no more than the frame of the figure."""
    topology, figure = example(path), figure_of(path)
    ground = lay_ground(topology.circuit, figure.layout)
    areas = [area(loop_outline(ground, loop)) for loop in topology.loops]
    assert all(each > 0 for each in areas)
    xs, ys = zip(*(spot for route in figure.layout.routes.values() for spot in route), strict=True)
    assert sum(areas) <= (max(xs) - min(xs)) * (max(ys) - min(ys)) + 1


@circuits
def test_no_way_crosses_another(path: Path) -> None:
    """All these circuits are planar, and none is drawn with a crossing."""
    assert lay_ground(example(path).circuit, figure_of(path).layout).hops == ()
