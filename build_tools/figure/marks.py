"""Place every mark of a figure, and draw it.

Position and turning of arrows and loop marks are on two nested groups, and their boxes are symmetric: a script or a
style sheet can turn the inner one round without a new placement.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, sin
from xml.etree.ElementTree import Element, SubElement

from build_tools.circuit.circuit import Kind
from build_tools.figure.arrows import HEAD_HALF, arrow_mark
from build_tools.figure.captions import Text
from build_tools.figure.choosing import Candidate, Choice, Mark, choose_places
from build_tools.figure.geometry import left_of
from build_tools.figure.ground import DOT_RADIUS, SMALL_DOT_RADIUS, Ground, is_straight
from build_tools.figure.labels import HEAD_WIDTH, SIGN_HALF, Outside, bounds, label_mark, letter_mark, polarity_mark
from build_tools.figure.layout import Spot
from build_tools.figure.lettering import SUBSCRIPT_DROP, SUBSCRIPT_SIZE
from build_tools.figure.rings import RING_MARGIN, loop_mark, loop_outline
from build_tools.figure.schematic import number_text, pair_text
from build_tools.laws.topology import Topology

_RING_GAP = 0.32
_THIN = {"fill": "none", "stroke": "currentColor", "stroke-width": "1.5", "stroke-linecap": "round"}


def outside_sides(ground: Ground) -> Outside:
    """Find the sides of parts that face out of the circuit."""
    found = {}
    for name, seat in ground.seats.items():
        left = left_of(seat.facing)
        found[name, True] = ground.faces_outside(seat.centre, left)
        found[name, False] = ground.faces_outside(seat.centre, (-left[0], -left[1]))
    return found


def gather_marks(topology: Topology, ground: Ground, outside: Outside) -> tuple[Mark, ...]:
    """List every mark of a figure with all its candidates, in the order in which they are placed."""
    parts = topology.circuit.parts
    left, top, right, bottom = bounds(ground)
    middle = ((left + right) / 2, (top + bottom) / 2)
    outlines = {loop.name: loop_outline(ground, loop) for loop in topology.loops}
    return (
        *(label_mark(ground, part, outside) for part in parts),
        *(polarity_mark(ground, part) for part in parts if part.kind is Kind.BATTERY),
        *(arrow_mark(ground, branch) for branch in topology.branches),
        *(letter_mark(ground, point, spot, middle) for point in ground.layout.places for spot in ground.dots_of(point)),
        *(loop_mark(ground, loop, outlines) for loop in topology.loops),
    )


def place_marks(topology: Topology, ground: Ground, outside: Outside, *, hasty: bool = True) -> tuple[tuple[Mark, ...], Choice] | None:
    """Place every mark; nothing where some mark has no candidate at all."""
    marks = gather_marks(topology, ground, outside)
    if not all(mark.candidates for mark in marks):
        return None
    bodies = [(owner, box) for kind, owner, box in ground.obstacles if kind == "body"]
    return marks, choose_places(marks, [box for _, _, box in ground.obstacles], bodies, hasty=hasty)


def draw_mark(mark: Mark, place: Candidate, topology: Topology, ground: Ground) -> Element:
    """Draw one mark as a group that names it."""
    drawn: dict[str, Callable[[], Element]] = {
        "label": lambda: Element("g", {"class": "label", "data-part": mark.name}),
        "polarity": lambda: _draw_polarity(mark.name, place),
        "letter": lambda: _draw_point(mark.name, place.spots[0], topology, ground),
        "arrow": lambda: _draw_arrow(mark.name, place),
        "loop": lambda: _draw_loop(mark.name, place),
    }
    group = drawn[mark.kind]()
    for text in place.texts:
        _write(group, text)
    return group


def _write(group: Element, text: Text) -> None:
    """Write one line, letter by letter in its style."""
    x, y = text.spot
    attributes = {"x": number_text(x), "y": number_text(y), "text-anchor": text.anchor}
    line = SubElement(group, "text", attributes)
    lowered = False
    for run in text.line:
        style = {"font-style": "italic"} if run.italic else {}
        if run.subscript:
            style |= {"font-size": number_text(SUBSCRIPT_SIZE), "dy": number_text(SUBSCRIPT_DROP)}
        elif lowered:
            style |= {"dy": number_text(-SUBSCRIPT_DROP)}
        lowered = run.subscript
        SubElement(line, "tspan", style).text = run.text


def _draw_polarity(name: str, place: Candidate) -> Element:
    """Plus and minus as strokes; each is level or upright, however the battery lies."""
    group = Element("g", {"class": "polarity", "data-part": name})
    plus, minus = place.spots
    across = f"M{pair_text((plus[0] - SIGN_HALF, plus[1]))}H{number_text(plus[0] + SIGN_HALF)}"
    up = f"M{pair_text((plus[0], plus[1] - SIGN_HALF))}V{number_text(plus[1] + SIGN_HALF)}"
    SubElement(group, "path", {"class": "plus", "d": across + up, **_THIN})
    dash = f"M{pair_text((minus[0] - SIGN_HALF, minus[1]))}H{number_text(minus[0] + SIGN_HALF)}"
    SubElement(group, "path", {"class": "minus", "d": dash, **_THIN})
    return group


def _draw_point(point: str, spot: Spot, topology: Topology, ground: Ground) -> Element:
    """One dot of a point, where lines meet or pass straight through; its letter follows."""
    junction = any(point in junction.points for junction in topology.junctions)
    group = Element("g", {"class": "junction", "data-junction": point} if junction else {"class": "point", "data-point": point})
    ways = ground.ways_at(spot)
    if len(ways) >= 3 or is_straight(ways):
        radius = DOT_RADIUS if len(ways) >= 3 else SMALL_DOT_RADIUS
        place = {"cx": number_text(spot[0]), "cy": number_text(spot[1]), "r": number_text(radius)}
        SubElement(group, "circle", {"class": "dot", **place})
    return group


def _draw_arrow(name: str, place: Candidate) -> Element:
    group = Element("g", {"class": "arrow", "data-current": name})
    spot = place.spots[0]
    stand = SubElement(group, "g", {"transform": f"translate({pair_text(spot)}) rotate({number_text(place.turn)})"})
    turn = SubElement(stand, "g", {"class": "turn"})
    half = number_text(HEAD_WIDTH / 2)
    head = f"M{number_text(HEAD_HALF)} 0L{number_text(-HEAD_HALF)} {half}V-{half}Z"
    SubElement(turn, "path", {"class": "head", "d": head})
    return group


def _draw_loop(name: str, place: Candidate) -> Element:
    """A ring, open at the top right, with an arrowhead at its end; mirrored where the walk is anticlockwise."""
    group = Element("g", {"class": "loop", "data-loop": name})
    box = place.boxes[0]
    radius = (box[2] - box[0]) / 2 - RING_MARGIN
    mirrored = " scale(-1 1)" if place.turn < 0 else ""
    stand = SubElement(group, "g", {"transform": f"translate({pair_text(place.spots[0])}){mirrored}"})
    turn = SubElement(stand, "g", {"class": "turn"})
    begin, end = -pi / 2 + _RING_GAP, 1.5 * pi - _RING_GAP - 0.35
    ring = f"M{pair_text(_on_ring(radius, begin))}A{number_text(radius)} {number_text(radius)} 0 1 1 {pair_text(_on_ring(radius, end))}"
    SubElement(turn, "path", {"class": "ring", "d": ring, **_THIN})
    tip = _on_ring(radius, end + 0.42)
    sides = (_on_ring(radius - 4, end - 0.12), _on_ring(radius + 4, end - 0.12))
    head = f"M{pair_text(tip)}L{pair_text(sides[0])}L{pair_text(sides[1])}Z"
    SubElement(turn, "path", {"class": "head", "d": head})
    return group


def _on_ring(radius: float, angle: float) -> Spot:
    return (radius * cos(angle), radius * sin(angle))
