"""Draw: from the topology of a circuit to one SVG figure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil
from xml.etree.ElementTree import Element, SubElement, tostring

from build_tools.figure.ground import lay_ground
from build_tools.figure.growing import EDGE, Attempt, grow_laid_out, grow_placed
from build_tools.figure.layout import Layout
from build_tools.figure.lettering import TEXT_SIZE
from build_tools.figure.marks import draw_mark
from build_tools.figure.placing import moved
from build_tools.figure.rails import lay_out
from build_tools.figure.schematic import PEN, draw_part, number_text, way_text
from build_tools.laws.topology import Topology


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


def draw_figure(topology: Topology, *, resistors: str = "zigzag", batteries: str = "one cell", label: str = "") -> Figure:
    """Draw a circuit, as its author placed it or as the tool lays it out.

    Args:
        topology: the circuit with its branches and loops.
        resistors: "zigzag" or "rectangle"; the circuit's own setting goes before it.
        batteries: "one cell" or "several cells"; likewise.
        label: the alternative text.
    """
    settled = _settled(topology, resistors, batteries)
    best, size = _framed(_best_attempt(settled))
    svg = tostring(_compose(settled, best, size, label), encoding="unicode")
    return Figure(svg=svg, layout=best.ground.layout, width=size[0], height=size[1])


def _settled(topology: Topology, resistors: str, batteries: str) -> Topology:
    """The same circuit with both customs of drawing chosen."""
    own = topology.circuit.drawing
    drawing = replace(own, resistors=own.resistors or resistors, batteries=own.batteries or batteries)
    return replace(topology, circuit=replace(topology.circuit, drawing=drawing))


def _best_attempt(topology: Topology) -> Attempt:
    if topology.circuit.drawing.places:
        return grow_placed(topology)
    return grow_laid_out(topology, lay_out(topology))


def _framed(attempt: Attempt) -> tuple[Attempt, tuple[int, int]]:
    """Move a figure so that it fills its frame, and give the frame's size."""
    box = attempt.extent
    shift = (round(EDGE - box[0]), round(EDGE - box[1]))
    ground = lay_ground(attempt.ground.circuit, moved(attempt.ground.layout, shift))
    places = tuple(place.moved(shift) for place in attempt.choice.places)
    size = (ceil(box[2] + shift[0] + EDGE), ceil(box[3] + shift[1] + EDGE))
    return Attempt(ground, attempt.marks, replace(attempt.choice, places=places)), size


def _compose(topology: Topology, best: Attempt, size: tuple[int, int], label: str) -> Element:
    """Put the figure together: lines and bodies first, marks above them."""
    width, height = map(str, size)
    # Style sheets keep text readable by the leading figures of the width; these cannot tell 1200 from 120.
    sort = "circuit-figure vast" if size[0] >= 1000 else "circuit-figure"
    attributes = {"xmlns": "http://www.w3.org/2000/svg", "class": sort, "role": "img"}
    attributes |= {"aria-label": label} if label else {}
    frame = {"viewBox": f"0 0 {width} {height}", "width": width, "height": height}
    root = Element("svg", {**attributes, **frame, "font-size": number_text(TEXT_SIZE)})
    ground = best.ground
    ink = SubElement(root, "g", {"class": "ink", "fill": "none", **PEN})
    over_lines = [hop.spot for hop in ground.hops if not hop.owner]
    for line in ground.layout.lines:
        ends = {"data-point": ground.point_of(line[0]), "data-to": ground.point_of(line[-1])}
        SubElement(ink, "path", {"class": "joined", **ends, "d": way_text(line, over_lines)})
    ink.extend(draw_part(seat, ground.layout.routes[name], ground.hops, topology.circuit.drawing) for name, seat in ground.seats.items())
    notes = SubElement(root, "g", {"class": "marks", "fill": "currentColor"})
    pairs = zip(best.marks, best.choice.places, strict=True)
    notes.extend(draw_mark(mark, place, topology, ground) for mark, place in pairs)
    return root
