"""A layout as the text of a circuit file, for an author who wants to keep or adjust it."""

from __future__ import annotations

from collections import deque

from build_tools.circuit.circuit import Circuit, Part
from build_tools.figure.layout import Layout, Spot, body_leg
from build_tools.figure.rails.drawing import cut_short

pixels = 36.0
"""One step of the author's grid."""


def as_source(layout: Layout, circuit: Circuit) -> str:
    """Write a layout as the `[points]` and `[drawing]` of a circuit file.

    The grid begins at the bottom left. A plain line that turns a corner has no words in a circuit file: it is left to
    run straight from point to point.
    """
    spots = [spot for way in (*layout.routes.values(), *layout.lines) for spot in way]
    left, bottom = min(x for x, _ in spots), max(y for _, y in spots)

    def place(spot: Spot) -> str:
        return f"[{(spot[0] - left) / pixels:g}, {(bottom - spot[1]) / pixels:g}]"

    points = [f"{point} = {place(layout.places[point])}" for point in circuit.points]
    joined = ", ".join(f'["{one}", "{other}"]' for one, other in circuit.drawing.joined)
    bends = [f"bends.{part.name} = [{', '.join(map(place, corners))}]" for part in circuit.parts if (corners := _corners(layout, part))]
    drawing = [f"joined = [{joined}]"] * bool(joined) + bends
    return "\n".join(["[points]", *points, *(["", "[drawing]", *drawing] if drawing else []), ""])


def _corners(layout: Layout, part: Part) -> tuple[Spot, ...]:
    """What lies between a part's points: its route and the plain lines that lead to it, with no spot too many."""
    route = layout.routes[part.name]
    before = _over_lines(layout.lines, layout.places[part.start], route[0])
    after = _over_lines(layout.lines, route[-1], layout.places[part.end])
    leg = body_leg(route, part.kind)
    way = cut_short([*before[:-1], *route, *after[1:]], (route[leg], route[leg + 1]))
    body = _body(route, part)
    number = 1
    while number < len(way) - 1:
        shorter = (*way[:number], *way[number + 1 :])
        if _is_straight(way[number - 1 : number + 2]) and _body(shorter, part) == body:
            way = shorter
        else:
            number += 1
    return way[1:-1]


def _body(route: tuple[Spot, ...], part: Part) -> Spot:
    """The middle of a part's body."""
    number = body_leg(route, part.kind)
    (x1, y1), (x2, y2) = route[number : number + 2]
    return (x1 + x2) / 2, (y1 + y2) / 2


def _is_straight(spots: tuple[Spot, ...]) -> bool:
    return any(len({spot[axis] for spot in spots}) == 1 for axis in (0, 1))


def _over_lines(lines: tuple[tuple[Spot, ...], ...], start: Spot, end: Spot) -> tuple[Spot, ...]:
    """The way over plain lines from one spot to another, both included."""
    queue: deque[tuple[Spot, ...]] = deque([(start,)])
    seen = {start}
    while queue:
        way = queue.popleft()
        if way[-1] == end:
            return way
        for line in lines:
            for stretch in (line, line[::-1]):
                if stretch[0] == way[-1] and stretch[-1] not in seen:
                    seen.add(stretch[-1])
                    queue.append((*way, *stretch[1:]))
    return (start, end)
