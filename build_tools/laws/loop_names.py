"""A name for every closed loop of a circuit, which it keeps whatever a reader chooses. The scripts mirror this in `loop.mjs`."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import count

from build_tools.laws.loop import branch_vector, cost, find_pieces
from build_tools.laws.topology import Branch, Step, Topology

MOST_FULLY_LISTED = 6
"""With more independent loops than this only sums of two are listed, and all of them together."""

Members = frozenset[int]
"""The numbers of the branches of a loop."""


def name_all_loops(topology: Topology) -> dict[Members, str]:
    """Every simple loop with its name: the page's have theirs, the others take the next free L and number, those with few parts first."""
    branches = topology.branches
    names = {members_of(loop.steps, branches): loop.name for loop in topology.loops}
    others = [loop for loop in find_sums(tuple(names)) if is_simple(loop, branches)]
    free = free_names(topology, names.values())
    in_order = sorted(dict.fromkeys([*names, *others]), key=lambda loop: cost(loop, branches))
    return {loop: names.get(loop) or next(free) for loop in in_order}


def free_names(topology: Topology, names: Iterable[str]) -> Iterator[str]:
    """Names for loops, L and a number, that nothing is called by yet."""
    taken = {*names, *topology.circuit.part, *topology.circuit.points, *(branch.current for branch in topology.branches)}
    return (name for number in count(1) if (name := f"L{number}") not in taken)


def members_of(walk: Iterable[Step], branches: tuple[Branch, ...]) -> Members:
    """Which branches a walk goes through."""
    return frozenset(number for number, way in enumerate(branch_vector(walk, branches)) if way)


def find_sums(loops: tuple[Members, ...]) -> Iterator[Members]:
    """What loops make when they are put together and what two of them share is left out."""
    for choice in all_choices(len(loops)) if len(loops) <= MOST_FULLY_LISTED else few_at_a_time(len(loops)):
        total: Members = frozenset()
        for number in choice:
            total ^= loops[number]
        yield total


def all_choices(size: int) -> Iterator[tuple[int, ...]]:
    """Every choice out of so many, but none."""
    return (tuple(number for number in range(size) if mask >> number & 1) for mask in range(1, 1 << size))


def few_at_a_time(size: int) -> Iterator[tuple[int, ...]]:
    """Each alone, every two, and all of them."""
    for one in range(size):
        yield from ((one,), *((one, other) for other in range(one + 1, size)))
    yield tuple(range(size))


def is_simple(loop: Members, branches: tuple[Branch, ...]) -> bool:
    """Whether branches form one closed walk that passes no junction twice."""
    ends = Counter(end for number in loop for end in (branches[number].start, branches[number].end))
    return bool(loop) and set(ends.values()) == {2} and len(find_pieces(tuple(branches[number] for number in loop))) == 1
