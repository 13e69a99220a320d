"""From the author's coordinates to a layout in pixels, drawn exactly as told."""

from __future__ import annotations

from collections.abc import Callable
from math import dist

from build_tools.circuit.circuit import Circuit, Kind, Place
from build_tools.figure.geometry import legs_of
from build_tools.figure.layout import Layout, Spot, body_leg

GROWTH = 1.06
"""Each step of the scale."""
BODY_LEG = 84.0
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
        routes={
            part.name: (places[part.start], *map(spot, drawing.bends.get(part.name, ())), places[part.end])
            for part in circuit.parts
        },
        lines=tuple((places[one], places[other]) for one, other in drawing.joined),
    )


def smallest_scale(circuit: Circuit) -> float:
    """The scale at which every part just has room on its own leg [px for one step of the grid]."""
    layout = place_circuit(circuit)
    needs = []
    for part in circuit.parts:
        route = layout.routes[part.name]
        longest = body_leg(route, part.kind)
        least = BARE_LEG if part.kind is Kind.WIRE else BODY_LEG
        needs += [(least if number == longest else SHORT_LEG) / dist(*leg) for number, leg in enumerate(legs_of(route))]
    needs += [SHORT_LEG / dist(*leg) for line in layout.lines for leg in legs_of(line)]
    return max(needs)


def stretched(layout: Layout, across: float, down: float) -> Layout:
    """A layout pulled apart by a factor in each direction."""
    return _mapped(layout, lambda spot: (spot[0] * across, spot[1] * down))


def moved(layout: Layout, shift: Spot) -> Layout:
    """A layout moved as a whole."""
    return _mapped(layout, lambda spot: (spot[0] + shift[0], spot[1] + shift[1]))


def _mapped(layout: Layout, change: Callable[[Spot], Spot]) -> Layout:
    return Layout(
        places={point: change(spot) for point, spot in layout.places.items()},
        routes={name: tuple(map(change, route)) for name, route in layout.routes.items()},
        lines=tuple(tuple(map(change, line)) for line in layout.lines),
    )
