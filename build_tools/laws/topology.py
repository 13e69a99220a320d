"""Which junctions and branches a circuit has, and how its parts lie along them.

Parts that no steady current can pass (open switch, ideal voltmeter, capacitor) and dead ends are set aside first; what
is left is live. A junction is a place where at least three live branch ends meet; parts in series make one branch.

Source: OpenStax, University Physics Volume 2, sec. 10.3 (junctions and loops); the count of independent loops,
branches − junctions + 1 for each connected piece, is standard graph theory.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from build_tools.circuit.circuit import Circuit, Part


@dataclass(frozen=True, slots=True)
class Step:
    """One part on the way along a branch or a loop."""

    part: Part
    forward: bool
    """True from the part's start to its end (a battery: minus to plus)."""

    @property
    def start(self) -> str:
        """The point where the step begins."""
        return self.part.start if self.forward else self.part.end

    @property
    def end(self) -> str:
        """The point where the step ends."""
        return self.part.end if self.forward else self.part.start

    def reversed(self) -> Step:
        """The same part, walked the other way."""
        return Step(self.part, not self.forward)


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """Parts in series that carry one current, in the order and sense of its assumed direction."""

    current: str
    """The unknown: I1."""
    start: str
    """The junction where the assumed direction begins (a point, where the circuit has no junction)."""
    end: str
    """The junction where it ends; the same as `start` for a branch that closes on itself."""
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Junction:
    """A place where at least three branch ends meet, with every point that plain lines make part of it."""

    name: str
    """Its first point."""
    points: tuple[str, ...]
    used: bool
    """Whether its equation is in the set; one junction of each connected piece is left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loop:
    """A closed walk through parts."""

    name: str
    start: str
    """The point where the walk begins and ends."""
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Topology:
    """How the live part of a circuit hangs together."""

    circuit: Circuit
    node: dict[str, str]
    """For each point the first point of the place it belongs to (points joined by plain lines are one place)."""
    junctions: tuple[Junction, ...]
    branches: tuple[Branch, ...]
    loops: tuple[Loop, ...]
    idle: tuple[Part, ...]
    """Parts in no branch: no current can pass them, or they are dead ends."""

    @cached_property
    def branch_of(self) -> dict[str, Branch]:
        """The branch of each live part, by the part's name."""
        return {step.part.name: branch for branch in self.branches for step in branch.steps}

    @cached_property
    def step_of(self) -> dict[str, Step]:
        """How each live part lies along its branch, by the part's name."""
        return {step.part.name: step for branch in self.branches for step in branch.steps}
