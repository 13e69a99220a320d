"""The drawn circuit before its marks: seats, leads, dots, and every box a mark has to keep clear of."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import dist

from build_tools.circuit.circuit import Circuit
from build_tools.figure.geometry import Box, Leg, direction, distance_from, grown, leg_boxes, legs_of, shifted
from build_tools.figure.layout import Layout, Spot
from build_tools.figure.seating import HOP_RADIUS, Hop, Seat, find_hops, leads_of, seat_parts

DOT_RADIUS = 3.2
SMALL_DOT_RADIUS = 2.0
SAME_SPOT = 0.2
"""Spots nearer to each other than this are one [px]."""
_WIRE_HALF = 2.0
_BODY_MARGIN = 1.0
_FAR = 1e5


@dataclass(frozen=True)
class Ground:
    """A layout with its bodies seated."""

    circuit: Circuit
    layout: Layout
    hops: tuple[Hop, ...]
    seats: dict[str, Seat]

    @cached_property
    def leads(self) -> dict[str, tuple[tuple[Spot, ...], ...]]:
        """The drawn ways of each part beside its body."""
        return {name: leads_of(seat, self.layout.routes[name]) for name, seat in self.seats.items()}

    @cached_property
    def legs(self) -> tuple[Leg, ...]:
        """Every straight piece of every way, bodies or not."""
        ways = [*self.layout.routes.values(), *self.layout.lines]
        return tuple(leg for way in ways for leg in legs_of(way) if dist(*leg) > 0.01)

    @cached_property
    def dots(self) -> tuple[Spot, ...]:
        """Where at least three ways meet."""
        ends = dict.fromkeys(_rounded(end) for leg in self.legs for end in leg)
        return tuple(spot for spot in ends if len(self.ways_at(spot)) >= 3)

    def dots_of(self, point: str) -> tuple[Spot, ...]:
        """Where a point stands, and the dots where plain lines spread it out: each has its letter, or two dots pass for two junctions."""
        place = self.layout.places[point]
        return (place, *(dot for dot in self.dots if dist(place, dot) > SAME_SPOT and self.point_of(dot) == point))

    def point_of(self, spot: Spot) -> str:
        """The nearest point, counted in plain lines, that a spot belongs to."""
        queue, seen = [spot], {spot}
        for here in queue:
            for point, place in self.layout.places.items():
                if dist(place, here) < SAME_SPOT:
                    return point
            lines = [line for line in self.layout.lines if any(distance_from(here, leg) < SAME_SPOT for leg in legs_of(line))]
            ends = dict.fromkeys(end for line in lines for end in line)
            queue += [end for end in ends if end not in seen]
            seen.update(ends)
        return min(self.layout.places, key=lambda point: dist(self.layout.places[point], spot))

    def ways_at(self, spot: Spot) -> list[Spot]:
        """The directions in which lines leave a spot."""
        found: list[Spot] = []
        for leg in self.legs:
            along = direction(leg)
            begins, ends = dist(spot, leg[0]) < SAME_SPOT, dist(spot, leg[1]) < SAME_SPOT
            if begins or (not ends and distance_from(spot, leg) < 0.1):
                found.append(along)
            if ends or (not begins and distance_from(spot, leg) < 0.1):
                found.append((-along[0], -along[1]))
        return _distinct(found)

    @cached_property
    def obstacles(self) -> tuple[tuple[str, str, Box], ...]:
        """What a mark has to keep clear of: what it is, whose it is, and its box."""
        found: list[tuple[str, str, Box]] = []
        for name, seat in self.seats.items():
            found += [("body", name, grown(box, _BODY_MARGIN)) for box in seat.boxes]
            found += [("lead", name, box) for way in self.leads[name] for leg in legs_of(way) for box in leg_boxes(leg, _WIRE_HALF)]
        found += [("line", "", box) for line in self.layout.lines for leg in legs_of(line) for box in leg_boxes(leg, _WIRE_HALF)]
        found += [("dot", "", square(spot, DOT_RADIUS + 1)) for spot in self.dots]
        found += [("hop", "", square(hop.spot, HOP_RADIUS + 2)) for hop in self.hops]
        return tuple(found)

    def faces_outside(self, spot: Spot, side: Spot) -> bool:
        """Whether nothing of the circuit lies on that side of a spot."""
        ray = (shifted(spot, side, 1.0), shifted(spot, side, _FAR))
        return not any(_meets(ray, leg) for leg in self.legs)


def is_straight(ways: Sequence[Spot]) -> bool:
    """Whether two ways leave a spot in opposite directions."""
    return len(ways) == 2 and ways[0][0] * ways[1][0] + ways[0][1] * ways[1][1] < -0.99


def lay_ground(circuit: Circuit, layout: Layout) -> Ground:
    """Seat the bodies of a layout."""
    hops = find_hops(layout)
    return Ground(circuit, layout, hops, seat_parts(circuit, layout, hops))


def square(spot: Spot, half: float) -> Box:
    """The square about a spot."""
    return (spot[0] - half, spot[1] - half, spot[0] + half, spot[1] + half)


def bodies_clear(ground: Ground) -> bool:
    """Whether every body is clear of all other bodies and ways, with room to spare."""
    return not clashing_bodies(ground)


def clashing_bodies(ground: Ground, margin: float = 3.0) -> tuple[tuple[str, str], ...]:
    """The pairs of parts of which one's body touches the other's body or way, or has no room on its own leg."""
    pairs = []
    names = list(ground.seats)
    bodies = {name: [grown(box, margin) for box in seat.boxes] for name, seat in ground.seats.items()}
    ways = {name: [box for kind, owner, box in ground.obstacles if owner == name and kind in ("body", "lead")] for name in names}
    ways[""] = [box for kind, _, box in ground.obstacles if kind == "line"]
    for name in names:
        seat = ground.seats[name]
        route = ground.layout.routes[name]
        if seat.size.half and dist(route[seat.leg], route[seat.leg + 1]) < 2 * seat.size.half + 8:
            pairs.append((name, name))
        pairs += [(name, other) for other in ways if other != name and _any_overlap(bodies[name], ways[other])]
    return tuple(pairs)


def _any_overlap(ones: Sequence[Box], others: Sequence[Box]) -> bool:
    return any(a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for a in ones for b in others)


def _meets(ray: Leg, leg: Leg) -> bool:
    (ax, ay), (bx, by) = ray
    (cx, cy), (dx, dy) = leg
    turn = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if abs(turn) < 1e-9:
        return False
    on_ray = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / turn
    on_leg = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / turn
    return on_ray > 0 and -1e-6 <= on_leg <= 1 + 1e-6


def _rounded(spot: Spot) -> Spot:
    return (round(spot[0], 1), round(spot[1], 1))


def _distinct(found: Iterable[Spot]) -> list[Spot]:
    """Directions that differ; ways that leave side by side count once."""
    apart: list[Spot] = []
    for x, y in found:
        if all(abs(x - u) + abs(y - v) > 0.02 for u, v in apart):
            apart.append((x, y))
    return apart
