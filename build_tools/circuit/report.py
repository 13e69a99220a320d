"""The report of a file's faults: one entry each, with the line, a caret under the spot, and the way out."""

from __future__ import annotations

from collections.abc import Iterable

from build_tools.circuit.problem import CircuitError, Problem
from build_tools.circuit.source import CircuitSource

widest_excerpt = 110


def write_report(shown: str, error: CircuitError, source: CircuitSource | None = None) -> str:
    """Write every fault of one file, in the order of the file; what comes first comes before it.

    Args:
        shown: the file's path as the author knows it.
        error: the faults.
        source: the file as read; None where it could not be read at all.
    """
    placed = [(*find_line(problem, source), problem) for problem in error.problems]
    placed.sort(key=lambda entry: (not entry[2].comes_first, *entry[:2]))
    return "\n".join(write_problem(shown, line, column, problem, source) for line, column, problem in placed)


def find_line(problem: Problem, source: CircuitSource | None) -> tuple[int, int]:
    """Line and column of a fault, counted from 1; 0 where no place can be named."""
    if problem.line or not source:
        return problem.line, problem.column
    path = problem.where
    while path and path not in source.positions:
        path = path[:-1]
    if not path:
        return 0, 0
    position = source.positions[path]
    offset = position.key if problem.at_key or path != problem.where else position.value
    return source.text.count("\n", 0, offset) + 1, offset - source.text.rfind("\n", 0, offset)


def write_problem(shown: str, line: int, column: int, problem: Problem, source: CircuitSource | None) -> str:
    """One fault: place, key, expected, got; then the line, the caret and the way out."""
    # Elements of a list are shown by the caret: counted numbers in the path would be read as counted from 1.
    path = ".".join(name for name in problem.where if not name.isdigit())
    place = ": ".join(filter(None, [f"{shown}:{line}" if line else shown, path]))
    lines = [f"{place}: expected {problem.expected}, got {problem.found}"]
    if line and column:
        lines += excerpt(source.text.split("\n")[line - 1] if source else problem.text, column)
    if problem.way_out:
        lines.append(f"    {problem.way_out}")
    return "\n".join(lines)


def excerpt(text: str, column: int) -> Iterable[str]:
    """The line at fault and a caret under the spot; a long line is cut round the spot."""
    cut = max(0, column - 1 - widest_excerpt // 2) if len(text) > widest_excerpt else 0
    shown, before = text[cut : cut + widest_excerpt], text[cut : column - 1]
    clean = "".join(letter if letter.isprintable() or letter == "\t" else "·" for letter in shown)
    yield f"    {clean}"
    yield "    " + "".join("\t" if letter == "\t" else " " for letter in before) + "^"
