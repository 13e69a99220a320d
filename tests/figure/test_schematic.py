"""The bodies of parts: the right symbol, the right way round, on the right leads."""

from __future__ import annotations

from itertools import pairwise
from math import dist
from xml.etree.ElementTree import Element

import pytest

from build_tools.circuit.circuit import Kind
from build_tools.figure.figure import draw_figure
from build_tools.figure.schematic import body_shape, number_text, way_text
from tests.figure.drawings import CROSSED, EVERY_KIND, SVG, example, examples, figure_of, group, parsed, spots_of, topology_of


def body(root: Element, part: str) -> Element:
    """The body group of a part."""
    return next(each for each in group(root, "part", part=part).iter(f"{SVG}g") if each.get("class") == "body")


def lead_of(root: Element, part: str) -> str:
    """The path data of a part's leads."""
    return next(each.get("d", "") for each in group(root, "part", part=part) if each.get("class") == "lead")


@pytest.mark.parametrize(("number", "text"), [(0.04, "0"), (-0.04, "0"), (12.0, "12"), (-31.199999999999996, "-31.2"), (7.25, "7.2")])
def test_numbers_are_rounded(number: float, text: str) -> None:
    """At most one decimal, no trailing zero, no minus zero."""
    assert number_text(number) == text


@pytest.mark.parametrize(
    ("kind", "state", "style", "strokes", "circles", "letter"),
    [
        (Kind.RESISTOR, "", "zigzag", 1, 0, ""),
        (Kind.RESISTOR, "", "rectangle", 1, 0, ""),
        (Kind.BATTERY, "", "zigzag", 2, 0, ""),
        (Kind.CAPACITOR, "", "zigzag", 2, 0, ""),
        (Kind.SWITCH, "open", "zigzag", 1, 2, ""),
        (Kind.SWITCH, "closed", "zigzag", 1, 2, ""),
        (Kind.AMMETER, "ideal", "zigzag", 0, 1, "A"),
        (Kind.VOLTMETER, "ideal", "zigzag", 0, 1, "V"),
    ],
)
def test_each_kind_has_its_symbol(kind: Kind, state: str, style: str, strokes: int, circles: int, letter: str) -> None:
    """Plates, contacts and circles as the standard symbols have them."""
    shape = body_shape(kind, state, style)
    assert (len(shape.strokes), len(shape.circles), shape.letter) == (strokes, circles, letter)


def test_both_customs_for_resistors() -> None:
    """A zigzag has six peaks; a rectangle four corners, and is three times as long as high."""
    zigzag, rectangle = (body_shape(Kind.RESISTOR, "", style).strokes[0] for style in ("zigzag", "rectangle"))
    assert sum(abs(y) > 5 for _, y in zigzag) == 6
    assert {(abs(x), abs(y)) for x, y in rectangle if y} == {(21, 7)}


def test_lever_of_an_open_switch_is_up_and_of_a_closed_one_down() -> None:
    """An open switch leaves a gap; a closed one touches both contacts."""
    opened, closed = (body_shape(Kind.SWITCH, state, "zigzag") for state in ("open", "closed"))
    assert max(y for _, y in opened.strokes[0]) > 10
    assert {y for _, y in closed.strokes[0]} == {0}


@pytest.mark.parametrize("path", examples, ids=lambda path: path.stem)
def test_long_plate_of_every_battery_is_at_its_plus(path) -> None:
    """Read back from the drawing: the long plate is nearer to the plus point along the way."""
    root, topology = parsed(figure_of(path)), example(path)
    layout = figure_of(path).layout
    for part in topology.circuit.parts:
        if part.kind is not Kind.BATTERY:
            continue
        spots = spots_of(body(root, part.name)[0].get("d", ""))
        plates = sorted((spots[:2], spots[2:]), key=lambda plate: dist(*plate))
        short, long = [((one[0] + other[0]) / 2, (one[1] + other[1]) / 2) for one, other in plates]
        to_short, to_long = lead_of(root, part.name).split("M")[1:]
        assert dist(spots_of("M" + to_short)[0], layout.routes[part.name][0]) < 0.2
        assert dist(spots_of("M" + to_long)[-1], layout.routes[part.name][-1]) < 0.2
        assert dist(short, spots_of("M" + to_short)[-1]) < 1.5
        assert dist(long, spots_of("M" + to_long)[0]) < 1.5


def test_leads_run_from_the_ends_to_the_body() -> None:
    """The drawn way of a part begins and ends where its route does, and leaves the body out."""
    figure = draw_figure(topology_of(EVERY_KIND))
    lead = lead_of(parsed(figure), "R1")
    begin, to_body, from_body, end = spots_of(lead)
    assert (begin, end) == (pytest.approx(figure.layout.places["b"], abs=0.1), pytest.approx(figure.layout.places["c"], abs=0.1))
    assert dist(to_body, from_body) == pytest.approx(42, abs=0.2)


def test_way_hops_over_a_crossing() -> None:
    """A way with a crossing has an arc there, and only there."""
    assert way_text(((0, 0), (40, 0)), [(20, 0)]) == "M0 0L14 0A6 6 0 0 1 26 0L40 0"
    assert way_text(((0, 0), (40, 0)), [(20, 9)]) == "M0 0L40 0"
    root = parsed(draw_figure(topology_of(CROSSED)))
    arcs = [name for name in ("R4", "R5") if "A6" in lead_of(root, name)]
    assert len(arcs) == 1


def test_the_files_own_custom_goes_before_the_sites() -> None:
    """`drawing.resistors` of a file wins over the site's setting."""
    own = topology_of(EVERY_KIND + '[drawing]\nresistors = "rectangle"\n')
    assert draw_figure(own).svg == draw_figure(own, resistors="rectangle").svg
    assert draw_figure(topology_of(EVERY_KIND)).svg != draw_figure(topology_of(EVERY_KIND), resistors="rectangle").svg
    own = topology_of(EVERY_KIND + '[drawing]\nbatteries = "several cells"\n')
    assert draw_figure(own).svg == draw_figure(own, batteries="several cells").svg
    assert draw_figure(own).svg == draw_figure(own, batteries="one cell").svg != draw_figure(topology_of(EVERY_KIND)).svg


def test_several_cells_alternate_from_the_short_plate_at_minus_to_the_long_one_at_plus() -> None:
    """Two cells, all plates of two lengths, evenly spaced, symmetric about the middle."""
    shape = body_shape(Kind.BATTERY, batteries="several cells")
    plates = sorted((stroke[0][0], abs(stroke[0][1] - stroke[1][1])) for stroke in shape.strokes)
    assert [round(height, 2) for _, height in plates] == [13.88, 27.75, 13.88, 27.75]
    gaps = {round(after[0] - before[0], 2) for before, after in pairwise(plates)}
    assert len(gaps) == 1
    assert plates[0][0] == pytest.approx(-plates[-1][0])


def test_symbols_keep_the_proportions_of_the_standard() -> None:
    """IEC 60617: a capacitor's plates are equal, a meter is a circle on the line, a switch lever rises from its terminal."""
    (one, other) = body_shape(Kind.CAPACITOR).strokes
    assert dist(*one) == dist(*other)
    assert dist(*one) / 5 <= abs(one[0][0] - other[0][0]) <= dist(*one) / 3
    assert body_shape(Kind.AMMETER).circles[0][0] == (0, 0)
    lever = body_shape(Kind.SWITCH, "open").strokes[0]
    (left, radius), (right, _) = body_shape(Kind.SWITCH, "open").circles
    assert radius <= dist(lever[0], left) < radius + 2  # the pen is 2 px wide: they touch
    assert lever[-1][0] < right[0]
