"""What a reader chose: directions turned round, another junction left out, other loops.

A choice makes a circuit with everything it touches written down in it, so that the other rooms need not know of it.
The names and the order of the unknowns stay. The scripts mirror this in `choices.mjs`.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from itertools import count

from build_tools.circuit.circuit import AssumedCurrent, ChosenLoop, Circuit
from build_tools.laws.topology import Branch, Topology


def apply_choices(
    topology: Topology, *, flip: Collection[str] = (), leave_out: str = "", walk: Sequence[tuple[str, tuple[str, ...]]] = ()
) -> Circuit:
    """The circuit of a topology with choices made.

    Args:
        topology: the circuit as its file has it.
        flip: the unknowns whose assumed directions are turned round.
        leave_out: a point of the junction whose equation is not used; empty: as before.
        walk: every loop of the set, each its start and its parts in walking order; empty: as before.
    """
    circuit = topology.circuit
    return replace(
        circuit,
        currents=tuple(assume(branch, branch.current in flip) for branch in topology.branches),
        leave_out=leave_out or circuit.leave_out,
        loops=name_loops(walk, topology) if walk else circuit.loops,
    )


def assume(branch: Branch, turned: bool) -> AssumedCurrent:
    """The assumed direction of a branch, as an author would write it down."""
    first = branch.steps[0]
    return AssumedCurrent(name=branch.current, through=first.part.name, toward=first.start if turned else first.end)


def name_loops(walks: Sequence[tuple[str, tuple[str, ...]]], topology: Topology) -> tuple[ChosenLoop, ...]:
    """A loop through the parts of one of the page's loops keeps its name; the others take the first free L and number in turn."""
    own = {frozenset(step.part.name for step in loop.steps): loop.name for loop in topology.loops}
    taken = {*own.values(), *topology.circuit.part, *topology.circuit.points, *(branch.current for branch in topology.branches)}
    free = (name for number in count(1) if (name := f"L{number}") not in taken)
    return tuple(ChosenLoop(name=own.pop(frozenset(through), "") or next(free), start=start, through=through) for start, through in walks)


def parse_walk(text: str) -> tuple[str, tuple[str, ...]]:
    """A walk as it stands in an address, "a.E1.R1", as its start and its parts."""
    start, *through = text.split(".")
    return start, tuple(through)
