"""What Python itself works out for a choice, as the text of each section of the page."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path

from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.figure.figure import draw_figure
from build_tools.figure.layout import Layout
from build_tools.laws.choices import apply_choices, parse_walk
from build_tools.laws.meaning import WorkedCircuit, work_out
from build_tools.laws.practice import take_set
from build_tools.page.rendering import render
from build_tools.page.writing import build_solution
from tests.parity.trees import parse_block, text_of, without

root = Path(__file__).parents[2]
sections = ("directions", "junctions", "loops", "equations", "by-hand", "matrix", "currents", "checks")


@cache
def work_example(name: str) -> WorkedCircuit:
    """One example as its file has it."""
    return work_out(read_circuit(read_source(root / f"circuits/{name}.toml")))


@cache
def layout_of(name: str) -> Layout:
    """Where everything stands in the figure of an example."""
    return draw_figure(work_example(name).topology).layout


@cache
def work_set(name: str, number: int) -> WorkedCircuit:
    """One example with a set of practice values; 0 for its own."""
    own = work_example(name)
    return work_out(take_set(own.topology, number)) if number else own


def write_texts(name: str, *, practice: int = 0, flip: Sequence[str] = (), leave_out: str = "", walk: str = "") -> dict[str, str]:
    """The text of every section with these choices, without white space; walk as it stands in an address."""
    own = work_set(name, practice)
    walks = tuple(map(parse_walk, walk.split("_"))) if walk else ()
    worked = work_out(apply_choices(own.topology, flip=flip, leave_out=leave_out, walk=walks))
    context = build_solution(worked, layout_of(name))
    return {section: section_text(section, context) for section in sections}


def section_text(section: str, context: dict[str, object]) -> str:
    """The text of one section as its template writes it; the second opinion is the script's own."""
    tree = parse_block(render("section.html.jinja", {**context, "section": section}))
    return "".join(text_of(without(tree, "second-opinion")).split())
