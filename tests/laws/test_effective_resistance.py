"""Effective resistances of solids, rings, wheels, grids and ladders, each edge 1 Ω, against published fractions."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import combinations, pairwise
from math import pi, sqrt
from typing import Any

import pytest

from tests.published.nets import Edge, Net, build_net, find_pair, grid, spot
from tests.published.parts import battery, circuit_of, resistor, solve
from tests.published.table import load

tables = load("resistances.toml")
rows = [row | {"source": group["source"], "status": group["status"]} for group in tables["group"] for row in group["rows"]]
limits = [row for row in tables["limit"] if row["net"] == "square grid"]


def measure(net: Iterable[Edge], pair: Edge, emf: int = 1) -> Fraction:
    """Drive a pair of points with an ideal battery and divide its emf by its current."""
    edges = [resistor(f"R{number}", *edge, 1) for number, edge in enumerate(net, start=1)]
    _, _, solution = solve(circuit_of([battery("E", pair[1], pair[0], emf), *edges]))
    return emf / solution.parts["E"].current


@pytest.mark.parametrize("row", rows, ids=lambda row: f"{row['net']} {row.get('n', '')} {row['ends']}, {row['status']}")
def test_effective_resistance_is_the_published_one(row: dict[str, Any]) -> None:
    """Between the pair the net has exactly the published resistance; the source stands in the table."""
    net = build_net(row["net"], row.get("n", 0))

    assert measure(net, find_pair(net, row["ends"])) == Fraction(row["value"])


@pytest.mark.parametrize(
    ("solid", "corners", "degree"),
    [("tetrahedron", 4, 3), ("cube", 8, 3), ("octahedron", 6, 4), ("icosahedron", 12, 5), ("dodecahedron", 20, 3)],
)
def test_edge_of_a_solid_follows_from_its_corners_and_edges(solid: str, corners: int, degree: int) -> None:
    """Across an edge: (2/d)(1 − 1/n). Source: IBM Research, Ponder This, October 2007."""
    net = build_net(solid)
    assert len({point for edge in net for point in edge}) == corners

    assert measure(net, net[0]) == Fraction(2, degree) * (1 - Fraction(1, corners))


@pytest.mark.parametrize(("name", "size"), [("cube", 0), ("octahedron", 0), ("wheel", 5), ("grid 2 by 3", 0), ("bridge", 0), ("ladder", 4)])
def test_the_edges_of_a_net_sum_to_its_points_less_one(name: str, size: int) -> None:
    """The sum over all edges is n − 1. Source: R. M. Foster (1949), as in Wikipedia, Resistance distance."""
    net = build_net(name, size)
    points = {point for edge in net for point in edge}

    assert sum(measure(net, edge) for edge in net) == len(points) - 1


@pytest.mark.parametrize(("name", "size"), [("bridge", 0), ("wheel", 4), ("grid 2 by 3", 0)])
def test_an_edge_has_the_share_of_spanning_trees_that_use_it(name: str, size: int) -> None:
    """Across an edge: spanning trees with it over all spanning trees. Source: Wikipedia, Resistance distance."""
    net = build_net(name, size)
    trees = find_spanning_trees(net)

    for edge in net:
        assert measure(net, edge) == Fraction(sum(edge in tree for tree in trees), len(trees))


def find_spanning_trees(net: Net) -> list[tuple[Edge, ...]]:
    """Every choice of edges that joins all points without a closed way."""
    size = len({point for edge in net for point in edge}) - 1
    return [tree for tree in combinations(net, size) if count_reached(tree) == size + 1]


def count_reached(edges: tuple[Edge, ...]) -> int:
    """How many points hang together with the first one."""
    reached = {edges[0][0]}
    for _ in edges:
        reached.update(point for edge in edges if set(edge) & reached for point in edge)
    return len(reached)


def test_ladders_close_in_on_the_golden_ratio() -> None:
    """Each further section brings a ladder nearer to (1 + √5)/2, from above. Source: Mathematics Stack Exchange 4824174."""
    row = next(row for row in tables["limit"] if row["net"] == "ladder")
    golden = (1 + sqrt(5)) / 2
    assert float(row["decimal"]) == golden

    ladders = [build_net("ladder", size) for size in range(1, 11)]
    away = [float(measure(net, find_pair(net, "input"))) - golden for net in ladders]

    assert all(later < earlier for earlier, later in pairwise(away))
    assert 0 < away[-1] < 1e-7


@pytest.mark.parametrize("row", limits, ids=lambda row: row["value"])
def test_the_endless_grid_lies_between_an_open_and_a_shorted_one(row: dict[str, Any]) -> None:
    """A cut-out grid has more resistance than the endless one, and less once its border is one point.

    Cutting edges never lowers a resistance and joining points never raises it: Lord Rayleigh, common knowledge.
    """
    endless = {"1/2": 0.5, "2/pi": 2 / pi, "2 - 4/pi": 2 - 4 / pi, "4/pi - 1/2": 4 / pi - 0.5}[row["value"]]
    assert float(row["decimal"]) == pytest.approx(endless, abs=1e-15)
    pair = spot(2, 2), spot(2 + row["step"][0], 2 + row["step"][1])

    cut = measure(grid(6, 6), pair)
    shorted = measure(short_border(grid(7, 6), 7, 6), pair)

    assert shorted < Fraction(endless) < cut
    assert cut - shorted < Fraction(1, 4)


def short_border(net: Net, width: int, height: int) -> Net:
    """The net with the border of a grid drawn together into one point."""
    border = {spot(x, y) for x in range(width) for y in range(height) if x in (0, width - 1) or y in (0, height - 1)}
    merged = ((("border" if one in border else one), ("border" if other in border else other)) for one, other in net)
    return tuple(edge for edge in merged if edge[0] != edge[1])
