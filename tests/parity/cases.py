"""Every circuit of the project with many choices a reader could make, and how Python works each of them out."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.figure.layout import Layout
from build_tools.figure.placing import place_circuit
from build_tools.laws.choices import apply_choices
from build_tools.laws.elimination import IndependentRows
from build_tools.laws.loop import branch_vector
from build_tools.laws.meaning import WorkedCircuit, work_out
from build_tools.laws.practice import take_set
from build_tools.laws.survey import find_topology
from build_tools.laws.topology import Step, Topology
from build_tools.page.record import write_record
from build_tools.page.writing import write_layout

root = Path(__file__).parents[2]
folders = ("circuits", "tests/published/circuits", "tests/parity/circuits")
files = sorted(file for folder in folders for file in (root / folder).glob("*.toml"))

Walk = tuple[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What a reader chose."""

    flip: tuple[str, ...] = ()
    leave_out: str = ""
    walk: tuple[Walk, ...] = ()
    practice: int = 0
    """Which practice values; 0 for the file's own."""

    @property
    def plain(self) -> dict[str, object]:
        """As the scripts take it."""
        walk = [{"start": start, "through": list(through)} for start, through in self.walk]
        return {"flip": list(self.flip), "leaveOut": self.leave_out, "walk": walk}


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One circuit with one choice, worked out by Python."""

    name: str
    choice: Choice
    own: WorkedCircuit
    """As the file has it."""
    worked: WorkedCircuit
    layout: Layout | None

    def write(self) -> str:
        """The case as the scripts read it, one line of JSON."""
        figure = write_layout(self.layout) if self.layout else None
        chosen = {"choices": self.choice.plain, "practice": self.choice.practice}
        return json.dumps({"name": self.name, "example": write_record(self.own), "figure": figure, **chosen})


def find_cases(file: Path) -> Iterator[Case]:
    """Every case of one circuit file."""
    circuit = read_circuit(read_source(file))
    own = work_out(circuit)
    layout = place_circuit(circuit) if circuit.drawing.places else None
    for number, choice in enumerate(dict.fromkeys(find_choices(own.topology))):
        topology = find_topology(take_set(own.topology, choice.practice)) if choice.practice else own.topology
        worked = work_out(apply_choices(topology, flip=choice.flip, leave_out=choice.leave_out, walk=choice.walk))
        yield Case(name=f"{file.stem} {number}", choice=choice, own=own, worked=worked, layout=layout)


def find_choices(topology: Topology) -> Iterator[Choice]:
    """Nothing chosen; every direction turned, alone and all together; every junction left out; several sets of loops; practice values."""
    currents = tuple(branch.current for branch in topology.branches)
    yield Choice()
    yield from (Choice(flip=(current,)) for current in currents)
    yield Choice(flip=currents)
    yield from (Choice(leave_out=junction.name) for junction in topology.junctions)
    loops = find_loop_sets(topology)
    yield from (Choice(walk=walk) for walk in loops)
    yield Choice(practice=1)
    yield Choice(practice=4, flip=currents[::2], walk=loops[0] if loops else ())
    for walk in loops[:2]:
        yield Choice(flip=currents[::2], leave_out=topology.junctions[0].name if topology.junctions else "", walk=walk)


def find_loop_sets(topology: Topology) -> list[tuple[Walk, ...]]:
    """The page's loops walked backwards, begun elsewhere and in another order; then sets of quite other loops."""
    own = [loop.steps for loop in topology.loops]
    if not own:
        return []
    backwards = [tuple(step.reversed() for step in reversed(walk)) for walk in own]
    elsewhere = [(*walk[1:], *walk[:1]) for walk in own]
    every = find_simple_loops(topology)
    sets = [backwards, elsewhere, own[::-1], independent(every, topology), independent(every[::-1], topology)]
    for seed in range(2):
        sets.append(independent(random.Random(seed).sample(every, len(every)), topology))
    return [tuple((walk[0].start, tuple(step.part.name for step in walk)) for walk in walks) for walks in sets]


def independent(walks: list[tuple[Step, ...]], topology: Topology) -> list[tuple[Step, ...]]:
    """The first walks that each say something new."""
    known = IndependentRows()
    return [walk for walk in walks if known.add(branch_vector(walk, topology.branches)) is None]


def find_simple_loops(topology: Topology) -> list[tuple[Step, ...]]:
    """Every loop that passes no place twice, found by walking, those with few parts first."""
    live = [step.part for branch in topology.branches for step in branch.steps]
    found: dict[frozenset[str], tuple[Step, ...]] = {}
    for part in live:
        first = Step(part, True)
        open_walks = [(first,)]
        while open_walks:
            walk = open_walks.pop()
            here, home = topology.node[walk[-1].end], topology.node[first.start]
            if here == home:
                found.setdefault(frozenset(step.part.name for step in walk), walk)
                continue
            passed = {topology.node[step.start] for step in walk[1:]}
            if here in passed:
                continue
            steps = [Step(each, forward) for each in live for forward in (True, False)]
            names = {step.part.name for step in walk}
            open_walks += [(*walk, step) for step in steps if topology.node[step.start] == here and step.part.name not in names]
    return sorted(found.values(), key=lambda walk: (len(walk), [step.part.name for step in walk]))
