"""The answers of one circuit as plain text, for the terminal."""

from __future__ import annotations

from collections.abc import Iterator

from build_tools.circuit.circuit import Part
from build_tools.circuit.numeral import plain, rounded, with_unit
from build_tools.figure.words import current_sentence
from build_tools.laws.meaning import WorkedCircuit, current_text, equation_text, flows_as_assumed


def write_answer(worked: WorkedCircuit, *, practice: int = 0) -> str:
    """Title, practice values where there are any, equations in the page's units, and every current with its meaning."""
    return "\n".join(write_lines(worked, practice))


def write_lines(worked: WorkedCircuit, practice: int) -> Iterator[str]:
    """The lines one by one."""
    units = worked.units
    yield worked.circuit.title
    if practice:
        yield f"practice values, set {practice}:"
        yield from (f"  {part.name} = {values}" for part in worked.circuit.parts if (values := write_values(part)))
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


def write_values(part: Part) -> str:
    """The value of a part as the figure shows it, and its internal resistance; empty for a part without one."""
    inner = part.internal_resistance
    return ", ".join([*([part.value.shown] if part.value else []), *([f"r = {inner.shown}"] if inner else [])])
