"""What the answers mean: the sign of each current, and the equations as they are written on the page."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from build_tools.circuit.circuit import Circuit
from build_tools.circuit.numeral import MINUS, plain, rounded, with_unit
from build_tools.laws.by_hand import Route, find_route
from build_tools.laws.equation import Equation, EquationSet, Rule, Term, write_equations
from build_tools.laws.solution import Solution, solve_circuit
from build_tools.laws.survey import find_topology
from build_tools.laws.topology import Topology
from build_tools.laws.units import Units, choose_units


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedCircuit:
    """A circuit worked out in full: everything that figure and page are made from."""

    circuit: Circuit
    topology: Topology
    equations: EquationSet
    solution: Solution
    route: Route
    units: Units


def work_out(circuit: Circuit) -> WorkedCircuit:
    """Apply the laws to a circuit.

    Raises:
        CircuitError: where it does not have exactly one answer.
    """
    topology = find_topology(circuit)
    equations = write_equations(topology)
    return WorkedCircuit(
        circuit=circuit,
        topology=topology,
        equations=equations,
        solution=solve_circuit(topology, equations),
        route=find_route(topology, equations),
        units=choose_units(circuit),
    )


def flows_as_assumed(current: Fraction) -> bool | None:
    """Whether a current flows along its arrow; None where none flows."""
    return None if current == 0 else current > 0


def current_text(current: Fraction, units: Units, figures: int = 3) -> str:
    """A current in the page's unit: 0.0938 A."""
    return with_unit(rounded(current / units.size[units.current], figures), units.current)


def to_units(value: Fraction, unit: str, units: Units) -> Fraction:
    """A value [SI unit] in one of the page's units."""
    return value / units.size[unit]


def term_in_units(term: Term, rule: Rule, units: Units) -> tuple[Fraction, str]:
    """A term's factor in the page's units, and its current."""
    if rule is Rule.JUNCTION:
        return term.factor, term.current
    return to_units(term.factor, units.resistance if term.current else units.voltage, units), term.current


def gathered_terms(equation: Equation, units: Units) -> tuple[tuple[Fraction, str], ...]:
    """The terms of an equation in the page's units, equal currents taken together and the emfs added up.

    What the emfs come to stands first where it is positive and last where it is negative, as one writes it.
    """
    if equation.rule is Rule.JUNCTION:
        return tuple((factor, current) for current, factor in equation.factors.items())
    currents = tuple((to_units(factor, units.resistance, units), current) for current, factor in equation.factors.items())
    emf = (to_units(-equation.right, units.voltage, units), "")
    return (emf, *currents) if emf[0] > 0 else (*currents, emf) if emf[0] else currents


def equation_text(equation: Equation, units: Units) -> str:
    """An equation in one line of text, in the page's units: 12 − 4 I1 − 5 I2 = 0."""
    words: list[str] = []
    for factor, current in gathered_terms(equation, units):
        sign = MINUS if factor < 0 else "+" if words else ""
        size = "" if current and abs(factor) == 1 else plain(abs(factor))
        words.append(f"{sign}{' ' if words else ''}{' '.join(filter(None, [size, current]))}")
    return f"{' '.join(words) or '0'} = 0"
