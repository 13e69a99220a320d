"""Refuse drawings in which parts lie on top of each other, each by the names of the parts.

A circuit with coordinates is drawn exactly as told, so what cannot be drawn that way has to be said. Ways may cross in
mid-span, which is drawn as a hop; all else that touches is refused. The grid is made whole numbers first: every answer
is exact.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import dist, lcm

from build_tools.circuit.circuit import Circuit, Place
from build_tools.circuit.problem import KeyPath, Problem
from build_tools.figure.ground import Ground, clashing_bodies, lay_ground
from build_tools.figure.placing import leg_needs, place_circuit, smallest_scale

Dot = tuple[int, int]
"""A place on the grid, in whole numbers."""
Straight = tuple[Dot, Dot]

_LARGEST = 1600.0
"""A drawing that needs more than this for its smallest part is refused [px]."""
_SCALES = (1.0, 1.3, 1.7, 2.2, 3.0, 4.0)


@dataclass(frozen=True, slots=True)
class Way:
    """A part or a plain line, as it is drawn."""

    name: str
    """What a message calls it."""
    where: KeyPath
    ends: tuple[str, str]
    dots: tuple[Dot, ...]

    @property
    def legs(self) -> tuple[Straight, ...]:
        """Its straight pieces."""
        return tuple(pairwise(self.dots))


def find_overlaps(circuit: Circuit) -> tuple[Problem, ...]:
    """Find everything in a circuit's own coordinates that cannot be drawn; nothing where it has none."""
    if not circuit.drawing.places:
        return ()
    places, ways = _ways(circuit)
    found = [*_points_on_points(places), *_broken_ways(ways), *_points_on_ways(places, ways), *_ways_on_ways(places, ways)]
    return tuple(found) or tuple(_crowded_parts(circuit))


def _ways(circuit: Circuit) -> tuple[dict[str, Dot], list[Way]]:
    """Every point and every way on a grid of whole numbers."""
    drawing = circuit.drawing
    corners = [corner for bends in drawing.bends.values() for corner in bends]
    fine = lcm(*(number.denominator for place in [*drawing.places.values(), *corners] for number in place))

    def dot(place: Place) -> Dot:
        return (int(place[0] * fine), int(place[1] * fine))

    places = {point: dot(place) for point, place in drawing.places.items()}
    ways = []
    for part in circuit.parts:
        bends = map(dot, drawing.bends.get(part.name, ()))
        ways.append(Way(part.name, ("parts", part.name), (part.start, part.end), (places[part.start], *bends, places[part.end])))
    for number, (one, other) in enumerate(drawing.joined):
        where = ("drawing", "joined", str(number))
        ways.append(Way(f"the line from {one} to {other}", where, (one, other), (places[one], places[other])))
    return places, ways


def _points_on_points(places: dict[str, Dot]) -> Iterator[Problem]:
    for one, other in combinations(places, 2):
        if places[one] == places[other]:
            yield Problem(
                where=("points", other),
                expected="a place of its own for each point",
                found=f"{one} and {other} in one place",
                way_out="move one of them; points joined by a plain line go into joined",
            )


def _broken_ways(ways: list[Way]) -> Iterator[Problem]:
    """Ways without length, and ways that touch themselves."""
    for way in ways:
        if any(begin == end for begin, end in way.legs):
            yield Problem(
                where=way.where,
                expected="a way with some length from each corner to the next",
                found=f"{way.name} with two of its places in one",
                way_out="move one of its ends or corner points",
            )
        elif any(_touch(one, other) for one, other in _pairs_of_legs(way)):
            yield Problem(
                where=way.where,
                expected="a way that does not touch itself",
                found=f"{way.name} crossing or folding back on itself",
                way_out="move its corner points",
            )


def _pairs_of_legs(way: Way) -> Iterator[tuple[Straight, Straight]]:
    """Legs of one way that may not touch: neighbours beyond their common corner, all others at all."""
    for (number, one), (later, other) in combinations(enumerate(way.legs), 2):
        if later > number + 1:
            yield one, other
        elif _turn(one[0], one[1], other[1]) == 0 and _between(one[0], one[1], other[1]):
            yield one, (other[1], other[1])
        elif _turn(one[0], one[1], other[1]) == 0 and _between(other[0], other[1], one[0]):
            yield (one[0], one[0]), other


def _points_on_ways(places: dict[str, Dot], ways: list[Way]) -> Iterator[Problem]:
    for way in ways:
        for point, dot in places.items():
            if point not in way.ends and any(_on(dot, leg) for leg in way.legs):
                yield Problem(
                    where=way.where,
                    expected="a way clear of all other points",
                    found=f"point {point} on the way of {way.name}",
                    way_out=f"move {point}, or lead the way round it with corner points",
                )


def _ways_on_ways(places: dict[str, Dot], ways: list[Way]) -> Iterator[Problem]:
    """Pairs of ways that share more than an end, but for crossings in mid-span."""
    taken = set(places.values())
    for one, other in combinations(ways, 2):
        pairs = [(first, second) for first in one.legs for second in other.legs if _touch(first, second)]
        if any(_share_length(first, second) for first, second in pairs):
            yield Problem(
                where=other.where,
                expected="parts clear of each other",
                found=f"{one.name} and {other.name} on top of each other",
                way_out=_way_apart(one, other),
            )
        elif any(_touch_at_corner(first, second, taken) for first, second in pairs):
            yield Problem(
                where=other.where,
                expected="ways that cross in mid-span or not at all",
                found=f"{one.name} and {other.name} touching at a corner",
                way_out="move the corner point; where they are meant to be connected, make it a point of both",
            )


def _way_apart(one: Way, other: Way) -> str:
    """What can be done about two ways on top of each other: only a part may have corner points."""
    parts = [way.name for way in (one, other) if way.where[0] == "parts"]
    if not parts:
        return "move a point, or take one of the lines out"
    name = parts[0] if len(parts) == 1 else "NAME"
    which = name if len(parts) == 1 else "one of them"
    return f"give {which} corner points, bends.{name} = [[x, y]], or move a point"


def _crowded_parts(circuit: Circuit) -> Iterator[Problem]:
    """Parts whose symbols have no room, however large the drawing is made."""
    scale = max(smallest_scale(circuit))
    layout = place_circuit(circuit, scale)
    xs, ys = zip(*(spot for way in [*layout.routes.values(), *layout.lines] for spot in way), strict=True)
    grounds = (lay_ground(circuit, place_circuit(circuit, scale * more)) for more in _SCALES)
    clashes = (_clashes(ground) for ground in grounds)
    if max(max(xs) - min(xs), max(ys) - min(ys)) > _LARGEST:
        yield from _short_parts(circuit, scale)
    elif not any(found == () for found in clashes):
        for one, other in _clashes(lay_ground(circuit, place_circuit(circuit, scale * _SCALES[-1]))):
            yield Problem(
                where=("parts", one),
                expected="room for the symbol of each part",
                found=f"{one} on top of {other or 'a plain line'}",
                way_out="move a point, so that they stand further apart",
            )


def _clashes(ground: Ground) -> tuple[tuple[str, str], ...]:
    """The pairs that have no room, each once."""
    pairs: dict[frozenset[str], tuple[str, str]] = {}
    for pair in clashing_bodies(ground):
        pairs.setdefault(frozenset(pair), pair)
    return tuple(pairs.values())


def _short_parts(circuit: Circuit, scale: float) -> Iterator[Problem]:
    """The parts and lines that are too short beside the whole drawing."""
    needs = leg_needs(circuit, place_circuit(circuit, scale))
    short = dict.fromkeys(name for name, leg, least in needs if dist(*leg) < 1.2 * least)
    for name in short:
        yield Problem(
            where=("parts", name) if name else ("drawing", "joined"),
            expected="room for each symbol and line",
            found=f"{name or 'a line'} with a way that is very short beside the whole drawing",
            way_out="move its ends further apart, or all others closer together",
        )


def _turn(a: Dot, b: Dot, c: Dot) -> int:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _between(a: Dot, b: Dot, c: Dot) -> bool:
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def _on(dot: Dot, leg: Straight) -> bool:
    return _turn(leg[0], leg[1], dot) == 0 and _between(leg[0], leg[1], dot)


def _touch(one: Straight, other: Straight) -> bool:
    """Whether two legs have any place in common."""
    (a, b), (c, d) = one, other
    if any(_on(dot, other) for dot in one) or any(_on(dot, one) for dot in other):
        return True
    return (_turn(a, b, c) > 0) != (_turn(a, b, d) > 0) and (_turn(c, d, a) > 0) != (_turn(c, d, b) > 0)


def _share_length(one: Straight, other: Straight) -> bool:
    """Whether two legs run along each other for some way."""
    if _turn(one[0], one[1], other[0]) or _turn(one[0], one[1], other[1]):
        return False
    common = {dot for dot in one if _on(dot, other)} | {dot for dot in other if _on(dot, one)}
    return len(common) > 1


def _touch_at_corner(one: Straight, other: Straight, taken: set[Dot]) -> bool:
    """Whether an end of one leg is on the other, anywhere but at a point (a foreign point is told by itself)."""
    return any(dot not in taken and _on(dot, other) for dot in one) or any(dot not in taken and _on(dot, one) for dot in other)
