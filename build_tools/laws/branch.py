"""Finding the branches: live parts in series, each chain with one unknown current and an assumed direction.

Directions come from the circuit where the author chose them. Otherwise a branch with a battery runs out of the plus of
its strongest battery, and one without runs away from the plus of the circuit's first battery, counted in branches;
where both ends are equally far, from the point that comes earlier to the later. Nothing depends on anything but the
file, so the same file gives the same directions always.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count

from build_tools.circuit.circuit import AssumedCurrent, Circuit, Part
from build_tools.circuit.problem import Problem, listed
from build_tools.circuit.sentences import say
from build_tools.laws.topology import Branch, Step

Meeting = dict[str, list[Step]]
"""For each node the steps that lead away from it."""


def find_live_parts(circuit: Circuit, node: dict[str, str]) -> tuple[Part, ...]:
    """The parts that can carry a steady current: they conduct, and neither end leads only to a dead end."""
    return cut_dead_ends([part for part in circuit.parts if part.conducts], node)


def cut_dead_ends(parts: Sequence[Part], node: dict[str, str]) -> tuple[Part, ...]:
    """The parts left when those with a loose end are taken away, again and again."""
    meeting = find_meeting(parts, node)
    kept = tuple(part for part in parts if len(meeting[node[part.start]]) > 1 and len(meeting[node[part.end]]) > 1)
    return kept if len(kept) == len(parts) else cut_dead_ends(kept, node)


def find_meeting(parts: Sequence[Part], node: dict[str, str]) -> Meeting:
    """What meets at each node."""
    meeting: Meeting = {}
    for part in parts:
        for step in (Step(part, True), Step(part, False)):
            meeting.setdefault(node[step.start], []).append(step)
    return meeting


def find_branches(circuit: Circuit, node: dict[str, str], live: tuple[Part, ...]) -> tuple[Branch, ...]:
    """Every branch with its unknown, in the author's order, else by its first part; where only some are named, by name."""
    meeting = find_meeting(live, node)
    chosen = {current.through: current for current in circuit.currents}
    taken = {*(current.name for current in circuit.currents), *circuit.part, *(loop.name for loop in circuit.loops)}
    free_names = (name for number in count(1) if (name := f"I{number}") not in taken)
    named: dict[str, Branch] = {}
    others: list[Branch] = []
    chains = tuple(find_chains(meeting, node, live))
    rank = rank_nodes(chains, node)
    for chain in chains:
        current = next((chosen[step.part.name] for step in chain if step.part.name in chosen), None)
        steps = direct(chain, current, node, rank)
        ends = {"start": node[steps[0].start], "end": node[steps[-1].end]}
        if current:
            named[current.name] = Branch(current=current.name, steps=steps, **ends)
        else:
            others.append(Branch(current=next(free_names), steps=steps, **ends))
    mixed = [*(named[current.name] for current in circuit.currents if current.name in named), *others]
    return tuple(sorted(mixed, key=lambda branch: by_number(branch.current)) if named and others else mixed)


def by_number(name: str) -> tuple[str, int, str]:
    """The order of names that people expect: I2 before I10."""
    letters = name.rstrip("0123456789")
    return letters, int(name[len(letters) :] or 0), name


def find_chains(meeting: Meeting, node: dict[str, str], live: tuple[Part, ...]) -> Iterator[tuple[Step, ...]]:
    """Each run of parts between two junctions (or all round, where there is none), once, by its first part."""
    seen: set[str] = set()
    for part in live:
        if part.name in seen:
            continue
        onward = follow(Step(part, True), meeting, node)
        closed = len(onward) > 1 and onward[-1].part is part
        back = () if closed else tuple(step.reversed() for step in reversed(follow(Step(part, False), meeting, node)[1:]))
        chain = (*back, *(onward[:-1] if closed else onward))
        seen.update(step.part.name for step in chain)
        yield chain


def follow(first: Step, meeting: Meeting, node: dict[str, str]) -> tuple[Step, ...]:
    """Walk on from a step until a junction, or until the first part comes again."""
    way = [first]
    while len(ways_on := meeting[node[way[-1].end]]) == 2:
        step = next((step for step in ways_on if step != way[-1].reversed()), way[-1].reversed())
        way.append(step)
        if step.part is first.part:
            break
    return tuple(way)


def rank_nodes(chains: tuple[tuple[Step, ...], ...], node: dict[str, str]) -> dict[str, tuple[int, int]]:
    """How far each end of a branch is from the plus of its piece's first battery [branches], then its place in the order."""
    ends = [(node[chain[0].start], node[chain[-1].end]) for chain in chains]
    far: dict[str, int] = {}
    for source, chain in enumerate(chains):
        if not any(step.part.emf for step in chain) or ends[source][0] in far:
            continue
        battery = direct(chain, None, node, {})
        minus, plus = node[battery[0].start], node[battery[-1].end]
        far |= spread(plus, [pair for number, pair in enumerate(ends) if number != source])
        # The minus of that battery is where all ways end, however short they are.
        far[minus] = len(ends) if minus != plus else 0
    order = dict.fromkeys(node.values())
    return {name: (far.get(name, len(ends)), number) for number, name in enumerate(order)}


def spread(start: str, ends: list[tuple[str, str]]) -> dict[str, int]:
    """For every node that can be reached, how many branches away it is."""
    far = {start: 0}
    for _ in ends:
        for one, other in ends:
            for here, there in ((one, other), (other, one)):
                if here in far:
                    far[there] = min(far.get(there, len(ends)), far[here] + 1)
    return far


def direct(
    chain: tuple[Step, ...], current: AssumedCurrent | None, node: dict[str, str], rank: dict[str, tuple[int, int]]
) -> tuple[Step, ...]:
    """Turn a chain so that it runs along its assumed direction."""
    strongest = max(chain, key=lambda step: step.part.emf)
    if current:
        through = next(step for step in chain if step.part.name == current.through)
        along = through.end == current.toward
    elif strongest.part.emf:
        along = strongest.forward
    else:
        start, end = node[chain[0].start], node[chain[-1].end]
        along = start == end or rank[start] < rank[end]
    return chain if along else tuple(step.reversed() for step in reversed(chain))


def refuse_currents(circuit: Circuit, node: dict[str, str], live: tuple[Part, ...]) -> Iterator[Problem]:
    """What is wrong with the assumed directions that the author chose."""
    meeting = find_meeting(live, node)
    for chain in find_chains(meeting, node, live):
        inside = {step.part.name for step in chain}
        twins = [current for current in circuit.currents if current.through in inside]
        for twin in twins[1:]:
            yield Problem(
                where=("currents", twin.name),
                expected="one current for each branch",
                found=f"{twin.name} in the branch of {twins[0].name}: {listed([twins[0].through, twin.through])} are in series",
                way_out=f"take {twin.name} out; the same current goes through both",
                at_key=True,
            )
    alive = {part.name for part in live}
    for current in circuit.currents:
        if current.through not in alive:
            yield Problem(
                where=("currents", current.name, "through"),
                expected="a part that can carry a current",
                found=f"{current.through}, {why_idle(circuit.part[current.through])}",
                way_out=f"take {current.name} out: no equation needs it",
            )


def why_idle(part: Part) -> str:
    """Why a part is in no branch."""
    return say("idle.dead_end" if part.conducts else f"idle.{part.kind}")
