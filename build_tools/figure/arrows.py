"""Where current arrows could stand."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, degrees, dist

from build_tools.figure.captions import name_block
from build_tools.figure.choosing import Candidate, Mark
from build_tools.figure.geometry import Leg, direction, left_of, legs_of, shifted
from build_tools.figure.ground import Ground, square
from build_tools.figure.labels import beside
from build_tools.figure.seating import HOP_RADIUS, crossings_on
from build_tools.laws.topology import Branch, Step

HEAD_HALF = 6.0
"""Half the length of an arrowhead [px]."""
HEAD_WIDTH = 11.0
_ROOM = 8.5


def arrow_mark(ground: Ground, branch: Branch, outside: dict[tuple[str, bool], bool]) -> Mark:
    """The places for a branch's arrow, on any free straight stretch, with its name on either side."""
    block = name_block(branch.current)
    candidates: list[Candidate] = []
    for step in branch.steps:
        for begin, end in _stretches(ground, step):
            along = direction((begin, end))
            room = dist(begin, end)
            shortness = 0.03 * max(0.0, 40 - room)
            for share in (0.5,) if room < 60 else (0.5, 0.3, 0.7):
                spot = shifted(begin, along, room * share)
                head = square(spot, HEAD_HALF + 0.5)
                turn = degrees(atan2(along[1], along[0]))
                for left in (True, False):
                    side = left_of(along) if left else (-left_of(along)[0], -left_of(along)[1])
                    liking = shortness + 2 * abs(share - 0.5) + (0.3 if side[1] > 0.7 or side[0] < -0.7 else 0)
                    for slide in (0.0, 7.0, -7.0):
                        name = beside(shifted(spot, along, slide), side, HEAD_WIDTH / 2 + 2, block, 0)
                        candidates.append(Candidate(liking + 0.03 * abs(slide), (head, *name.boxes), name.texts, (spot,), turn))
    parts = {step.part.name for step in branch.steps}
    own = tuple(number for number, (kind, owner, _) in enumerate(ground.obstacles) if kind == "lead" and owner in parts)
    return Mark("arrow", branch.current, tuple(candidates), own)


def _stretches(ground: Ground, step: Step) -> Iterator[Leg]:
    """The straight stretches of a part's leads where an arrowhead is clear of both ends, in the current's sense."""
    spots = [hop.spot for hop in ground.hops]
    ways = ground.leads[step.part.name]
    for way in ways if step.forward else tuple(way[::-1] for way in reversed(ways)):
        for leg in legs_of(way):
            length, along = dist(*leg), direction(leg)
            cuts = [0.0, *crossings_on(leg, spots), length]
            for number, (low, high) in enumerate(zip(cuts, cuts[1:], strict=False)):
                low += _ROOM + (HOP_RADIUS if number else 0)
                high -= _ROOM + (HOP_RADIUS if number < len(cuts) - 2 else 0)
                if high >= low:
                    yield (shifted(leg[0], along, low), shifted(leg[0], along, high + 1e-3))
