"""What a reader chose: directions turned round, another junction left out, other loops.

A choice makes a circuit with everything it touches written down in it, so that the other rooms need not know of it.
The names and the order of the unknowns stay. The scripts mirror this in `choices.mjs`.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from build_tools.circuit.circuit import AssumedCurrent, ChosenLoop, Circuit
from build_tools.laws.loop_names import free_names, name_all_loops
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
    """A loop keeps its name whatever else is in the set; what is no simple loop, or there a second time, takes a number after them."""
    names = name_all_loops(topology)
    free = free_names(topology, tuple(names.values()))
    number_of = {step.part.name: number for number, branch in enumerate(topology.branches) for step in branch.steps}

    def name(through: tuple[str, ...]) -> str:
        return names.pop(frozenset(number_of[part] for part in through), "") or next(free)

    return tuple(ChosenLoop(name=name(through), start=start, through=through) for start, through in walks)


def parse_walk(text: str) -> tuple[str, tuple[str, ...]]:
    """A walk as it stands in an address, "a.E1.R1", as its start and its parts."""
    start, *through = text.split(".")
    return start, tuple(through)
