"""By what an example is found: its values, the kinds of its parts, what is asked, and the ideas in it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from build_tools.circuit.circuit import Kind, Part
from build_tools.laws.meaning import WorkedCircuit
from build_tools.laws.solution import Role

kind_words = {Kind.WIRE: "bare wire"}
"""How a kind is called where its own name would say too little."""


def find_terms(worked: WorkedCircuit) -> dict[str, Any]:
    """The fields of a page that lists and searches look at."""
    circuit = worked.circuit
    asked = [circuit.part[name] for name in circuit.asked] or list(circuit.parts)
    return {
        "question": circuit.question,
        "asked": circuit.asked,
        "kinds": tuple(dict.fromkeys(map(kind_word, circuit.parts))),
        "asked_kinds": tuple(dict.fromkeys(map(kind_word, asked))),
        "values": tuple(dict.fromkeys(value for part in circuit.parts for value in find_values(part))),
        "ideas": tuple(find_ideas(worked)),
    }


def kind_word(part: Part) -> str:
    """What a part is called in a list."""
    return kind_words.get(part.kind, part.kind.value)


def find_values(part: Part) -> Iterator[str]:
    """The values of one part, as written on the page."""
    for quantity in (part.value, part.internal_resistance):
        if quantity:
            yield quantity.shown


def find_ideas(worked: WorkedCircuit) -> Iterator[str]:
    """The ideas that an example shows, whatever its author wrote among the topics."""
    circuit, solution = worked.circuit, worked.solution
    if any(part.kind is Kind.WIRE for part in circuit.parts):
        yield "bare wire"
    if any(value < 0 for value in solution.currents.values()):
        yield "minus sign"
    if any(value == 0 for value in solution.currents.values()):
        yield "no current"
    if any(state.role is Role.CHARGING for state in solution.parts.values()):
        yield "charging"
    if any(part.internal_resistance for part in circuit.parts):
        yield "internal resistance"
    if len(worked.topology.loops) == 1:
        yield "one loop"
