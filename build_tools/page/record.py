"""The object that scripts may rely on: what `solve --json` prints and every page carries in its JSON block.

Its keys are a promise to other people's scripts: they stay, more may be added. Every number is in V, A, Ω, W, F, C or J.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from build_tools.circuit.circuit import Part
from build_tools.figure.words import current_sentence
from build_tools.laws.equation import Equation
from build_tools.laws.meaning import WorkedCircuit, current_text, equation_text, flows_as_assumed
from build_tools.laws.solution import PartState, Solution
from build_tools.laws.topology import Branch

Record = dict[str, Any]


def write_record(worked: WorkedCircuit) -> Record:
    """The whole object."""
    circuit, topology, solution = worked.circuit, worked.topology, worked.solution
    return {
        "address": circuit.address,
        "title": circuit.title,
        "question": circuit.question,
        "level": circuit.level,
        "topics": list(circuit.topics),
        "asked": list(circuit.asked),
        "units": {name: getattr(worked.units, name) for name in ("voltage", "resistance", "current")},
        "junctions": [{"name": each.name, "points": list(each.points), "used": each.used} for each in topology.junctions],
        "nodes": topology.node,
        "branches": [write_branch(branch) for branch in topology.branches],
        "loops": [
            {
                "name": loop.name,
                "start": loop.start,
                "walk": [step.part.name for step in loop.steps],
                "forward": [step.forward for step in loop.steps],
            }
            for loop in topology.loops
        ],
        "equations": [
            write_equation(equation, written, worked.equations.unknowns)
            for equation, written in zip(worked.equations.equations, worked.written.equations, strict=True)
        ],
        "unknowns": list(worked.equations.unknowns),
        "currents": [write_current(branch, worked) for branch in topology.branches],
        "parts": {name: write_part(state) for name, state in solution.parts.items()},
        "potentials": {point: number(value) for point, value in solution.potentials.items()},
        "found": {
            name: number(state.charge) | {"unit": "C"} for name, state in solution.parts.items() if state.part.kind == "capacitor"
        },
        "checks": write_checks(solution),
    }  # fmt: skip


def write_branch(branch: Branch) -> Record:
    """One branch along its assumed direction."""
    parts = [step.part.name for step in branch.steps]
    forward = [step.forward for step in branch.steps]
    return {"current": branch.current, "from": branch.start, "to": branch.end, "parts": parts, "forward": forward}


def write_equation(equation: Equation, written: Equation, unknowns: tuple[str, ...]) -> Record:
    """One equation; text as on the page, numbers in SI units."""
    return {
        "rule": equation.rule.value,
        "origin": equation.origin,
        "text": equation_text(written),
        "coefficients": [str(factor) for factor in equation.row(unknowns)],
        "right": str(equation.right),
    }


def write_current(branch: Branch, worked: WorkedCircuit) -> Record:
    """One answer with its meaning in letters: words of the figure need a figure."""
    value = worked.solution.currents[branch.current]
    as_assumed = flows_as_assumed(value)
    meaning = current_sentence(branch, None, current_text(abs(value), worked.units), as_assumed)
    return {"name": branch.current, **number(value), "as_assumed": as_assumed, "meaning": meaning}


def write_part(state: PartState) -> Record:
    """What happens in one part."""
    part: Part = state.part
    inner = part.internal_resistance
    return {
        "kind": part.kind.value,
        "value": str(part.value.exact) if part.value else None,
        "internal_resistance": str(inner.exact) if inner else None,
        "text": part.value.shown if part.value else None,
        "internal_text": inner.shown if inner else None,
        "from": part.start,
        "to": part.end,
        "state": part.state or None,
        "current": number(state.current),
        "voltage": number(state.voltage),
        "power": number(state.power),
        "role": state.role.value,
    }


def write_checks(solution: Solution) -> Record:
    """The checks; every sum is "0"."""
    checks = solution.checks
    return {
        "junction_sums": [str(value) for value in checks.junction_sums],
        "loop_sums": [str(value) for value in checks.loop_sums],
        "power_balance": str(checks.power_balance),
        "numpy_difference": checks.numpy_difference,
    }


def number(value: Fraction | None) -> Record:
    """An exact number and its nearest float; nulls where nothing fixes it."""
    return {"exact": None, "value": None} if value is None else {"exact": str(value), "value": float(value)}
