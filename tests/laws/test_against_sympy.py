"""Invented circuits, solved a second way from scratch, with potentials as unknowns and sympy's exact matrices."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest

from build_tools.circuit.circuit import Circuit
from build_tools.circuit.problem import CircuitError
from build_tools.laws.survey import find_topology
from tests.laws.invented import invent_circuit
from tests.laws.potentials import group, is_consistent, solve_by_potentials
from tests.published.parts import solve

solvable = [(loops, pieces, seed) for loops in range(1, 6) for pieces in (1, 2) for seed in range(6)]
bare = [(loops, seed) for loops in range(1, 6) for seed in range(12)]


def invent_solvable(loops: int, pieces: int, seed: int) -> Circuit:
    """The first circuit from this seed on that has exactly one answer."""
    chance = Random(f"{loops} {pieces} {seed}")
    return next(circuit for circuit in (invent_circuit(chance, loops, pieces=pieces) for _ in range(50)) if solve_by_potentials(circuit))


@pytest.mark.parametrize(("loops", "pieces", "seed"), solvable)
def test_currents_and_voltages_are_those_of_the_second_way(loops: int, pieces: int, seed: int) -> None:
    """Every current, every voltage and every potential is exactly that of the second way; what is not fixed is None."""
    circuit = invent_solvable(loops, pieces, seed)
    answer = solve_by_potentials(circuit)
    assert answer is not None

    _, _, solution = solve(circuit)

    assert {name: state.current for name, state in solution.parts.items()} == answer.currents
    for name, state in solution.parts.items():
        assert state.voltage == fixed_voltage(answer.potentials, answer.piece, state.part.start, state.part.end), name
    zero = next(part.start for part in circuit.parts if part.emf)
    for point, potential in solution.potentials.items():
        assert potential == fixed_voltage(answer.potentials, answer.piece, point, zero), point


def fixed_voltage(potentials: dict[str, Fraction], piece: dict[str, str], one: str, other: str) -> Fraction | None:
    """The potential of one point minus that of another, where they lie in one live piece."""
    return potentials[one] - potentials[other] if piece[one] == piece[other] else None


@pytest.mark.parametrize(("loops", "seed"), bare)
def test_a_circuit_is_refused_where_the_second_way_has_no_single_answer(loops: int, seed: int) -> None:
    """With many bare branches: refused if and only if the matrix is singular, and by the right name."""
    circuit = invent_circuit(Random(f"bare {loops} {seed}"), loops, bare=0.5)
    answer = solve_by_potentials(circuit)
    if answer is not None:
        _, _, solution = solve(circuit)
        assert {name: state.current for name, state in solution.parts.items()} == answer.currents
        return

    with pytest.raises(CircuitError) as refusal:
        find_topology(circuit)

    report = str(refusal.value)
    assert ("short circuit" in report) == (not is_consistent(circuit))
    assert "short circuit" in report or "undecided current" in report


def test_the_invented_circuits_are_of_every_sort() -> None:
    """Among the circuits with many bare branches there are enough of each sort for the test above to mean something."""
    circuits = [invent_circuit(Random(f"bare {loops} {seed}"), loops, bare=0.5) for loops, seed in bare]
    sorts = ["one answer" if solve_by_potentials(circuit) else "undecided" if is_consistent(circuit) else "short" for circuit in circuits]

    assert min(sorts.count(sort) for sort in ("one answer", "undecided", "short")) >= 5


@pytest.mark.parametrize("seed", range(5))
def test_pieces_that_share_no_point_are_refused(seed: int) -> None:
    """Two pieces, each of them a good circuit, are refused as separate circuits, with one part of each named."""
    circuit = invent_circuit(Random(f"apart {seed}"), 2, pieces=2, linked=False)

    with pytest.raises(CircuitError, match="separate circuits") as refusal:
        find_topology(circuit)

    found = next(problem.found for problem in refusal.value.problems if "separate" in problem.found)
    blamed = [part.start for part in circuit.parts if f" {part.name} " in found]
    stands = group(circuit.points, [(part.start, part.end) for part in circuit.parts])
    assert len(blamed) == 2
    assert {stands[start] for start in blamed} == {stands["p0"], stands["q0"]}
