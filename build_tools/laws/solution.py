"""Solving the equation set exactly, and everything that follows from the currents.

Voltages, potentials and powers come from the currents; the checks hold the answer against everything the solution did
not use, and against numpy, which solves the same matrix in floating point as a second opinion.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

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
    levels = find_levels(topology, currents)
    parts = {part.name: find_state(part, topology, currents, levels) for part in topology.circuit.parts}
    zero = levels[topology.node[find_reference(topology.circuit)]]
    potentials = {point: find_difference(levels[topology.node[point]], zero) for point in topology.circuit.points}
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


Level = tuple[str, Fraction]
"""A potential [V] against the point named: only levels against one and the same point can be compared."""


def find_levels(topology: Topology, currents: dict[str, Fraction]) -> dict[str, Level]:
    """The level of every node, by walking from a first one through every part that says how far the potential falls.

    Pieces that hang together only through parts without a current have levels of their own.
    """
    circuit, node = topology.circuit, topology.node
    drops = [(part, drop) for part in circuit.parts if (drop := find_drop(part, through(part, topology, currents))) is not None]
    levels: dict[str, Level] = {}
    for first in (node[find_reference(circuit)], *node.values()):
        if first in levels:
            continue
        levels[first] = (first, Fraction(0))
        for _ in drops:
            for part, drop in drops:
                start, end = node[part.start], node[part.end]
                if start in levels:
                    levels.setdefault(end, (levels[start][0], levels[start][1] - drop))
                elif end in levels:
                    levels[start] = (levels[end][0], levels[end][1] + drop)
    return levels


def find_difference(one: Level, other: Level) -> Fraction | None:
    """How much higher one level is than another [V]; None where nothing fixes it."""
    return one[1] - other[1] if one[0] == other[0] else None


def find_reference(circuit: Circuit) -> str:
    """The point whose potential is called 0: the first battery's minus, else the first point."""
    return next((part.start for part in circuit.parts if part.kind is Kind.BATTERY), circuit.points[0])


def find_state(part: Part, topology: Topology, currents: dict[str, Fraction], levels: dict[str, Level]) -> PartState:
    """What happens in one part."""
    current = through(part, topology, currents)
    voltage = find_difference(levels[topology.node[part.start]], levels[topology.node[part.end]])
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
    # Numpy takes as long to load as ten circuits take to solve, and a build that draws nothing anew needs neither.
    import numpy as np

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
