"""Reads a circuit back out of the drawn geometry, with nothing of the code that drew it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise
from math import atan2, dist, tau

from build_tools.circuit.circuit import Circuit, Kind
from build_tools.figure.layout import Layout, Spot, body_leg

Leg = tuple[Spot, Spot]
least_apart = 24.0


def find_faults(circuit: Circuit, layout: Layout, crossings: int = 0) -> list[str]:
    """Everything in which a drawing is not the circuit, or touches where it must not."""
    place = read_places(layout)
    return [
        *_wrong_ends(circuit, layout, place),
        *_wrong_joins(circuit, layout, place),
        *_close_points(layout),
        *_slanted(layout),
        *_cramped(circuit, layout),
        *_touching(layout, place, crossings),
    ]


def read_places(layout: Layout) -> dict[Spot, int]:
    """Number the places of a drawing: spots that plain lines join are one place."""
    ends = [route[end] for route in layout.routes.values() for end in (0, -1)]
    spots = dict.fromkeys([*layout.places.values(), *ends, *(spot for line in layout.lines for spot in (line[0], line[-1]))])
    place = {spot: number for number, spot in enumerate(spots)}
    for line in layout.lines:
        old, new = place[line[0]], place[line[-1]]
        place = {spot: new if number == old else number for spot, number in place.items()}
    return place


def _wrong_ends(circuit: Circuit, layout: Layout, place: dict[Spot, int]) -> Iterator[str]:
    if set(layout.routes) != set(circuit.part):
        yield f"parts drawn: {sorted(layout.routes)}"
    for part in circuit.parts:
        route = layout.routes[part.name]
        for point, spot in ((part.start, route[0]), (part.end, route[-1])):
            if place[layout.places[point]] != place[spot]:
                yield f"{part.name} does not reach {point}"


def _wrong_joins(circuit: Circuit, layout: Layout, place: dict[Spot, int]) -> Iterator[str]:
    """Points that are one place in the drawing and not in the circuit, or the other way round."""
    told = {point: {point} for point in circuit.points}
    for one, other in circuit.drawing.joined:
        both = told[one] | told[other]
        told.update(dict.fromkeys(both, both))
    if set(layout.places) != set(circuit.points):
        yield f"points placed: {sorted(layout.places)}"
    for one, other in combinations(circuit.points, 2):
        if (place[layout.places[one]] == place[layout.places[other]]) != (other in told[one]):
            yield f"{one} and {other} joined or parted"


def _close_points(layout: Layout) -> Iterator[str]:
    for one, other in combinations(layout.places, 2):
        if dist(layout.places[one], layout.places[other]) < least_apart:
            yield f"{one} and {other} stand {dist(layout.places[one], layout.places[other]):.0f} px apart"


def _slanted(layout: Layout) -> Iterator[str]:
    for name, leg in legs_of(layout):
        if (leg[0][0] == leg[1][0]) == (leg[0][1] == leg[1][1]):
            yield f"{name} is slanted or has no length: {leg}"


def _cramped(circuit: Circuit, layout: Layout) -> Iterator[str]:
    bodies = {Kind.BATTERY: 14, Kind.RESISTOR: 44, Kind.SWITCH: 34, Kind.CAPACITOR: 14, Kind.WIRE: 0}
    for part in circuit.parts:
        route = layout.routes[part.name]
        leg = body_leg(route, part.kind)
        if dist(route[leg], route[leg + 1]) < bodies.get(part.kind, 30) + 2 * 17:
            yield f"{part.name} has {dist(route[leg], route[leg + 1]):.0f} px"


def legs_of(layout: Layout) -> list[tuple[str, Leg]]:
    """Every straight piece with the part it belongs to; "" for a plain line."""
    ways = [*layout.routes.items(), *((f"line {number}", line) for number, line in enumerate(layout.lines))]
    return [(name, leg) for name, way in ways for leg in pairwise(way)]


def _touching(layout: Layout, place: dict[Spot, int], crossings: int) -> Iterator[str]:
    """Pieces that share more than a place they both end at; up to so many clean crossings are let pass."""
    crossed = 0
    for (name, one), (other, two) in combinations(legs_of(layout), 2):
        common = shared(one, two)
        if common is None:
            continue
        spot = common[0]
        if common[0] == common[1] and spot in one and spot in two and (name == other or spot in place):
            continue
        if common[0] == common[1] and spot not in one and spot not in two and name != other:
            crossed += 1
            continue
        yield f"{name} and {other} touch at {common}"
    if crossed > crossings:
        yield f"{crossed} crossings"


def shared(one: Leg, two: Leg) -> Leg | None:
    """The corners of what two level or upright pieces have in common."""
    low = tuple(max(min(one[0][axis], one[1][axis]), min(two[0][axis], two[1][axis])) for axis in (0, 1))
    high = tuple(min(max(one[0][axis], one[1][axis]), max(two[0][axis], two[1][axis])) for axis in (0, 1))
    if low[0] > high[0] or low[1] > high[1]:
        return None
    return (low[0], low[1]), (high[0], high[1])


def count_corners(layout: Layout) -> list[int]:
    """The number of corners of each face of a drawing without crossings, the outer one included."""
    pieces = _cut_at_spots([leg for _, leg in legs_of(layout)])
    around: dict[Spot, list[Spot]] = {}
    for start, end in pieces:
        around.setdefault(start, []).append(end)
    seen: set[Leg] = set()
    found = []
    for first in sorted(pieces):
        face: list[Leg] = []
        leg = first
        while leg not in seen:
            seen.add(leg)
            face.append(leg)
            leg = (leg[1], min(around[leg[1]], key=lambda onward, leg=leg: _turn(leg, onward)))  # type: ignore[misc]
        if face:
            found.append(sum(_is_level(one) != _is_level(two) for one, two in pairwise([*face, face[0]])))
    return found


def _cut_at_spots(legs: list[Leg]) -> set[Leg]:
    """Every piece between neighbouring ends of pieces, in both senses."""
    spots = sorted({spot for leg in legs for spot in leg})
    pieces = {piece for leg in legs for piece in pairwise([spot for spot in spots if shared(leg, (spot, spot))])}
    return pieces | {(end, start) for start, end in pieces}


def _turn(leg: Leg, onward: Spot) -> float:
    """How far the way back must be turned to become the way onward; going straight back comes last."""
    back = atan2(leg[0][1] - leg[1][1], leg[0][0] - leg[1][0])
    angle = (atan2(onward[1] - leg[1][1], onward[0] - leg[1][0]) - back) % tau
    return angle if 1e-9 < angle < tau - 1e-9 else tau


def _is_level(leg: Leg) -> bool:
    return leg[0][1] == leg[1][1]
