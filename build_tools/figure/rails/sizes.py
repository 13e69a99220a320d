"""How much room the parts of a figure need, before any label is placed [px]."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from build_tools.circuit.circuit import Kind
from build_tools.figure.lettering import line_width, name_runs, text_width
from build_tools.figure.rails.chains import Link

grid = 9.0
"""Everything stands on multiples of this [px]."""
lead = 20.0
"""Free line on each side of a body: a dot and an arrow of 17 px fit."""
half_body = 12.0
"""From the middle of an upright part to its edge."""
loop_mark = 44.0
"""Room for a loop's ring and the air around it."""
label_gap = 7.0
"""Between a body and its label, and between a label and what comes next."""
row_gap = 92.0
"""Rows stand at least this far apart where a part or a mesh lies between them."""
ring_width = 126.0
"""A single loop is at least this wide."""
short_line = 27.0
"""A plain line between two named points: their letters do not touch."""
bare_wire = 36.0
"""A bare wire with its arrow."""
bodies = {
    Kind.BATTERY: 14.0,
    Kind.RESISTOR: 44.0,
    Kind.WIRE: 0.0,
    Kind.SWITCH: 34.0,
    Kind.AMMETER: 30.0,
    Kind.VOLTMETER: 30.0,
    Kind.CAPACITOR: 14.0,
}


def label_width(link: Link) -> float:
    """Width of a part's label, name over value."""
    if link.part is None:
        return 0.0
    shown = link.part.value.shown if link.part.value else ""
    inner = link.part.internal_resistance.shown if link.part.internal_resistance else ""
    return max(line_width(name_runs(link.part.name)), text_width(shown), text_width(inner))


def length_upright(link: Link) -> float:
    """Line that one part takes up in an upright piece."""
    if link.part is None:
        return short_line
    if link.is_bare:
        return bare_wire
    lines = 1 + (link.part.value is not None) + (link.part.internal_resistance is not None)
    return max(bodies[link.part.kind] + 2 * lead, 17.0 * lines + 14)


def length_level(link: Link) -> float:
    """Line that one part takes up in a level piece, with its label above or below."""
    if link.part is None:
        return short_line
    if link.is_bare:
        return max(bare_wire, label_width(link) + 12)
    return max(bodies[link.part.kind] + 2 * lead, label_width(link) + 12)


def lengths(links: Sequence[Link], *, level: bool) -> tuple[float, ...]:
    """Line that each of several parts takes up in one piece; each is on the grid where they share it."""
    found = tuple(length_level(link) if level else length_upright(link) for link in links)
    return found if len(found) < 2 else tuple(grid * ceil(length / grid) for length in found)


def widest_label(links: Sequence[Link]) -> float:
    """Width of the widest label among parts that stand above each other."""
    return max((label_width(link) for link in links), default=0.0)
