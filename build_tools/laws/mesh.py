"""Inner loops: the faces of a circuit as it is drawn.

Walk along the drawing and at every point turn as sharply to the right as you can: that goes round a face clockwise.
The one face walked anticlockwise is the outside. Where lines cross, or the drawing does not give as many faces as
there are independent loops, there is no such set, and few-part loops are taken instead (`loop.py`).

Source: faces of a plane graph by its rotation system; standard graph theory, from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise
from math import atan2, tau

from build_tools.circuit.circuit import Circuit, Part, Place
from build_tools.laws.topology import Step


@dataclass(frozen=True, slots=True)
class Edge:
    """One way along a drawn line: through a part, or along a plain line where `step` is None."""

    start: str
    end: str
    corners: tuple[Place, ...]
    """All places on the way, both ends included."""
    step: Step | None
    number: int
    """The same for both ways along one line."""


Face = tuple[tuple[Step, ...], tuple[Place, ...]]
"""The parts round a face in clockwise order, and its corners."""


def find_meshes(circuit: Circuit, live: tuple[Part, ...]) -> tuple[tuple[Step, ...], ...] | None:
    """The inner loops of the drawing, clockwise from their bottom left point, in reading order; None where it has none."""
    if not circuit.drawing.places:
        return None
    edges = find_edges(circuit, live)
    if lines_cross(edges):
        return None
    faces = [face for face in find_faces(edges) if signed_area(face[1]) < 0 and face[0]]
    faces.sort(key=lambda face: (min(x for x, _ in face[1]), -max(y for _, y in face[1])))
    return tuple(start_bottom_left(steps, circuit) for steps, _ in faces)


def find_edges(circuit: Circuit, live: tuple[Part, ...]) -> tuple[Edge, ...]:
    """Both ways along every live part and every plain line."""
    places, bends = circuit.drawing.places, circuit.drawing.bends
    ways: list[tuple[str, str, tuple[Place, ...], Step | None]] = [
        (part.start, part.end, bends.get(part.name, ()), Step(part, True)) for part in live
    ]
    ways += [(one, other, (), None) for one, other in circuit.drawing.joined]
    edges = []
    for number, (start, end, corners, step) in enumerate(ways):
        line = (places[start], *corners, places[end])
        edges.append(Edge(start, end, line, step, number))
        edges.append(Edge(end, start, line[::-1], step and step.reversed(), number))
    return tuple(edges)


def find_faces(edges: tuple[Edge, ...]) -> list[Face]:
    """Every face, walked with the drawing's lines on its left hand."""
    turn = {edge: next_edge(edge, edges) for edge in edges}
    faces, seen = [], set()
    for first in edges:
        if first in seen:
            continue
        walk = [first]
        while (edge := turn[walk[-1]]) is not first:
            walk.append(edge)
        seen.update(walk)
        numbers = [edge.number for edge in walk]
        steps = tuple(edge.step for edge in walk if edge.step and numbers.count(edge.number) == 1)
        faces.append((steps, tuple(place for edge in walk for place in edge.corners[:-1])))
    return faces


def next_edge(edge: Edge, edges: tuple[Edge, ...]) -> Edge:
    """The sharpest turn to the right at the end of an edge; back along itself only where nothing else leaves."""
    back = direction(edge.corners[-1], edge.corners[-2])
    leaving = [other for other in edges if other.start == edge.end]

    def turned(other: Edge) -> float:
        angle = (direction(other.corners[0], other.corners[1]) - back) % tau
        is_back = other.number == edge.number and other.corners == edge.corners[::-1]
        return tau if is_back else angle or tau

    return min(leaving, key=lambda other: (turned(other), other.number))


def direction(start: Place, end: Place) -> float:
    """The angle of a line against the x axis [rad]."""
    return atan2(float(end[1] - start[1]), float(end[0] - start[0]))


def signed_area(corners: tuple[Place, ...]) -> Fraction:
    """Twice the area inside; negative where the corners run clockwise (y upwards)."""
    around = (*corners, corners[0])
    return sum((x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairwise(around)), Fraction(0))


def start_bottom_left(steps: tuple[Step, ...], circuit: Circuit) -> tuple[Step, ...]:
    """The same walk, begun at its bottom left point."""
    places = circuit.drawing.places
    first = min(range(len(steps)), key=lambda number: (sum(places[steps[number].start]), places[steps[number].start]))
    return (*steps[first:], *steps[:first])


def lines_cross(edges: tuple[Edge, ...]) -> bool:
    """Whether two lines of the drawing meet anywhere but at a common end."""
    legs = [(edge, leg) for edge in edges[::2] for leg in pairwise(edge.corners)]
    return any(legs_meet(*one, *other) for one, other in combinations(legs, 2))


def legs_meet(one: Edge, leg: tuple[Place, ...], other: Edge, other_leg: tuple[Place, ...]) -> bool:
    """Whether two straight legs share more than a common end or a corner between them."""
    (a, b), (c, d) = leg, other_leg
    sides = (side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b))
    if sides[0] * sides[1] < 0 and sides[2] * sides[3] < 0:
        return True
    shared = {a, b} & {c, d}
    touching = [p for p, q, r in ((c, a, b), (d, a, b), (a, c, d), (b, c, d)) if lies_on(p, q, r) and p not in shared]
    common_point = {one.start, one.end} & {other.start, other.end}
    return bool(touching) or bool(shared and one is not other and not common_point)


def side(start: Place, end: Place, place: Place) -> Fraction:
    """On which side of a line a place lies: positive left, negative right, 0 on it."""
    return (end[0] - start[0]) * (place[1] - start[1]) - (end[1] - start[1]) * (place[0] - start[0])


def lies_on(place: Place, start: Place, end: Place) -> bool:
    """Whether a place lies on a straight leg."""
    within = all(min(s, e) <= p <= max(s, e) for p, s, e in zip(place, start, end, strict=True))
    return within and side(start, end, place) == 0
