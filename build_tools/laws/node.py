"""Which points are one place: points joined by plain lines are the same node."""

from __future__ import annotations

from collections.abc import Iterable

from build_tools.circuit.circuit import Circuit


class NodeSets:
    """Sets of names that grow together; each is known by the name that came first."""

    def __init__(self, names: Iterable[str]) -> None:
        self._order = {name: number for number, name in enumerate(dict.fromkeys(names))}
        self._above = {name: name for name in self._order}

    def find(self, name: str) -> str:
        """The first name of the set."""
        while self._above[name] != name:
            name = self._above[name]
        return name

    def join(self, one: str, other: str) -> None:
        """Make two sets one."""
        first, second = sorted((self.find(one), self.find(other)), key=self._order.__getitem__)
        self._above[second] = first


def find_nodes(circuit: Circuit) -> dict[str, str]:
    """For each point, in the circuit's order, the first point of the place it belongs to."""
    sets = NodeSets(circuit.points)
    for one, other in circuit.drawing.joined:
        sets.join(one, other)
    return {point: sets.find(point) for point in circuit.points}
