"""Names that stand in the wrong place or are spelt otherwise elsewhere: each said once, where the slip is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from build_tools.circuit.circuit import Kind
from build_tools.circuit.getter import Getter, name_pattern
from build_tools.circuit.problem import KeyPath, did_you_mean, find_near

heading_keys = ("title", "question", "level", "topics", "asked", "formerly")
file_keys = (*heading_keys, "points", "parts", "drawing", "currents", "loops", "equations", "given")

Uses = dict[str, list[KeyPath]]
"""Where parts name each point, in the order of the file."""


def find_uses(lines: dict[str, Any]) -> Uses:
    """Every point that the lines of [parts] name, also in lines at fault: one slip must not make others of it."""
    uses: Uses = {}
    for part, line in lines.items():
        if isinstance(line, dict):
            between = line.get("between")
            ends = [(("between", str(index)), end) for index, end in enumerate(between if isinstance(between, list) else [])]
            for path, end in (*ends, (("minus",), line.get("minus")), (("plus",), line.get("plus"))):
                if isinstance(end, str) and name_pattern.fullmatch(end):
                    uses.setdefault(end, []).append(("parts", part, *path))
    return uses


def lift_strays(get: Getter, table: dict[str, Any], where: KeyPath = ()) -> dict[str, Any]:
    """The table without what belongs above the first section and stands inside one, which is noted."""
    kept = {}
    for key, value in table.items():
        says = isinstance(value, str) or (isinstance(value, list) and all(isinstance(item, str) for item in value))
        if where and key in heading_keys and says:
            way_out = "move the line up, above the first line in square brackets"
            get.note((*where, key), f"{key} above the first section", f"it inside [{where[0]}]", way_out, at_key=True)
        else:
            kept[key] = lift_strays(get, value, (*where, key)) if isinstance(value, dict) and len(where) < 2 else value
    return kept


def is_another_thing(top: dict[str, Any]) -> bool:
    """Whether a file says something, and nothing of it looks as if it were about a circuit."""
    return bool(top) and not any(
        key in file_keys or did_you_mean(key, file_keys) or (isinstance(value, dict) and {*Kind} & {*value}) for key, value in top.items()
    )


def find_lost_header(top: dict[str, Any]) -> tuple[str, list[str]] | None:
    """The header that is missing above lines that look like points or parts, and those lines."""
    points = [key for key, value in top.items() if key not in file_keys and isinstance(value, list) and name_pattern.fullmatch(key)]
    parts = [key for key, value in top.items() if key not in file_keys and isinstance(value, dict) and {*Kind} & {*value}]
    for header, lines in (("points", points), ("parts", parts)):
        if len(lines) > 1 and header not in top:
            return header, lines
    return None


def find_odd_names(points: dict[str, int], places: dict[str, Any]) -> Iterator[tuple[str, str, bool]]:
    """Points without a place and places without a point that are likely one.

    Args:
        points: how often parts and plain lines name each point.
        places: the names in [points].

    Yields:
        The point, the name in [points], and whether the point is the odd one: named once, so that the place is right.
    """
    for point, times in points.items():
        if point not in places and (near := find_near(point, places)) and (times == 1 or near not in points):
            yield point, near, times == 1
