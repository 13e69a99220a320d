"""What the answers mean: the sign of each current, and the equations as they are written on the page."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from build_tools.circuit.circuit import Circuit
from build_tools.circuit.numeral import MINUS, plain, rounded, with_unit
from build_tools.laws.by_hand import Route, find_route
from build_tools.laws.equation import Equation, EquationSet, Rule, write_equations
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
    """In SI units."""
    written: EquationSet
    """The same equations in the page's units, as they are read and worked by hand."""
    solution: Solution
    route: Route
    units: Units


def work_out(circuit: Circuit) -> WorkedCircuit:
    """Apply the laws to a circuit.

    Raises:
        CircuitError: where it does not have exactly one answer.
    """
    topology = find_topology(circuit)
    equations, units = write_equations(topology), choose_units(circuit)
    written = equations_in_units(equations, units)
    return WorkedCircuit(
        circuit=circuit,
        topology=topology,
        equations=equations,
        written=written,
        solution=solve_circuit(topology, equations),
        route=find_route(topology, written),
        units=units,
    )


def equations_in_units(equations: EquationSet, units: Units) -> EquationSet:
    """The same equations with their numbers in the page's units."""
    return EquationSet(unknowns=equations.unknowns, equations=tuple(equation_in_units(equation, units) for equation in equations.equations))


def equation_in_units(equation: Equation, units: Units) -> Equation:
    """The same equation with its numbers in the page's units; a junction's have none."""
    if equation.rule is Rule.JUNCTION:
        return equation
    terms = tuple(
        replace(term, factor=to_units(term.factor, units.resistance if term.current else units.voltage, units)) for term in equation.terms
    )
    return replace(equation, terms=terms)


def flows_as_assumed(current: Fraction) -> bool | None:
    """Whether a current flows along its arrow; None where none flows."""
    return None if current == 0 else current > 0


def current_text(current: Fraction, units: Units, figures: int = 3) -> str:
    """A current in the page's unit: 0.0938 A."""
    return with_unit(rounded(current / units.size[units.current], figures), units.current)


def to_units(value: Fraction, unit: str, units: Units) -> Fraction:
    """A value [SI unit] in one of the page's units."""
    return value / units.size[unit]


def gathered_terms(equation: Equation) -> tuple[tuple[Fraction, str], ...]:
    """The terms of an equation with equal currents taken together and the emfs added up.

    What the emfs come to stands first where it is positive and last where it is negative, as one writes it.
    """
    currents = tuple((factor, current) for current, factor in equation.factors.items())
    emf = (-equation.right, "")
    return (emf, *currents) if emf[0] > 0 else (*currents, emf) if emf[0] else currents


def equation_text(equation: Equation) -> str:
    """An equation in one line of text: 12 − 4 I1 − 5 I2 = 0."""
    words: list[str] = []
    for factor, current in gathered_terms(equation):
        sign = MINUS if factor < 0 else "+" if words else ""
        size = "" if current and abs(factor) == 1 else plain(abs(factor))
        words.append(f"{sign}{' ' if words else ''}{' '.join(filter(None, [size, current]))}")
    return f"{' '.join(words) or '0'} = 0"
