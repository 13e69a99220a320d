"""What must hold for every circuit, tried on circuits invented by hypothesis."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from random import Random

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from sympy import QQ
from sympy.polys.matrices import DomainMatrix

from build_tools.circuit.circuit import AssumedCurrent, ChosenLoop, Circuit, Kind, Part
from build_tools.circuit.problem import CircuitError
from build_tools.laws.survey import find_topology
from build_tools.laws.topology import Branch, Step, Topology
from tests.laws.invented import invent_circuit
from tests.published.parts import quantity, resistor, solve, wire

chances = st.randoms(use_true_random=False)
steady = settings(derandomize=True, max_examples=40, deadline=None, database=None, suppress_health_check=list(HealthCheck))


@st.composite
def circuits(draw: st.DrawFn) -> Circuit:
    """Circuits that have exactly one answer, of one loop to four."""
    chance = draw(chances)
    circuit = invent_circuit(chance, draw(st.integers(1, 4)), bare=0.2, pieces=draw(st.sampled_from([1, 1, 2])))
    try:
        find_topology(circuit)
    except CircuitError:
        assume(False)
    return circuit


def currents_of(circuit: Circuit) -> dict[str, Fraction]:
    """The current of each part from its start to its end."""
    return {name: state.current for name, state in solve(circuit)[2].parts.items()}


def direct_all(topology: Topology, flipped: set[str]) -> tuple[AssumedCurrent, ...]:
    """The assumed directions of a topology, spelt out, some of them turned round."""
    return tuple(
        AssumedCurrent(name=branch.current, through=step.part.name, toward=step.start if branch.current in flipped else step.end)
        for branch in topology.branches
        for step in branch.steps[:1]
    )


@steady
@given(circuits(), st.data())
def test_reversing_assumed_directions_only_changes_the_signs_of_those_currents(circuit: Circuit, data: st.DataObject) -> None:
    """Turned arrows turn the signs of their own currents and nothing else."""
    topology, _, solution = solve(circuit)
    flipped = set(data.draw(st.lists(st.sampled_from([branch.current for branch in topology.branches]), unique=True), label="flipped"))

    turned = solve(replace(circuit, currents=direct_all(topology, flipped)))[2]

    assert turned.currents == {name: -value if name in flipped else value for name, value in solution.currents.items()}
    assert turned.parts == solution.parts
    assert turned.potentials == solution.potentials


@steady
@given(circuits(), chances)
def test_reordering_renaming_and_turning_parts_changes_no_physics(circuit: Circuit, chance: Random) -> None:
    """Other names, another order and `between` the other way round: the same currents, voltages and powers."""
    topology, _, solution = solve(circuit)
    new_point, new_part = shuffled_names(chance, circuit.points, "u"), shuffled_names(chance, tuple(circuit.part), "Y")
    parts = [rename(part, new_part, new_point, turn=part.kind is not Kind.BATTERY and chance.random() < 0.5) for part in circuit.parts]
    chance.shuffle(parts)
    joined = tuple((new_point[one], new_point[other]) for one, other in circuit.drawing.joined)

    other_topology, _, other = solve(replace(circuit, parts=tuple(parts), drawing=replace(circuit.drawing, joined=joined)))

    for name, state in solution.parts.items():
        twin = other.parts[new_part[name]]
        sign = 1 if twin.part.start == new_point[state.part.start] else -1
        assert (twin.current, twin.power, twin.role) == (sign * state.current, state.power, state.role)
        assert twin.voltage == (None if state.voltage is None else sign * state.voltage)
    assert count(other_topology) == count(topology)


def shuffled_names(chance: Random, names: tuple[str, ...], letter: str) -> dict[str, str]:
    """A new name for each name, in no order."""
    new = [f"{letter}{number}" for number in range(len(names))]
    chance.shuffle(new)
    return dict(zip(names, new, strict=True))


def rename(part: Part, names: dict[str, str], points: dict[str, str], *, turn: bool) -> Part:
    """A part under other names, its ends exchanged where `turn` says so."""
    start, end = (part.end, part.start) if turn else (part.start, part.end)
    return replace(part, name=names[part.name], start=points[start], end=points[end])


def count(topology: Topology) -> tuple[int, int, int]:
    """How many junctions, branches and loops."""
    return len(topology.junctions), len(topology.branches), len(topology.loops)


@steady
@given(circuits())
def test_sums_at_places_round_loops_and_of_power_are_exactly_zero(circuit: Circuit) -> None:
    """Summed up part by part: nothing is left over at any place, round any loop, or of the power."""
    topology, _, solution = solve(circuit)
    left_over = dict.fromkeys(topology.node.values(), Fraction(0))
    for state in solution.parts.values():
        left_over[topology.node[state.part.start]] -= state.current
        left_over[topology.node[state.part.end]] += state.current

    assert not any(left_over.values())
    for loop in topology.loops:
        voltages = [(solution.parts[step.part.name].voltage, step.forward) for step in loop.steps]
        assert sum(voltage if forward else -voltage for voltage, forward in voltages if voltage is not None) == 0
    assert sum(state.power for state in solution.parts.values()) == 0
    for state in solution.parts.values():
        assert state.power == (state.voltage or 0) * state.current


@steady
@given(circuits(), chances)
def test_any_independent_loops_and_any_left_out_junction_give_the_same_currents(circuit: Circuit, chance: Random) -> None:
    """The loops of another spanning tree and another left-out junction: other equations, the same currents."""
    topology = find_topology(circuit)
    loops = tuple(
        ChosenLoop(name=f"Q{number}", start=walk[0].start, through=tuple(step.part.name for step in walk))
        for number, walk in enumerate(find_tree_loops(chance, topology.branches), start=1)
    )
    leave_out = chance.choice(topology.junctions).name if topology.junctions else ""

    other_topology, equations, other = solve(replace(circuit, loops=loops, leave_out=leave_out))

    assert [loop.name for loop in other_topology.loops] == [loop.name for loop in loops]
    assert leave_out not in [equation.origin for equation in equations.equations]
    assert {name: state.current for name, state in other.parts.items()} == currents_of(circuit)


def find_tree_loops(chance: Random, branches: tuple[Branch, ...]) -> Iterator[tuple[Step, ...]]:
    """For each branch outside a spanning tree chosen by chance, the loop that it closes, walked either way."""
    order = chance.sample(branches, len(branches))
    group = {end: end for branch in order for end in (branch.start, branch.end)}
    tree: list[Branch] = []
    for branch in order:
        old, new = group[branch.start], group[branch.end]
        if old != new:
            tree.append(branch)
            group = {end: new if known == old else known for end, known in group.items()}
            continue
        walk = (*branch.steps, *find_way(tree, branch.end, branch.start))
        yield walk if chance.random() < 0.5 else tuple(step.reversed() for step in reversed(walk))


def find_way(tree: list[Branch], start: str, goal: str) -> tuple[Step, ...]:
    """The steps through a tree from one node to another."""
    ways: dict[str, tuple[Step, ...]] = {start: ()}
    for _ in tree:
        for branch in tree:
            if branch.start in ways and branch.end not in ways:
                ways[branch.end] = (*ways[branch.start], *branch.steps)
            elif branch.end in ways and branch.start not in ways:
                ways[branch.start] = (*ways[branch.end], *(step.reversed() for step in reversed(branch.steps)))
    return ways[goal]


@steady
@given(circuits())
def test_there_are_as_many_independent_equations_as_unknowns(circuit: Circuit) -> None:
    """Branches = loops + junctions − pieces, the loops are independent, and the matrix is square and regular."""
    topology, equations, _ = solve(circuit)
    ends = {end for branch in topology.branches for end in (branch.start, branch.end)}
    pieces = count_pieces(topology.branches)

    assert len(topology.branches) == len(topology.loops) + len(ends) - pieces
    assert ends >= {junction.name for junction in topology.junctions}
    walks = [[way_through(branch, loop.steps) for branch in topology.branches] for loop in topology.loops]
    assert rank_of(walks) == len(topology.loops)
    assert len(equations.equations) == len(equations.unknowns) == len(topology.branches)
    assert rank_of([list(row) for row in equations.matrix]) == len(equations.unknowns)


def count_pieces(branches: tuple[Branch, ...]) -> int:
    """How many pieces hang together through branches."""
    group = {end: end for branch in branches for end in (branch.start, branch.end)}
    for branch in branches:
        old, new = group[branch.start], group[branch.end]
        group = {end: new if known == old else known for end, known in group.items()}
    return len(set(group.values()))


def way_through(branch: Branch, steps: tuple[Step, ...]) -> int:
    """+1 where a walk goes along a branch, −1 against it, 0 where it does not go through all of it."""
    if set(branch.steps) <= set(steps):
        return 1
    return -1 if {step.reversed() for step in branch.steps} <= set(steps) else 0


def rank_of(rows: list[list[Fraction]] | list[list[int]]) -> int:
    """The rank of a matrix, by sympy."""
    exact = [[QQ(Fraction(value).numerator, Fraction(value).denominator) for value in row] for row in rows]
    return int(DomainMatrix(exact, (len(rows), len(rows[0]) if rows else 0), QQ).rank())


@steady
@given(circuits())
def test_the_currents_are_the_sum_of_what_each_battery_does_alone(circuit: Circuit) -> None:
    """With every battery but one replaced by its resistance, and so for each, the currents sum to those of all together."""
    batteries = [part for part in circuit.parts if part.kind is Kind.BATTERY]
    alone = [currents_of(replace(circuit, parts=tuple(quieten(part, one) for part in circuit.parts))) for one in batteries]

    together = currents_of(circuit)

    assert together == {name: sum((each[name] for each in alone), Fraction(0)) for name in together}


def quieten(part: Part, left: Part) -> Part:
    """The part; but in place of every battery except the one left over its internal resistance, or a bare wire."""
    if part.kind is not Kind.BATTERY or part is left:
        return part
    return resistor(part.name, part.start, part.end, part.resistance) if part.resistance else wire(part.name, part.start, part.end)


@steady
@given(circuits(), st.fractions(Fraction(1, 9), 9), st.fractions(Fraction(1, 9), 9))
def test_currents_scale_with_emfs_and_against_resistances(circuit: Circuit, emfs: Fraction, ohms: Fraction) -> None:
    """Every emf times one factor and every resistance times another: every current times their ratio."""
    scaled = currents_of(replace(circuit, parts=tuple(scale(part, emfs, ohms) for part in circuit.parts)))

    assert scaled == {name: current * emfs / ohms for name, current in currents_of(circuit).items()}


def scale(part: Part, emfs: Fraction, ohms: Fraction) -> Part:
    """A part with its emf and its resistance multiplied."""
    factor = {Kind.BATTERY: emfs, Kind.CAPACITOR: Fraction(1)}.get(part.kind, ohms)
    value = quantity(part.value.exact * factor, part.value.unit) if part.value else None
    inner = part.internal_resistance
    return replace(part, value=value, internal_resistance=quantity(inner.exact * ohms, inner.unit) if inner else None)
