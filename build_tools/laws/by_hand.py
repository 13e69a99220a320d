"""The route by hand: from the equation set to the asked currents, in as little work as can be.

Junctions first: some currents are kept, all others are written with them by the junction rule alone; then the loops
hold only the kept ones. All sensible sets of kept currents are tried and the cheapest is taken. Every line is numbered
and names the lines it uses; no fraction is written before the last line.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, islice

from build_tools.laws.equation import Equation, EquationSet, Rule
from build_tools.laws.hand_lines import Expression, Forms, Line, Plan, Writer
from build_tools.laws.hand_rows import Row, digits, eliminate, tidy
from build_tools.laws.node import NodeSets
from build_tools.laws.topology import Topology

most_sets = 4000
"""Sets of kept currents looked at."""
most_tries = {1: 40, 2: 80, 3: 80, 4: 30, 5: 6}
"""Sets worked through, by the number of loops; 1 for more, and for one target only."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """The whole way, in order."""

    lines: tuple[Line, ...]
    asked: tuple[str, ...]
    """The currents it ends at."""
    kept: tuple[str, ...]


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
