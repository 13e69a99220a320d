"""The route by hand: from the equation set to the asked currents, in as little work as can be.

Junctions first: some currents are kept, all others are written with them by the junction rule alone; then the loops
hold only the kept ones. All sensible sets of kept currents are tried and the cheapest is taken. Every line is numbered
and names the lines it uses; no fraction is written before the last line.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import combinations, islice

from build_tools.laws.equation import Equation, EquationSet, Rule
from build_tools.laws.hand_rows import Elimination, Row, digits, eliminate, open_in, tidy
from build_tools.laws.node import NodeSets
from build_tools.laws.topology import Topology

most_sets = 4000
"""Sets of kept currents looked at."""
most_tries = {1: 40, 2: 80, 3: 80, 4: 30, 5: 6}
"""Sets worked through, by the number of loops; 1 for more, and for one target only."""


class Action(StrEnum):
    """What one line does."""

    EXPRESS = "express"
    """A junction equation gives one current by others."""
    INSERT = "insert"
    """Expressions go into a loop equation (or it is only put in order)."""
    COMBINE = "combine"
    """Two lines give one without a current that both hold."""
    FIND = "find"
    """A line gives the value of a current."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One numbered line: Σ factor × current = right."""

    number: int
    action: Action
    uses: tuple[int, ...]
    """The numbers of the lines it uses: (1) and on are the equations of the set."""
    multipliers: tuple[int, ...] = ()
    """For a combination the factor of each line used."""
    current: str = ""
    """The current that is expressed or found."""
    terms: tuple[tuple[str, Fraction], ...]
    """For an expression its right side, for a value nothing, else the left side."""
    right: Fraction
    scale: Fraction = Fraction(1)
    """What the line as first written was divided by; never negative."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """The whole way, in order."""

    lines: tuple[Line, ...]
    asked: tuple[str, ...]
    """The currents it ends at."""
    kept: tuple[str, ...]


Forms = dict[str, dict[str, int]]
"""For each current how it is written with kept ones."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Expression:
    """One current, written with others by one junction equation."""

    current: str
    equation: int
    """Its number in the set, counted from 0."""
    helpers: tuple[str, ...]
    """Currents expressed before, that were put in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """One choice of kept currents, worked through."""

    kept: tuple[str, ...]
    forms: Forms
    expressions: tuple[Expression, ...]
    loops: tuple[tuple[int, Row], ...]
    """For each loop equation its number in the set, counted from 0, and its row."""
    way: Elimination
    target: int
    effort: tuple[int, int]


def find_route(topology: Topology, equations: EquationSet) -> Route:
    """The cheapest route found to the currents that the question asks for; all of them where it names none."""
    if not equations.unknowns:
        return Route(lines=(), asked=(), kept=())
    parts = topology.circuit.asked or tuple(topology.branch_of)
    asked = {topology.branch_of[part].current for part in parts if part in topology.branch_of} or set(equations.unknowns)
    in_order = tuple(current for current in equations.unknowns if current in asked)
    plan = min(find_plans(topology, equations, in_order), key=lambda plan: plan.effort)
    return Route(lines=tuple(Writer(equations, plan).lines(in_order)), asked=in_order, kept=plan.kept)


def find_plans(topology: Topology, equations: EquationSet, asked: tuple[str, ...]) -> tuple[Plan, ...]:
    """Plans for the sets of kept currents worth trying, each for each asked current that is kept."""
    loops = [number for number, equation in enumerate(equations.equations) if equation.rule is Rule.LOOP]
    sets = islice(combinations(equations.unknowns, len(loops)), most_sets)
    written = ((kept, write_with(kept, equations)) for kept in sets if set(kept) & set(asked))
    valid = [(kept, made) for kept, made in islice(written, most_sets) if made][: most_tries.get(len(loops), 1)]
    if not valid:
        kept = keep_any(topology, asked)
        valid = [(kept, made) for made in [write_with(kept, equations)] if made]
    most_targets = len(loops) if len(loops) in most_tries else 1
    return tuple(
        work_through(kept, *made, equations, loops, target)
        for kept, made in valid
        for target in ([column for column, current in enumerate(kept) if current in asked] or [0])[:most_targets]
    )


def keep_any(topology: Topology, asked: tuple[str, ...]) -> tuple[str, ...]:
    """One set of kept currents, with as many of those asked as can be: the branches outside a spanning tree."""
    sets = NodeSets(end for branch in topology.branches for end in (branch.start, branch.end))
    kept = []
    for branch in sorted(topology.branches, key=lambda branch: branch.current in asked):
        if sets.find(branch.start) == sets.find(branch.end):
            kept.append(branch.current)
        sets.join(branch.start, branch.end)
    return tuple(branch.current for branch in topology.branches if branch.current in kept)


def write_with(kept: tuple[str, ...], equations: EquationSet) -> tuple[Forms, tuple[Expression, ...]] | None:
    """Write every current with the kept ones, one junction equation each; None where the junctions do not allow it."""
    forms: Forms = {current: {current: 1} for current in kept}
    expressions: list[Expression] = []
    open_junctions = [number for number, equation in enumerate(equations.equations) if equation.rule is Rule.JUNCTION]
    while open_junctions:
        ready = [number for number in open_junctions if len(missing_in(equations.equations[number], forms)) == 1]
        if not ready:
            return None
        for number in ready:
            equation = equations.equations[number]
            if len(missing := missing_in(equation, forms)) != 1:
                continue
            open_junctions.remove(number)
            helpers = tuple(current for current in equation.factors if current in forms and current not in kept)
            forms[missing[0]] = express(missing[0], equation, forms)
            expressions.append(Expression(current=missing[0], equation=number, helpers=helpers))
    return (forms, tuple(expressions)) if len(forms) == len(equations.unknowns) else None


def missing_in(equation: Equation, forms: Forms) -> list[str]:
    """The currents of a junction equation that are not written with kept ones yet."""
    return [current for current in equation.factors if current not in forms]


def express(current: str, equation: Equation, forms: Forms) -> dict[str, int]:
    """Solve a junction equation for one current, with all others written with kept ones."""
    sign = -int(equation.factors[current])
    form: dict[str, int] = {}
    for other, factor in equation.factors.items():
        for kept, share in forms[other].items() if other != current else ():
            form[kept] = form.get(kept, 0) + sign * int(factor) * share
    return {kept: share for kept, share in form.items() if share}


def work_through(
    kept: tuple[str, ...], forms: Forms, expressions: tuple[Expression, ...], equations: EquationSet, loops: list[int], target: int
) -> Plan:
    """Put the expressions into the loops and eliminate down to the target."""
    rows = tuple((number, insert(equations.equations[number], kept, forms)) for number in loops)
    way = eliminate(tuple(row for _, row in rows), target)
    needed = {id(row) for row in way.rows}
    used = {current for number, row in rows if id(row) in needed for current in equations.equations[number].factors}
    effort, size = way.effort
    effort += sum(row.effort for number, row in rows if id(row) in needed)
    effort += sum(len(forms[expression.current]) for expression in expressions if expression.current in used)
    return Plan(kept=kept, forms=forms, expressions=expressions, loops=rows, way=way, target=target, effort=(effort, size))


def insert(equation: Equation, kept: tuple[str, ...], forms: Forms) -> Row:
    """A loop equation written with kept currents only."""
    factors = {current: Fraction(0) for current in kept}
    effort = 0
    for current, factor in equation.factors.items():
        for name, share in forms[current].items():
            effort += bool(factors[name])
            factors[name] += factor * share
    whole, right, scale = tidy(list(factors.values()), equation.right)
    return Row(whole, right, scale=scale, effort=effort + (0 if abs(scale) == 1 else sum(map(digits, whole))))


class Writer:
    """Writes a plan down line by line, each line only when something needs it."""

    def __init__(self, equations: EquationSet, plan: Plan) -> None:
        self.equations, self.plan = equations, plan
        self.next_number = len(equations.equations) + 1
        self.written: list[Line] = []
        self.number_of: dict[object, int] = {}
        """The line of each expression (by its current), row (by identity) and value (by ("value", current))."""
        self.values: dict[str, Fraction] = {}

    def lines(self, asked: tuple[str, ...]) -> list[Line]:
        """Every line up to the last asked current."""
        plan = self.plan
        for _, row in plan.loops:
            if any(row is needed for needed in plan.way.rows):
                self.express_for(row)
        for row in plan.way.rows:
            self.write_row(row)
        self.find_from(plan.way.last, plan.target)
        for current in asked:
            self.find(current)
        return self.written

    def add(self, key: object, action: Action, **said: object) -> None:
        """Write one line and remember its number."""
        self.number_of[key] = self.next_number
        self.written.append(Line(number=self.next_number, action=action, **said))  # type: ignore[arg-type]
        self.next_number += 1

    def express_for(self, row: Row) -> None:
        """Write the expressions that a loop equation needs."""
        for current in self.loop_of(row)[1].factors:
            self.express(current)

    def loop_of(self, row: Row) -> tuple[int, Equation]:
        """The loop equation a first row comes from, with its number in the set counted from 0."""
        number = next(number for number, first in self.plan.loops if first is row)
        return number, self.equations.equations[number]

    def express(self, current: str) -> None:
        """Write one current with kept ones, helpers first."""
        made = next((each for each in self.plan.expressions if each.current == current), None)
        if made is None or current in self.number_of:
            return
        for helper in made.helpers:
            self.express(helper)
        uses = (made.equation + 1, *(self.number_of[helper] for helper in made.helpers))
        self.add(current, Action.EXPRESS, uses=uses, current=current, terms=self.in_order(self.plan.forms[current]), right=Fraction(0))

    def in_order(self, factors: dict[str, int]) -> tuple[tuple[str, Fraction], ...]:
        """Terms in the order of the unknowns."""
        return tuple((current, Fraction(factors[current])) for current in self.equations.unknowns if factors.get(current))

    def write_row(self, row: Row) -> None:
        """Write a row with kept currents, from a loop or from two rows."""
        if id(row) in self.number_of:
            return
        terms = tuple((current, Fraction(factor)) for current, factor in zip(self.plan.kept, row.factors, strict=True) if factor)
        said: dict[str, object] = {"terms": terms, "right": Fraction(row.right), "scale": abs(row.scale)}
        if row.parents:
            sign = 1 if row.scale > 0 else -1
            multipliers = tuple(sign * multiplier for multiplier in row.multipliers)
            self.add(id(row), Action.COMBINE, uses=tuple(self.number_of[id(parent)] for parent in row.parents), multipliers=multipliers, **said)
        else:
            number, equation = self.loop_of(row)
            self.express_for(row)
            helpers = tuple(self.number_of[current] for current in equation.factors if current in self.number_of)
            self.add(id(row), Action.INSERT, uses=(number + 1, *helpers), **said)

    def find(self, current: str) -> None:
        """Find one current, with whatever must be found before it."""
        if current in self.values:
            return
        if current not in self.plan.kept:
            self.express(current)
            form = self.plan.forms[current]
            for kept in form:
                self.find(kept)
            value = sum((share * self.values[kept] for kept, share in form.items()), Fraction(0))
            self.conclude(current, value, (self.number_of[current], *self.found(form)))
            return
        row = next(row for column, row in self.plan.way.pivots if self.plan.kept[column] == current)
        for written in ancestry_of(row):
            self.write_row(written)
        self.find_from(row, self.plan.kept.index(current))

    def find_from(self, row: Row, column: int) -> None:
        """Find a kept current from a row, the others in it first."""
        kept = self.plan.kept
        others = {kept[other]: row.factors[other] for other in open_in(row, {column})}
        for other in others:
            self.find(other)
        rest = Fraction(row.right) - sum((factor * self.values[other] for other, factor in others.items()), Fraction(0))
        self.conclude(kept[column], rest / row.factors[column], (self.number_of[id(row)], *self.found(others)))

    def found(self, currents: dict[str, int]) -> tuple[int, ...]:
        """The lines in which currents were found."""
        return tuple(self.number_of["value", current] for current in currents)

    def conclude(self, current: str, value: Fraction, uses: tuple[int, ...]) -> None:
        """Write down the value of a current."""
        self.values[current] = value
        self.add(("value", current), Action.FIND, uses=uses, current=current, terms=(), right=value)


def ancestry_of(row: Row) -> tuple[Row, ...]:
    """A row with all it was made from."""
    return Elimination(row, ()).rows
