"""Choosing the loops: as many as are independent, the author's first, inner loops where there is a drawing.

Without a drawing the loops with the fewest parts are taken (a minimum cycle basis).

Source: J. D. Horton, SIAM J. Comput. 16, 358 (1987), for the candidates that contain a minimum cycle basis; from memory.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import count

from build_tools.circuit.circuit import ChosenLoop, Circuit, Kind, Part
from build_tools.circuit.numeral import MINUS
from build_tools.circuit.problem import CircuitError, Problem, listed
from build_tools.laws.branch import why_idle
from build_tools.laws.elimination import IndependentRows
from build_tools.laws.mesh import find_meshes
from build_tools.laws.topology import Branch, Loop, Step

Walk = tuple[Step, ...]


def choose_loops(circuit: Circuit, node: dict[str, str], branches: tuple[Branch, ...], live: tuple[Part, ...]) -> tuple[Loop, ...]:
    """An independent and complete set of loops.

    Raises:
        CircuitError: where a loop that the author chose is no closed walk, or repeats others.
    """
    chosen = take_chosen(circuit, node, branches)
    known = IndependentRows()
    for loop in chosen:
        known.add(branch_vector(loop.steps, branches))
    taken = {loop.name for loop in chosen} | {branch.current for branch in branches} | {*circuit.part, *circuit.points}
    free_names = (name for number in count(1) if (name := f"L{number}") not in taken)
    meshes = find_meshes(circuit, live) or ()
    spare = meshes if spans(meshes, node, branches) else find_few_part_loops(circuit, branches)
    added = [walk for walk in spare if known.add(branch_vector(walk, branches)) is None]
    return (*chosen, *(Loop(name=next(free_names), start=walk[0].start, steps=walk) for walk in added))


def count_independent(branches: tuple[Branch, ...]) -> int:
    """How many loops are independent: branches − junctions + 1 for each connected piece."""
    ends = {end for branch in branches for end in (branch.start, branch.end)}
    return len(branches) - len(ends) + len(find_pieces(branches))


def find_pieces(branches: tuple[Branch, ...]) -> tuple[tuple[str, ...], ...]:
    """The nodes that hang together through branches, piece by piece."""
    pieces: list[list[str]] = []
    for branch in branches:
        ends = list(dict.fromkeys((branch.start, branch.end)))
        touched = [piece for piece in pieces if set(piece) & set(ends)]
        merged = list(dict.fromkeys([name for piece in touched for name in piece] + ends))
        at = pieces.index(touched[0]) if touched else len(pieces)
        pieces = [piece for piece in pieces if piece not in touched]
        pieces.insert(at, merged)
    return tuple(tuple(piece) for piece in pieces)


def branch_vector(walk: Iterable[Step], branches: tuple[Branch, ...]) -> tuple[int, ...]:
    """For each branch +1 where the walk goes along its assumed direction, −1 against, 0 where it does not go."""
    ways = {step.part.name: step.forward for step in walk}
    firsts = [branch.steps[0] for branch in branches]
    return tuple(0 if s.part.name not in ways else 1 if ways[s.part.name] == s.forward else -1 for s in firsts)


def spans(walks: tuple[Walk, ...], node: dict[str, str], branches: tuple[Branch, ...]) -> bool:
    """Whether the walks are closed, independent, and as many as can be."""
    known = IndependentRows()
    closed = all(is_closed(walk, node) for walk in walks)
    return closed and sum(known.add(branch_vector(walk, branches)) is None for walk in walks) == count_independent(branches) == len(walks)


def is_closed(walk: Walk, node: dict[str, str]) -> bool:
    """Whether each step begins where the one before it ended, all round."""
    return all(node[one.end] == node[other.start] for one, other in zip(walk, (*walk[1:], walk[0]), strict=True))


def find_few_part_loops(circuit: Circuit, branches: tuple[Branch, ...]) -> tuple[Walk, ...]:
    """Independent loops with the fewest parts in all, each begun at its first battery (or part).

    Among equals one is taken that passes no battery a second time, then one that passes no branch a third time: so they
    are the inner loops of a drawing with its batteries outside. The first is walked along its battery; each other one so
    that it passes what it shares with those before it the other way, as inner loops do that are all walked clockwise.
    """
    known = IndependentRows()
    candidates = find_candidates(branches)
    passed: Counter[int] = Counter()
    walks = []

    def price(numbers: tuple[int, ...]) -> tuple[int, int, int, tuple[int, ...]]:
        batteries = sum(passed[number] for number in numbers if has_battery(branches[number]))
        return cost(numbers, branches), batteries, sum(passed[number] > 1 for number in numbers), numbers

    while candidates:
        numbers = min(candidates, key=price)
        candidates.remove(numbers)
        walk = walk_round([branches[number] for number in numbers])
        if known.add(branch_vector(walk, branches)) is None:
            walks.append(turn_to_first_part(walk, circuit))
            passed.update(numbers)
    order = [part.name for part in circuit.parts]
    in_order = sorted(walks, key=lambda walk: sorted(order.index(step.part.name) for step in walk))
    return turn_against_each_other(in_order, branches)


def turn_against_each_other(walks: list[Walk], branches: tuple[Branch, ...]) -> tuple[Walk, ...]:
    """The same loops, each turned against those before it that it shares branches with."""
    turned: list[Walk] = []
    so_far = [0] * len(branches)
    for walk in walks:
        vector = branch_vector(walk, branches)
        if sum(one * other for one, other in zip(so_far, vector, strict=True)) > 0:
            walk = reverse(walk)
            vector = tuple(-way for way in vector)
        turned.append(walk)
        so_far = [one + other for one, other in zip(so_far, vector, strict=True)]
    return tuple(turned)


def reverse(walk: Walk) -> Walk:
    """The same closed walk the other way round, from the same point."""
    return tuple(step.reversed() for step in reversed(walk))


def cost(numbers: Iterable[int], branches: tuple[Branch, ...]) -> int:
    """How many parts a set of branches has."""
    return sum(len(branches[number].steps) for number in numbers)


def has_battery(branch: Branch) -> bool:
    """Whether a branch has a battery in it."""
    return any(step.part.kind is Kind.BATTERY for step in branch.steps)


def find_candidates(branches: tuple[Branch, ...]) -> set[tuple[int, ...]]:
    """Horton's loops, as sets of branch numbers: two shortest ways from one node, closed by one branch."""
    found = set()
    for root in dict.fromkeys(end for branch in branches for end in (branch.start, branch.end)):
        ways = shortest_ways(root, branches)
        for number, branch in enumerate(branches):
            if branch.start in ways and number not in ways[branch.start] and number not in ways[branch.end]:
                loop = set(ways[branch.start]) ^ set(ways[branch.end]) | {number}
                if len(loop) == len(ways[branch.start]) + len(ways[branch.end]) + 1:
                    found.add(tuple(sorted(loop)))
    return found


def shortest_ways(root: str, branches: tuple[Branch, ...]) -> dict[str, tuple[int, ...]]:
    """From one node to each other the way with the fewest parts; among equals fewest batteries, then lower branch numbers."""

    def length(way: tuple[int, ...]) -> tuple[int, int, int]:
        return cost(way, branches), sum(has_battery(branches[number]) for number in way), sum(1 << number for number in way)

    ways: dict[str, tuple[int, ...]] = {root: ()}
    changed = True
    while changed:
        changed = False
        for number, branch in enumerate(branches):
            for here, there in ((branch.start, branch.end), (branch.end, branch.start)):
                if here in ways and number not in ways[here]:
                    way = (*ways[here], number)
                    if there not in ways or length(way) < length(ways[there]):
                        ways[there], changed = way, True
    return ways


def walk_round(members: list[Branch]) -> Walk:
    """The closed walk through branches that form one loop, along the first of them."""
    first, *rest = members
    walk, here = list(first.steps), first.end
    while rest:
        branch = next(branch for branch in rest if here in (branch.start, branch.end))
        rest.remove(branch)
        along = branch.start == here
        walk += branch.steps if along else [step.reversed() for step in reversed(branch.steps)]
        here = branch.end if along else branch.start
    return tuple(walk)


def turn_to_first_part(walk: Walk, circuit: Circuit) -> Walk:
    """The same loop, begun at its first battery (else its first part) and walked forward through it."""
    order = {part.name: (part.emf == 0, number) for number, part in enumerate(circuit.parts)}
    first = min(walk, key=lambda step: order[step.part.name])
    if not first.forward:
        walk = reverse(walk)
    at = next(number for number, step in enumerate(walk) if step.part is first.part)
    return (*walk[at:], *walk[:at])


def take_chosen(circuit: Circuit, node: dict[str, str], branches: tuple[Branch, ...]) -> tuple[Loop, ...]:
    """The loops that the author chose, checked."""
    live = {step.part.name for branch in branches for step in branch.steps}
    problems: list[Problem] = []
    loops: list[Loop] = []
    known = IndependentRows()
    for choice in circuit.loops:
        faults = tuple(refuse_walk(choice, circuit, node, live))
        problems += faults
        if faults:
            continue
        loop = Loop(name=choice.name, start=choice.start, steps=follow_choice(choice, circuit, node))
        recipe = known.add(branch_vector(loop.steps, branches))
        if recipe is not None:
            problems.append(refuse_repetition(choice, [loops[number].name for number in recipe], list(recipe.values())))
        loops.append(loop)
    if problems:
        raise CircuitError(problems)
    return tuple(loops)


def follow_choice(choice: ChosenLoop, circuit: Circuit, node: dict[str, str]) -> Walk:
    """The steps of a walk as far as it hangs together."""
    here, walk = node[choice.start], []
    for name in choice.through:
        part = circuit.part[name]
        if here not in (node[part.start], node[part.end]):
            break
        walk.append(Step(part, node[part.start] == here))
        here = node[walk[-1].end]
    return tuple(walk)


def refuse_walk(choice: ChosenLoop, circuit: Circuit, node: dict[str, str], live: set[str]) -> Iterator[Problem]:
    """Why a chosen loop is no closed walk through live parts."""
    where = ("loops", choice.name, "through")
    for number, name in enumerate(choice.through):
        if name not in live:
            yield Problem(
                where=(*where, str(number)), expected="parts that can carry a current", found=f"{name}, {why_idle(circuit.part[name])}",
                way_out="a loop for the loop rule goes only through parts whose voltage the currents decide",
            )  # fmt: skip
    walk = follow_choice(choice, circuit, node)
    here = walk[-1].end if walk else choice.start
    if len(walk) < len(choice.through):
        name = choice.through[len(walk)]
        part = circuit.part[name]
        yield Problem(
            where=(*where, str(len(walk))), expected=f"a part that begins at {here}, where the walk has come to",
            found=f"{name}, which lies between {part.start} and {part.end}", way_out="list the parts in walking order",
        )  # fmt: skip
    elif node[here] != node[choice.start]:
        yield Problem(
            where=where, expected=f"a closed walk, back to {choice.start}", found=f"one that ends at {here}",
            way_out="add the parts that lead back",
        )  # fmt: skip


def refuse_repetition(choice: ChosenLoop, names: list[str], factors: list[object]) -> Problem:
    """A chosen loop that says nothing new, and why."""
    sum_text = "".join(f" {MINUS if factor == -1 else '+'} {name}" for name, factor in zip(names, factors, strict=True))
    return Problem(
        where=("loops", choice.name), expected="loops that each say something new",
        found=f"{choice.name}, whose equation is {sum_text.removeprefix(' + ').strip()}",
        way_out=f"take {choice.name} out; every branch must be in a loop, and no loop may be a sum of others"
        if len(names) > 1 else f"take {choice.name} out; it is the loop {listed(names)} again",
        at_key=True,
    )  # fmt: skip
