"""Coordinates become a layout drawn exactly as told, or are refused with the names of the parts."""

from __future__ import annotations

from math import dist

import pytest

from build_tools.circuit.circuit import Kind
from build_tools.figure.figure import draw_figure
from build_tools.figure.geometry import overlap
from build_tools.figure.ground import lay_ground
from build_tools.figure.layout import body_leg
from build_tools.figure.overlaps import find_overlaps
from build_tools.figure.placing import BODY_LEG, place_circuit, smallest_scale
from build_tools.figure.seating import find_hops
from tests.figure.drawings import CROSSED, EVERY_KIND, WHEATSTONE, circuit_of, example, examples, topology_of

BENT = """
[points]
a = [0, 0]
b = [0, 3]
[parts]
E1 = { battery = "12 V", minus = "a", plus = "b" }
R1 = { resistor = "1 ohm", between = ["b", "a"] }
[drawing]
bends.R1 = [[5, 3], [5, 0]]
"""

SQUARE = """
[points]
a = [0, 0]
b = [0, 4]
c = [4, 4]
d = [4, 0]
{points}
[parts]
E1 = {{ battery = "12 V", minus = "a", plus = "b" }}
R1 = {{ resistor = "1 ohm", between = ["b", "c"] }}
R2 = {{ resistor = "2 ohm", between = ["c", "d"] }}
R3 = {{ resistor = "3 ohm", between = ["d", "a"] }}
{parts}
[drawing]
{drawing}
"""


def test_y_runs_upwards_in_the_file_and_downwards_in_the_figure() -> None:
    """A point that stands higher on the grid stands higher in the figure."""
    layout = place_circuit(circuit_of(BENT), 10)
    assert layout.places == {"a": (0, 0), "b": (0, -30)}


def test_corner_points_are_passed_from_start_to_end() -> None:
    """A bent part keeps its corners, in order."""
    layout = place_circuit(circuit_of(BENT), 10)
    assert layout.routes["R1"] == ((0, -30), (50, -30), (50, 0), (0, 0))


def test_shape_is_kept_where_the_figure_is_not_too_wide() -> None:
    """A drawing with diagonals is only enlarged: all distances keep their ratio."""
    circuit = circuit_of(WHEATSTONE)
    told, shown = place_circuit(circuit), draw_figure(topology_of(WHEATSTONE)).layout
    scale = dist(shown.places["a"], shown.places["b"]) / dist(told.places["a"], told.places["b"])
    for one in told.places:
        for other in told.places:
            apart = scale * dist(told.places[one], told.places[other])
            assert dist(shown.places[one], shown.places[other]) == pytest.approx(apart, abs=0.2)


@pytest.mark.parametrize("path", [path for path in examples if example(path).circuit.drawing.places], ids=lambda path: path.stem)
def test_every_body_has_room_on_its_leg(path) -> None:
    """At the smallest scale each leg with a body is long enough, and no body touches another."""
    circuit = example(path).circuit
    layout = place_circuit(circuit, max(smallest_scale(circuit)))
    for part in circuit.parts:
        route = layout.routes[part.name]
        leg = body_leg(route, part.kind)
        assert part.kind is Kind.WIRE or dist(route[leg], route[leg + 1]) >= BODY_LEG - 0.01


def test_bodies_give_way_to_a_crossing() -> None:
    """Where two diagonals cross in mid-span both bodies move aside, and one way hops."""
    topology = topology_of(CROSSED)
    ground = lay_ground(topology.circuit, draw_figure(topology).layout)
    assert len(ground.hops) == 1
    assert not any(overlap(one, other) for one in ground.seats["R4"].boxes for other in ground.seats["R5"].boxes)
    for name in ("R4", "R5"):
        assert dist(ground.seats[name].centre, ground.hops[0].spot) > 25


def test_the_more_level_way_hops() -> None:
    """A level way hops over an upright one, whichever comes first."""
    body = SQUARE.format(
        points="e = [2, 6]\nf = [2, -2]",
        parts='W1 = { wire = "bare", between = ["e", "f"] }\nR5 = { resistor = "1 ohm", between = ["a", "e"] }',
        drawing="",
    )
    assert {hop.owner for hop in find_hops(place_circuit(circuit_of(body), 30))} == {"R1", "R3"}


@pytest.mark.parametrize(
    ("points", "between", "drawing", "wanted"),
    [
        (
            "",
            "ba",
            "",
            ["parts.R4: expected parts clear of each other, got E1 and R4 on top of each other; give one of them"],
        ),
        ("", "bd", "bends.R4 = [[3, 4], [3, 0]]", ["R1 and R4 on top of each other", "R3 and R4 on top of each other"]),
        ("e = [2, 4]", "ed", "", ["parts.R1: expected a way clear of all other points, got point e on the way of R1; move e"]),
        ("", "ac", "bends.R4 = [[2, 4], [2, 2]]", ["R1 and R4 touching at a corner"]),
        ("", "ac", "bends.R4 = [[4, 2], [3, 3]]", ["R2 and R4 touching at a corner"]),
        ("", "ac", "bends.R4 = [[2, 1], [2, 1]]", ["R4 with two of its places in one"]),
        ("", "ac", "bends.R4 = [[3, 1], [3, 3], [1, 1]]", ["R4 crossing or folding back on itself"]),
        ("", "ac", "bends.R4 = [[2, 1], [1, 0.5]]", ["R4 crossing or folding back on itself"]),
        ("e = [0, 9]", "ec", 'joined = [["a", "e"]]', ["point b on the way of the line from a to e"]),
        ("e = [0, 9]", "ec", 'joined = [["a", "e"]]', ["drawing.joined.0: expected parts clear of each other, got E1 and the line"]),
        ("e = [99, 0]", "ec", 'joined = [["d", "e"]]', ["symbol and line, got E1 with a way", "symbol and line, got R1 with a way"]),
    ],
)
def test_what_cannot_be_drawn_is_refused_by_name(points: str, between: str, drawing: str, wanted: list[str]) -> None:
    """Each overlap is told with the names of what overlaps."""
    part = f'R4 = {{ resistor = "1 ohm", between = ["{between[0]}", "{between[1]}"] }}'
    told = [str(problem) for problem in find_overlaps(circuit_of(SQUARE.format(points=points, parts=part, drawing=drawing)))]
    for text in wanted:
        assert any(text in line for line in told), told


@pytest.mark.parametrize("path", examples, ids=lambda path: path.stem)
def test_no_example_overlaps(path) -> None:
    """Every example can be drawn as told."""
    assert find_overlaps(example(path).circuit) == ()


@pytest.mark.parametrize("body", [CROSSED, EVERY_KIND, WHEATSTONE])
def test_crossings_in_mid_span_are_no_overlap(body: str) -> None:
    """A hop can be drawn, so nothing is refused."""
    assert find_overlaps(circuit_of(body)) == ()
