"""What the page says to its reader beyond the solution: a prompt to predict, and a caution where one is due.

Whether a caution is due is a fact of the circuit: batteries of which one may charge another, a loop of batteries with
nothing but their own resistance in it, a battery whose only load is its own resistance. It stands before the work, so
it does not tell what comes out.
"""

from __future__ import annotations

from collections.abc import Iterator

from build_tools.circuit.circuit import Kind, Part
from build_tools.circuit.problem import listed
from build_tools.laws.meaning import WorkedCircuit
from build_tools.laws.node import find_nodes
from build_tools.laws.refusal import find_loops


def write_prompts(worked: WorkedCircuit) -> tuple[str, ...]:
    """Questions to answer with a guess before reading on."""
    return tuple(find_prompts(worked))[:3]


def find_prompts(worked: WorkedCircuit) -> Iterator[str]:
    """Questions that fit the circuit, the most telling first."""
    circuit, topology = worked.circuit, worked.topology
    batteries = [part.name for part in circuit.parts if part.kind is Kind.BATTERY]
    bare = [
        branch.steps[0].part.name
        for branch in topology.branches
        if all(step.part.resistance == 0 and not step.part.emf for step in branch.steps)
    ]
    if not topology.branches:
        yield "Is there any closed way round on which a current could flow?"
    if bare:
        yield (
            f"{listed(bare)} has no resistance. Does a current flow in it all the same, and which way?"
            if len(bare) == 1
            else (f"{listed(bare)} have no resistance. Do currents flow in them all the same, and which way?")
        )
    if topology.idle and topology.branches:
        names = [part.name for part in topology.idle]
        yield f"{listed(names)} {'carries' if len(names) == 1 else 'carry'} no steady current here. Why not?"
    if len(batteries) > 1 and topology.branches:
        yield f"Does each of {listed(batteries)} give power, or is one of them being charged?"
    if asked := [name for name in circuit.asked if name in topology.branch_of and name not in bare]:
        yield f"Which way will the current go through {listed(asked)}? Make a guess; the signs will tell."
    yield "How many unknown currents are there, and so how many equations are needed?"


def write_cautions(worked: WorkedCircuit) -> tuple[str, ...]:
    """Why this example must not be tried as it is with real batteries; empty where there is no such reason."""
    live = [step.part for branch in worked.topology.branches for step in branch.steps]
    direct = [loop for loop in find_loops(worked.circuit, find_nodes(worked.circuit), is_low) if any(step.part.emf for step in loop)]
    shorted = [names for loop in direct if len(names := batteries_of([step.part for step in loop])) == 1]
    parallel = [names for loop in direct if len(names := batteries_of([step.part for step in loop])) > 1]
    reasons = []
    if len(batteries_of(live)) > 1:
        reasons.append("one battery may charge another")
    if shorted:
        reasons.append(f"nothing but its own resistance limits the current of {listed([name for names in shorted for name in names])}")
    if parallel:
        reasons.append("; ".join(f"{listed(names)} are joined with nothing but their own resistance between them" for names in parallel))
    return tuple(reasons)


def is_low(part: Part) -> bool:
    """Whether a part has no resistance but, at most, a battery's own."""
    return part.conducts and (part.kind is Kind.BATTERY or part.resistance == 0)


def batteries_of(parts: list[Part]) -> list[str]:
    """The names of the batteries among parts."""
    return [part.name for part in parts if part.kind is Kind.BATTERY]
