"""What is allowed but seldom meant: said by `check` beside the faults, never a reason to refuse.

A slip in a point's name often leaves a circuit that has an answer, only not the one its author had in mind. These
remarks are where such a slip shows.
"""

from __future__ import annotations

from collections.abc import Iterator

from build_tools.circuit.problem import listed
from build_tools.laws.branch import cut_dead_ends
from build_tools.laws.meaning import WorkedCircuit


def find_remarks(worked: WorkedCircuit) -> Iterator[str]:
    """Everything about a circuit that deserves a second look, a sentence each."""
    circuit, topology = worked.circuit, worked.topology
    if not any(part.emf for part in circuit.parts):
        yield "there is no battery, so every current is zero"
    elif not topology.branches:
        yield "no closed way conducts, so every current is zero"
    elif loose := [part.name for part in circuit.parts if part not in cut_dead_ends(circuit.parts, topology.node)]:
        yield f"{listed(loose)} {'has a loose end' if len(loose) == 1 else 'have a loose end'}, so no closed way leads through"
    for part in circuit.parts:
        if topology.node[part.start] == topology.node[part.end]:
            yield f"both ends of {part.name} are one junction, joined by plain lines"
