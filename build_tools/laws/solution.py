"""Solving the equation set exactly, and everything that follows from the currents.

Voltages, potentials and powers come from the currents; the checks hold the answer against everything the solution did
not use, and against numpy, which solves the same matrix in floating point as a second opinion.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

import numpy as np

from build_tools.circuit.circuit import Circuit, Kind, Part
from build_tools.laws import elimination
from build_tools.laws.equation import EquationSet, write_junction, write_loop
from build_tools.laws.topology import Topology


class Role(StrEnum):
    """What a part does with power."""

    GIVING = "giving"
    CHARGING = "charging"
    USING = "using"
    CARRYING = "carrying"
    """A current passes and no power is taken up: a bare wire, a closed switch, an ideal ammeter."""
    IDLE = "idle"
    """No current passes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartState:
    """What happens in one part. Forward is from its start to its end."""

    part: Part
    current: Fraction
    """Forward through the part [A]."""
    voltage: Fraction | None
    """Potential of its start minus potential of its end [V]; None where nothing fixes it."""
    power: Fraction
    """Taken up [W]; negative where it is given."""
    role: Role

    @property
    def charge(self) -> Fraction | None:
        """Charge on a capacitor's plate at its start [C]; None for other parts, and where nothing fixes it."""
        if self.part.kind is not Kind.CAPACITOR or self.voltage is None or self.part.value is None:
            return None
        return self.part.value.exact * self.voltage


@dataclass(frozen=True, slots=True, kw_only=True)
class Checks:
    """The answer held against what was not used to find it. All sums are 0, or the build stops."""

    junction_sums: tuple[Fraction, ...]
    """One for each junction, the one left out too [A]."""
    loop_sums: tuple[Fraction, ...]
    """One for each loop of the page [V]."""
    power_balance: Fraction
    """Power of all parts together [W]."""
    numpy_difference: float
    """The largest difference between an exact current and numpy's [A]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """Everything there is to know about a circuit."""

    currents: dict[str, Fraction]
    """Along the assumed directions [A]."""
    parts: dict[str, PartState]
    potentials: dict[str, Fraction | None]
    """Of every point against the first battery's minus [V]; None where nothing fixes it."""
    checks: Checks


class SecondOpinionError(Exception):
    """The exact answer and numpy's differ, or a check sum is not 0: a fault of this program, never of a circuit."""


def solve_circuit(topology: Topology, equations: EquationSet) -> Solution:
    """Solve the equation set and follow the currents through every part.

    Raises:
        SecondOpinionError: where a check fails.
    """
    values = elimination.solve(equations.matrix, equations.right)
    currents = dict(zip(equations.unknowns, values, strict=True))
    potentials = find_potentials(topology, currents)
    parts = {part.name: find_state(part, topology, currents, potentials) for part in topology.circuit.parts}
    checks = Checks(
        junction_sums=tuple(write_junction(each, topology.branches).sum(currents) for each in topology.junctions),
        loop_sums=tuple(write_loop(each, topology).sum(currents) for each in topology.loops),
        power_balance=sum((state.power for state in parts.values()), Fraction(0)),
        numpy_difference=ask_numpy(equations, values),
    )
    if any((*checks.junction_sums, *checks.loop_sums, checks.power_balance)):
        raise SecondOpinionError(f"{topology.circuit.address}: a check sum is not zero: {checks}")
    return Solution(currents=currents, parts=parts, potentials=potentials, checks=checks)


def through(part: Part, topology: Topology, currents: dict[str, Fraction]) -> Fraction:
    """The current forward through a part [A]."""
    branch = topology.branch_of.get(part.name)
    if branch is None:
        return Fraction(0)
    current = currents[branch.current]
    return current if topology.step_of[part.name].forward else -current


def find_drop(part: Part, current: Fraction) -> Fraction | None:
    """How far the potential falls from a part's start to its end [V]; None where the part does not say."""
    return None if part.resistance is None else part.resistance * current - part.emf


def find_potentials(topology: Topology, currents: dict[str, Fraction]) -> dict[str, Fraction | None]:
    """Potentials of all points, by walking from the reference through every part that says how far they fall."""
    circuit, node = topology.circuit, topology.node
    known = {node[find_reference(circuit)]: Fraction(0)}
    drops = [(part, find_drop(part, through(part, topology, currents))) for part in circuit.parts]
    for _ in circuit.parts:
        for part, drop in drops:
            start, end = node[part.start], node[part.end]
            if drop is not None and start in known:
                known.setdefault(end, known[start] - drop)
            elif drop is not None and end in known:
                known.setdefault(start, known[end] + drop)
    return {point: known.get(node[point]) for point in circuit.points}


def find_reference(circuit: Circuit) -> str:
    """The point whose potential is called 0: the first battery's minus, else the first point."""
    return next((part.start for part in circuit.parts if part.kind is Kind.BATTERY), circuit.points[0])


def find_state(part: Part, topology: Topology, currents: dict[str, Fraction], potentials: dict[str, Fraction | None]) -> PartState:
    """What happens in one part."""
    current = through(part, topology, currents)
    voltage = find_drop(part, current)
    if voltage is None:
        start, end = potentials[part.start], potentials[part.end]
        same_place = topology.node[part.start] == topology.node[part.end]
        voltage = start - end if start is not None and end is not None else Fraction(0) if same_place else None
    power = voltage * current if voltage is not None else Fraction(0)
    return PartState(part=part, current=current, voltage=voltage, power=power, role=find_role(part, current))


def find_role(part: Part, current: Fraction) -> Role:
    """What a part does with power."""
    if not current:
        return Role.IDLE
    if part.emf:
        return Role.GIVING if current > 0 else Role.CHARGING
    return Role.USING if part.resistance else Role.CARRYING


def ask_numpy(equations: EquationSet, values: tuple[Fraction, ...]) -> float:
    """Numpy's answer to the same matrix, as its largest distance from the exact one [A].

    Rows are brought to one size first, so that ohms beside ones do not spoil the comparison; what rounding may add is
    bounded by the condition number. Source: forward error bound of Gaussian elimination, standard numerical analysis.

    Raises:
        SecondOpinionError: where rounding cannot explain the distance.
    """
    if not values:
        return 0.0
    sizes = [max(map(abs, row)) for row in equations.matrix]
    matrix = np.array([[float(value / size) for value in row] for row, size in zip(equations.matrix, sizes, strict=True)])
    right = np.array([float(value / size) for value, size in zip(equations.right, sizes, strict=True)])
    exact = np.array([float(value) for value in values])
    difference = float(np.max(np.abs(np.linalg.solve(matrix, right) - exact)))
    rounding = 64 * len(values) * np.finfo(float).eps * float(np.linalg.cond(matrix)) * float(np.max(np.abs(exact)))
    if difference > rounding:
        raise SecondOpinionError(f"the exact currents and numpy's differ by {difference} A, more than rounding explains")
    return difference
