"""Writing one page: every block of it from its template, and the skeleton that says where each block goes."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup

from build_tools.circuit.problem import listed
from build_tools.figure.description import long_description, short_description
from build_tools.figure.figure import Figure
from build_tools.figure.layout import Layout, Spot
from build_tools.laws.meaning import WorkedCircuit
from build_tools.page import advice, answers, finding, hand, setup
from build_tools.page.page import Page, sections
from build_tools.page.prose import question_text, render_question, set_text
from build_tools.page.record import Record, write_record
from build_tools.page.rendering import json_block, render

longest_summary = 240


def write_page(worked: WorkedCircuit, figure: Figure) -> Page:
    """Write the page of one worked and drawn circuit."""
    circuit = worked.circuit
    context = build_context(worked, figure)
    blocks = {name: render("section.html.jinja", {**context, "section": name}) for name, _ in sections}
    return Page(
        address=circuit.address,
        title=circuit.title,
        summary=shorten(question_text(circuit.question, worked.topology)),
        level=circuit.level,
        topics=circuit.topics,
        **finding.find_terms(worked),
        unknowns=len(worked.topology.branches),
        formerly=circuit.formerly,
        markdown=render("example.md.jinja", {**context, "sections": sections}),
        blocks=blocks
        | {"record": json_block("circuit", write_record(worked)), "layout": json_block("figure", write_layout(figure.layout))},
        figure=figure.svg,
    )


def build_context(worked: WorkedCircuit, figure: Figure) -> dict[str, object]:
    """Everything the templates of a page may use."""
    topology, layout = worked.topology, figure.layout
    return {
        **build_solution(worked, layout),
        "question": render_question(worked.circuit.question, topology),
        "figure": Markup(figure.svg),
        "in_words": [set_text(sentence, topology) for sentence in long_description(topology, layout)],
        "prompts": [set_text(prompt, topology) for prompt in advice.write_prompts(worked)],
        "cautions": [set_text(reason, topology) for reason in advice.write_cautions(worked)],
    }


def build_solution(worked: WorkedCircuit, layout: Layout | None) -> dict[str, object]:
    """What the sections show that the page's scripts write too, when a reader chooses otherwise."""
    return {
        "circuit": worked.circuit,
        "units": worked.units,
        "facts": count_facts(worked),
        "directions": setup.view_directions(worked, layout),
        "idle": setup.view_idle(worked),
        "junctions": setup.view_junctions(worked),
        "enough": setup.say_enough(worked),
        "loops": setup.view_loops(worked, layout),
        "equations": setup.view_equations(worked),
        "route": hand.view_route(worked),
        "asked": set_text(listed(worked.route.asked), worked.topology),
        "matrix": answers.view_matrix(worked),
        "currents": answers.view_currents(worked, layout),
        "parts": answers.view_parts(worked),
        "potentials": answers.view_potentials(worked),
        "readings": answers.view_readings(worked),
        "batteries": answers.view_batteries(worked),
        "sums": answers.view_sums(worked),
        "power": answers.power_sums(worked),
        "difference": answers.difference_text(worked.solution.checks.numpy_difference),
        "bound": answers.difference_bound(worked.solution.checks.numpy_difference),
    }


def count_facts(worked: WorkedCircuit) -> dict[str, int]:
    """The numbers that the prose mentions."""
    topology = worked.topology
    used = sum(junction.used for junction in topology.junctions)
    return {
        "unknowns": len(topology.branches),
        "junctions": len(topology.junctions),
        "used": used,
        "loops": len(topology.loops),
        "asked": len(worked.route.asked),
        "flowing": sum(map(bool, worked.solution.currents.values())),
    }


def write_layout(layout: Layout) -> Record:
    """Where the figure's lines run, for words of direction [px, to a tenth]."""

    def near(spots: Iterable[Spot]) -> list[list[float]]:
        return [[round(x, 1), round(y, 1)] for x, y in spots]

    routes = {name: near(route) for name, route in layout.routes.items()}
    places = dict(zip(layout.places, near(layout.places.values()), strict=True))
    return {"places": places, "routes": routes, "lines": [near(line) for line in layout.lines]}


def figure_label(worked: WorkedCircuit) -> str:
    """The figure's short alternative text."""
    return short_description(worked.topology)


def shorten(text: str) -> str:
    """The text, cut at a word where it is too long for a summary."""
    return text if len(text) <= longest_summary else text[:longest_summary].rsplit(" ", 1)[0].rstrip(",.;:") + " …"
