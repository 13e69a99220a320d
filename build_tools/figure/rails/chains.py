"""The circuit as a drawing sees it: chains of parts between places where they fork or end.

All parts count here, whether a current can pass them or not, and so do plain lines between joined points: the shape of
the drawing does not depend on what conducts.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass

from build_tools.circuit.circuit import Circuit, Kind, Part


@dataclass(frozen=True, slots=True)
class Link:
    """One part, or one plain line (no part), on the way along a chain."""

    start: str
    end: str
    part: Part | None = None

    @property
    def forward(self) -> bool:
        """Whether the way goes from the part's start to its end."""
        return self.part is None or self.start == self.part.start

    @property
    def is_battery(self) -> bool:
        """Whether this is a battery."""
        return self.part is not None and self.part.kind is Kind.BATTERY

    @property
    def is_bare(self) -> bool:
        """Whether nothing but a line is drawn."""
        return self.part is None or self.part.kind is Kind.WIRE

    def reversed(self) -> Link:
        """The same, walked the other way."""
        return Link(self.end, self.start, self.part)


Chain = tuple[Link, ...]
"""Parts and lines one after the other, with nothing else joined on the way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Graph:
    """One connected piece of a circuit, for drawing."""

    nodes: tuple[str, ...]
    """The points where a chain forks or ends; none for a single loop."""
    chains: tuple[Chain, ...]


def find_pieces(circuit: Circuit) -> tuple[Graph, ...]:
    """Cut a circuit into its connected pieces and their parts into chains."""
    at = _links_at(circuit)
    pieces = []
    for points in _connected(circuit.points, at):
        nodes = tuple(point for point in points if len(at[point]) != 2)
        starts = nodes or points[:1]
        pieces.append(Graph(nodes=nodes, chains=_chains(starts, at)))
    return tuple(piece for piece in pieces if piece.chains)


def reversed_chain(chain: Chain) -> Chain:
    """The same chain, walked the other way."""
    return tuple(link.reversed() for link in reversed(chain))


def _links_at(circuit: Circuit) -> dict[str, list[tuple[int, Link]]]:
    """For each point its links, walked away from it, each with a number of its own."""
    links = [Link(part.start, part.end, part) for part in circuit.parts]
    links += [Link(*pair) for pair in _needed_lines(circuit)]
    at: dict[str, list[tuple[int, Link]]] = {point: [] for point in circuit.points}
    for number, link in enumerate(links):
        at[link.start].append((number, link))
        at[link.end].append((number, link.reversed() if link.start != link.end else link))
    return at


def _needed_lines(circuit: Circuit) -> list[tuple[str, str]]:
    """The plain lines that join something not yet joined."""
    group = {point: point for point in circuit.points}
    needed = []
    for first, second in circuit.drawing.joined:
        old, new = group[first], group[second]
        if old != new:
            needed.append((first, second))
            group = {point: new if name == old else name for point, name in group.items()}
    return needed


def _connected(points: tuple[str, ...], at: dict[str, list[tuple[int, Link]]]) -> list[tuple[str, ...]]:
    seen: set[str] = set()
    pieces = []
    for first in points:
        if first in seen:
            continue
        found, queue = {first}, deque([first])
        while queue:
            fresh = dict.fromkeys(link.end for _, link in at[queue.popleft()] if link.end not in found)
            found.update(fresh)
            queue.extend(fresh)
        seen |= found
        pieces.append(tuple(point for point in points if point in found))
    return pieces


def _chains(starts: tuple[str, ...], at: dict[str, list[tuple[int, Link]]]) -> tuple[Chain, ...]:
    used: set[int] = set()
    chains = []
    for start in starts:
        for number, link in at[start]:
            if number not in used:
                chains.append(_walk(number, link, starts, at, used))
    return tuple(chains)


def _walk(number: int, link: Link, stops: tuple[str, ...], at: dict[str, list[tuple[int, Link]]], used: set[int]) -> Chain:
    way = [link]
    used.add(number)
    while way[-1].end not in stops:
        number, link = next((n, onward) for n, onward in at[way[-1].end] if n not in used)
        used.add(number)
        way.append(link)
    return tuple(way)
