"""Labels, polarity, letters, arrows and loop marks: each in a place of its own, and each telling the truth."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations
from math import atan2, cos, degrees, dist, radians, sin

import pytest

from build_tools.circuit.circuit import Kind
from build_tools.figure.arrows import HEAD_HALF
from build_tools.figure.captions import label_blocks
from build_tools.figure.figure import Figure, draw_figure
from build_tools.figure.geometry import distance_from, inside, legs_of, overlap, signed_area
from build_tools.figure.ground import lay_ground
from build_tools.figure.growing import grow_laid_out, grow_placed
from build_tools.figure.lettering import Run, name_runs
from build_tools.figure.rails import lay_out
from build_tools.figure.rings import loop_outline
from build_tools.figure.schematic import number_text
from build_tools.laws.topology import Topology
from tests.figure.drawings import (
    CROSSED,
    EVERY_KIND,
    SVG,
    WHEATSTONE,
    example,
    examples,
    figure_of,
    group,
    parsed,
    standing,
    topology_of,
)

bodies = {"crossed": CROSSED, "every kind": EVERY_KIND, "diagonals": WHEATSTONE}
drawings = [*(pytest.param(path, id=path.stem) for path in examples), *bodies]


def found(drawing: object) -> Topology:
    """The topology of an example or of one of the bodies."""
    return topology_of(bodies[drawing]) if isinstance(drawing, str) else example(drawing)


@cache
def shown(drawing: object) -> Figure:
    """The figure of an example or of one of the bodies."""
    return draw_figure(found(drawing)) if isinstance(drawing, str) else figure_of(drawing)


@pytest.mark.parametrize(
    ("name", "runs"),
    [
        ("R1", (Run("R", italic=True), Run("1", subscript=True))),
        ("Rpump", (Run("R", italic=True), Run("pump", subscript=True))),
        ("a", (Run("a", italic=True),)),
        ("b12", (Run("b", italic=True), Run("12", subscript=True))),
        ("top", (Run("top", italic=True),)),
        ("I3", (Run("I", italic=True), Run("3", subscript=True))),
    ],
)
def test_names_are_set_as_symbols(name: str, runs: tuple[Run, ...]) -> None:
    """The letter is italic, the rest an upright subscript; a word stays a word."""
    assert name_runs(name) == runs


@pytest.mark.parametrize(
    ("part", "lines"),
    [
        ("E1", ["E1 = 12.6 V", "r = 0.2 Ω"]),
        ("R1", ["R1 = 4.7 kΩ"]),
        ("C1", ["C1 = 10 µF"]),
        ("A1", ["A1 = 0.1 Ω"]),
        ("M1", ["M1"]),
        ("K1", ["K1"]),
        ("W1", ["W1"]),
    ],
)
def test_label_tells_name_and_value(part: str, lines: list[str]) -> None:
    """What is written beside a part, with no-break spaces."""
    block = label_blocks(topology_of(EVERY_KIND).circuit.part[part])[0]
    shown = ["".join(run.text for run in line) for line in block.lines]
    assert [line.replace("\u00a0", " ") for line in shown] == lines
    assert not any(" " in line for line in shown)


@pytest.mark.parametrize("drawing", drawings)
def test_nothing_touches_anything(drawing: object) -> None:
    """No mark's box shares area with another mark's, a body, a line or a dot."""
    topology = found(drawing)
    attempt = grow_placed(topology) if topology.circuit.drawing.places else grow_laid_out(topology, lay_out(topology))
    assert attempt.choice.clashes == 0
    pairs = list(zip(attempt.marks, attempt.choice.places, strict=True))
    for (one, place), (other, elsewhere) in combinations(pairs, 2):
        assert not any(overlap(a, b) for a in place.boxes for b in elsewhere.boxes), (one.name, other.name)
    for mark, place in pairs:
        for number, box in enumerate(place.boxes):
            for index, (kind, owner, obstacle) in enumerate(attempt.ground.obstacles):
                if not (number == 0 and index in mark.ignores):
                    assert not overlap(box, obstacle), (mark.name, kind, owner)


@pytest.mark.parametrize("drawing", drawings)
def test_arrow_stands_on_its_branch_and_points_along_it(drawing: object) -> None:
    """The arrowhead's tip is further along the assumed direction than its back, on the drawn line."""
    topology = found(drawing)
    figure = shown(drawing)
    root = parsed(figure)
    for branch in topology.branches:
        arrow = group(root, "arrow", current=branch.current)
        spot = standing(arrow)
        turn = radians(float(re.search(r"rotate\((\S+)\)", arrow[0].get("transform", ""))[1]))
        routes = figure.layout.routes
        ways = [routes[step.part.name][:: 1 if step.forward else -1] for step in branch.steps]
        leg = min((leg for way in ways for leg in legs_of(way)), key=lambda leg: distance_from(spot, leg))
        assert distance_from(spot, leg) < 0.2
        tip, back = [(spot[0] + sense * cos(turn), spot[1] + sense * sin(turn)) for sense in (1, -1)]
        assert dist(tip, leg[1]) < dist(back, leg[1])


def test_arrowhead_points_forward_before_it_is_turned() -> None:
    """Unturned, the tip is at the right and the box symmetric, so that turning it needs no new place."""
    head = group(parsed(draw_figure(topology_of(EVERY_KIND))), "arrow", current="I1").find(f".//{SVG}path").get("d")
    assert head == f"M{HEAD_HALF:.0f} 0L-{HEAD_HALF:.0f} 5.5V-5.5Z"


@pytest.mark.parametrize("drawing", drawings)
def test_plus_is_nearer_to_the_plus_point(drawing: object) -> None:
    """The drawn plus stands on the battery's plus side, measured along its way."""
    topology = found(drawing)
    figure = shown(drawing)
    ground = lay_ground(topology.circuit, figure.layout)
    for part in topology.circuit.parts:
        if part.kind is Kind.BATTERY:
            signs = group(parsed(figure), "polarity", part=part.name)
            plus, minus = (list(map(float, re.findall(r"-?[\d.]+", path.get("d", ""))))[:2] for path in signs)
            along = ground.seats[part.name].along
            assert (plus[0] - minus[0]) * along[0] + (plus[1] - minus[1]) * along[1] > 10


@pytest.mark.parametrize("drawing", drawings)
def test_loop_mark_is_inside_its_loop_and_turns_its_way(drawing: object) -> None:
    """A ring stands inside its loop, and is mirrored exactly where the walk is anticlockwise."""
    topology = found(drawing)
    figure = shown(drawing)
    ground = lay_ground(topology.circuit, figure.layout)
    for loop in topology.loops:
        ring = group(parsed(figure), "loop", loop=loop.name)
        outline = loop_outline(ground, loop)
        assert inside(standing(ring), outline)
        assert ("scale(-1 1)" in ring[0].get("transform", "")) == (signed_area(outline) < 0)


@pytest.mark.parametrize("path", examples, ids=lambda path: path.stem)
def test_every_point_can_be_found(path) -> None:
    """Each point has its letter within reach, and each dot where a plain line spreads it out: two dots of a junction read alike."""
    figure = figure_of(path)
    root = parsed(figure)
    lettered: dict[str, list[tuple[float, float]]] = {point: [] for point in figure.layout.places}
    for each in root.iter(f"{SVG}g"):
        if each.get("class") in {"junction", "point"}:
            text = each.find(f"{SVG}text")
            point = each.get("data-junction") or each.get("data-point")
            assert "".join(text.itertext()) == point
            lettered[point].append((float(text.get("x", "")), float(text.get("y", ""))))
    for point, spot in figure.layout.places.items():
        assert any(dist(spot, letter) < 40 for letter in lettered[point]), point
    letters = [letter for places in lettered.values() for letter in places]
    for dot in root.iter(f"{SVG}circle"):
        if dot.get("class") == "dot":
            assert any(dist((float(dot.get("cx", "")), float(dot.get("cy", ""))), letter) < 40 for letter in letters), dot.attrib


@pytest.mark.parametrize("drawing", drawings)
def test_dots_stand_exactly_where_three_lines_meet(drawing: object) -> None:
    """A large dot where at least three ways leave a spot, named or not; none at corners and crossings."""
    figure = shown(drawing)
    legs = [leg for way in [*figure.layout.routes.values(), *figure.layout.lines] for leg in legs_of(way)]
    expected = set()
    for spot in {end for leg in legs for end in leg}:
        touching = [leg for leg in legs if distance_from(spot, leg) < 0.15]
        ways = {
            round(degrees(atan2(end[1] - spot[1], end[0] - spot[0])) / 3) % 120 for leg in touching for end in leg if dist(spot, end) > 1
        }
        if len(ways) >= 3:
            expected.add((number_text(spot[0]), number_text(spot[1])))
    circles = [each for each in parsed(figure).iter(f"{SVG}circle") if each.get("class") == "dot" and each.get("r") == "3.2"]
    assert {(each.get("cx"), each.get("cy")) for each in circles} == expected


def test_loops_that_are_no_faces_have_their_mark_inside() -> None:
    """A loop round the outside gets its ring inside the loop and outside the smaller one where there is room."""
    body = EVERY_KIND + ('[loops]\nL1 = { start = "a", through = ["E1", "R1", "A1", "K2", "R2", "W1", "W2", "W3"] }\n')
    topology = topology_of(body)
    figure = draw_figure(topology)
    outline = loop_outline(lay_ground(topology.circuit, figure.layout), topology.loops[0])
    assert inside(standing(group(parsed(figure), "loop", loop="L1")), outline)
