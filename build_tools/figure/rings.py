"""Where loop marks could stand: a ring in the middle of its loop."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from math import dist, hypot

import numpy as np
from numpy.typing import NDArray

from build_tools.figure.captions import name_block
from build_tools.figure.choosing import Candidate, Mark
from build_tools.figure.geometry import Leg, inside, signed_area
from build_tools.figure.ground import Ground, square
from build_tools.figure.layout import Spot
from build_tools.laws.topology import Loop, Step

RING_MARGIN = 2.0
"""From a ring's line to the edge of its box [px]."""
_NAME_ROOM = 3.5
_LEAST_RADIUS = 13.0
_GRID = 6.0
_GRID_LINES = 26
_WIDE = 42.0
"""With so much room around it a ring stands free [px]."""
_KEPT = 120

Numbers = NDArray[np.float64]


def loop_mark(ground: Ground, loop: Loop, outlines: dict[str, tuple[Spot, ...]]) -> Mark:
    """The places for a loop's ring: inside the loop near its middle, and not inside a smaller loop."""
    outline = outlines[loop.name]
    block = name_block(loop.name)
    radius = max(_LEAST_RADIUS, hypot(block.width, block.height * 0.7) / 2 + _NAME_ROOM)
    area = signed_area(outline)
    smaller = [other for name, other in outlines.items() if name != loop.name and abs(signed_area(other)) < abs(area)]
    candidates = []
    for spot, cost in _grid_spots(outline, ground):
        blame = sum(inside(spot, other) for other in smaller)
        box = square(spot, radius + RING_MARGIN)
        candidates.append(Candidate(cost + 3.0 * blame, (box,), block, spot, spots=(spot,), turn=1.0 if area > 0 else -1.0))
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
    seen = {_key(begin)}
    queue: deque[tuple[Spot, list[Spot]]] = deque([(begin, [])])
    while queue:
        spot, way = queue.popleft()
        if dist(spot, end) < 0.1:
            return way
        for a, b in edges:
            if dist(a, spot) < 0.1 and _key(b) not in seen:
                seen.add(_key(b))
                queue.append((b, [*way, *inner[a, b], b]))
    return []


def _grid_spots(outline: tuple[Spot, ...], ground: Ground) -> list[tuple[Spot, float]]:
    """Spots inside an outline with their costs: best in the middle, and with room all around."""
    centre = _centroid(outline)
    spots = _grid(outline, centre)
    spots = spots[_inside(spots, outline)]
    room = _room(spots, ground)
    free = room > _LEAST_RADIUS
    spots, room = spots[free], room[free]
    if not len(spots):
        return [(centre, 0.0)]
    away = np.hypot(spots[:, 0] - centre[0], spots[:, 1] - centre[1])
    costs = np.round(0.05 * away + 0.06 * np.maximum(0, _WIDE - room), 3)
    best = np.argsort(costs, kind="stable")[:_KEPT]
    return [((float(x), float(y)), float(cost)) for (x, y), cost in zip(spots[best], costs[best], strict=True)]


def _grid(outline: tuple[Spot, ...], centre: Spot) -> Numbers:
    """A grid over the outline, with one of its spots on the centre."""
    lines = []
    for axis in (0, 1):
        low, high = min(spot[axis] for spot in outline), max(spot[axis] for spot in outline)
        step = max(_GRID, (high - low) / _GRID_LINES)
        before, after = int((centre[axis] - low) // step), int((high - centre[axis]) // step)
        lines.append(centre[axis] + step * np.arange(-before, after + 1))
    xs, ys = np.meshgrid(*lines)
    return np.stack([xs.ravel(), ys.ravel()], axis=1)


def _inside(spots: Numbers, outline: tuple[Spot, ...]) -> NDArray[np.bool_]:
    x, y = spots[:, 0], spots[:, 1]
    odd = np.zeros(len(spots), dtype=bool)
    for (x1, y1), (x2, y2) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if y1 != y2:
            odd ^= ((y1 > y) != (y2 > y)) & (x < x1 + (y - y1) / (y2 - y1) * (x2 - x1))
    return odd


def _room(spots: Numbers, ground: Ground) -> Numbers:
    """How far each spot is from the nearest line or body [px]."""
    bodies = np.array([box for seat in ground.seats.values() for box in seat.boxes]).reshape(-1, 4)
    aside = np.maximum(bodies[:, 0] - spots[:, None, 0], spots[:, None, 0] - bodies[:, 2])
    above = np.maximum(bodies[:, 1] - spots[:, None, 1], spots[:, None, 1] - bodies[:, 3])
    from_bodies = np.hypot(np.maximum(aside, 0), np.maximum(above, 0))
    result: Numbers = np.hstack([from_bodies, _distances(spots, ground.legs)]).min(axis=1)
    return result


def _distances(spots: Numbers, legs: Sequence[Leg]) -> Numbers:
    """The distance of each spot from each leg [px]."""
    begins, ends = np.array([leg[0] for leg in legs]), np.array([leg[1] for leg in legs])
    ways, offsets = ends - begins, spots[:, None, :] - begins[None, :, :]
    shares = np.clip((offsets * ways).sum(axis=2) / (ways**2).sum(axis=1), 0, 1)
    rests = offsets - shares[:, :, None] * ways
    result: Numbers = np.hypot(rests[..., 0], rests[..., 1])
    return result


def _centroid(outline: tuple[Spot, ...]) -> Spot:
    area = signed_area(outline)
    if abs(area) < 1:
        return outline[0]
    pairs = list(zip(outline, [*outline[1:], outline[0]], strict=True))
    x = sum((x1 + x2) * (x1 * y2 - x2 * y1) for (x1, y1), (x2, y2) in pairs) / (6 * area)
    y = sum((y1 + y2) * (x1 * y2 - x2 * y1) for (x1, y1), (x2, y2) in pairs) / (6 * area)
    return (x, y)


def _key(spot: Spot) -> Spot:
    return (round(spot[0], 1), round(spot[1], 1))
