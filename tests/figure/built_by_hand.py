"""Topologies and layouts written down by hand, as the laws room would find them."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, sin

from build_tools.circuit.circuit import Circuit, Drawing, Kind, Part
from build_tools.circuit.quantity import Dimension, parse_quantity
from build_tools.figure.layout import Layout, Spot
from build_tools.laws.topology import Branch, Junction, Loop, Step, Topology

kinds = {"E": Kind.BATTERY, "R": Kind.RESISTOR, "W": Kind.WIRE, "K": Kind.SWITCH,
         "A": Kind.AMMETER, "M": Kind.VOLTMETER, "C": Kind.CAPACITOR}  # fmt: skip
dimensions = {Kind.BATTERY: Dimension.EMF, Kind.CAPACITOR: Dimension.CAPACITANCE}


def make_part(line: str) -> Part:
    """Read "E1 a b 12 V, 0.5 ohm", "K1 c d open": name, start, end, then value or state."""
    name, start, end, rest = [*line.split(maxsplit=3), ""][:4]
    kind = kinds[name[0]]
    value, _, inside = rest.partition(", ")
    return Part(
        name=name, kind=kind, start=start, end=end,
        value=parse_quantity(value, dimensions.get(kind, Dimension.RESISTANCE)) if " " in value else None,
        internal_resistance=parse_quantity(inside, Dimension.RESISTANCE) if inside else None,
        state=value if " " not in value else "",
    )  # fmt: skip


def make(
    parts: str,
    branches: Iterable[str],
    loops: Iterable[str] = (),
    junctions: str = "",
    joined: tuple[tuple[str, str], ...] = (),
) -> Topology:
    """Build a topology by hand; a way is "I1 b e R1 -E1", a loop "L1 a E1 -R2", a minus for walked backwards."""
    every = {part.name: part for part in map(make_part, parts.strip().splitlines())}
    circuit = Circuit("bank", "", "", "core", (), (), tuple(every.values()), drawing=Drawing(joined=joined))
    node = {point: point for point in circuit.points}
    for first, second in joined:
        node = {point: node[first] if place == node[second] else place for point, place in node.items()}
    ways = [way.split() for way in branches]
    live = {name.lstrip("-") for way in ways for name in way[3:]}

    def steps(names: list[str]) -> tuple[Step, ...]:
        return tuple(Step(every[name.lstrip("-")], name[0] != "-") for name in names)

    return Topology(
        circuit, node,
        tuple(Junction(name=name, points=(name,), used=number > 0) for number, name in enumerate(junctions.split())),
        tuple(Branch(current=way[0], start=way[1], end=way[2], steps=steps(way[3:])) for way in ways),
        tuple(Loop(name=way[0], start=way[1], steps=steps(way[2:])) for way in (loop.split() for loop in loops)),
        tuple(part for part in every.values() if part.name not in live),
    )  # fmt: skip


def drawn(topology: Topology, places: dict[str, Spot] | None = None) -> Layout:
    """Draw every part straight between its ends, or as the file says; points without a place go on a circle."""
    drawing = topology.circuit.drawing
    every: dict[str, Spot] = {point: (90 * cos(i), 90 * sin(i)) for i, point in enumerate(topology.circuit.points)}
    every |= {point: (float(80 * x), float(-80 * y)) for point, (x, y) in drawing.places.items()} | (places or {})
    bends = {name: [(float(80 * x), float(-80 * y)) for x, y in way] for name, way in drawing.bends.items()}
    return Layout(
        places=every,
        routes={part.name: (every[part.start], *bends.get(part.name, []), every[part.end]) for part in topology.circuit.parts},
        lines=tuple((every[first], every[second]) for first, second in drawing.joined),
    )
