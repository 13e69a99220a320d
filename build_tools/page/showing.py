"""Parts of an example as HTML: figure, equation set, one loop, answers, and the like."""

from __future__ import annotations

from markupsafe import Markup

from build_tools.figure.figure import Figure
from build_tools.figure.layout import Layout
from build_tools.laws.meaning import WorkedCircuit
from build_tools.page import answers, setup
from build_tools.page.parts import PartKind, Source, inner
from build_tools.page.record import Record, write_record
from build_tools.page.rendering import json_block, render
from build_tools.page.writing import count_facts, write_layout

parts_of_embeds = (PartKind.EQUATIONS, PartKind.LOOP, PartKind.ANSWERS, PartKind.CHECK)
"""What a page keeps for its embeds; its figure stands there already."""
needed = {
    "equations": ("rule", "origin", "text"),
    "currents": ("name", "exact"),
    "parts": ("kind", "value", "internal_resistance", "from", "to", "state"),
}
"""What a check needs of each row."""


def write_parts(worked: WorkedCircuit, figure: Figure) -> dict[str, str]:
    """The parts of an example that its embeds show."""
    source = Source(href="", title=worked.circuit.title, summary="")
    return {kind.value: render_part(kind, "", worked, figure=figure.svg, layout=figure.layout, source=source) for kind in parts_of_embeds}


def render_part(kind: PartKind, name: str, worked: WorkedCircuit, *, figure: str, layout: Layout | None, source: Source) -> str:
    """One part as HTML.

    Args:
        kind: which.
        name: of the loop or the current, for those that take one; for a check the currents turned round, dots between.
        worked: the circuit, with the choices made.
        figure: its drawing.
        layout: where the drawing's lines run, for words of direction.
        source: where the part comes from.
    """
    context: dict[str, object] = {"circuit": worked.circuit, "units": worked.units, "name": name, "source": source, "kind": kind.value}
    if kind is PartKind.FIGURE:
        context["figure"] = Markup(figure)
    elif kind is PartKind.EQUATIONS:
        context["equations"] = setup.view_equations(worked)
    elif kind is PartKind.LOOP:
        context["loops"] = setup.view_loops(worked, layout)
    elif kind is PartKind.CHECK:
        context["record"] = inner(json_block("", for_checks(write_record(worked))))
        context["layout"] = inner(json_block("", write_layout(layout))) if layout else ""
    elif kind is PartKind.CARD:
        context["facts"] = count_facts(worked)
    else:
        context["currents"] = answers.view_currents(worked, layout)
    return render(f"part-{kind.value}.html.jinja", context).strip()


def for_checks(record: Record) -> Record:
    """Of the object that every page carries what a check needs."""
    kept = {
        key: value for key, value in record.items() if key not in ("title", "question", "level", "topics", "potentials", "found", "checks")
    }
    for key, names in needed.items():
        rows = kept[key].items() if isinstance(kept[key], dict) else enumerate(kept[key])
        cut = {at: {name: row[name] for name in names} for at, row in rows}
        kept[key] = cut if isinstance(kept[key], dict) else list(cut.values())
    return kept
