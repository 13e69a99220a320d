"""Nodes and edges for the search of rows and columns, and what the search finds."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from build_tools.figure.rails.chains import Graph


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """A chain, or one half of a chain that closes on its own node."""

    tail: int
    """The node where its chain begins; for a second half the turning node."""
    head: int
    chain: int
    """Which chain of the graph it draws."""
    batteries: int = 0
    rises: int = 0
    """Batteries with plus toward the head, less those with plus toward the tail."""
    bare: bool = False
    kinds: tuple[str, ...] = ()
    """The kinds of its parts, in order."""

    def other(self, node: int) -> int:
        """The end that is not `node`."""
        return self.tail if node == self.head else self.head


@dataclass(frozen=True)
class Net:
    """A graph with its nodes numbered. A chain that closes on its own node turns round at a node added for it."""

    graph: Graph
    edges: tuple[Edge, ...]
    size: int
    """How many nodes, those added included."""

    @cached_property
    def at(self) -> tuple[tuple[int, ...], ...]:
        """For each node its edges."""
        return tuple(tuple(number for number, edge in enumerate(self.edges) if node in (edge.tail, edge.head)) for node in range(self.size))


@dataclass(frozen=True, slots=True, kw_only=True)
class Rails:
    """Rows and columns: each node is a level bar in its row, each edge an upright piece or a level one.

    A step holds edges that stand above each other in one column, or one edge that lies within a row.
    """

    net: Net
    row: tuple[int, ...]
    """For each node its row, counted from the top."""
    steps: tuple[tuple[int, ...], ...]
    """From left to right."""
    cost: float

    def is_level(self, edge: int) -> bool:
        """Whether an edge lies within a row."""
        return self.row[self.net.edges[edge].tail] == self.row[self.net.edges[edge].head]


def number_nodes(graph: Graph) -> Net:
    """Number the nodes of a graph and give each chain its edge, or two if it closes on its own node."""
    index = {node: number for number, node in enumerate(graph.nodes)}
    edges: list[Edge] = []
    size = len(index)
    for number, chain in enumerate(graph.chains):
        tail, head = index[chain[0].start], index[chain[-1].end]
        batteries = [link.forward for link in chain if link.is_battery]
        edge = Edge(
            tail=tail,
            head=head if head != tail else size,
            chain=number,
            batteries=len(batteries),
            rises=2 * sum(batteries) - len(batteries),
            bare=all(link.is_bare for link in chain),
            kinds=tuple(link.part.kind.value if link.part else "line" for link in chain),
        )
        edges.append(edge)
        if head == tail:
            edges.append(Edge(tail=size, head=head, chain=number))
            size += 1
    return Net(graph, tuple(edges), size)
