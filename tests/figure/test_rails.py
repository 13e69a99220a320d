"""Circuits without coordinates: what is drawn is the circuit, tidy, and the same on every machine."""

from __future__ import annotations

import random
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from time import perf_counter

import networkx
import pytest

from build_tools.circuit.circuit import Circuit, Drawing, Kind
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.figure.layout import Layout, body_leg
from build_tools.figure.placing import place_circuit
from build_tools.figure.rails import as_source, lay_out
from build_tools.laws.node import find_nodes
from build_tools.laws.topology import Topology
from tests.figure.built_by_hand import make_part
from tests.figure.read_back import count_corners, find_faults, legs_of

published = sorted((Path(__file__).parents[1] / "published" / "circuits").glob("*.toml"))
width_aim = 410


def make_circuit(parts: str, *joined: tuple[str, str]) -> Circuit:
    """A circuit from lines such as "E1 a b 12 V"."""
    made = tuple(make_part(line.strip()) for line in parts.strip().split(";"))
    return Circuit("made", "", "", "core", (), (), made, drawing=Drawing(joined=joined))


def net(edges: str) -> str:
    """Parts between points of one letter each: "ab bc ca" is a battery and two resistors."""
    return "; ".join(f"{'R' if n else 'E'}{n} {e[0]} {e[1]} {n + 1} {'ohm' if n else 'V'}" for n, e in enumerate(edges.split()))


def lay(circuit: Circuit) -> tuple[Layout, ...]:
    """Lay out a circuit; only its parts and points matter for that."""
    empty = replace(circuit.drawing, places={}, bends={})
    circuit = replace(circuit, drawing=empty)
    return lay_out(Topology(circuit, find_nodes(circuit), (), (), (), ()))


awkward = {
    "one battery, one resistor": ("E1 a b 12 V; R1 b a 5 ohm", ()),
    "a loop of eight parts": (net("ab bc cd de ef fg gh ha"), ()),
    "two loops that touch in one point": (net("ab bc ca ad de ea"), ()),
    "two loops of two parts that touch": (net("ab ba ac ca"), ()),
    "a loop hanging on a loop by a part": (net("ab bc ca cd de ef fd"), ()),
    "a dead end": (net("ab bc ca cd de"), ()),
    "dead ends everywhere": (net("ab bc ca ad be cf"), ()),
    "an open chain": (net("ab bc cd"), ()),
    "one part alone": ("R1 a b 5 ohm", ()),
    "a star": (net("ab ac ad ae"), ()),
    "two parallel parts and a battery": (net("ab ab ab"), ()),
    "eight parallel parts": (net("ab ab ab ab ab ab ab ab"), ()),
    "parallel parts in two places": (net("ab bc bc cd cd da"), ()),
    "pieces joined only through capacitors": ("E1 a b 6 V; R1 b a 5 ohm; C1 b c 1 uF; R2 c d 3 ohm; E2 d c 2 V; C2 d a 1 uF", ()),
    "two pieces": (net("ab ba cd dc"), ()),
    "an open switch and a voltmeter": ("E1 a b 6 V; K1 b c open; R1 c a 2 ohm; M1 c a ideal; A1 c d ideal; R2 d a 1 ohm", ()),
    "a bare wire between junctions": ("E1 a b 6 V; R1 b c 1 ohm; R2 c d 1 ohm; W1 b e bare; R3 e d 1 ohm; R4 c e 2 ohm; W2 d a bare", ()),
    "five parts in one chain": (net("ab bc cd de ef fa bf"), ()),
    "a ladder": (net("ab bc ca cd da de ea ef fa"), ()),
    "the long unnamed way round": (net("ab bc cd da ac bd"), ()),
    "joined points": (net("ab bc cg cg ba"), (("a", "g"),)),
    "joined points in a loop": (net("ab bc"), (("a", "c"),)),
    "joined points, three parts at each": (net("ab ab ab gb gc gc cb"), (("a", "g"),)),
    "three points joined": (net("ab bc ch"), (("a", "g"), ("g", "h"))),
    "joined twice over": (net("ab bc ch"), (("a", "g"), ("g", "h"), ("h", "a"))),
    "a part with both ends at one place": ("E1 a b 6 V; R1 b a 1 ohm; W1 a g bare", (("a", "g"),)),
    "a lone part with both ends at one place": ("R1 a g 1 ohm", (("a", "g"),)),
    "a prism": (net("ab bc ca de ef fd ad be cf"), ()),
    "an octahedron": (net("ab bc ca de ef fd ad be cf ae bf cd"), ()),
    "a cube": (net("ab bc cd da ef fg gh he ae bf cg dh"), ()),
    "a grid": (net("ab bc de ef gh hi ad dg be eh cf fi"), ()),
    "a dodecahedron": (
        net("ab bc cd de ea af bg ch di ej fk kg gl lh hm mi in nj jo of kp lq mr ns ot pq qr rs st tp"), ()),
    "every two of five points": (net("ab ac ad ae bc bd be cd ce de"), ()),
    "three points with three": (net("ad ae af bd be bf cd ce cf"), ()),
    "every two of six points": (net("ab ac ad ae af bc bd be bf cd ce cf de df ef"), ()),
    "Petersen's net": (net("ab bc cd de ea af bg ch di ej fh hj jg gi if"), ()),
}  # fmt: skip
crossings = {"every two of five points": 1, "three points with three": 1, "every two of six points": 12, "Petersen's net": 8}


@pytest.mark.parametrize("path", published, ids=lambda path: path.stem)
def test_published_circuit_is_drawn_as_it_is(path: Path) -> None:
    """Each published circuit can be read back out of each of its drawings, which touch nowhere else."""
    circuit = read_circuit(read_source(path))
    for layout in lay(circuit):
        assert find_faults(circuit, layout) == []


@pytest.mark.parametrize("name", awkward)
def test_awkward_circuit_is_drawn_as_it_is(name: str) -> None:
    """Hand-made circuits that are hard to draw can be read back out of their drawings."""
    parts, joined = awkward[name]
    circuit = make_circuit(parts, *joined)
    for layout in lay(circuit):
        assert find_faults(circuit, layout, crossings.get(name, 0)) == []


def random_circuit(seed: int) -> Circuit:
    """A connected circuit with two to nine points and up to a dozen parts of every kind."""
    pick = random.Random(seed)
    points = "abcdefghi"[: pick.randint(2, 9)]
    edges = [(point, pick.choice(points[:number])) for number, point in enumerate(points) if number]
    edges += [
        (points[one], points[other]) for one, other in (pick.sample(range(len(points)), 2) for _ in range(pick.randint(0, 12 - len(edges))))
    ]
    kinds = ["E{} {} {} 6 V", "R{} {} {} 2 ohm", "R{} {} {} 2 ohm", "W{} {} {} bare", "K{} {} {} open", "C{} {} {} 1 uF", "M{} {} {} ideal"]
    parts = "; ".join(pick.choice(kinds).format(number, *edge) for number, edge in enumerate(edges))
    free = [(a, b) for a in points for b in points if a < b and not {(a, b), (b, a)} & set(edges)]
    joined = [pick.choice(free)] if free and pick.random() < 0.3 else []
    return make_circuit(parts, *joined)


@pytest.mark.parametrize("block", range(6))
def test_random_circuit_is_drawn_as_it_is(block: int) -> None:
    """Random circuits can be read back; those that are planar have no crossing."""
    for seed in range(block * 16, block * 16 + 16):
        circuit = random_circuit(seed)
        edges = [*((part.start, part.end) for part in circuit.parts), *circuit.drawing.joined]
        planar = networkx.check_planarity(networkx.Graph(edges))[0]
        for layout in lay(circuit):
            assert find_faults(circuit, layout, 0 if planar else 20) == [], f"seed {seed}"


def test_fault_finder_sees_a_turned_part_a_lost_line_and_a_shifted_point() -> None:
    """What reads drawings back does notice a wrong one."""
    circuit = make_circuit(net("ab bc ca bd dc"))
    layout = lay(circuit)[0]
    turned = replace(layout, routes=layout.routes | {"R1": layout.routes["R1"][::-1]})
    moved = replace(layout, places=layout.places | {"d": layout.places["b"]})
    crossed = replace(layout, lines=(*layout.lines, ((-50.0, 40.0), (900.0, 40.0))))
    for wrong in (turned, moved, crossed):
        assert find_faults(circuit, wrong) != []


@pytest.mark.parametrize("path", published, ids=lambda path: path.stem)
def test_every_mesh_of_a_published_circuit_is_a_rectangle(path: Path) -> None:
    """Inner loops and the outline have four corners each."""
    circuit = read_circuit(read_source(path))
    for layout in lay(circuit):
        assert set(count_corners(layout)) == {4}


def shares(layouts: list[tuple[Circuit, Layout]]) -> tuple[int, int, int]:
    """How many batteries there are, how many stand upright, and how many drawings have one at their left edge."""
    batteries = upright = at_left = 0
    for circuit, layout in layouts:
        edge = min(x for route in layout.routes.values() for x, _ in route)
        legs = [
            route[leg : leg + 2]
            for part in circuit.parts
            if part.kind is Kind.BATTERY
            for route in (layout.routes[part.name],)
            for leg in (body_leg(route, part.kind),)
        ]
        batteries += len(legs)
        upright += sum(one[0] == two[0] for one, two in legs)
        at_left += any(one[0] == two[0] == edge for one, two in legs)
    return batteries, upright, at_left


def test_batteries_stand_upright_at_the_left_and_figures_fit_a_phone() -> None:
    """Over the published circuits: every battery upright, one at the left edge, few columns, and quick."""
    begin = perf_counter()
    layouts = []
    for path in published:
        circuit = read_circuit(read_source(path))
        layouts.append((circuit, lay(circuit)[0]))
    print(f"{(perf_counter() - begin) / len(layouts):.3f} s for a published circuit at the mean")
    batteries, upright, at_left = shares(layouts)
    assert upright == batteries
    assert at_left == len(layouts)
    widths = sorted(max(x for r in layout.routes.values() for x, _ in r) for _, layout in layouts)
    print(f"width without labels: median {widths[len(widths) // 2]:.0f} px, widest {widths[-1]:.0f} px")
    assert widths[-1] < width_aim


def test_dodecahedron_is_drawn_in_time() -> None:
    """Twenty junctions and thirty parts are drawn without a crossing; how long that took is printed."""
    circuit = make_circuit(awkward["a dodecahedron"][0])
    begin = perf_counter()
    layout = lay(circuit)[0]
    print(f"{perf_counter() - begin:.2f} s for a dodecahedron")
    assert len(layout.routes) == 30


printer = """
import sys
sys.path.insert(0, sys.argv[1])
from tests.figure.test_rails import awkward, lay, make_circuit
for parts, joined in awkward.values():
    print(lay(make_circuit(parts, *joined)))
"""


def test_layout_does_not_depend_on_the_hash_seed() -> None:
    """Two processes with different hash seeds draw every awkward circuit the same."""
    root = str(Path(__file__).parents[2])
    told = [
        subprocess.run([sys.executable, "-c", printer, root], env={"PYTHONHASHSEED": seed}, capture_output=True, text=True, check=True)
        for seed in ("1", "2")
    ]
    assert told[0].stdout == told[1].stdout
    assert told[0].stdout.count("Layout(") >= len(awkward)


def ink(layout: Layout) -> set[tuple[tuple[int, ...], ...]]:
    """Everything drawn, cut into pieces of one grid step."""
    found: set[tuple[tuple[int, ...], ...]] = set()
    for _, ((x1, y1), (x2, y2)) in legs_of(layout):
        steps = round((abs(x2 - x1) + abs(y2 - y1)) / 9)
        for number in range(steps):
            at = [round((a + (b - a) * (number + half) / steps) * 10) for half in (0, 1) for a, b in ((x1, x2), (y1, y2))]
            found.add(tuple(sorted((tuple(at[:2]), tuple(at[2:])))))
    return found


def bodies(circuit: Circuit, layout: Layout) -> dict[str, tuple[float, float]]:
    """The middle of every part's body."""
    found = {}
    for part in circuit.parts:
        route = layout.routes[part.name]
        leg = body_leg(route, part.kind)
        (x1, y1), (x2, y2) = route[leg : leg + 2]
        found[part.name] = (round((x1 + x2) / 2, 3), round((y1 + y2) / 2, 3))
    return found


def write_file(circuit: Circuit, layout: Layout) -> str:
    """A whole circuit file with its layout written down."""
    words = {
        Kind.BATTERY: '{{ battery = "6 V", minus = "{}", plus = "{}" }}',
        Kind.RESISTOR: '{{ resistor = "2 ohm", between = ["{}", "{}"] }}',
    }
    parts = [f"{part.name} = {words[part.kind].format(part.start, part.end)}" for part in circuit.parts]
    return "\n".join(['title = "T"', 'question = "Q"', 'level = "core"', 'topics = ["t"]', "[parts]", *parts, as_source(layout, circuit)])


written = ("a loop of eight parts", "eight parallel parts", "a ladder", "a cube", "an octahedron", "joined points", "a dead end")


@pytest.mark.parametrize("name", written)
def test_layout_written_as_source_reads_back_as_the_same_drawing(name: str, tmp_path: Path) -> None:
    """An author who pastes the printed coordinates gets the drawing they came from."""
    parts, joined = awkward[name]
    circuit = make_circuit(parts, *joined)
    layout = lay(circuit)[0]
    path = tmp_path / "kept.toml"
    path.write_text(write_file(circuit, layout), encoding="utf-8")
    again = place_circuit(read_circuit(read_source(path)), 36.0)
    left, bottom = (pick(spot[axis] for way in layout.routes.values() for spot in way) for axis, pick in ((0, min), (1, max)))
    moved = Layout(
        places={point: (x + left, y + bottom) for point, (x, y) in again.places.items()},
        routes={part: tuple((x + left, y + bottom) for x, y in route) for part, route in again.routes.items()},
        lines=tuple(tuple((x + left, y + bottom) for x, y in line) for line in again.lines),
    )
    assert moved.places == layout.places
    assert bodies(circuit, moved) == bodies(circuit, layout)
    assert ink(moved) == ink(layout)
