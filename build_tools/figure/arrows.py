"""Where current arrows and loop marks could stand."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Sequence
from math import atan2, degrees, dist, hypot

from build_tools.figure.captions import name_block
from build_tools.figure.choosing import Candidate, Mark
from build_tools.figure.geometry import Leg, Spot, direction, distance_from, inside, left_of, legs_of, shifted, signed_area
from build_tools.figure.ground import Ground, square
from build_tools.figure.labels import beside
from build_tools.figure.seating import HOP_RADIUS, crossings_on
from build_tools.laws.topology import Branch, Loop, Step

HEAD_HALF = 6.0
"""Half the length of an arrowhead [px]."""
HEAD_WIDTH = 11.0
RING_ROOM = 3.5
"""From a ring's name to its line [px]."""
LEAST_RING = 13.0
_ROOM = 8.5
_GRID = 6.0


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


def loop_mark(ground: Ground, loop: Loop, outlines: dict[str, tuple[Spot, ...]]) -> Mark:
    """The places for a loop's ring: inside the loop near its middle, and not inside a smaller loop."""
    outline = outlines[loop.name]
    block = name_block(loop.name)
    radius = max(LEAST_RING, hypot(block.width, block.height * 0.7) / 2 + RING_ROOM)
    sense = 1.0 if signed_area(outline) > 0 else -1.0
    smaller = [other for name, other in outlines.items() if name != loop.name and _within(other, outline)]
    candidates = []
    for spot, away in _grid_spots(outline):
        _, texts = block.set_at((spot[0], spot[1] + 0.5), "middle")
        blame = sum(inside(spot, other) for other in smaller)
        candidates.append(Candidate(0.05 * away + 3.0 * blame, (square(spot, radius + 2),), texts, (spot,), sense))
    return Mark("loop", loop.name, tuple(candidates))


def loop_outline(ground: Ground, loop: Loop) -> tuple[Spot, ...]:
    """The drawn way of a loop, round and back to its start, plain lines included."""
    spots: list[Spot] = []
    for step in loop.steps:
        route = _way(ground, step)
        if spots and dist(spots[-1], route[0]) > 0.1:
            spots += _way_over_lines(ground.layout.lines, spots[-1], route[0])
        spots += route
    if dist(spots[-1], spots[0]) > 0.1:
        spots += _way_over_lines(ground.layout.lines, spots[-1], spots[0])
    return tuple(spot for spot, after in zip(spots, [*spots[1:], spots[0]], strict=True) if dist(spot, after) > 0.01)


def _way(ground: Ground, step: Step) -> tuple[Spot, ...]:
    route = ground.layout.routes[step.part.name]
    return route if step.forward else route[::-1]


def _way_over_lines(lines: Sequence[tuple[Spot, ...]], begin: Spot, end: Spot) -> list[Spot]:
    """The spots on the way along plain lines; nothing where no line leads there."""
    edges = [(a, b) for line in lines for a, b in [(line[0], line[-1]), (line[-1], line[0])]]
    inner = {(line[0], line[-1]): line[1:-1] for line in lines} | {(line[-1], line[0]): line[-2:0:-1] for line in lines}
    seen, queue = {_key(begin)}, deque([(begin, [])])
    while queue:
        spot, way = queue.popleft()
        if dist(spot, end) < 0.1:
            return way
        for a, b in edges:
            if dist(a, spot) < 0.1 and _key(b) not in seen:
                seen.add(_key(b))
                queue.append((b, [*way, *inner[a, b], b]))
    return []


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


def _grid_spots(outline: tuple[Spot, ...]) -> list[tuple[Spot, float]]:
    """Spots inside an outline with how far each is from the best middle: the centroid, or else where most room is."""
    centre = _centroid(outline)
    lefts, tops = min(x for x, _ in outline), min(y for _, y in outline)
    rights, bottoms = max(x for x, _ in outline), max(y for _, y in outline)
    legs = legs_of((*outline, outline[0]))
    step = max(_GRID, (rights - lefts) / 40, (bottoms - tops) / 40)
    across = range(-int((centre[0] - lefts) // step), int((rights - centre[0]) // step) + 1)
    down = range(-int((centre[1] - tops) // step), int((bottoms - centre[1]) // step) + 1)
    spots = [(centre[0] + step * i, centre[1] + step * j) for i in across for j in down]
    spots = [spot for spot in spots if inside(spot, outline) and all(distance_from(spot, leg) > LEAST_RING for leg in legs)]
    return [(spot, dist(spot, centre)) for spot in spots] or [(centre, 0.0)]


def _centroid(outline: tuple[Spot, ...]) -> Spot:
    area = signed_area(outline)
    if abs(area) < 1:
        return outline[0]
    pairs = list(zip(outline, [*outline[1:], outline[0]], strict=True))
    x = sum((x1 + x2) * (x1 * y2 - x2 * y1) for (x1, y1), (x2, y2) in pairs) / (6 * area)
    y = sum((y1 + y2) * (x1 * y2 - x2 * y1) for (x1, y1), (x2, y2) in pairs) / (6 * area)
    return (x, y)


def _within(small: tuple[Spot, ...], large: tuple[Spot, ...]) -> bool:
    return abs(signed_area(small)) < abs(signed_area(large))


def _key(spot: Spot) -> Spot:
    return (round(spot[0], 1), round(spot[1], 1))
