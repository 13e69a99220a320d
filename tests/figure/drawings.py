"""Circuits to draw: from text, from the examples' folder, and what is read back out of their figures."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

from build_tools.circuit.circuit import Circuit
from build_tools.circuit.position import find_positions
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import CircuitSource, parse_toml, read_source
from build_tools.figure.figure import Figure, draw_figure
from build_tools.laws.survey import find_topology
from build_tools.laws.topology import Topology

examples = tuple(sorted(Path("circuits").glob("*.toml")))
SVG = "{http://www.w3.org/2000/svg}"


def circuit_of(body: str) -> Circuit:
    """Read a circuit from the sections of its file."""
    text = f'title = "t"\nquestion = "q"\nlevel = "core"\ntopics = ["t"]\n{body}'
    return read_circuit(CircuitSource("circuits/t.toml", "t", text, parse_toml(text), find_positions(text)))


def topology_of(body: str) -> Topology:
    """The topology of a circuit given by the sections of its file."""
    return find_topology(circuit_of(body))


@cache
def example(path: Path) -> Topology:
    """One of the examples."""
    return find_topology(read_circuit(read_source(path)))


@cache
def figure_of(path: Path) -> Figure:
    """The figure of one of the examples."""
    return draw_figure(example(path))


def parsed(figure: Figure) -> Element:
    """The figure's svg element."""
    return ElementTree.fromstring(figure.svg)


def group(root: Element, kind: str, **data: str) -> Element:
    """The only group of a class with the given data attributes."""
    wanted = {"class": kind, **{f"data-{key}": value for key, value in data.items()}}
    found = [each for each in root.iter(f"{SVG}g") if wanted.items() <= each.attrib.items()]
    assert len(found) == 1, (kind, data, len(found))
    return found[0]


def spots_of(path: str) -> list[tuple[float, float]]:
    """The spots of path data written with M, L and A only."""
    numbers = [list(map(float, words.split())) for words in re.findall(r"[MLA]([^MLA]*)", path)]
    return [(words[-2], words[-1]) for words in numbers]


def standing(each: Element) -> tuple[float, float]:
    """Where a turned or mirrored group stands."""
    match = re.match(r"translate\((\S+) (\S+)\)", each[0].get("transform", ""))
    assert match
    return float(match[1]), float(match[2])


WHEATSTONE = """
[points]
a = [0, 0]
b = [0, 4]
c = [3, 6]
d = [3, -2]
e = [6, 2]
[parts]
E1 = { battery = "12 V", minus = "a", plus = "b" }
R1 = { resistor = "1 ohm", between = ["b", "c"] }
R2 = { resistor = "2 ohm", between = ["a", "d"] }
R3 = { resistor = "3 ohm", between = ["c", "e"] }
R4 = { resistor = "4 ohm", between = ["d", "e"] }
W1 = { wire = "bare", between = ["c", "d"] }
"""
"""Diagonals all round."""

CROSSED = """
[points]
a = [0, 0]
b = [0, 4]
c = [4, 4]
d = [4, 0]
[parts]
E1 = { battery = "12 V", minus = "a", plus = "b" }
R1 = { resistor = "1 ohm", between = ["b", "c"] }
R2 = { resistor = "2 ohm", between = ["c", "d"] }
R3 = { resistor = "3 ohm", between = ["d", "a"] }
R4 = { resistor = "4 ohm", between = ["a", "c"] }
R5 = { resistor = "5 ohm", between = ["b", "d"] }
"""
"""Two diagonals that cross in the middle, where both bodies would stand."""

EVERY_KIND = """
[points]
a = [0, 0]
b = [0, 2]
c = [2, 2]
d = [4, 2]
e = [6, 2]
f = [6, 0]
g = [4, 0]
h = [2, 0]
k = [8, 2]
m = [8, 0]
[parts]
E1 = { battery = "12.6 V", minus = "a", plus = "b", internal_resistance = "0.2 ohm" }
R1 = { resistor = "4.7 kohm", between = ["b", "c"] }
M1 = { voltmeter = "ideal", between = ["c", "h"] }
A1 = { ammeter = "0.1 ohm", between = ["c", "d"] }
C1 = { capacitor = "10 uF", between = ["d", "g"] }
K1 = { switch = "open", between = ["e", "k"] }
K2 = { switch = "closed", between = ["d", "e"] }
R2 = { resistor = "1 kohm", between = ["e", "f"] }
R3 = { resistor = "2 kohm", between = ["k", "m"] }
W1 = { wire = "bare", between = ["f", "g"] }
W2 = { wire = "bare", between = ["g", "h"] }
W3 = { wire = "bare", between = ["h", "a"] }
W4 = { wire = "bare", between = ["f", "m"] }
"""
