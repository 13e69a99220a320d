"""What our solution says to each thing a source states, read from the object of `solve --json` or from a changed circuit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

from build_tools.circuit.circuit import Circuit, Part
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.pipeline import solve_file
from tests.published.parts import battery, solve, wire
from tests.published.table import Published, Stated, circuits

Example = dict[str, Any]
"""The object of `solve --json`."""


def answer(stated: Stated) -> Fraction:
    """Our exact value for what is stated, in the SI unit."""
    path = circuits / f"{stated.address}.toml"
    if {"resistance", "without", "as_wire"} & set(stated.ask):
        return answer_in_changed(stated.ask, read_circuit(read_source(path)))
    return answer_in_json(stated.ask, solve_file(path))


def answer_in_json(ask: dict[str, Any], example: Example) -> Fraction:
    """What the object says."""
    key, wanted = next(iter(ask.items()))
    found = readers[key](example, wanted, ask)
    return found / read_value(example, ask["in_emf_of"]) if "in_emf_of" in ask else found


def read_current(example: Example, wanted: str | list[str], ask: dict[str, Any]) -> Fraction:
    """The current of a part, or of parts side by side, toward a point."""
    names = [wanted] if isinstance(wanted, str) else wanted
    return sum((current_toward(example["parts"][name], ask["toward"]) for name in names), Fraction(0))


def current_toward(part: dict[str, Any], point: str) -> Fraction:
    """The current of one part toward one of its ends."""
    current = Fraction(part["current"]["exact"])
    return {part["to"]: current, part["from"]: -current}[point]


def read_voltage(example: Example, wanted: list[str], _: dict[str, Any]) -> Fraction:
    """The potential of one point minus that of another."""
    one, other = (Fraction(example["potentials"][point]["exact"]) for point in wanted)
    return one - other


def read_power(example: Example, wanted: str, _: dict[str, Any]) -> Fraction:
    """The power a part takes up."""
    return Fraction(example["parts"][wanted]["power"]["exact"])


def read_power_given(example: Example, wanted: str, ask: dict[str, Any]) -> Fraction:
    """The power a battery gives."""
    return -read_power(example, wanted, ask)


def read_total(example: Example, wanted: str, _: dict[str, Any]) -> Fraction:
    """The power of all parts that give, of all that take up, or of all resistors."""
    powers = [(part["kind"], Fraction(part["power"]["exact"])) for part in example["parts"].values()]
    chosen = {
        "given": [-power for _, power in powers if power < 0],
        "taken up": [power for _, power in powers if power > 0],
        "heat": [power for kind, power in powers if kind == "resistor"],
    }
    return sum(chosen[wanted], Fraction(0))


def read_charge(example: Example, wanted: str, _: dict[str, Any]) -> Fraction:
    """The charge of a capacitor."""
    assert example["found"][wanted]["unit"] == "C"
    return Fraction(example["found"][wanted]["exact"])


readers: dict[str, Callable[[Example, Any, dict[str, Any]], Fraction]] = {
    "current": read_current,
    "voltage": read_voltage,
    "power": read_power,
    "power_given": read_power_given,
    "total": read_total,
    "charge": read_charge,
}


def answer_in_changed(ask: dict[str, Any], circuit: Circuit) -> Fraction:
    """The voltage or the resistance seen between two points once parts are taken out or replaced by bare wires."""
    kept = tuple(short(part, ask) for part in circuit.parts if part.name not in ask.get("without", []))
    if "resistance" in ask:
        plus, minus = ask["resistance"]
        driven = replace(circuit, parts=(*kept, battery("Z", minus, plus, 1)), currents=(), loops=(), leave_out="")
        return 1 / solve(driven)[2].parts["Z"].current
    potentials = solve(replace(circuit, parts=kept, currents=(), loops=(), leave_out=""))[2].potentials
    one, other = (potentials[point] for point in ask["voltage"])
    assert one is not None
    assert other is not None
    return one - other


def short(part: Part, ask: dict[str, Any]) -> Part:
    """The part, or a bare wire in its place."""
    return wire(part.name, part.start, part.end) if part.name in ask.get("as_wire", []) else part


def read_value(example: Example, name: str) -> Fraction:
    """The value of a part; where the source asks for it, our file has the answer in its place."""
    return Fraction(example["parts"][name]["value"])


def answer_with_exact(published: Published, unknown: Stated) -> Fraction:
    """What is given in the source, found once the unknown part has its exact value."""
    circuit = read_circuit(read_source(published.path))
    parts = tuple(put_exact(part, unknown) for part in circuit.parts)
    state = solve(replace(circuit, parts=parts))[2]
    given = published.given
    if "voltage" in given:
        one, other = (state.potentials[point] or Fraction(0) for point in given["voltage"])
        return one - other
    if "power" in given:
        return state.parts[given["power"]].power
    part = state.parts[given["current"]]
    return part.current if part.part.end == given["toward"] else -part.current


def put_exact(part: Part, unknown: Stated) -> Part:
    """The part with its exact value, where it is the unknown one."""
    if part.name != unknown.ask["unknown"] or part.value is None:
        return part
    return replace(part, value=replace(part.value, exact=unknown.exact))
