"""The bodies of the parts, each drawn into a group of its own; the only import of schemdraw.

schemdraw gives the shapes of the symbols, in its own unit and along its own axis. They are turned into place here and
written with rounded numbers and presentation attributes only: the site's content policy allows no `style` attribute.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any
from xml.etree.ElementTree import Element, SubElement

import schemdraw.elements
from schemdraw.segments import Segment, SegmentCircle

from build_tools.circuit.circuit import Drawing, Kind
from build_tools.figure.geometry import direction, left_of, legs_of
from build_tools.figure.layout import Spot
from build_tools.figure.lettering import TEXT_SIZE
from build_tools.figure.seating import HOP_RADIUS, Hop, Seat, crossings_on, leads_of

symbols: Any = schemdraw.elements  # its constructors carry no types

PEN = {"stroke": "currentColor", "stroke-width": "2", "stroke-linecap": "round", "stroke-linejoin": "round"}
"""How every line is drawn."""
_HIT_WIDTH = "20"
_LETTER_DROP = 0.36


@dataclass(frozen=True, slots=True)
class Shape:
    """A symbol about its middle: x along its direction, y to the left of it [px]."""

    strokes: tuple[tuple[Spot, ...], ...]
    circles: tuple[tuple[Spot, float], ...]
    letter: str = ""


def number_text(value: float) -> str:
    """Write a coordinate with at most one decimal, and never as −0."""
    return "0" if abs(value) < 0.05 else f"{value:.1f}".removesuffix(".0")


def draw_part(seat: Seat, route: tuple[Spot, ...], hops: Iterable[Hop], drawing: Drawing) -> Element:
    """Draw one part with its leads as a group that names it."""
    name, kind = seat.part.name, seat.part.kind
    group = Element("g", {"class": "part", "data-part": name, "data-kind": kind.value})
    own = [hop.spot for hop in hops if hop.owner == name]
    SubElement(
        group, "path", {"class": "hit", "d": way_text(route, []), "stroke": "none", "stroke-width": _HIT_WIDTH, "pointer-events": "stroke"}
    )
    leads = " ".join(way_text(lead, own) for lead in leads_of(seat, route))
    SubElement(group, "path", {"class": "lead", "d": leads})
    if seat.size.half:
        _draw_body(group, seat, body_shape(kind, seat.part.state, drawing.resistors, drawing.batteries))
    return group


def way_text(way: tuple[Spot, ...], hops: list[Spot]) -> str:
    """Write a way as path data, with an arc over each crossing where it hops."""
    words = [f"M{pair_text(way[0])}"]
    for leg in legs_of(way):
        x, y = direction(leg)
        sweep = 1 if x > 1e-9 or (abs(x) <= 1e-9 and y > 0) else 0
        for along in crossings_on(leg, hops):
            before, after = along - HOP_RADIUS, along + HOP_RADIUS
            words.append(f"L{pair_text((leg[0][0] + x * before, leg[0][1] + y * before))}")
            radius = number_text(HOP_RADIUS)
            words.append(f"A{radius} {radius} 0 0 {sweep} {pair_text((leg[0][0] + x * after, leg[0][1] + y * after))}")
        words.append(f"L{pair_text(leg[1])}")
    return "".join(words)


def pair_text(spot: Spot) -> str:
    """Write a spot as path data."""
    return f"{number_text(spot[0])} {number_text(spot[1])}"


@cache
def body_shape(kind: Kind, state: str = "", resistors: str = "zigzag", batteries: str = "one cell") -> Shape:
    """Take a symbol's shape from schemdraw.

    Args:
        kind: which part.
        state: "open" or "closed" for a switch.
        resistors: "zigzag" or "rectangle".
        batteries: "one cell" or "several cells".
    """
    if kind is Kind.RESISTOR:
        return _shape(symbols.ResistorIEC(), 42, 28) if resistors == "rectangle" else _shape(symbols.ResistorIEEE(), 42, 30)
    if kind is Kind.BATTERY:
        # schemdraw begins with the long plate; here a battery runs from minus to plus.
        return _shape(symbols.Battery() if batteries == "several cells" else symbols.BatteryCell(), -37, 37)
    if kind is Kind.CAPACITOR:
        return _shape(symbols.Capacitor(), 39, 52)
    if kind is Kind.SWITCH:
        return _lever_down(_shape(symbols.Switch(), 36, 36)) if state == "closed" else _shape(symbols.Switch(), 36, 36)
    meter = symbols.MeterA() if kind is Kind.AMMETER else symbols.MeterV()
    return _shape(meter, 34, 34, letter="A" if kind is Kind.AMMETER else "V")


def _shape(element: schemdraw.elements.Element, across: float, up: float, letter: str = "") -> Shape:
    """Scale an element to px about its middle, without the stubs where its leads begin."""
    paths = [run for part in element.segments if isinstance(part, Segment) for run in _runs(part)]
    rounds = [part for part in element.segments if isinstance(part, SegmentCircle)]
    xs = [x for run in paths for x, _ in run] + [c.center[0] + side * c.radius for c in rounds for side in (-1, 1)]
    middle = (min(xs) + max(xs)) / 2
    strokes = tuple(tuple(((x - middle) * across, y * up) for x, y in run) for run in paths)
    circles = tuple((((c.center[0] - middle) * across, c.center[1] * up), c.radius * up) for c in rounds)
    return Shape(strokes, circles, letter)


def _runs(segment: Segment) -> list[list[Spot]]:
    """The unbroken lines of a segment; schemdraw separates them by a point that is no number."""
    runs: list[list[Spot]] = [[]]
    for x, y in segment.path:
        if math.isnan(x):
            runs.append([])
        elif (x, y) not in runs[-1][-1:]:
            runs[-1].append((float(x), float(y)))
    return [run for run in runs if len(run) > 1]


def _lever_down(shape: Shape) -> Shape:
    """The closed form of a switch: the lever lies on both contacts."""
    (left, radius), (right, _) = shape.circles
    return Shape((((left[0] + radius, 0.0), (right[0] - radius, 0.0)),), shape.circles)


def _draw_body(group: Element, seat: Seat, shape: Shape) -> None:
    along, left = seat.facing, left_of(seat.facing)

    def turned(spot: Spot) -> Spot:
        x, y = spot
        return (seat.centre[0] + along[0] * x + left[0] * y, seat.centre[1] + along[1] * x + left[1] * y)

    body = SubElement(group, "g", {"class": "body"})
    if shape.strokes:
        SubElement(body, "path", {"d": "".join(way_text(tuple(map(turned, stroke)), []) for stroke in shape.strokes)})
    for centre, radius in shape.circles:
        x, y = turned(centre)
        SubElement(body, "circle", {"cx": number_text(x), "cy": number_text(y), "r": number_text(radius)})
    if shape.letter:
        drop = seat.centre[1] + _LETTER_DROP * TEXT_SIZE
        place = {"x": number_text(seat.centre[0]), "y": number_text(drop)}
        SubElement(body, "text", {**place, "text-anchor": "middle", "stroke": "none", "fill": "currentColor"}).text = shape.letter
