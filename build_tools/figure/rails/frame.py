"""From rows and columns to the corners of every chain, still without a length.

The outer end of a bar that carries one edge only belongs to that edge: there the wire just turns. That is what makes
rails look like a textbook's corners. What is left of a bar between its outermost dots is a plain line.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from build_tools.figure.rails.chains import Chain
from build_tools.figure.rails.net import Rails

Corner = tuple[int, int]
"""A column and a row, both by number: columns from the left, rows from the top."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """The corners a chain passes, from its start to its end."""

    chain: Chain
    corners: tuple[Corner, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The corners of a whole piece."""

    columns: int
    rows: int
    ways: tuple[Way, ...]
    dots: dict[str, Corner]
    """Where each node has its letter."""
    bars: tuple[tuple[Corner, Corner], ...]
    """Plain level lines between dots of one node."""
    cost: float


@dataclass(frozen=True, slots=True)
class Bar:
    """One node's bar: the columns of its dots, and beyond them the corners of its outermost edges."""

    row: int
    dots: tuple[int, ...]

    def approach(self, column: int) -> tuple[Corner, ...]:
        """The way from the nearest dot to a column."""
        dot = min(self.dots, key=lambda dot: abs(dot - column))
        return ((dot, self.row),) if dot == column else ((dot, self.row), (column, self.row))


def build_frame(rails: Rails) -> Frame:
    """Work out the corners of every chain."""
    count, column_of, alone = _number_columns(rails)
    bars = tuple(_bar(rails, node, column_of, alone) for node in range(rails.net.size))
    ways: dict[int, tuple[Corner, ...]] = {}
    for number, edge in enumerate(rails.net.edges):
        if rails.is_level(number):
            corners = _level_corners(bars[edge.tail], bars[edge.head])
        else:
            column = column_of[number]
            corners = (*bars[edge.tail].approach(column), *reversed(bars[edge.head].approach(column)))
        ways[edge.chain] = _straightened((*ways.get(edge.chain, ()), *corners))
    graph = rails.net.graph
    return Frame(
        columns=count,
        rows=max(rails.row) + 1,
        ways=tuple(Way(chain=chain, corners=ways[number]) for number, chain in enumerate(graph.chains)),
        dots={node: (_main_dot(rails, number, bars[number], column_of), bars[number].row) for number, node in enumerate(graph.nodes)},
        bars=tuple(((left, bar.row), (right, bar.row)) for bar in bars[: len(graph.nodes)] for left, right in pairwise(bar.dots)),
        cost=rails.cost,
    )  # fmt: skip


def build_ring(chain: Chain) -> Frame:
    """A single loop: up the left side, along the top, down the right side and back along the bottom."""
    corners = ((0, 1), (0, 0), (1, 0), (1, 1), (0, 1))
    return Frame(columns=2, rows=2, ways=(Way(chain=chain, corners=corners),), dots={}, bars=(), cost=0.0)


def _number_columns(rails: Rails) -> tuple[int, dict[int, int], dict[int, int]]:
    """How many columns there are, the column of each upright edge, and of each node without one."""
    count, column_of, alone = 0, {}, {}
    uprights = {node for e, edge in enumerate(rails.net.edges) if not rails.is_level(e) for node in (edge.tail, edge.head)}
    for step in rails.steps:
        if not rails.is_level(step[0]):
            column_of.update(dict.fromkeys(step, count))
            count += 1
            continue
        edge = rails.net.edges[step[0]]
        for node in (edge.tail, edge.head):
            if node not in uprights and node not in alone:
                alone[node] = count
                count += 1
    return count, column_of, alone


def _bar(rails: Rails, node: int, column_of: dict[int, int], alone: dict[int, int]) -> Bar:
    if node in alone:
        return Bar(rails.row[node], (alone[node],))
    edges = rails.net.at[node]
    columns = sorted(column_of[edge] for edge in edges if edge in column_of)
    dots = sorted(set(columns))
    order = {edge: number for number, step in enumerate(rails.steps) for edge in step}
    first_upright = min(order[edge] for edge in edges if edge in column_of)
    levels = [order[edge] > first_upright for edge in edges if edge not in column_of]
    if False not in levels and len(dots) > 1 and columns.count(dots[0]) == 1:
        del dots[0]
    if True not in levels and len(dots) > 1 and columns.count(dots[-1]) == 1:
        del dots[-1]
    return Bar(rails.row[node], tuple(dots))


def _level_corners(tail: Bar, head: Bar) -> tuple[Corner, ...]:
    if tail.dots[-1] < head.dots[0]:
        return (tail.dots[-1], tail.row), (head.dots[0], head.row)
    return (tail.dots[0], tail.row), (head.dots[-1], head.row)


def _straightened(corners: tuple[Corner, ...]) -> tuple[Corner, ...]:
    """Without spots passed twice or straight on."""
    kept: list[Corner] = []
    for corner in corners:
        if kept and corner == kept[-1]:
            continue
        if len(kept) > 1 and any(kept[-2][axis] == kept[-1][axis] == corner[axis] for axis in (0, 1)):
            kept.pop()
        kept.append(corner)
    return tuple(kept)


def _main_dot(rails: Rails, node: int, bar: Bar, column_of: dict[int, int]) -> int:
    """The dot where most edges meet, the first of several."""
    near = [min(bar.dots, key=lambda dot: abs(dot - column_of[edge])) for edge in rails.net.at[node] if edge in column_of]
    return max(bar.dots, key=lambda dot: (near.count(dot), -dot))
