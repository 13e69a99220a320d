"""From the author's coordinates to a layout in pixels, drawn exactly as told."""

from __future__ import annotations

from collections.abc import Callable
from math import dist

from build_tools.circuit.circuit import Circuit, Kind, Place
from build_tools.figure.geometry import NEAR, Leg, legs_of
from build_tools.figure.layout import Layout, Spot, body_leg

BODY_LEG = 88.0
"""The least length of a leg with a body on it: the body, and room for an arrow on either side [px]."""
BARE_LEG = 40.0
"""The least length of a bare wire [px]."""
SHORT_LEG = 16.0
"""The least length of any other leg [px]."""


def place_circuit(circuit: Circuit, scale: float = 1.0) -> Layout:
    """Place a circuit by its author's coordinates.

    Args:
        circuit: one with a place for every point.
        scale: pixels for one step of the author's grid.
    """
    drawing = circuit.drawing

    def spot(place: Place) -> Spot:
        return (float(place[0]) * scale, -float(place[1]) * scale)

    places = {point: spot(place) for point, place in drawing.places.items()}
    return Layout(
        places=places,
        routes={part.name: (places[part.start], *map(spot, drawing.bends.get(part.name, ())), places[part.end]) for part in circuit.parts},
        lines=tuple((places[one], places[other]) for one, other in drawing.joined),
    )


def smallest_scale(circuit: Circuit) -> tuple[float, float]:
    """The scale at which every part just has room on its own leg, for level legs and for all others.

    Both are in px for one step of the author's grid.
    """
    needs = leg_needs(circuit, place_circuit(circuit))
    level = [least / dist(*leg) for _, leg, least in needs if is_level(leg)]
    other = [least / dist(*leg) for _, leg, least in needs if not is_level(leg)]
    return max(level, default=0.0), max(other, default=0.0)


def leg_needs(circuit: Circuit, layout: Layout) -> list[tuple[str, Leg, float]]:
    """For every leg whose it is ("" for a plain line) and the least length it needs [px]."""
    needs = [("", leg, SHORT_LEG) for line in layout.lines for leg in legs_of(line)]
    for part in circuit.parts:
        route = layout.routes[part.name]
        longest = body_leg(route, part.kind)
        least = BARE_LEG if part.kind is Kind.WIRE else BODY_LEG
        legs = enumerate(legs_of(route))
        needs += [(part.name, leg, least if number == longest else SHORT_LEG) for number, leg in legs]
    return needs


def is_level(leg: Leg) -> bool:
    """Whether a leg runs from side to side."""
    return abs(leg[0][1] - leg[1][1]) < NEAR


def is_orthogonal(layout: Layout) -> bool:
    """Whether every way runs level or upright."""
    ways = [*layout.routes.values(), *layout.lines]
    return all(is_level(leg) or abs(leg[0][0] - leg[1][0]) < NEAR for way in ways for leg in legs_of(way))


def stretched(layout: Layout, across: float, down: float) -> Layout:
    """A layout pulled apart by a factor in each direction."""
    return _mapped(layout, lambda spot: (spot[0] * across, spot[1] * down))


def mirrored(layout: Layout) -> Layout:
    """A layout with left and right exchanged."""
    return _mapped(layout, lambda spot: (-spot[0], spot[1]))


def moved(layout: Layout, shift: Spot) -> Layout:
    """A layout moved as a whole."""
    return _mapped(layout, lambda spot: (spot[0] + shift[0], spot[1] + shift[1]))


def _mapped(layout: Layout, change: Callable[[Spot], Spot]) -> Layout:
    return Layout(
        places={point: change(spot) for point, spot in layout.places.items()},
        routes={name: tuple(map(change, route)) for name, route in layout.routes.items()},
        lines=tuple(tuple(map(change, line)) for line in layout.lines),
    )
