"""Circuits without a file: short constructors for parts, and the way from a circuit to its solution."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from build_tools.circuit.circuit import AssumedCurrent, ChosenLoop, Circuit, Drawing, Kind, Part
from build_tools.circuit.quantity import Quantity
from build_tools.laws.equation import EquationSet, write_equations
from build_tools.laws.solution import Solution, solve_circuit
from build_tools.laws.survey import find_topology
from build_tools.laws.topology import Topology

Number = Fraction | int


def quantity(value: Number, unit: str) -> Quantity:
    """A value in its SI unit."""
    return Quantity(Fraction(value), unit, f"{value} {unit}")


def battery(name: str, minus: str, plus: str, emf: Number, internal_resistance: Number | None = None) -> Part:
    """A battery; ideal where it has no internal resistance [Ω]."""
    inner = None if internal_resistance is None else quantity(internal_resistance, "Ω")
    return Part(name=name, kind=Kind.BATTERY, start=minus, end=plus, value=quantity(emf, "V"), internal_resistance=inner)


def resistor(name: str, start: str, end: str, ohms: Number) -> Part:
    """A resistor."""
    return Part(name=name, kind=Kind.RESISTOR, start=start, end=end, value=quantity(ohms, "Ω"))


def wire(name: str, start: str, end: str) -> Part:
    """A bare wire."""
    return Part(name=name, kind=Kind.WIRE, start=start, end=end, state="bare")


def switch(name: str, start: str, end: str, state: str) -> Part:
    """A switch, "open" or "closed"."""
    return Part(name=name, kind=Kind.SWITCH, start=start, end=end, state=state)


def meter(kind: Kind, name: str, start: str, end: str, ohms: Number | None = None) -> Part:
    """An ammeter or voltmeter; ideal where it has no resistance [Ω]."""
    value = None if ohms is None else quantity(ohms, "Ω")
    return Part(name=name, kind=kind, start=start, end=end, value=value, state="" if value else "ideal")


def capacitor(name: str, start: str, end: str, farads: Number) -> Part:
    """A capacitor, long after switching."""
    return Part(name=name, kind=Kind.CAPACITOR, start=start, end=end, value=quantity(farads, "F"))


def circuit_of(
    parts: Iterable[Part],
    joined: Iterable[tuple[str, str]] = (),
    currents: Iterable[AssumedCurrent] = (),
    loops: Iterable[ChosenLoop] = (),
    leave_out: str = "",
) -> Circuit:
    """A circuit of these parts, with no drawing but its plain lines."""
    return Circuit(
        address="test",
        title="Test",
        question="",
        level="core",
        topics=(),
        asked=(),
        parts=tuple(parts),
        currents=tuple(currents),
        loops=tuple(loops),
        leave_out=leave_out,
        drawing=Drawing(joined=tuple(joined)),
    )


def solve(circuit: Circuit) -> tuple[Topology, EquationSet, Solution]:
    """Everything the laws find about a circuit.

    Raises:
        CircuitError: where the circuit does not have exactly one answer.
    """
    topology = find_topology(circuit)
    equations = write_equations(topology)
    return topology, equations, solve_circuit(topology, equations)
