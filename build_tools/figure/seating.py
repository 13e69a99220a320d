"""Where each part's body sits on its way, and where ways cross.

A body stands in the middle of the leg that `body_leg` names, unless another way crosses there: then it moves along the
leg to the nearest free place.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from math import dist

from build_tools.circuit.circuit import Circuit, Drawing, Kind, Part
from build_tools.figure.geometry import (
    Box,
    Leg,
    crossing,
    direction,
    distance_along,
    left_of,
    leg_boxes,
    legs_of,
    shifted,
)
from build_tools.figure.layout import Layout, Spot, body_leg

HOP_RADIUS = 6.0
"""Radius of the arc with which one way hops over another [px]."""
_HOP_CLEARANCE = 19.0


@dataclass(frozen=True, slots=True)
class Size:
    """The size of a body [px]."""

    half: float
    """Half its length along its way."""
    left: float
    """How far it reaches to the left of its own direction."""
    right: float
    """How far it reaches to the right."""


BODY_SIZES = {
    Kind.RESISTOR: Size(21, 8.5, 8.5),
    Kind.BATTERY: Size(4.5, 15, 15),
    Kind.CAPACITOR: Size(4.5, 14, 14),
    Kind.SWITCH: Size(18, 5.5, 5.5),
    Kind.AMMETER: Size(17, 18, 18),
    Kind.VOLTMETER: Size(17, 18, 18),
    Kind.WIRE: Size(0, 1, 1),
}
OPEN_SWITCH = Size(18, 17, 5.5)
SEVERAL_CELLS = Size(11.4, 15, 15)


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A body in its place."""

    part: Part
    leg: int
    """The leg it sits on: from route[leg] to route[leg + 1]."""
    centre: Spot
    along: Spot
    """Unit vector of the leg, from the part's start to its end."""
    size: Size

    @property
    def facing(self) -> Spot:
        """The body's own direction: a battery's runs to its plus, every other one's to the right or up."""
        x, y = self.along
        backward = x < -1e-9 or (abs(x) <= 1e-9 and y > 0)
        return (-x, -y) if backward and self.part.kind is not Kind.BATTERY else self.along

    @property
    def ends(self) -> Leg:
        """Where the body begins and where it ends, in the part's own sense."""
        return (
            shifted(self.centre, self.along, -self.size.half),
            shifted(self.centre, self.along, self.size.half),
        )

    @property
    def boxes(self) -> list[Box]:
        """What the body takes up."""
        if not self.size.half:
            return []
        axis = shifted(self.centre, left_of(self.facing), (self.size.left - self.size.right) / 2)
        across = (self.size.left + self.size.right) / 2
        if min(abs(self.along[0]), abs(self.along[1])) < 0.02:
            return leg_boxes(_about(axis, self.facing, self.size.half), across)
        # A slanting body is covered by squares along its longer side; their corners reach beyond its ends.
        along, length, width = self.facing, self.size.half, across
        if across > length:
            along, length, width = left_of(self.facing), across, self.size.half
        return leg_boxes(_about(axis, along, length - min(0.4 * width, length)), width)

    def reach(self, side: Spot) -> float:
        """How far the body reaches to one side of its axis [px]."""
        left = left_of(self.facing)
        return self.size.left if left[0] * side[0] + left[1] * side[1] > 0 else self.size.right


@dataclass(frozen=True, slots=True)
class Hop:
    """Where one way hops over another."""

    owner: str
    """The part that hops; "" for a plain line."""
    spot: Spot


def find_hops(layout: Layout) -> tuple[Hop, ...]:
    """Find where ways cross in mid-span. The more level one hops over the other; in a tie the later one."""
    ways = [(name, leg) for name, route in layout.routes.items() for leg in legs_of(route)]
    ways += [("", leg) for line in layout.lines for leg in legs_of(line)]
    hops = []
    for number, (name, leg) in enumerate(ways):
        for other, across in ways[number + 1 :]:
            spot = crossing(leg, across)
            if spot is not None:
                level = abs(direction(leg)[1]) < abs(direction(across)[1]) - 1e-6
                hops.append(Hop(name if level else other, spot))
    return tuple(hops)


def seat_parts(circuit: Circuit, layout: Layout, hops: Iterable[Hop]) -> dict[str, Seat]:
    """Give each part's body its seat."""
    spots = [hop.spot for hop in hops]
    sizes = {part.name: _size(part, circuit.drawing) for part in circuit.parts}
    return {part.name: _seat(part, sizes[part.name], layout.routes[part.name], spots) for part in circuit.parts}


def crossings_on(leg: Leg, spots: Iterable[Spot]) -> list[float]:
    """How far along a leg the crossings stand that lie on it [px]."""
    found = []
    for spot in spots:
        along = distance_along(spot, leg)
        if 0 < along < dist(*leg) and dist(spot, shifted(leg[0], direction(leg), along)) < 0.5:
            found.append(along)
    return sorted(found)


def leads_of(seat: Seat, route: tuple[Spot, ...]) -> tuple[tuple[Spot, ...], ...]:
    """The drawn ways of a part beside its body: two, or one for a bare wire."""
    if not seat.size.half:
        return (route,)
    begin, end = seat.ends
    return ((*route[: seat.leg + 1], begin), (end, *route[seat.leg + 1 :]))


def _about(centre: Spot, along: Spot, half: float) -> Leg:
    return (shifted(centre, along, -half), shifted(centre, along, half))


def _size(part: Part, drawing: Drawing) -> Size:
    if part.state == "open":
        return OPEN_SWITCH
    several = part.kind is Kind.BATTERY and drawing.batteries == "several cells"
    return SEVERAL_CELLS if several else BODY_SIZES[part.kind]


def _seat(part: Part, size: Size, route: tuple[Spot, ...], spots: list[Spot]) -> Seat:
    number = body_leg(route, part.kind)
    leg = (route[number], route[number + 1])
    along = _free_place(dist(*leg), size.half, crossings_on(leg, spots))
    return Seat(part=part, leg=number, centre=shifted(leg[0], direction(leg), along), along=direction(leg), size=size)


def _free_place(length: float, half: float, crossings: list[float]) -> float:
    """The place nearest to the middle of a leg where a body is clear of every crossing."""
    middle = length / 2
    if not half:
        return middle
    reach = half + _HOP_CLEARANCE
    edges = [half - reach, *crossings, length - half + reach]
    free = [min(max(middle, low + reach), high - reach) for low, high in pairwise(edges) if high - low >= 2 * reach]
    return min(free, key=lambda place: (abs(place - middle), place), default=middle)
