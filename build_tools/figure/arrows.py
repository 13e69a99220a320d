"""Where current arrows could stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from math import atan2, degrees, dist

from build_tools.figure.captions import Block, name_block
from build_tools.figure.choosing import Candidate, Mark
from build_tools.figure.geometry import Leg, direction, left_of, legs_of, shifted, without_straight_corners
from build_tools.figure.ground import Ground, square
from build_tools.figure.labels import HEAD_WIDTH, beside, opposite
from build_tools.figure.layout import Spot
from build_tools.figure.seating import HOP_RADIUS, crossings_on
from build_tools.laws.topology import Branch, Step

HEAD_HALF = 6.0
"""Half the length of an arrowhead [px]."""
_ROOM = 8.6
_LONG = 60.0
_SLIDES = (0.0, 7.0, -7.0)


def arrow_mark(ground: Ground, branch: Branch) -> Mark:
    """The places for a branch's arrow, on any free straight stretch, with its name on either side."""
    candidates = [
        candidate
        for step in branch.steps
        for stretch in _stretches(ground, step)
        for candidate in _on_stretch(ground, stretch, name_block(branch.current))
    ]
    parts = {step.part.name for step in branch.steps}
    own = tuple(number for number, (kind, owner, _) in enumerate(ground.obstacles) if kind == "lead" and owner in parts)
    return Mark("arrow", branch.current, tuple(candidates), own)


def _on_stretch(ground: Ground, stretch: Leg, block: Block) -> Iterator[Candidate]:
    """The middle of a stretch, and two more places where it is long; long stretches first."""
    along, length = direction(stretch), dist(*stretch)
    turn = degrees(atan2(along[1], along[0]))
    for share in (0.5,) if length < _LONG else (0.5, 0.3, 0.7):
        spot = shifted(stretch[0], along, length * share)
        cost = 0.03 * max(0.0, 40 - length) + 2 * abs(share - 0.5)
        for side in (left_of(along), opposite(left_of(along))):
            liking = cost + _side_cost(ground, spot, side)
            for slide in _SLIDES:
                name = beside(shifted(spot, along, slide), side, HEAD_WIDTH / 2 + 2, block, 0)
                boxes = (square(spot, HEAD_HALF + 0.5), *name.boxes)
                yield replace(name, cost=liking + 0.03 * abs(slide), boxes=boxes, spots=(spot,), turn=turn)


def _side_cost(ground: Ground, spot: Spot, side: Spot) -> float:
    """Names stand above a level stretch, below it where that is outside, and to the right of an upright one."""
    if side[1] > 0.7:
        return 0.0 if ground.faces_outside(spot, side) else 0.4
    return 0.4 if side[0] < -0.7 else 0.15


def _stretches(ground: Ground, step: Step) -> Iterator[Leg]:
    """The straight stretches of a part's leads where an arrowhead is clear of both ends, in the current's sense."""
    spots = [hop.spot for hop in ground.hops]
    ways = ground.leads[step.part.name]
    for way in ways if step.forward else tuple(way[::-1] for way in reversed(ways)):
        for leg in legs_of(without_straight_corners(way)):
            length, along = dist(*leg), direction(leg)
            cuts = [0.0, *crossings_on(leg, spots), length]
            for number, (low, high) in enumerate(pairwise(cuts)):
                low += _ROOM + (HOP_RADIUS if number else 0)
                high -= _ROOM + (HOP_RADIUS if number < len(cuts) - 2 else 0)
                if high >= low:
                    yield (shifted(leg[0], along, low), shifted(leg[0], along, high + 1e-3))
