"""Surveying a circuit: from its parts to its junctions, branches and loops, or to the reasons why it has no answer."""

from __future__ import annotations

from build_tools.circuit.circuit import Circuit, Kind
from build_tools.circuit.problem import CircuitError, Problem, listed
from build_tools.laws.branch import find_branches, find_live_parts, find_meeting, refuse_currents
from build_tools.laws.loop import choose_loops, find_pieces
from build_tools.laws.node import find_nodes
from build_tools.laws.refusal import find_refusals
from build_tools.laws.topology import Branch, Junction, Topology


def find_topology(circuit: Circuit) -> Topology:
    """Find what hangs together in a circuit.

    Raises:
        CircuitError: where the circuit does not have exactly one answer, or a choice of the author's cannot stand.
    """
    node = find_nodes(circuit)
    live = find_live_parts(circuit, node)
    problems = [*find_refusals(circuit), *refuse_currents(circuit, node, live)]
    names = [point for point, steps in find_meeting(live, node).items() if len(steps) > 2]
    if circuit.leave_out and node[circuit.leave_out] not in names:
        problems.append(refuse_leave_out(circuit.leave_out, sorted(names, key=list(node).index)))
    if problems:
        raise CircuitError(problems)
    branches = find_branches(circuit, node, live)
    return Topology(
        circuit=circuit,
        node=node,
        junctions=find_junctions(circuit, node, branches, names),
        branches=branches,
        loops=choose_loops(circuit, node, branches, live),
        idle=tuple(part for part in circuit.parts if part not in live),
    )


def find_junctions(circuit: Circuit, node: dict[str, str], branches: tuple[Branch, ...], names: list[str]) -> tuple[Junction, ...]:
    """Every junction in the order of the points; in each piece one is left out.

    Where the author names none it is the one where most branches meet; among equals the first battery's minus, which
    the page calls 0, else the last.
    """
    ends = [end for branch in branches for end in (branch.start, branch.end)]
    order = list(node)
    left_out = set()
    batteries = [part for part in circuit.parts if part.kind is Kind.BATTERY]
    minus = {node[part.start]: number for number, part in enumerate(reversed(batteries), 1)}
    for piece in find_pieces(branches):
        inside = [name for name in order if name in piece and name in names]
        chosen = [name for name in inside if circuit.leave_out and name == node[circuit.leave_out]]
        busiest = sorted(inside, key=lambda name: (ends.count(name), minus.get(name, 0), order.index(name)))[-1:]
        left_out.update(chosen or busiest)
    return tuple(
        Junction(name=name, points=tuple(point for point in order if node[point] == name), used=name not in left_out)
        for name in order
        if name in names
    )


def refuse_leave_out(point: str, junctions: list[str]) -> Problem:
    """A point that is no junction cannot be the one left out."""
    return Problem(
        where=("equations", "leave_out"),
        expected="a junction, where at least three branches meet",
        found=f"{point}, which is none",
        way_out=f"the junctions are {listed(junctions)}" if junctions else "this circuit has no junction: take the line out",
    )
