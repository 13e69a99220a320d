"""Writing the equations: the junction rule and the loop rule, every term with the reason for its sign.

At a junction what enters counts plus and what leaves minus; the sum is zero. Round a loop rises of potential count
plus and drops minus; the sum is zero: through a resistance with the arrow the potential drops, against it it rises;
through a battery from minus to plus it rises, whatever the current does.

Source: OpenStax, University Physics Volume 2, sec. 10.3 (signs along a loop); OpenStax, College Physics 2e, sec. 21.3.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import cached_property

from build_tools.laws.topology import Branch, Junction, Loop, Step, Topology


class Rule(StrEnum):
    """The two rules."""

    JUNCTION = "junction"
    LOOP = "loop"


class Reason(StrEnum):
    """Why a term has its sign."""

    ENTERS = "enters"
    LEAVES = "leaves"
    WITH_ARROW = "with the arrow"
    AGAINST_ARROW = "against the arrow"
    MINUS_TO_PLUS = "minus to plus"
    PLUS_TO_MINUS = "plus to minus"
    NO_RESISTANCE = "no resistance"


@dataclass(frozen=True, slots=True)
class Term:
    """One term of an equation, as it is written down on the way."""

    factor: Fraction
    """With its sign: ±1 at a junction, ±R [Ω] for a resistance, ±emf [V] for a battery, 0 for a bare wire."""
    current: str
    """The unknown it multiplies; empty for an emf."""
    origin: str
    """The part it comes from; at a junction the current itself."""
    reason: Reason


@dataclass(frozen=True)
class Equation:
    """The sum of its terms is zero."""

    rule: Rule
    origin: str
    """The junction or the loop it belongs to."""
    terms: tuple[Term, ...]
    """In the order of writing; terms of 0 are kept, since they say why nothing is added."""

    @cached_property
    def factors(self) -> dict[str, Fraction]:
        """For each current its factor, equal currents taken together."""
        sums: dict[str, Fraction] = {}
        for term in self.terms:
            if term.current and term.factor:
                sums[term.current] = sums.get(term.current, Fraction(0)) + term.factor
        return {current: factor for current, factor in sums.items() if factor}

    @cached_property
    def right(self) -> Fraction:
        """What stands on the right once the emfs are taken across [V]; 0 for a junction."""
        return -sum((term.factor for term in self.terms if not term.current), Fraction(0))

    def row(self, unknowns: tuple[str, ...]) -> tuple[Fraction, ...]:
        """The factors in the order of the unknowns."""
        return tuple(self.factors.get(current, Fraction(0)) for current in unknowns)

    def sum(self, currents: dict[str, Fraction]) -> Fraction:
        """What the left side comes to with these currents; 0 where they are right."""
        return sum((factor * currents[current] for current, factor in self.factors.items()), -self.right)


@dataclass(frozen=True, slots=True, kw_only=True)
class EquationSet:
    """As many equations as there are unknowns."""

    unknowns: tuple[str, ...]
    equations: tuple[Equation, ...]
    """Junctions first, then loops."""

    @property
    def matrix(self) -> tuple[tuple[Fraction, ...], ...]:
        """A of A x = b, of shape (unknowns, unknowns) [Ω, or 1 in the rows of junctions]."""
        return tuple(equation.row(self.unknowns) for equation in self.equations)

    @property
    def right(self) -> tuple[Fraction, ...]:
        """b of A x = b [V, or A in the rows of junctions]."""
        return tuple(equation.right for equation in self.equations)


def write_equations(topology: Topology) -> EquationSet:
    """The equation set of a circuit: the used junctions and the chosen loops."""
    junctions = [write_junction(junction, topology.branches) for junction in topology.junctions if junction.used]
    loops = [write_loop(loop, topology) for loop in topology.loops]
    unknowns = tuple(branch.current for branch in topology.branches)
    return EquationSet(unknowns=unknowns, equations=(*junctions, *loops))


def write_junction(junction: Junction, branches: tuple[Branch, ...]) -> Equation:
    """The junction rule at one junction."""
    terms = []
    for branch in branches:
        if branch.end == junction.name:
            terms.append(Term(Fraction(1), branch.current, branch.current, Reason.ENTERS))
        if branch.start == junction.name:
            terms.append(Term(Fraction(-1), branch.current, branch.current, Reason.LEAVES))
    terms.sort(key=lambda term: term.reason is Reason.LEAVES)
    return Equation(Rule.JUNCTION, junction.name, tuple(terms))


def write_loop(loop: Loop, topology: Topology) -> Equation:
    """The loop rule round one loop."""
    return Equation(Rule.LOOP, loop.name, tuple(term for step in loop.steps for term in write_step(step, topology)))


def write_step(step: Step, topology: Topology) -> Iterator[Term]:
    """What the walk through one part adds: the emf of a battery, the drop or rise at a resistance."""
    part = step.part
    if part.emf:
        rise = Reason.MINUS_TO_PLUS if step.forward else Reason.PLUS_TO_MINUS
        yield Term(part.emf if step.forward else -part.emf, "", part.name, rise)
    with_arrow = step.forward == topology.step_of[part.name].forward
    current = topology.branch_of[part.name].current
    if part.resistance:
        reason = Reason.WITH_ARROW if with_arrow else Reason.AGAINST_ARROW
        yield Term(-part.resistance if with_arrow else part.resistance, current, part.name, reason)
    elif not part.emf:
        yield Term(Fraction(0), current, part.name, Reason.NO_RESISTANCE)
