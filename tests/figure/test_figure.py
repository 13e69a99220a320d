"""The whole figure: one group for each thing, safe in any page, the same on every machine."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from dataclasses import FrozenInstanceError

import pytest

from build_tools.circuit.circuit import Kind
from build_tools.figure.figure import draw_figure
from build_tools.figure.growing import WIDEST
from build_tools.figure.lettering import SUBSCRIPT_SIZE, TEXT_SIZE
from tests.figure.drawings import EVERY_KIND, SVG, example, examples, figure_of, parsed, topology_of

each_example = pytest.mark.parametrize("path", examples, ids=lambda path: path.stem)


@each_example
def test_one_group_for_each_thing(path) -> None:
    """Every part, label, battery, dot of a point, current and loop is one group with its name."""
    topology = example(path)
    circuit = topology.circuit
    groups = [each.attrib for each in parsed(figure_of(path)).iter(f"{SVG}g")]

    def named(kind: str, key: str) -> list[str]:
        return sorted(attributes[f"data-{key}"] for attributes in groups if attributes.get("class") == kind)

    names = sorted(part.name for part in circuit.parts)
    junctions = {point for junction in topology.junctions for point in junction.points}
    points = set(figure_of(path).layout.places)
    assert named("part", "part") == named("label", "part") == names
    assert named("polarity", "part") == sorted(part.name for part in circuit.parts if part.kind is Kind.BATTERY)
    assert named("arrow", "current") == sorted(branch.current for branch in topology.branches)
    assert named("loop", "loop") == sorted(loop.name for loop in topology.loops)
    assert set(named("junction", "junction")) == points & junctions
    assert set(named("point", "point")) == points - junctions
    kinds = {attributes["data-part"]: attributes["data-kind"] for attributes in groups if attributes.get("class") == "part"}
    assert kinds == {part.name: part.kind.value for part in circuit.parts}


@each_example
def test_presentation_attributes_only(path) -> None:
    """No style attribute, no id, no colour of its own, no long number, nothing that is not a number."""
    svg = figure_of(path).svg
    assert not re.search(r' (style|id)="|nan|inf\b|#[0-9a-f]{3}|\d\.\d\d', svg)
    colours = {each.get(key) for each in parsed(figure_of(path)).iter() for key in ("fill", "stroke") if each.get(key)}
    assert colours <= {"none", "currentColor"}


@each_example
def test_frame_holds_everything(path) -> None:
    """Size and viewBox agree, and every place is inside."""
    figure = figure_of(path)
    root = parsed(figure)
    assert root.get("viewBox") == f"0 0 {figure.width} {figure.height}"
    assert (root.get("width"), root.get("height")) == (str(figure.width), str(figure.height))
    for x, y in [spot for route in figure.layout.routes.values() for spot in route]:
        assert 0 < x < figure.width
        assert 0 < y < figure.height


@each_example
def test_fits_a_phone(path) -> None:
    """Every example is at most 410 px wide, or nearly; so its text is at least 12 px in a column of 328 px."""
    assert figure_of(path).width <= WIDEST + 40


def test_text_sizes_hold_on_a_phone() -> None:
    """At 410 px shown in 328 px, text is 12 px and subscripts 10 px."""
    sizes = {float(each.get("font-size", "nan")) for each in parsed(draw_figure(topology_of(EVERY_KIND))).iter() if each.get("font-size")}
    assert sizes == {TEXT_SIZE, SUBSCRIPT_SIZE}
    assert min(TEXT_SIZE * 328 / 410, SUBSCRIPT_SIZE * 328 / 410 + 2) >= 12


def test_label_is_escaped() -> None:
    """The alternative text cannot break out of its attribute."""
    figure = draw_figure(topology_of(EVERY_KIND), label='A "lamp" <b>&')
    assert parsed(figure).get("aria-label") == 'A "lamp" <b>&'
    assert parsed(figure).get("role") == "img"
    assert "<b>" not in figure.svg


def test_figure_cannot_be_changed() -> None:
    """A figure is handed on as it is."""
    with pytest.raises(FrozenInstanceError):
        draw_figure(topology_of(EVERY_KIND)).width = 1  # type: ignore[misc]


def test_same_figure_in_every_process() -> None:
    """The order of sets and hashes never shows."""
    script = (
        "from tests.figure.drawings import *; import hashlib;"
        "print(hashlib.sha256(''.join(figure_of(path).svg for path in examples[::4]).encode()).hexdigest())"
    )
    environments = [{**os.environ, "PYTHONHASHSEED": seed} for seed in ("0", "1", "77")]
    hashes = {subprocess.check_output([sys.executable, "-c", script], env=each) for each in environments}
    assert len(hashes) == 1
