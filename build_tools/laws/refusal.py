"""Which circuits have no single answer, and which of their parts are to blame.

With every resistance positive, a circuit has exactly one set of currents if and only if no loop is free of resistance:
Ohm's law then leaves nothing undecided. A loop without resistance but with an emf lets the current grow without limit;
one in balance lets any current go round. Pieces that share no point are two circuits.

Source: uniqueness for positive resistances follows from the power balance (Tellegen); standard circuit theory, from memory.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from build_tools.circuit.circuit import Circuit, Part
from build_tools.circuit.numeral import plain, with_unit
from build_tools.circuit.problem import Problem, listed
from build_tools.laws.node import NodeSets, find_nodes
from build_tools.laws.topology import Step


def find_refusals(circuit: Circuit) -> tuple[Problem, ...]:
    """Every reason why the circuit does not have exactly one answer."""
    node = find_nodes(circuit)
    return (*find_separate_pieces(circuit, node), *(refuse_loop(loop, circuit) for loop in find_loops(circuit, node, is_bare)))


def find_separate_pieces(circuit: Circuit, node: dict[str, str]) -> Iterator[Problem]:
    """Pieces that share no point with the first one."""
    pieces = NodeSets(node.values())
    for part in circuit.parts:
        pieces.join(node[part.start], node[part.end])
    firsts: dict[str, Part] = {}
    for part in circuit.parts:
        firsts.setdefault(pieces.find(node[part.start]), part)
    main, *others = firsts.values()
    for other in others:
        yield Problem(
            where=("parts", other.name),
            expected="one circuit, all of it connected",
            found=f"separate circuits: {main.name} and {other.name} lie in pieces that share no point",
            way_out="join the pieces at a point, or write a file for each",
            at_key=True,
        )


def is_bare(part: Part) -> bool:
    """Whether a current passes a part without any resistance."""
    return part.resistance == 0


def find_loops(circuit: Circuit, node: dict[str, str], belongs: Callable[[Part], bool]) -> Iterator[tuple[Step, ...]]:
    """Loops made only of parts that belong: one for each part that closes one."""
    taken: dict[str, list[Step]] = {}
    for part in filter(belongs, circuit.parts):
        start, end = node[part.start], node[part.end]
        way = find_way(taken, node, end, start)
        if way is not None:
            yield (Step(part, True), *way)
            continue
        taken.setdefault(start, []).append(Step(part, True))
        taken.setdefault(end, []).append(Step(part, False))


def find_way(steps: dict[str, list[Step]], node: dict[str, str], start: str, goal: str) -> tuple[Step, ...] | None:
    """The way through a forest of steps, or None where start and goal lie in different trees."""
    ways: dict[str, tuple[Step, ...]] = {start: ()}
    open_ends = [start]
    while open_ends:
        here = open_ends.pop()
        if here == goal:
            return ways[here]
        for step in steps.get(here, []):
            if (there := node[step.end]) not in ways:
                ways[there] = (*ways[here], step)
                open_ends.append(there)
    return None


def find_short_lines(part: Part, circuit: Circuit) -> tuple[int, ...]:
    """The numbers of the plain lines that lead from a part's start to its end, as few as do; none where none lead there."""
    ways: dict[str, tuple[int, ...]] = {part.start: ()}
    open_ends = [part.start]
    for here in open_ends:
        for number, ends in enumerate(circuit.drawing.joined):
            for there in set(ends) - ways.keys() if here in ends else ():
                ways[there] = (*ways[here], number)
                open_ends.append(there)
    return ways.get(part.end, ())


def refuse_loop(loop: tuple[Step, ...], circuit: Circuit) -> Problem:
    """Say what is wrong with a loop that has no resistance."""
    names = list(dict.fromkeys(step.part.name for step in loop))
    emf = abs(sum((step.part.emf if step.forward else -step.part.emf for step in loop), Fraction(0)))
    one = len(names) == 1
    lines = find_short_lines(loop[0].part, circuit) if one and emf else ()
    if lines:
        ends = listed([f"from {start} to {end}" for start, end in (circuit.drawing.joined[line] for line in lines)])
        joins, which = ("plain line {} joins", "that line") if len(lines) == 1 else ("plain lines {} join", "one of these lines")
        return Problem(
            where=("drawing", "joined", str(max(lines))),
            expected="some resistance in every loop that has an emf",
            found=f"a short circuit: the {joins.format(ends)} both ends of {names[0]}, with an emf of "
            f"{with_unit(plain(emf), 'V')}, and nothing limits the current",
            way_out=f"take {which} out, or give it another end; never try it with a real battery",
            comes_first=True,
        )
    where = f"{listed(names)} {'closes on itself' if one else 'form a loop'}"
    if emf:
        return Problem(
            where=("parts", names[0]),
            expected="some resistance in every loop that has an emf",
            found=f"a short circuit: {where} with an emf of {with_unit(plain(emf), 'V')} and no resistance, so nothing limits the current",
            way_out="give a battery of that loop its internal_resistance, or put a resistor into the loop; "
            "never try it with a real battery",
            at_key=True,
            comes_first=True,
        )
    return Problem(
        where=("parts", names[0]),
        expected="some resistance in every loop",
        found=f"an undecided current: {where} with no resistance and no emf left over, so any current could go round",
        way_out=f"take {listed(names, 'or')} out, or give one of them a resistance"
        if not one
        else f"take {names[0]} out: a plain line already joins its ends",
        at_key=True,
    )
