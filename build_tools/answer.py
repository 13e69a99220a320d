"""The answers of one circuit as plain text, for the terminal."""

from __future__ import annotations

from collections.abc import Iterator

from build_tools.circuit.numeral import plain, rounded, with_unit
from build_tools.figure.words import current_sentence
from build_tools.laws.meaning import WorkedCircuit, current_text, equation_text, flows_as_assumed


def write_answer(worked: WorkedCircuit) -> str:
    """Title, equations in the page's units, and every current with its meaning."""
    return "\n".join(write_lines(worked))


def write_lines(worked: WorkedCircuit) -> Iterator[str]:
    """The lines one by one."""
    units = worked.units
    yield worked.circuit.title
    yield f"equations in {units.voltage}, {units.resistance} and {units.current}:"
    for number, equation in enumerate(worked.written.equations, 1):
        yield f"  ({number})  {equation_text(equation)}    {equation.rule} {equation.origin}"
    if not worked.topology.branches:
        yield "  none: no closed way conducts, so every current is zero"
    yield "currents:"
    for branch in worked.topology.branches:
        value = worked.solution.currents[branch.current]
        exact = with_unit(plain(value / units.size[units.current]), units.current)
        meaning = current_sentence(branch, None, current_text(abs(value), units), flows_as_assumed(value))
        yield f"  {branch.current} = {exact}    {meaning}"
    for state in worked.solution.parts.values():
        if state.part.kind in ("voltmeter", "capacitor"):
            across = "not fixed by the circuit" if state.voltage is None else with_unit(rounded(state.voltage), "V")
            yield f"  across {state.part.name}, {state.part.start} to {state.part.end}: {across}"
