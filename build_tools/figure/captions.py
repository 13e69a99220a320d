"""The text of a label, and the box of a block of text."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from build_tools.circuit.circuit import Kind, Part
from build_tools.figure.choosing import Text
from build_tools.figure.geometry import Box
from build_tools.figure.layout import Spot
from build_tools.figure.lettering import (
    ASCENT,
    DESCENT,
    LINE_HEIGHT,
    NO_BREAK_SPACE,
    SUBSCRIPT_DROP,
    SUBSCRIPT_SIZE,
    TEXT_SIZE,
    Line,
    Run,
    line_width,
    name_runs,
)

EQUALS = f"{NO_BREAK_SPACE}={NO_BREAK_SPACE}"
UNKNOWN = "?"


@dataclass(frozen=True)
class Block:
    """Lines of text under each other."""

    lines: tuple[Line, ...]

    @cached_property
    def width(self) -> float:
        """Estimated width of the longest line [px]."""
        return max(map(line_width, self.lines))

    @cached_property
    def height(self) -> float:
        """From the top of the first line to the foot of the last [px]."""
        return ASCENT * TEXT_SIZE + (len(self.lines) - 1) * LINE_HEIGHT + foot(self.lines[-1])

    def set_at(self, centre: Spot, anchor: str) -> tuple[Box, tuple[Text, ...]]:
        """The box of the block about a centre, and its lines, each held at the anchor's side."""
        x, y = centre
        box = (x - self.width / 2, y - self.height / 2, x + self.width / 2, y + self.height / 2)
        held = {"start": box[0], "middle": x, "end": box[2]}[anchor]
        first = box[1] + ASCENT * TEXT_SIZE
        texts = (Text(line, anchor, (held, first + LINE_HEIGHT * number)) for number, line in enumerate(self.lines))
        return box, tuple(texts)


def foot(line: Line) -> float:
    """How far a line reaches below its baseline [px]."""
    lowered = SUBSCRIPT_DROP + DESCENT * SUBSCRIPT_SIZE
    return max(DESCENT * TEXT_SIZE, lowered) if any(run.subscript for run in line) else DESCENT * TEXT_SIZE


def name_block(name: str) -> Block:
    """A name by itself."""
    return Block((name_runs(name),))


def label_blocks(part: Part) -> tuple[Block, ...]:
    """The ways to set a part's label, the most compact in height first.

    Resistor, battery, capacitor and real meters show their value, a real battery its internal resistance too; all
    other parts show their name.
    """
    name = name_runs(part.name)
    value = _value_text(part)
    if not value:
        return (Block((name,)),)
    more: tuple[Line, ...] = ()
    if part.internal_resistance:
        more = ((Run("r", italic=True), Run(EQUALS + part.internal_resistance.shown)),)
    return (Block(((*name, Run(EQUALS + value)), *more)), Block((name, (Run(value),), *more)))


def _value_text(part: Part) -> str:
    if part.value:
        return part.value.shown
    return UNKNOWN if part.kind in (Kind.RESISTOR, Kind.BATTERY, Kind.CAPACITOR) else ""
