"""Draw: from the topology of a circuit to one SVG figure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import ceil
from xml.etree.ElementTree import Element, SubElement, tostring

from build_tools.figure.choosing import Choice, Mark
from build_tools.figure.geometry import around
from build_tools.figure.ground import DOT_RADIUS, Ground, bodies_clear, grown, lay_ground
from build_tools.figure.labels import bounds
from build_tools.figure.layout import Layout
from build_tools.figure.lettering import TEXT_SIZE
from build_tools.figure.marks import Outside, draw_mark, outside_sides, place_marks
from build_tools.figure.placing import GROWTH, place_circuit, moved, smallest_scale, stretched
from build_tools.figure.schematic import PEN, draw_part, number_text, way_text
from build_tools.laws.topology import Topology

_EDGE = 5.0
_MOST_STEPS = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A drawn circuit."""

    svg: str
    """One `svg` element, as it is put into a page."""
    layout: Layout
    """Where everything stands in it."""
    width: int
    """Natural width [px]."""
    height: int
    """Natural height [px]."""


@dataclass(frozen=True, slots=True)
class Attempt:
    """A layout with its marks placed."""

    ground: Ground
    marks: tuple[Mark, ...]
    choice: Choice

    @property
    def clear(self) -> bool:
        """Whether nothing touches anything."""
        return self.choice.clashes == 0


def draw_figure(topology: Topology, *, resistors: str = "zigzag", label: str = "") -> Figure:
    """Draw a circuit, as its author placed it or as the tool lays it out.

    Args:
        topology: the circuit with its branches and loops.
        resistors: "zigzag" or "rectangle"; the circuit's own setting goes before it.
        label: the alternative text.
    """
    best, size = _framed(_best_attempt(topology))
    style = topology.circuit.drawing.resistors or resistors
    svg = tostring(_compose(topology, best, size, style, label), encoding="unicode")
    return Figure(svg=svg, layout=best.ground.layout, width=size[0], height=size[1])


def _best_attempt(topology: Topology) -> Attempt:
    circuit = topology.circuit
    if circuit.drawing.places:
        scale = smallest_scale(circuit)
        return _grow(topology, lambda step: place_circuit(circuit, scale * GROWTH**step))
    from build_tools.figure.rails import lay_out

    attempts = [_grow(topology, lambda step, layout=layout: stretched(layout, GROWTH ** (step // 2), GROWTH**step)) for layout in lay_out(topology)]
    return min(attempts, key=lambda attempt: (attempt.choice.clashes, round(attempt.choice.cost, 3)))


def _grow(topology: Topology, layout_at: Callable[[int], Layout]) -> Attempt:
    """Find the smallest step of the scale at which every mark has a place: by doubling, then by halving."""
    outside: Outside = {}
    tried: dict[int, Attempt | None] = {}

    def attempt(step: int) -> Attempt | None:
        if step not in tried:
            ground = lay_ground(topology.circuit, layout_at(step))
            if not outside:
                outside.update(outside_sides(ground))
            placed = place_marks(topology, ground, outside) if bodies_clear(ground) else None
            tried[step] = Attempt(ground, *placed) if placed else None
        return tried[step]

    def clear(step: int) -> bool:
        found = attempt(step)
        return found is not None and found.clear

    low, high = -1, 0
    while not clear(high) and high < _MOST_STEPS:
        low, high = high, min(_MOST_STEPS, 2 * high or 1)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if clear(middle) else (middle, high)
    found = [try_ for try_ in tried.values() if try_]
    best = attempt(high) if clear(high) else min(found, key=lambda each: each.choice.clashes)
    assert best is not None
    return best


def _framed(attempt: Attempt) -> tuple[Attempt, tuple[int, int]]:
    """Move a figure so that it fills its frame, and give the frame's size."""
    marks = [box for place in attempt.choice.places for box in place.boxes]
    bodies = [box for seat in attempt.ground.seats.values() for box in seat.boxes]
    box = around([*marks, *bodies, grown(bounds(attempt.ground), DOT_RADIUS)])
    shift = (round(_EDGE - box[0]), round(_EDGE - box[1]))
    ground = lay_ground(attempt.ground.circuit, moved(attempt.ground.layout, shift))
    places = tuple(place.moved(shift) for place in attempt.choice.places)
    size = (ceil(box[2] + shift[0] + _EDGE), ceil(box[3] + shift[1] + _EDGE))
    return Attempt(ground, attempt.marks, replace(attempt.choice, places=places)), size


def _compose(topology: Topology, best: Attempt, size: tuple[int, int], resistors: str, label: str) -> Element:
    """Put the figure together: lines and bodies first, marks above them."""
    width, height = map(str, size)
    attributes = {"xmlns": "http://www.w3.org/2000/svg", "class": "circuit-figure", "role": "img"}
    attributes |= {"aria-label": label} if label else {}
    frame = {"viewBox": f"0 0 {width} {height}", "width": width, "height": height}
    root = Element("svg", {**attributes, **frame, "font-size": number_text(TEXT_SIZE)})
    ground = best.ground
    ink = SubElement(root, "g", {"class": "ink", "fill": "none", **PEN})
    over_lines = [hop.spot for hop in ground.hops if not hop.owner]
    if ground.layout.lines:
        ways = "".join(way_text(line, over_lines) for line in ground.layout.lines)
        SubElement(ink, "path", {"class": "joined", "d": ways})
    ink.extend(draw_part(seat, ground.layout.routes[name], ground.hops, resistors) for name, seat in ground.seats.items())
    notes = SubElement(root, "g", {"class": "marks", "fill": "currentColor"})
    pairs = zip(best.marks, best.choice.places, strict=True)
    notes.extend(draw_mark(mark, place, topology, ground) for mark, place in pairs)
    return root
