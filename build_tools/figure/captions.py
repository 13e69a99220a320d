"""The text of a label, and the box of a block of text."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, cached_property

from build_tools.circuit.circuit import Kind, Part
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


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text in its place."""

    line: Line
    anchor: str
    """Where the spot is on the line: "start", "middle" or "end"."""
    spot: Spot


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

    def box_at(self, centre: Spot) -> Box:
        """The box of the block about a centre."""
        x, y = centre
        return (x - self.width / 2, y - self.height / 2, x + self.width / 2, y + self.height / 2)

    def set_at(self, centre: Spot, anchor: str) -> tuple[Text, ...]:
        """The lines of the block about a centre, each held at the anchor's side."""
        left, top, right, _ = self.box_at(centre)
        held = {"start": left, "middle": centre[0], "end": right}[anchor]
        baselines = (top + ASCENT * TEXT_SIZE + LINE_HEIGHT * number for number in range(len(self.lines)))
        return tuple(Text(line, anchor, (held, baseline)) for line, baseline in zip(self.lines, baselines, strict=True))


def foot(line: Line) -> float:
    """How far a line reaches below its baseline [px]."""
    lowered = SUBSCRIPT_DROP + DESCENT * SUBSCRIPT_SIZE
    return max(DESCENT * TEXT_SIZE, lowered) if any(run.subscript for run in line) else DESCENT * TEXT_SIZE


@cache
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
