"""What the page shows before anything is solved: directions, junctions, loops and the equation set."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from xml.etree.ElementTree import Element

from markupsafe import Markup

from build_tools.circuit.problem import listed
from build_tools.circuit.sentences import say
from build_tools.figure.layout import Layout
from build_tools.figure.words import loop_words, way_in_words
from build_tools.laws.branch import why_idle
from build_tools.laws.equation import Equation, Reason, Rule, Term, write_junction
from build_tools.laws.meaning import WorkedCircuit, gathered_terms
from build_tools.laws.topology import Junction, Loop
from build_tools.page.mathml import equation, math, name, number, operator, row, term_sum, to_markup
from build_tools.page.prose import set_text
from build_tools.page.telling import tell


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionRow:
    """One unknown with its assumed direction."""

    current: str
    name: Markup
    parts: Markup
    way: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class IdlePart:
    """A part without an unknown of its own, and why."""

    name: Markup
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JunctionView:
    """One junction, and its equation where it is used."""

    junction: str
    says: Markup
    """What enters and what leaves, or why it is left out."""
    equation: Markup
    number: int
    """The number of its equation; 0 for the junction left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkRow:
    """One term on the way round a loop."""

    part: str
    name: Markup
    why: Markup
    term: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class LoopView:
    """One loop, walked part by part."""

    loop: str
    name: Markup
    walk: Markup
    """The whole walk in words of the figure."""
    rows: tuple[WalkRow, ...]
    equations: tuple[Markup, ...]
    """As it is walked; then with equal currents taken together, where that changes anything."""
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class EquationRow:
    """One numbered equation of the set."""

    number: int
    rule: str
    origin: str
    origin_name: Markup
    """The junction or loop in words."""
    left: Markup


def view_directions(worked: WorkedCircuit, layout: Layout | None) -> tuple[DirectionRow, ...]:
    """Every unknown with its assumed direction in words."""
    topology = worked.topology
    return tuple(
        DirectionRow(
            current=branch.current,
            name=set_text(branch.current, topology),
            parts=set_text(listed([step.part.name for step in branch.steps]), topology),
            way=set_text(way_in_words(branch, layout), topology),
        )
        for branch in topology.branches
    )


def view_idle(worked: WorkedCircuit) -> tuple[IdlePart, ...]:
    """Every part without an unknown."""
    return tuple(IdlePart(name=set_text(part.name, worked.topology), why=why_idle(part)) for part in worked.topology.idle)


def say_enough(worked: WorkedCircuit) -> str:
    """How many junction equations say all there is to say; empty where the circuit has more than one piece."""
    junctions = worked.topology.junctions
    used = sum(junction.used for junction in junctions)
    return say("junctions.enough", count=used) if used == len(junctions) - 1 else ""


def view_junctions(worked: WorkedCircuit) -> tuple[JunctionView, ...]:
    """Every junction; those used first, in the order of their equations."""
    numbers = number_equations(worked)
    views = [view_junction(junction, worked, numbers.get((Rule.JUNCTION, junction.name), 0)) for junction in worked.topology.junctions]
    return tuple(sorted(views, key=lambda view: (view.number == 0, view.number)))


def view_junction(junction: Junction, worked: WorkedCircuit, at: int) -> JunctionView:
    """One junction."""
    topology = worked.topology
    written = write_junction(junction, topology.branches)
    enters, leaves = (listed([term.current for term in written.terms if term.reason is side]) for side in (Reason.ENTERS, Reason.LEAVES))
    key = "junctions.used" if at else "junctions.left_out"
    others = Markup(", ").join(set_point(point) for point in junction.points if point != junction.name)
    says = tell(
        key,
        name=set_point(junction.name),
        others=tell("junctions.others" if at else "junctions.left_out_others", points=others) if others else "",
        enters=set_text(enters or say("junctions.nothing"), topology),
        leaves=set_text(leaves or say("junctions.nothing"), topology),
        so="" if enters and leaves else say("junctions.one_sided"),
    )
    return JunctionView(
        junction=junction.name,
        says=says,
        equation=whole_equation([(term.factor, term.current) for term in written.terms]),
        number=at,
    )


def view_loops(worked: WorkedCircuit, layout: Layout | None) -> tuple[LoopView, ...]:
    """Every loop of the set, walked."""
    numbers = number_equations(worked)
    by_origin = {each.origin: each for each in worked.written.equations if each.rule is Rule.LOOP}
    return tuple(view_loop(loop, by_origin[loop.name], worked, layout, numbers[Rule.LOOP, loop.name]) for loop in worked.topology.loops)


def view_loop(loop: Loop, written: Equation, worked: WorkedCircuit, layout: Layout | None, at: int) -> LoopView:
    """One loop."""
    topology = worked.topology
    walked = [(term.factor, term.current) for term in written.terms if term.factor]
    gathered = gathered_terms(written)
    return LoopView(
        loop=loop.name,
        name=set_text(loop.name, topology),
        walk=set_text(loop_words(loop, layout), topology),
        rows=tuple(view_walk(term, worked) for term in written.terms),
        equations=tuple(whole_equation(terms) for terms in ([walked] if sorted(gathered) == sorted(walked) else [walked, gathered])),
        number=at,
    )


def view_walk(term: Term, worked: WorkedCircuit) -> WalkRow:
    """One term of a walk, with the reason for its sign."""
    why = say(f"reason.{term.reason.name.lower()}", current=term.current)
    return WalkRow(
        part=term.origin,
        name=set_walked(term, worked),
        why=set_text(why, worked.topology),
        term=to_markup(math(signed_term(term.factor, term.current, term.origin))),
    )


def set_walked(term: Term, worked: WorkedCircuit) -> Markup:
    """The part of a term, set; a battery with internal resistance has two terms, and each says which it is."""
    part = worked.circuit.part[term.origin]
    name = set_text(part.name, worked.topology)
    return tell("loops.internal" if term.current else "loops.emf", part=name) if part.emf and part.resistance else name


def signed_term(factor: Fraction, current: str, part: str) -> Element:
    """A term with its sign, plus signs too: + 12, − 4 I1."""
    if not factor:
        return row(number("0"), class_="term", data_part=part)
    written = term_sum([(factor, current)], data_part=part)
    if factor > 0:
        written.insert(0, operator("+"))
    return written


def view_equations(worked: WorkedCircuit) -> tuple[EquationRow, ...]:
    """The equation set, numbered."""
    return tuple(
        EquationRow(
            number=at,
            rule=written.rule.value,
            origin=written.origin,
            origin_name=tell(f"equations.{written.rule}", name=set_origin(written, worked)),
            left=to_markup(math(term_sum(gathered_terms(written)))),
        )
        for at, written in enumerate(worked.written.equations, 1)
    )


def set_origin(written: Equation, worked: WorkedCircuit) -> Markup:
    """The name of the junction or the loop of an equation, set."""
    return set_point(written.origin) if written.rule is Rule.JUNCTION else set_text(written.origin, worked.topology)


def number_equations(worked: WorkedCircuit) -> dict[tuple[Rule, str], int]:
    """The number of each equation in the set, by its rule and the junction or loop it belongs to."""
    return {(written.rule, written.origin): at for at, written in enumerate(worked.written.equations, 1)}


def whole_equation(terms: Sequence[tuple[Fraction, str]]) -> Markup:
    """A sum of terms that is zero, as a formula of its own."""
    return to_markup(math(equation(term_sum(terms), number("0"))))


def set_point(point: str) -> Markup:
    """A point's letter, set."""
    return to_markup(math(name(point)))
