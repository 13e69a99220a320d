"""A loop that is not in the equation set, to hold the answers against."""

from __future__ import annotations

from itertools import combinations

from build_tools.laws.loop import branch_vector, turn_to_first_part, walk_round
from build_tools.laws.topology import Branch, Loop, Topology

Vector = tuple[int, ...]


def find_unused_loop(topology: Topology) -> Loop | None:
    """A simple closed walk that is none of the chosen loops: all of them added up, or else two of them.

    All inner loops added up are the outer loop of the drawing, since every inner branch is walked both ways.
    """
    vectors = [branch_vector(loop.steps, topology.branches) for loop in topology.loops]
    known = {sense for vector in vectors for sense in (vector, tuple(-way for way in vector))}
    for vector in candidates(vectors):
        members = [branch for branch, way in zip(topology.branches, vector, strict=True) if way]
        if vector not in known and max(map(abs, vector), default=0) == 1 and is_simple(members):
            walk = turn_to_first_part(walk_round(members), topology.circuit)
            return Loop(name="", start=walk[0].start, steps=walk)
    return None


def candidates(vectors: list[Vector]) -> list[Vector]:
    """Sums of the chosen loops that may be loops again."""
    if len(vectors) < 2:
        return []
    everything = tuple(map(sum, zip(*vectors, strict=True)))
    pairs = list(combinations(vectors, 2))
    added = [tuple(a + b for a, b in zip(one, other, strict=True)) for one, other in pairs]
    taken_away = [tuple(a - b for a, b in zip(one, other, strict=True)) for one, other in pairs]
    return [everything, *added, *taken_away]


def is_simple(members: list[Branch]) -> bool:
    """Whether branches form one closed walk that passes no junction twice."""
    if not members:
        return False
    meeting: dict[str, list[Branch]] = {}
    for branch in members:
        for end in (branch.start, branch.end):
            meeting.setdefault(end, []).append(branch)
    if any(len(ends) != 2 for ends in meeting.values()):
        return False
    reached, open_ends = set(), [members[0].start]
    while open_ends:
        here = open_ends.pop()
        if here not in reached:
            reached.add(here)
            open_ends += [end for branch in meeting[here] for end in (branch.start, branch.end)]
    return len(reached) == len(meeting)
